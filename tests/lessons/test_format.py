"""Scripts are written back byte for byte, and an edit changes its own place and nothing else."""

from __future__ import annotations

import difflib
from dataclasses import replace

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from gamutwright.errors import DomainError, ScriptError
from gamutwright.lessons.format import escape_words, replace_words, stamp, to_source
from gamutwright.lessons.parse import parse
from lessons.scripts import COURSE, FRONT, damaged, sources


def without_places(source: str) -> list[tuple[str, list[tuple[object, tuple[int, int]]]]]:
    return [(line.text, [(mark.attributes, mark.words) for mark in line.marks]) for line in parse(source).lines]


@given(sources())
@settings(deadline=None)
def test_an_unchanged_script_comes_back_byte_for_byte(source: str) -> None:
    script = parse(source)
    assert to_source(script).encode() == source.encode()
    assert replace_words(script, []) == source
    # Writing every line's own source in its own place changes nothing either: no place is off by one.
    assert replace_words(script, [(*line.span, source[slice(*line.span)]) for line in script.lines]) == source


@given(damaged())
@example("---\nscale: C D Eb F G A B\n---\nListen.\n*")
@example("---\nscale: C D Eb F G A B\n---\nListen.\n1)\nOnce more.\n")
@settings(deadline=None)
def test_what_can_be_read_of_a_damaged_script_comes_back_byte_for_byte(source: str) -> None:
    try:
        script = parse(source)
    except ScriptError:
        return
    assert to_source(script) == source
    again = parse(stamp(script))
    assert [line.id for line in again.lines] == [line.id for line in script.lines]


@given(sources())
@settings(deadline=None)
def test_stamping_writes_the_ids_the_lines_had_and_changes_nothing_else(source: str) -> None:
    script = parse(source)
    stamped = stamp(script)
    again = parse(stamped)
    assert [(line.id, line.text) for line in again.lines] == [(line.id, line.text) for line in script.lines]
    assert without_places(stamped) == without_places(source)
    assert all(line.has_own_id for line in again.lines)
    assert stamp(again) == stamped
    # By a comparison written apart: only ` {#id}` was put in.
    inserted = "".join(f" {{#{line.id}}}" for line in script.lines if not line.has_own_id)
    assert len(stamped) == len(source) + len(inserted)
    rest = stamped
    for line in script.lines:
        if not line.has_own_id:
            rest = rest.replace(f" {{#{line.id}}}", "", 1)
    assert rest == source


def test_a_stamp_keeps_an_edited_sentence_its_take() -> None:
    stamped = stamp(parse(COURSE))
    ids = [line.id for line in parse(stamped).lines]
    edited = stamped.replace("Listen to it rise and fall.", "Now hear it climb.")
    assert [line.id for line in parse(edited).lines] == ids
    assert [line.id for line in parse(COURSE.replace("Listen to it rise", "Hear it rise")).lines] != ids


def test_words_are_replaced_at_their_places() -> None:
    script = parse(COURSE.replace("\n", "\r\n"))
    two = script.lines[3].marks[0]
    name = script.lines[4]
    at = name.text.index("another")
    edited = replace_words(script, [(*name.source_span(at, at + 7), "one more"), (*two.span, "Three")])
    changed = [line for line in difflib.ndiff(script.source.splitlines(), edited.splitlines()) if line[0] in "+-"]
    assert changed == [
        "- [Two]{fact=semitone_steps} of them are semitones: [here and here]{each=semitone_steps}. {#k3f}",
        "+ [Three]{fact=semitone_steps} of them are semitones: [here and here]{each=semitone_steps}. {#k3f}",
        '- It is [the fifth mode]{mode-of="F lydian dominant"} of *another* scale, e.g. of No. 5 on our list.',
        '+ It is [the fifth mode]{mode-of="F lydian dominant"} of *one more* scale, e.g. of No. 5 on our list.',
    ]


@pytest.mark.parametrize("edits", [[(0, 5, ""), (4, 6, "")], [(-1, 0, "x")], [(5, 4, "x")], [(0, 10_000, "")]])
def test_edits_that_overlap_or_lie_outside_are_refused(edits: list[tuple[int, int, str]]) -> None:
    with pytest.raises(DomainError, match="do not overlap"):
        replace_words(parse(COURSE), edits)


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("bom", ["", "\ufeff"])
def test_a_changed_value_of_the_front_matter_changes_alone(line_end: str, bom: str) -> None:
    source = bom + '---\nscale:   "D dorian"  \nminutes: 6,0\nteacher:\n---\nListen.\n'.replace("\n", line_end)
    script = parse(source)
    assert to_source(script) == source
    changed = to_source(replace(script, front=replace(script.front, scale="E phrygian", language="de")))
    assert changed == source.replace('"D dorian"', "E phrygian").replace(
        f"teacher:{line_end}", f"teacher:{line_end}language: de{line_end}"
    )
    taught = to_source(replace(script, front=replace(script.front, others=(("teacher", "the Thursday group"),))))
    assert taught == source.replace("teacher:", "teacher: the Thursday group")


@given(
    st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"]), min_size=1).filter(str.strip),
    st.text("\"' #:-CD", min_size=1).filter(str.strip),
)
@settings(deadline=None)
def test_any_value_of_the_front_matter_reads_back(note: str, scale: str) -> None:
    if "\u2028" in note + scale or "\u2029" in note + scale:
        return
    script = parse(FRONT + "Listen.")
    front = replace(script.front, scale=scale, minutes=4.5, others=(("note", note),))
    again = parse(to_source(replace(script, front=front))).front
    assert (again.scale, again.minutes, again.others, again.level) == (scale, 4.5, (("note", note),), "further")


def test_a_value_of_two_lines_is_refused() -> None:
    script = parse(COURSE)
    with pytest.raises(DomainError, match="one line"):
        to_source(replace(script, front=replace(script.front, scale="C\nD")))


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc"])).filter(lambda text: "\ufffd" not in text))
@settings(deadline=None, max_examples=300)
def test_escaped_words_are_spoken_as_they_are(words: str) -> None:
    joints = "".join(words.split("\u00ad")).replace("\u200b", "").replace("\u2060", "").replace("\ufeff", "")
    read = parse(f"{FRONT}{escape_words(words)} and more").lines
    spoken = " ".join(line.text for line in read)
    assert _composed(spoken) == _composed(f"{' '.join(joints.split())} and more".strip())


@given(st.text(alphabet="[]{}*_`<&!\\#>+-=~.)0a1 ", max_size=12))
@settings(deadline=None, max_examples=300)
def test_escaped_signs_open_no_block_and_no_markup(words: str) -> None:
    read = parse(f"{FRONT}{escape_words(words)} and more").lines
    assert " ".join(line.text for line in read) == f"{' '.join(words.split())} and more".strip()


def _composed(text: str) -> str:
    import unicodedata  # noqa: PLC0415 - only here

    return unicodedata.normalize("NFC", text)
