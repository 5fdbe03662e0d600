"""Cues that nothing answers to are found by a check, where they stand, with what there is instead."""

from __future__ import annotations

import pytest

from gamutwright.diagrams.atlas import DIAGRAMS
from gamutwright.diagrams.phrases import PHRASES
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.sound import Timbre
from gamutwright.lessons.claims import Verdict, check
from gamutwright.lessons.parse import parse
from gamutwright.stages import sounds_of

FRONT = "---\nscale: C major\n---\n"


def faults(body: str) -> list[tuple[int, str, str, str]]:
    script = parse(FRONT + body, "script.md")
    report = check(script, default_registry())
    assert all(claim.verdict is Verdict.UNBOUND and claim.kind == "cue" for claim in report.faults)
    return [(script.locate(claim.span[0])[0], claim.words, claim.reason, claim.mend) for claim in report.faults]


@pytest.mark.parametrize(
    ("body", "words", "mend"),
    [
        ("Listen. {play=banana}\n", "play=banana", "Choose one of scale, up, down"),
        ("Listen. {play=scal}\n", "play=scal", "Did you mean scale?"),
        ("{play=scal}\n", "play=scal", "Did you mean scale?"),
        ("Look. {show=banana}\n", "show=banana", "Choose one of: "),
        ("It has [seven]{fact=cardinality show=lader} tones.\n", "show=lader", "Did you mean ladder?"),
        ("Look. {mark=tritone}\n", "mark=tritone", "Did you mean tritones"),
        ("Look. {show=comparison with=banana}\n", "with=banana", "Write a name like"),
        ("Hear. {play=tun}\n", "play=tun", "Did you mean tune?"),
        ("Hear. {play=tune bars=5}\n", "play=tune", "Choose one of these"),
        ("Hear. {play=tune metre=5/4}\n", "play=tune", "Choose one of 4/4, 3/4, 6/8"),
        ("Hear. {play=tune timbre=pluckd}\n", "play=tune", "Did you mean plucked?"),
        ("Hear. {play=scale bars=4}\n", "play=scale", "choose one of tune"),
        ("Hear. {play=alternation}\n", "play=alternation", "with= in a script"),
    ],
)
def test_a_cue_that_nothing_answers_to_is_an_error_of_check(body: str, words: str, mend: str):
    ((line, said, _, told),) = faults(body)
    assert (line, said) == (4, words)
    assert mend in told


def test_every_picture_and_every_sound_there_is_passes():
    for diagram in DIAGRAMS:
        assert faults(f"Look. {{show={diagram}}}\n") == []
    for kind in PHRASES:
        beside = ' with="G major"' if kind == "alternation" else ""
        assert faults(f"Listen. {{play={kind}{beside}}}\n") == []


def test_what_a_check_lets_pass_can_be_written_as_sound():
    """The sounds of a script are those that its check has tried."""
    scale = read_scale("C major").scale
    body = "".join(
        f"Listen. {{play={kind}{extra}}}\n\n"
        for kind in PHRASES
        for extra in ("", ' with="G major"', " mark=tritones", " mark=propriety", " mark=major_triads")
    )
    script = parse(FRONT + body, "script.md")
    wrong = {claim.span for claim in check(script, default_registry()).faults}
    marks = [mark for line in script.lines for mark in line.marks]
    for mark in marks:
        alone = parse(FRONT + "Listen. " + script.source[slice(*mark.whole)] + "\n", "script.md")
        if mark.whole in wrong:
            with pytest.raises(Exception, match="alternation"):
                sounds_of(alone, scale, default_registry())
        else:
            assert len(sounds_of(alone, scale, default_registry())) == 1
    assert 0 < len(wrong) < len(marks)


def test_options_of_a_sound_are_played():
    scale = read_scale("D dorian").scale
    script = parse(FRONT + "Hear. {play=tune metre=3/4 bars=8 tempo=120 timbre=struck} Again. {play=tune}\n")
    assert not check(script, default_registry()).faults
    first, second = sounds_of(script, scale, default_registry()).items()
    assert (first[0].id, second[0].id) == ("tune:::tempo=120 metre=3/4 bars=8 timbre=struck", "tune::")
    assert (str(first[1].metre), len(first[1].bars), first[1].timbre) == ("3/4", 8, Timbre.STRUCK)
    assert first[1].beat_ticks == 24_000
    assert (str(second[1].metre), len(second[1].bars)) == ("4/4", 4)
