"""Mends read well: planted mistakes in both languages, judged by rules of grammar written apart.

The rules are those of any school grammar (common practice, no source): no word twice, no capital inside a sentence, one
with a singular and more with a plural, "a" before a consonant and "an" before a vowel.
"""

from __future__ import annotations

import re

import pytest

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.claims import Verdict, check
from gamutwright.lessons.draft import draft
from gamutwright.lessons.format import replace_words
from gamutwright.lessons.mending import Mend, is_readable, mend_of
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from thinning import usually

REGISTRY = default_registry()


def mends(sentence: str, scale: str = "C major", language: str = "en") -> list[Mend | None]:
    report = check(parse(f"---\nscale: {scale}\nlanguage: {language}\n---\n{sentence}\n"), REGISTRY)
    return [mend_of(report, claim, REGISTRY) for claim in report.faults]


@pytest.mark.parametrize(
    ("language", "scale", "sentence", "mended"),
    [
        ("en", "C major", "It has [three]{fact=semitone_steps} semitone steps.", "It has two semitone steps."),
        ("en", "C E G#", "The number of tritones is [Three]{fact=tritones}.", "The number of tritones is zero."),
        ("en", "C E G#", "It has [three]{fact=tritones} tritones.", "It has no tritones."),
        ("en", "C E G#", "There are [three]{fact=tritones}.", "There are none."),
        ("en", "C E G#", "[Three]{fact=tritones} of its pairs are tritones.", "None of its pairs are tritones."),
        ("en", "C major", "It has [three]{fact=tritones} tritones.", None),
        ("en", "C major", "The number of tritones is [three]{fact=tritones}.", "The number of tritones is one."),
        ("en", "C major", "There are [three]{fact=tritones}.", None),
        ("en", "C major", "It has [one]{fact=semitone_steps} semitone step.", None),
        ("en", "C major", "It is an [octatonic]{fact=cardinality_word} scale.", "It is a heptatonic scale."),
        ("en", "C D E F# G# A#", "It is a [heptatonic]{fact=cardinality_word} scale.", "It is a hexatonic scale."),
        ("en", "C major", "The scale is [chiral]{fact=is_chiral}.", "The scale is not chiral."),
        ("en", "C major", "The scale [is chiral]{fact=is_chiral}.", "The scale is not chiral."),
        ("en", "C major", "[It is]{fact=is_prime_form} its own prime form.", None),
        ("en", "C major", "The scale is [Improper]{fact=propriety}.", "The scale is proper."),
        ("en", "C major", "[Improper]{fact=propriety} is what it is.", "Proper is what it is."),
        ("en", "C major", "The semitones: [here]{each=semitone_steps}.", "The semitones: E to F and B to C."),
        ("de", "C D E F G A H", "Es gibt [drei]{fact=semitone_steps} Halbtöne.", "Es gibt zwei Halbtöne."),
        ("de", "C E Gis", "Sie hat [drei]{fact=tritones} Tritoni.", "Sie hat keine Tritoni."),
        ("de", "C E Gis", "Die Zahl der Tritoni ist [drei]{fact=tritones}.", "Die Zahl der Tritoni ist null."),
        ("de", "C D E F G A H", "Sie hat [drei]{fact=tritones} Tritoni.", None),
        ("de", "C D E F G A H", "Sie ist eine [oktatonische]{fact=cardinality_word} Leiter.", None),
        ("de", "C D E F G A H", "Die Tonleiter ist [chiral]{fact=is_chiral}.", "Die Tonleiter ist nicht chiral."),
    ],
)  # fmt: skip
def test_a_mend_is_a_sentence_or_none_is_offered(language: str, scale: str, sentence: str, mended: str | None):
    if language == "de":
        scale = scale.replace("H", "B").replace("Gis", "G#")
    (found,) = mends(sentence, scale, language)
    assert (found.sentence if found else None) == mended


NOT_ENGLISH = (
    r"\b(\w{2,}) \1\b(?<!that that)", r"\ba (?!uni|use|eu|one\b|once)[aeiou]", r"\b[Aa]n [^aeiouAEF\W]",
    r"\b[Oo]ne (?:semitone steps|tritones|tones|modes|axes|places|pairs|triads|chords|transpositions|contradictions)\b",
    r"\b(?:[Tt]wo|[Tt]hree|[Ff]our|[Ff]ive|[Ss]ix) (?:\w+ )?(?:step|tritone|tone|mode|axis|place|triad|chord)\b",
    r"\bis (?:is|has|does)\b", r"\b[Tt]here are one\b(?! or)", r"\b[Tt]here is (?:two|three|four|five|six)\b",
    r"[a-z,] (?:Zero|None|No|One|Two|Three|Proper|Improper|Is|Has|Does)\b",
)  # fmt: skip
NOT_GERMAN = (
    r"\b(?!die die|der der)(\w{2,}) \1\b", r"\bein (?:Tritoni|Halbtonschritte|Töne|Modi)\b",
    r"\beins (?:Ton|Tri|Halb|Akk|Drei|Acht|Stelle)\w*",
    r"[a-zäöü,] (?:Keine|Null|Zwei|Drei|Vier|Ist|Hat)\b", r"\bist (?:ist|hat)\b",
    r"\b(?:zwei|drei|vier|fünf|sechs) (?:Tritonus|Halbtonschritt|Ton|Modus|Achse|Stelle|Dreiklang)\b",
)  # fmt: skip
SCALES = (
    "G acoustic", "D dorian", "C D E F# G# A#", "A harmonic minor", "C octatonic, semitone first", "C major pentatonic",
    "pcs: 0 1 5 6 7 11", "Eb major", "pcs: 0 3 4 7 8 11", "C hirajoshi (Kostka)",
)  # fmt: skip


@pytest.mark.parametrize(
    ("one", "other", "language"),
    usually(
        [(one, other, language) for one in SCALES for other in SCALES if one != other for language in ("en", "de")],
        *zip(SCALES[::2], SCALES[1::2], ("en", "de", "en", "de", "en"), strict=True),
    ),
)
def test_planted_mistakes_are_mended_in_readable_sentences(one: str, other: str, language: str):
    """A lesson drafted for one scale, and read as if it were about another: every claim that differs is a mistake."""
    written = draft(read_scale(one).scale, Wish(Level.RESEARCH, 10.0), language, shares=shares_of(12)).source
    script = parse(re.sub(r"^scale: .*$", f"scale: {other}", written, count=1, flags=re.MULTILINE))
    report = check(script, REGISTRY)
    wrong = [claim for claim in report.faults if claim.verdict is Verdict.CONTRADICTED]
    offered = 0
    for claim in wrong:
        mend = mend_of(report, claim, REGISTRY)
        if mend is None:
            continue
        offered += 1
        before = {one.span[0] for one in report.faults}
        again = check(parse(replace_words(script, mend.edits)), REGISTRY)
        assert len(again.faults) == len(before) - 1
        for rule in NOT_ENGLISH if language == "en" else NOT_GERMAN:
            old = next(line.text for line in script.lines if line.id == claim.line_id)
            assert re.search(rule, old) or not re.search(rule, mend.sentence), (rule, mend.sentence)
    assert len(wrong) > 5
    assert offered > 0


def test_what_cannot_be_read_is_refused():
    for old, new, words in (
        ("It has two tritones.", "It has one tritones.", (7, 10)),
        ("The scale is proper.", "The scale is is not chiral.", (13, 26)),
        ("It is so, its own prime form.", "It is its own prime form, its own prime form.", (6, 24)),
    ):
        assert not is_readable(old, new, ((7, 10), words), "en")
    assert is_readable("It has two tritones.", "It has six tritones.", ((7, 10), (7, 10)), "en")
