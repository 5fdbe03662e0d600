"""Texts of any length: read in a time that grows with them and no faster, or refused at once.

The deadlines are no measure. Scans that hold every place against every other, or begin again at every sign, need many
times as long for these texts; the usual run has a third of each text and of the deadline.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from deadlines import GENEROUS_S, before_long
from gamutwright.errors import InputError, ScriptError
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.audit import LONGEST_TEXT, audit
from gamutwright.lessons.auditing.heard_lexicon import lexicon_of
from gamutwright.lessons.auditing.marked import mark
from gamutwright.lessons.auditing.transcript import LONGEST_SENTENCE, read_transcript
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import LONGEST_LINE, MOST_BYTES, load, parse
from gamutwright.phrasing.stretches import within
from thinning import usually

HEAD = "---\nscale: C major\n---\n# Steps\n\n"
SHARES = usually([1, 3], 3)


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize(
    ("before", "sign", "times", "after"),
    [
        ("", "seven ", 16_000, "."),
        ("", "<!--", 24_000, ""),
        ("# a", " ", 96_000, "b"),
        (" " * 16_000 + "-", " ", 80_000, "x"),
        ("", "[a](", 24_000, ""),
        ("", "C\n", 16_000, ""),
    ],
    ids=["words", "comments", "blanks", "rule", "links", "lines"],
)
def test_an_audit_takes_no_longer_than_its_text_is_long(before: str, sign: str, times: int, after: str, share: int):
    with before_long(GENEROUS_S / share):
        assert audit(before + sign * (times // share) + after, scale="C major").name == "text"


@pytest.mark.parametrize("share", SHARES)
@pytest.mark.parametrize(
    ("sentence", "times", "is_a_script"),
    [
        ("[", 100_000, False),
        ("major third tritone " * 240 + "so.\n\n", 20, True),
        ("It has [seven]{fact=cardinality} tones and no [two]{fact=semitone_steps} steps. " * 60, 20, True),
        ("&", 90_000, False),
    ],
    ids=["brackets", "intervals", "claims", "signs"],
)
def test_a_check_takes_no_longer_than_its_script_is_long(
    sentence: str, times: int, is_a_script: bool, share: int, tmp_path: Path
):
    path = tmp_path / "script.md"
    path.write_text(HEAD + sentence * (times // share), encoding="utf-8")
    with before_long(GENEROUS_S / share):
        if is_a_script:
            assert check(load(path), default_registry()).script.lines
        else:
            with pytest.raises(ScriptError):
                load(path)


def test_what_is_longer_than_a_lesson_is_refused_at_once(tmp_path: Path):
    path = tmp_path / "script.md"
    path.write_text(HEAD + "It rises. " * (MOST_BYTES // 10), encoding="utf-8")
    with pytest.raises(InputError, match=r"longer than 400,000 bytes\. Part it into several lessons"):
        load(path)
    with pytest.raises(InputError, match=r"texts of up to 120,000 are read\. Audit it in parts"):
        audit("It rises. " * (LONGEST_TEXT // 9 + 1), scale="C major")
    with pytest.raises(ScriptError, match="is a sentence of 5,001 characters, and one has at most 5,000"):
        parse(HEAD + "a" * LONGEST_LINE + ".")
    assert not check(parse(HEAD + "a" * (LONGEST_LINE - 1) + "."), default_registry()).faults


def test_a_sentence_without_an_end_is_read_in_parts_and_nothing_of_it_is_lost():
    text = "it has seven tones " * 400
    found = read_transcript(text, "en").sentences
    assert all(len(sentence.text) <= LONGEST_SENTENCE for sentence in found)
    assert " ".join(sentence.text for sentence in found) == text.strip()
    found = read_transcript("x" * 2_500, "en").sentences
    assert "".join(sentence.text for sentence in found) == "x" * 2_500


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_pattern_matches_without_the_words_it_is_said_to_need(language: str):
    """What stands in `needs` is asked first; every match of the corpora of this folder has it."""
    folder = Path(__file__).parents[1] / "data" / "audit"
    texts = [path.read_text(encoding="utf-8") for path in folder.rglob(f"{language}-*")]
    sentences = [one for text in texts for one in read_transcript(text, language).sentences]
    assert len(sentences) > 80
    tried = 0
    for sentence in sentences:
        signs = mark(sentence.text, language).signs
        for entry in lexicon_of(language).entries:
            for frame in entry.frames:
                if frame.needs is not None and frame.pattern.search(signs):
                    tried += 1
                    assert frame.needs.search(signs), (frame.pattern.pattern[:80], signs)
    assert tried > 15


def test_a_stretch_within_others_is_found_as_by_holding_each_against_each():
    stretches = [(3, 9), (0, 4), (20, 21), (4, 6), (9, 9)]
    is_within = within(stretches)
    for start in range(25):
        for end in range(start, 25):
            assert is_within(start, end) == any(low <= start and end <= high for low, high in stretches)
    assert not within([])(0, 0)
