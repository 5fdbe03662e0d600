"""Texts of any length: read in a time that grows with them and no faster, or refused at once.

The deadlines are no measure. Scans that hold every place against every other, or begin again at every sign, need many
times as long for these texts.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from gamutwright.errors import InputError, ScriptError
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.audit import LONGEST_TEXT, audit
from gamutwright.lessons.auditing.heard_lexicon import lexicon_of
from gamutwright.lessons.auditing.marked import mark
from gamutwright.lessons.auditing.transcript import LONGEST_SENTENCE, read_transcript
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import LONGEST_LINE, MOST_BYTES, load, parse
from gamutwright.phrasing.stretches import within

HEAD = "---\nscale: C major\n---\n# Steps\n\n"
DEADLINE_S = 120


def run_apart(code: str, path: Path) -> str:
    command = [sys.executable, "-c", code, str(path)]
    done = subprocess.run(command, capture_output=True, text=True, timeout=DEADLINE_S, check=True)  # noqa: S603 - ourselves
    return done.stdout


@pytest.mark.parametrize(
    "text",
    [
        "seven " * 16_000 + ".",
        "<!--" * 24_000,
        "# a" + " " * 96_000 + "b",
        " " * 48_000 + "-" + " " * 48_000 + "x",
        "[a](" * 24_000,
        "C\n" * 16_000,
    ],
    ids=["words", "comments", "blanks", "rule", "links", "lines"],
)
def test_an_audit_takes_no_longer_than_its_text_is_long(text: str, tmp_path: Path):
    path = tmp_path / "talk.txt"
    path.write_text(text, encoding="utf-8")
    code = (
        "import sys\nfrom gamutwright.lessons.audit import audit\n"
        "print(audit(open(sys.argv[1]).read(), scale='C major').name)\n"
    )
    assert run_apart(code, path) == "text\n"


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        ("major third tritone " * 240 + "so. ") * 20,
        ("It has [seven]{fact=cardinality} tones and no [two]{fact=semitone_steps} steps. " * 60) * 20,
        "&" * 90_000,
    ],
    ids=["brackets", "intervals", "claims", "signs"],
)
def test_a_check_takes_no_longer_than_its_script_is_long(text: str, tmp_path: Path):
    path = tmp_path / "script.md"
    path.write_text(HEAD + text, encoding="utf-8")
    code = (
        "import sys\nfrom pathlib import Path\nfrom gamutwright.errors import ScriptError\n"
        "from gamutwright.lessons.claims import check\nfrom gamutwright.lessons.parse import load\n"
        "from gamutwright.facts.registry import default_registry\n"
        "try:\n    print(len(check(load(sys.argv[1]), default_registry()).faults) >= 0)\n"
        "except ScriptError as error:\n    print(len(error.problems) > 0)\n"
    )
    assert run_apart(code, path) == "True\n"


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
