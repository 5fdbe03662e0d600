"""Claims against facts known outside the project: rudiments of the major scale and its relatives, and published values.

Every expectation below can be looked up in a rudiments text (common practice, no source) unless a source stands beside
it; none is taken from what the code says.
"""

from __future__ import annotations

import json
from importlib import resources

import jsonschema
import pytest

from gamutwright.codec import digest
from gamutwright.errors import InputError
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.claims import Claim, Verdict, check
from gamutwright.lessons.ledger import ledger
from gamutwright.lessons.parse import parse


def judged(text: str, scale: str = "C major", language: str = "en", more: str = "") -> list[Claim]:
    source = f"---\nscale: {scale}\nlanguage: {language}\n{more}---\n{text}\n"
    return list(check(parse(source)).claims)


def verdict(text: str, scale: str = "C major", language: str = "en") -> str:
    claims = judged(text, scale, language)
    assert len(claims) == 1, claims
    return claims[0].verdict.value


TRUE = [
    ("It has [two]{fact=semitone_steps} semitone steps.", "C major"),
    ("It has [2]{fact=semitone_steps} semitone steps.", "C major"),
    ("It has [both]{fact=semitone_steps} semitone steps where you expect them.", "C major"),
    ("It has [no]{fact=semitone_steps} semitone steps.", "C major pentatonic"),
    ("Its steps are [two, two, one, two, two, two and one]{fact=step_pattern}.", "C major"),
    ("Its tones are [E flat, F, G, A flat, B flat, C and D]{fact=spelling}.", "Eb major"),
    ("Its tones are [E♭, F, G, A♭, B♭, C and D]{fact=spelling}.", "Eb major"),
    ("Listen [here and here]{each=semitone_steps}.", "C major"),
    ("Listen: [E to F and B to C]{each=semitone_steps}.", "C major"),
    ("The triads are [C, D minor, E minor, F, G, A minor and B diminished]{fact=triads}.", "C major"),
    ("It holds major triads on [C, F and G]{each=major_triads}.", "C major"),
    ("The scale [is maximally even]{fact=is_maximally_even}.", "C major"),
    ("The scale [is not maximally even]{fact=is_maximally_even}.", "C harmonic minor"),
    ("It is [proper]{fact=propriety}.", "C major"),
    ("It is [not strictly proper]{fact=propriety}.", "C major"),
    ('It is the [second]{mode-of="C major"} mode of the major scale.', "D dorian"),
    ('It has [as many]{fact=semitone_steps than="C major"} semitone steps.', "D dorian"),
    ('It has [more]{fact=semitone_steps than="C major"} semitone steps.', "C harmonic minor"),
    ('It has [fewer]{fact=semitone_steps than="C major"} semitone steps.', "C major pentatonic"),
    ('It has [one more]{fact=semitone_steps than="C major"} semitone steps.', "C harmonic minor"),
    # Carey's diatonic values by the formula of Carey 2002 (from memory): one failure of 140.
    ("Its coherence quotient is [139/140]{fact=coherence_quotient}.", "C major"),
    ("Its coherence quotient is [about 0.99]{fact=coherence_quotient}.", "C major"),
    ("Its coherence quotient is [0.993]{fact=coherence_quotient}.", "C major"),
    ("Its coherence quotient is [99 percent]{fact=coherence_quotient}.", "C major"),
    # Of the 462 rooted seven-tone scales the 7 church modes are maximally even (Clough & Douthett 1991: 12 sets).
    ("That holds for [7 of 462]{rare=is_maximally_even}.", "C major"),
    ("That holds for [about 1.5 percent]{rare=is_maximally_even}.", "C major"),
    ("That holds for [one in 66]{rare=is_maximally_even}.", "C major"),
    ("That holds for [one of 66]{rare=is_maximally_even by=class}.", "C major"),
    ('And the whole-tone scale has [no]{fact=semitone_steps of="C whole-tone"} semitone steps.', "C major"),
    ("Its label is [7-35]{fact=forte_label}.", "C major"),
]
FALSE = [
    ("It has [three]{fact=semitone_steps} semitone steps.", "C major"),
    ("It has [no]{fact=semitone_steps} semitone steps.", "C major"),
    ("It has [some]{fact=semitone_steps} semitone steps.", "C major"),
    ("It has [second]{fact=semitone_steps} semitone steps.", "C major"),
    ("It has [not two]{fact=semitone_steps} semitone steps.", "C major"),
    ("Its steps are [two, two, one, two, two, one and two]{fact=step_pattern}.", "C major"),
    ("Its steps are [two, two, one, two, two and two]{fact=step_pattern}.", "C major"),
    ("Its tones are [E flat, F, G, A, B flat, C and D]{fact=spelling}.", "Eb major"),
    ("Its tones are [D sharp, F, G, A flat, B flat, C and D]{fact=spelling}.", "Eb major"),
    ("Listen [here]{each=semitone_steps}.", "C major"),
    ("Listen [here, here and here]{each=semitone_steps}.", "C major"),
    ("Listen: [E to F and A to B]{each=semitone_steps}.", "C major"),
    ("Listen: [B to C and E to F]{each=semitone_steps}.", "C major"),
    ("Listen: [E to F and B to C and here]{each=semitone_steps}.", "C major"),
    ("The triads are [C, D minor, E minor, F, G, A minor and B minor]{fact=triads}.", "C major"),
    ("The scale [is not maximally even]{fact=is_maximally_even}.", "C major"),
    ("The scale [is maximally even]{fact=is_maximally_even}.", "C harmonic minor"),
    ("The scale [sings]{fact=is_maximally_even}.", "C major"),
    ("It is [strictly proper]{fact=propriety}.", "C major"),
    ("It is [not proper]{fact=propriety}.", "C major"),
    ('It is the [third]{mode-of="C major"} mode of the major scale.', "D dorian"),
    ('It is the [second]{mode-of="C harmonic minor"} mode.', "D dorian"),
    ('It has [more]{fact=semitone_steps than="C major"} semitone steps.', "D dorian"),
    ('It has [as many]{fact=semitone_steps than="C major"} semitone steps.', "C harmonic minor"),
    ('It has [two more]{fact=semitone_steps than="C major"} semitone steps.', "C harmonic minor"),
    ('It has [not more]{fact=semitone_steps than="C major"} semitone steps.', "C harmonic minor"),
    ("Its coherence quotient is [138/140]{fact=coherence_quotient}.", "C major"),
    ("Its coherence quotient is [0.99]{fact=coherence_quotient}.", "C harmonic minor"),
    ("Its coherence quotient is [about 0.7]{fact=coherence_quotient}.", "C harmonic minor"),
    ("That holds for [8 of 462]{rare=is_maximally_even}.", "C major"),
    ("That holds for [one in ten]{rare=is_maximally_even}.", "C major"),
    ("Its label is [7-34]{fact=forte_label}.", "C major"),
]


@pytest.mark.parametrize(("text", "scale"), TRUE)
def test_what_is_so_is_confirmed(text: str, scale: str) -> None:
    assert verdict(text, scale) == "confirmed"


@pytest.mark.parametrize(("text", "scale"), FALSE)
def test_what_is_not_so_is_contradicted(text: str, scale: str) -> None:
    claims = judged(text, scale)
    assert [claim.verdict for claim in claims] == [Verdict.CONTRADICTED], claims
    assert claims[0].mend
    assert claims[0].reason


UNBOUND = [
    ("It has two semitone steps.", "number"),
    ("It has [two]{fact=semitone_steps} semitone steps among seven tones.", "number"),
    ("Its third mode is darker.", "ordinal"),
    ("Begin on E flat.", "note"),
    ("Play an A minor triad.", "chord"),
    ("A perfect fifth rings.", "interval"),
    ("It is maximally even.", "term"),
    ("It has [two]{fact=semitone_steps} tritones.", "interval"),
    ("It does not have [two]{fact=semitone_steps} semitone steps.", "negation"),
    ("It is [round]{fact=no_such_fact}.", "fact"),
    ("It is [so]{define=tritones}.", "definition"),
    ('It is the [second]{mode-of="C lighthouse"} mode.', "mode-of"),
]


@pytest.mark.parametrize(("text", "kind"), UNBOUND)
def test_what_nobody_can_check_is_unbound(text: str, kind: str) -> None:
    found = [claim for claim in judged(text) if claim.verdict is Verdict.UNBOUND]
    assert kind in {claim.kind for claim in found}
    assert all(claim.mend for claim in found)


@pytest.mark.parametrize(
    "text",
    [
        "Listen to it rise and fall.",
        "This one is for the ear; at first, just listen.",
        "How many semitone steps does it have?",
        "[It has the sweetest third of them all, and seven friends]{opinion}.",
        '[It sounds like two harbours at once]{quote source="a student\'s letter"}.',
        "It rises up to the octave.",
        "That is C major for you.",
    ],
)
def test_plain_prose_and_released_words_raise_no_alarm(text: str) -> None:
    assert all(claim.verdict is Verdict.RELEASED for claim in judged(text))


def test_what_does_not_apply_is_said() -> None:
    assert verdict("Its partner is [4-Z29]{fact=z_partner}.") == "inapplicable"


def test_german_is_read() -> None:
    """Stufen, Halbtöne und Tonnamen der Durtonleiter (common practice, no source)."""
    assert verdict("Sie hat [zwei]{fact=semitone_steps} Halbtonschritte.", language="de") == "confirmed"
    assert verdict("Sie hat [drei]{fact=semitone_steps} Halbtonschritte.", language="de") == "contradicted"
    tones = "Ihre Töne sind [{}]{{fact=spelling}}."
    assert verdict(tones.format("Es, F, G, As, B, C und D"), "Eb major", "de") == "confirmed"
    assert verdict(tones.format("Es, F, G, As, H, C und D"), "Eb major", "de") == "contradicted"
    assert judged("Sie hat drei Halbtonschritte.", language="de")[0].verdict is Verdict.UNBOUND


def test_other_divisions_are_checked() -> None:
    """The diatonic scale of 19 divisions has steps 3 3 2 3 3 3 2 (standard result)."""
    text = "Its steps are [three, three, two, three, three, three and two]{fact=step_pattern}."
    (claim,) = judged(text, "0 3 6 8 11 14 17", more="divisions: 19\n")
    assert claim.verdict is Verdict.CONFIRMED


def test_a_script_whose_scale_cannot_be_read_is_refused() -> None:
    with pytest.raises(InputError):
        judged("Listen.", scale="C lighthouse")


def test_the_ledger_follows_its_schema_and_can_be_checked_again() -> None:
    schema = json.loads(
        resources.files("gamutwright.schemas").joinpath("ledger.schema.json").read_text(encoding="utf-8")
    )
    texts = [text for text, scale in TRUE if scale == "C major"] + [text for text, _ in UNBOUND]
    report = check(parse("---\nscale: C major\n---\n" + "\n\n".join(texts) + "\n"))
    written = ledger(report, default_registry())
    jsonschema.validate(written, schema)
    assert written["counts"]["confirmed"] == report.count(Verdict.CONFIRMED) > 10
    claimed = written.pop("digest")
    assert claimed == digest(written)
    lines = report.script.source.splitlines()
    for claim in written["claims"]:
        assert lines[claim["line"] - 1][claim["column"] - 1 :].startswith(claim["words"].split()[0])


@pytest.mark.parametrize(("divisions", "held", "refused"), [(12, "keyboard", "division"), (19, "division", "keyboard")])
def test_a_definition_fits_the_division(divisions: int, held: str, refused: str) -> None:
    """A keyboard has twelve keys to the octave (common practice, no source)."""
    words = "A scale is maximally even if its tones are spread over the octave as evenly as the {} allows"
    lines = "\n".join(f"[{words.format(word)}]{{define=is_maximally_even}}." for word in (held, refused))
    report = check(parse(f"---\nscale: 0 3 5 8 10\ndivisions: {divisions}\n---\n# A\n{lines}\n"))
    assert [claim.verdict for claim in report.claims] == [Verdict.CONFIRMED, Verdict.UNBOUND]
