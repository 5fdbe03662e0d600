"""A script checked while it is typed: places as a browser counts them, and the checker's own verdicts."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from gamutwright.facts.registry import default_registry
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.studio.marking import Offsets, mark_script

FRONT = "---\nscale: D E F G A B C\n---\n"


@given(st.text(st.characters(exclude_categories=("Cs",))), st.data())
def test_places_are_counted_as_browsers_do(text: str, data: st.DataObject):
    place = data.draw(st.integers(0, len(text)))
    # Strings of ECMAScript are sequences of UTF-16 code units (ECMA-262, 6.1.4, from memory).
    assert Offsets(text).of(place) == len(text[:place].encode("utf-16-le")) // 2


def cut(text: str, start: int, end: int) -> str:
    """Cut a piece out of a text as a browser would."""
    return text.encode("utf-16-le")[2 * start : 2 * end].decode("utf-16-le")


def test_marks_stand_at_their_words_behind_signs_that_count_two():
    text = FRONT + "A 𝄪 raises by [two]{opinion} 🎵. It has [eight]{fact=cardinality} tones.\n"
    found = mark_script(text, default_registry())
    fault = next(mark for mark in found.marks if mark.fact == "cardinality")
    assert (fault.kind, fault.mend) == ("fault", "seven")
    assert cut(text, fault.start, fault.end) == "eight"
    assert [cut(text, line.start, line.end)[:2] for line in found.lines] == ["A ", "It"]


def test_verdicts_are_those_of_the_checker():
    text = FRONT + "It has [seven]{fact=cardinality} tones and [three]{fact=semitone_steps} semitone steps. Two more.\n"
    found, report = mark_script(text, default_registry()), check(parse(text))
    assert found.faults == len(report.faults)
    assert sorted((mark.words, mark.mend) for mark in found.marks if mark.kind == "fault") == sorted(
        (claim.words, claim.expected) for claim in report.faults
    )
    assert found.minutes > 0


def test_a_script_that_cannot_be_read_is_marked_where_it_breaks():
    text = FRONT + "Fine.\n\n* a list\n"
    (mark,) = mark_script(text, default_registry()).marks
    assert mark.kind == "problem"
    assert cut(text, mark.start, mark.end).startswith("* a list")
    (mark,) = mark_script("---\nscale: Q\n---\nListen.\n", default_registry()).marks
    assert (mark.kind, "Q" in mark.message) == ("problem", True)


@given(st.text(max_size=120))
def test_nothing_typed_brings_a_traceback(text: str):
    found = mark_script(text, default_registry())
    length = len(text.encode("utf-16-le", "surrogatepass")) // 2
    assert all(0 <= mark.start <= mark.end <= length for mark in found.marks)


def test_what_cannot_be_read_keeps_its_lines_with_their_places():
    text = FRONT + "# 𝄪 Steps\n\nA 🎵 is [never closed.\nListen. {play=scale}\n"
    found = mark_script(text, default_registry())
    assert [mark.kind for mark in found.marks] == ["problem"]
    rows = ["A 🎵 is [never closed.", "Listen. {play=scale}"]
    assert [cut(text, line.start, line.end) for line in found.lines] == rows
    assert [line.text for line in found.lines] == ["A 🎵 is never closed.", "Listen. "]
    assert [cut(text, one.start, one.end) for one in found.headings] == ["𝄪 Steps"]


def test_a_scale_that_cannot_be_read_leaves_the_lines_where_they_are():
    text = FRONT.replace("D E F G A B C", "D X") + "# Steps\n\nIt has [seven]{fact=cardinality} tones. Listen.\n"
    found = mark_script(text, default_registry())
    assert (found.faults, found.marks[0].kind) == (1, "problem")
    assert [line.text for line in found.lines] == ["It has seven tones.", "Listen."]
    assert [one.title for one in found.headings] == ["Steps"]
