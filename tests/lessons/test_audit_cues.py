"""Subtitles and transcripts: forms as published, files as they are found, and damaged ones.

Checked against WebVTT: The Web Video Text Tracks Format (W3C), section 4 (from memory); SubRip by common practice.
"""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.errors import InputError
from gamutwright.lessons.audit import audit
from gamutwright.lessons.auditing.cues import Cue, read_cues
from gamutwright.lessons.auditing.transcript import decode, read_transcript

SRT = """1
00:00:01,000 --> 00:00:04,000
It has two

2
00:00:04,500 --> 00:00:08,250
semitones. They are
here and here.
"""
VTT = """WEBVTT - a title

STYLE
::cue { color: red }

NOTE two semitones, says
this note

intro
01:02.000 --> 01:04.500 line:0 position:20% align:start
<v.loud Ines>It <b>has</b> <c.blue>two</c> &amp; more</v>

00:01:05.000 --> 00:01:06.000
<00:01:05.500>semitones.
"""


def words_of(cues: Sequence[Cue]) -> list[str]:
    return [line for cue in cues for line in cue.lines]


def test_srt_gives_times_and_words():
    cues, remarks = read_cues(SRT)
    assert [(cue.start_s, cue.end_s, cue.line) for cue in cues] == [(1.0, 4.0, 3), (4.5, 8.25, 7)]
    assert words_of(cues) == ["It has two", "semitones. They are", "here and here."]
    assert remarks == ()


def test_webvtt_drops_notes_styles_names_settings_and_tags():
    cues, remarks = read_cues(VTT)
    assert words_of(cues) == ["It has two & more", "semitones."]
    assert [cue.start_s for cue in cues] == [62.0, 65.0]
    assert remarks == ()


@pytest.mark.parametrize("end", ["\r\n", "\r", "\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_line_ends_and_byte_order_marks_change_nothing(end: str, mark: str):
    assert read_cues(mark + SRT.replace("\n", end))[0] == read_cues(SRT)[0]
    assert [cue.lines for cue in read_cues(mark + VTT.replace("\n", end))[0]] == [c.lines for c in read_cues(VTT)[0]]


def test_sentences_run_through_cues_and_keep_the_time_of_their_words():
    transcript = read_transcript(SRT, "en")
    first, second = transcript.sentences
    assert first.text == "It has two semitones."
    assert first.time_at(first.text.index("two")) == 1.0
    assert first.time_at(first.text.index("semitones")) == 4.5
    assert second.text == "They are here and here."
    found = audit(SRT, scale="C major")
    assert [(s.words, s.place) for s in found.statements] == [("two semitones", "0:01.0"), ("here and here", "0:04.5")]


def test_captions_that_roll_up_are_read_once():
    rolling = "1\n0:00:01,0 --> 0:00:02,0\nit has two notes\n\n2\n0:00:02,0 --> 0:00:03,0\nit has two notes\nor more\n"
    cues, remarks = read_cues(rolling)
    assert words_of(cues) == ["it has two notes", "or more"]
    assert any("read once" in remark.message for remark in remarks)


@pytest.mark.parametrize(
    ("source", "message"),
    [
        (SRT.replace("\n2\n", "\n7\n"), "not numbered in order"),
        (SRT.replace("00:00:04,500 -->", "00:00:09,500 -->"), "ends before it begins"),
        (SRT.replace("00:00:04,500 -->", "00:0x:04,500 -->"), "cannot be read"),
        ("Hello\n\n" + SRT, "before the first time code"),
        (SRT.replace("00:00:01", "00:00:59").replace("00:00:04,000", "00:01:01,000"), "do not stand in order"),
    ],
)
def test_a_damaged_file_gets_its_best_reading_and_a_remark(source: str, message: str):
    cues, remarks = read_cues(source)
    assert any(message in remark.message for remark in remarks), remarks
    assert {"It has two", "here and here."} <= set(words_of(cues))


def test_subtitles_without_blank_lines_or_numbers_are_read():
    close = SRT.replace("\n\n", "\n")
    assert words_of(read_cues(close)[0]) == words_of(read_cues(SRT)[0])
    bare = SRT.replace("1\n00", "00").replace("\n2\n", "\n")
    assert words_of(read_cues(bare)[0]) == words_of(read_cues(SRT)[0])


def test_a_file_without_any_time_code_is_an_error_that_names_the_line():
    with pytest.raises(InputError, match=r"talk\.srt:3"):
        read_transcript("1\n\n0x:00 --> later\nTwo tones.", "en", "srt", "talk.srt")


def test_markdown_is_read_as_prose():
    prose = "# Two\n\nIt *has* two\nsemitones.\n\n```\nthree tritones\n```\n<!-- four -->\n- a [b](c)\n"
    source = f"---\nscale: C major\n---\n{prose}"
    transcript = read_transcript(source, "en")
    assert [s.text for s in transcript.sentences] == ["Two", "It has two semitones.", "a b"]
    assert [s.line_at(0) for s in transcript.sentences] == [4, 6, 13]


def test_bytes_are_decoded_and_guesses_said():
    assert decode("\ufeffTöne".encode()) == ("Töne", ())
    assert decode("Töne".encode("utf-16"))[0].lstrip("\ufeff") == "Töne"
    text, remarks = decode("Töne".encode("cp1252"))
    assert text == "Töne"
    assert remarks


PIECES = st.sampled_from(
    [
        "WEBVTT", "NOTE", "STYLE", "1", "2", "17", "", "\n", "\r\n", "00:00:01,000 --> 00:00:02,000",
        "00:01.000 --> 00:00.500", "-->", "99:99:99,999 --> x", "<v A>two semitones</v>", "{\\an8}here and here.", "<",
        "it has", "two", "tritones.", "\ufeff", "\x00", "\u2028", "- no", "D♭", "…", "&amp;", "the fourth mode is", "A",
        "at least", "42", "C major", "than", "?", "“", "7-35", "0.81 percent", "---", "| a | b |", "````", "🎵",
    ]
)  # fmt: skip


@settings(max_examples=120, deadline=None)
@given(st.lists(PIECES, max_size=25), st.sampled_from(["\n", " ", "\r\n"]), st.sampled_from(["en", "de"]))
def test_no_text_brings_the_audit_down(pieces: list[str], joint: str, language: str):
    source = joint.join(pieces)
    for form in ("auto", "srt"):
        try:
            found = audit(source, scale="G acoustic", language=language, form=form, name="talk")
        except InputError as error:
            if not str(error).startswith("talk:") or (form == "auto" and "WEBVTT" not in source):
                raise
            continue
        for statement in found.statements:
            sentence = found.transcript.sentences[statement.sentence].text
            assert sentence[statement.start : statement.end] == statement.words


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 3599), st.text(st.characters(categories=["L"]), min_size=1, max_size=9)),
        min_size=1,
        max_size=12,
        unique_by=lambda item: item[0],
    ),
    st.booleans(),
)
def test_no_word_between_two_time_codes_is_lost(cues: list[tuple[int, str]], is_numbered: bool):
    blocks = []
    for k, (second, word) in enumerate(sorted(cues), 1):
        stamp = f"00:{second // 60:02d}:{second % 60:02d},000"
        number = f"{k}\n" if is_numbered else ""
        blocks.append(f"{number}{stamp} --> {stamp}\n{word}\n")
    read, _ = read_cues("\n".join(blocks))
    said = [(cue.start_s, " ".join(cue.lines)) for cue in read]
    expected = [(float(second), word) for second, word in sorted(cues)]
    assert [time for time, _ in said] == [time for time, _ in expected]
    assert [word for _, word in said] == [word for _, word in expected]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_damage_to_single_characters_is_survived(data: st.DataObject):
    source = data.draw(st.sampled_from([SRT, VTT]))
    for _ in range(data.draw(st.integers(1, 6))):
        place = data.draw(st.integers(0, len(source) - 1))
        source = source[:place] + data.draw(st.sampled_from(["", "x", "\n", "-->", ":", "\x00"])) + source[place + 1 :]
    try:
        transcript = read_transcript(source, "en", "srt", "talk.srt")
    except InputError as error:
        if not str(error).startswith("talk.srt:"):
            raise
    else:
        assert all(sentence.text.strip() for sentence in transcript.sentences)
