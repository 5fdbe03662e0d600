"""A question

A kind of question is a function from what a lesson told of one fact to questions, none where it does not apply. Wrong
answers are computed and are certainly wrong, and each comes with the reason why. It is a function in
`src/gamutwright/publish/quiz/asking.py`, or a file beside it, and a line in `KINDS`; its words stand in `quiz.toml` of
every language. The order of choices and the place of the right one are not its business.

Here it is asked how many tones lie outside the scale.
"""

import tempfile
from collections.abc import Iterator
from pathlib import Path

from gamutwright.facts.roles import Basic
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.publish.quiz.asking import KINDS, MOST_WRONG, Asked, Asking, written_questions
from gamutwright.publish.told_lesson import Telling, lesson_of
from gamutwright.stages import Choices, stage

SCRIPT = """---
scale: D dorian
---
# At the quay
It has [seven]{fact=cardinality} tones.
[Two]{fact=semitone_steps} of its steps are semitones.
"""


def tones_outside(asking: Asking, telling: Telling) -> Iterator[Asked]:
    """Ask for the number of tones outside, where the number of tones was told."""
    if telling.fact.roles.basic is not Basic.SIZE:
        return
    scale = asking.scale
    right = scale.divisions - scale.cardinality
    wrong = [number for number in (right - 1, right + 1, scale.cardinality) if number not in {right, 0}]
    yield Asked(
        "tones-outside",
        asking.about("How many tones lie outside it?", str(right)),
        (str(right), f"{scale.divisions} - {scale.cardinality} = {right}."),
        tuple((str(number), f"With the scale that makes {number + scale.cardinality}.") for number in wrong)[
            :MOST_WRONG
        ],
        telling.fact.id,
    )


KINDS.append(tones_outside)
with tempfile.TemporaryDirectory() as folder, LocalPool(Store(Path(folder)), 1) as pool:
    staged = stage(check(parse(SCRIPT)), pool, Choices())
    lesson = lesson_of(
        "quay", staged.timeline.title, staged.report, staged.registry, staged.timeline, staged.sounds, staged.made_by
    )

asking = Asking.of(lesson, "harbour")
(asked,) = [question for question in written_questions(asking) if question.id == "tones-outside"]
print(asked.prompt, asked.right[0])
