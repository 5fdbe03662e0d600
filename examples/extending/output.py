"""An output format

What a lesson is published as is a function from the told lesson (`Lesson` in `src/gamutwright/publish/told_lesson.py`:
its script, its facts with value, places and sources, its film's timeline) to a text or to bytes. A text is a line in
`TEXTS` of `src/gamutwright/packaging.py`: it is written into every package, named in its list of digests, and comes
with the zip. Words that it prints stand in a file of every language; numbers that it prints belong into the ledger, as
those of page and handout do.

Here the facts of a lesson become a table for a spreadsheet.
"""

import csv
import io
import tempfile
from pathlib import Path

from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.packaging import TEXTS
from gamutwright.publish.told_lesson import Lesson, lesson_of
from gamutwright.stages import Choices, stage

SCRIPT = """---
scale: D dorian
---
# At the quay
It has [seven]{fact=cardinality} tones.
[Two]{fact=semitone_steps} of its steps are semitones.
"""


def fact_table(lesson: Lesson) -> str:
    """Write a row for every fact that is told."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    for telling in lesson.tellings:
        writer.writerow([telling.title, telling.text, telling.places])
    return out.getvalue()


TEXTS["facts.csv"] = fact_table

with tempfile.TemporaryDirectory() as folder, LocalPool(Store(Path(folder)), 1) as pool:
    staged = stage(check(parse(SCRIPT)), pool, Choices())
    lesson = lesson_of(
        "quay", staged.timeline.title, staged.report, staged.registry, staged.timeline, staged.sounds, staged.made_by
    )
print(TEXTS["facts.csv"](lesson), end="")
