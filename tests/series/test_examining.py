"""What a course knows of a script: read off by hand from scripts that are written out here."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.series.examining import examination_job, parcel_to_summary, summary_of
from series.courses import script

LONG = """---
scale: D E F G A B C
level: further
lesson: 4
course: Harbour Music School, evening course
---
# Steps

[We count the tones of a scale from the root up to the last tone below the octave]{define=cardinality}.
It has [seven]{fact=cardinality} tones, as many as [seven]{fact=cardinality of="C ionian"} of the other.
It is the [second]{mode-of="C ionian"} mode of that scale.
There are [three]{fact=semitone_steps} semitone steps.
Again it has [seven]{fact=cardinality} tones.
"""


def test_a_script_is_summed_up():
    found = summary_of("script.md", LONG)
    assert (found.problem, found.scale, found.number, found.language, found.level) == (
        "", ("101101010110", 2), 4, "en", "further",
    )  # fmt: skip
    assert [(said.fact_id, said.line) for said in found.defined] == [("cardinality", 9)]
    assert [(said.fact_id, said.line, said.value) for said in found.told] == [("cardinality", 10, "7")]
    ionian = ("101011010101", 0)
    assert [(said.fact_id, said.value, said.of) for said in found.about_others] == [("cardinality", "7", ionian)]
    (fault,) = found.faults
    # Dorian has two semitone steps (common practice, no source): E to F and B to C.
    assert (fault.line, fault.words) == (12, "three")
    assert "two" in fault.mend


@pytest.mark.parametrize(
    ("lesson", "number"),
    [("7", 7), (" 7 ", 7), ("0", None), ("-1", None), ("07", None), ("seven", None), ("1" * 5000, None), ("٣", None)],
)
def test_a_number_is_a_whole_number_above_nought(lesson: str, number: int | None):
    assert summary_of("script.md", f"---\nscale: C D E\nlesson: {lesson}\n---\nListen.\n").number == number


def test_a_script_that_cannot_be_read_says_why():
    found = summary_of("script.md", "---\nscale: H\n---\nListen.\n")
    assert "H" in found.problem
    assert found.scale == ()
    broken = summary_of("script.md", "---\nlanguage: en\n---\n* a list\n")
    assert broken.problem
    assert broken.faults[0].line


@given(st.text(max_size=300))
def test_no_text_brings_a_traceback(text: str):
    found = summary_of("script.md", text)
    assert found.problem or found.scale


def test_what_was_found_is_kept_under_the_text(tmp_path: Path):
    with LocalPool(Store(tmp_path), 1) as pool:
        job = examination_job("script.md", script())
        assert pool.finish([job, examination_job("elsewhere.md", script())]) == 1
        assert parcel_to_summary(pool.result(job)) == summary_of("script.md", script())
        assert examination_job("script.md", script(count="six")).key != job.key
