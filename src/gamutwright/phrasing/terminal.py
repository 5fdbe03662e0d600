"""Values, witnesses and citations in words, for people who read a terminal.

Conventions: exact values stay exact and get a rounded decimal beside them; nothing printed here is read by a program
(`--json` is).
"""

from __future__ import annotations

from gamutwright.codec import Plain
from gamutwright.diagrams.alt_words import place_in_words
from gamutwright.diagrams.sketch import Sketch
from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Value, Witness
from gamutwright.facts.picturing import place_of
from gamutwright.phrasing.setting import Hand, set_out
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_names

__all__ = [
    "citation_in_full",
    "plain_words",
    "scale_in_words",
    "scale_to_plain",
    "source_in_short",
    "value_in_words",
    "witness_in_words",
    "witnesses_in_words",
]

SHOWN_WITNESSES = 8
_HAND = Hand(
    "yes", "no", "none", lambda number: f"{number:.4f}".rstrip("0").rstrip("."),
    lambda exact, _: f"{exact} ({float(exact):.4f})", " ",
)  # fmt: skip


def value_in_words(fact: Fact, value: Value) -> str:
    """Write a value as a reader wants it.

    Parameters
    ----------
    fact : Fact
        The fact, for type and unit.
    value : Value
        Its value.

    Returns
    -------
    str
        Text with ♯ and ♭; "none" for an empty list.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> value_in_words(default_registry().fact("semitone_steps"), 2)
    '2 steps'
    """
    text = plain_words(value)
    if fact.dtype in {Dtype.TEXT, Dtype.TEXTS}:
        return to_symbols(text)
    if fact.dtype in {Dtype.INT, Dtype.FLOAT, Dtype.FRACTION} and fact.unit:
        return f"{text} {_singular(fact.unit) if value == 1 and fact.dtype is Dtype.INT else fact.unit}"
    return text


def _singular(unit: str) -> str:
    """Say a unit for one: its first word loses the plural."""
    first, *rest = unit.split(" ")
    one = first.removesuffix("es") + "is" if first == "axes" else first.removesuffix("s")
    return " ".join([one, *rest])


def plain_words(value: Value) -> str:
    """Write a value without regard to its fact.

    Parameters
    ----------
    value : Value
        The value.

    Returns
    -------
    str
        Yes or no for a bool; an exact fraction with its decimal; lists with separators; "none" for an empty list.

    Examples
    --------
    >>> from fractions import Fraction
    >>> plain_words(Fraction(139, 140)), plain_words(()), plain_words(((1, 2), (3, 4)))
    ('139/140 (0.9929)', 'none', '1 2 | 3 4')
    """
    return set_out(value, _HAND)


def scale_in_words(scale: Scale) -> str:
    """Write the tones of a scale for a heading.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    str
        Note names in twelve divisions, pitch classes elsewhere.

    Examples
    --------
    >>> scale_in_words(Scale.of(2, 4, 5, 7, 9, 11, 0)), scale_in_words(Scale.of(0, 3, divisions=5))
    ('D E F G A B C', '0 3')
    """
    if scale.divisions == 12:
        return to_symbols(" ".join(tone_names(scale)))
    return " ".join(str(pitch_class) for pitch_class in scale.pitch_classes)


def witness_in_words(scale: Scale, witness: Witness) -> str:
    """Point at a place in the scale in words.

    Parameters
    ----------
    scale : Scale
        The scale.
    witness : Witness
        The place.

    Returns
    -------
    str
        Names of tones joined by a dash for an interval or step, by a space otherwise; the label where it says more.

    Examples
    --------
    >>> from gamutwright.facts.model import WitnessKind
    >>> witness_in_words(Scale.of(0, 2, 4, 5, 7, 9, 11), Witness(WitnessKind.STEP, ((4, 5),)))
    'E–F'
    >>> witness_in_words(Scale.of(2, 4, 5, 7, 9, 11, 0), Witness(WitnessKind.AXIS, ((0,),)))
    'D to A♭'
    """
    return place_in_words(Sketch(scale), place_of(witness))


def witnesses_in_words(scale: Scale, witnesses: tuple[Witness, ...], most: int = SHOWN_WITNESSES) -> str:
    """List places in the scale, the first few only where there are many.

    Parameters
    ----------
    scale : Scale
        The scale.
    witnesses : tuple of Witness
        The places.
    most : int
        How many to show.

    Returns
    -------
    str
        The places separated by commas; "" for none.

    Examples
    --------
    >>> from gamutwright.facts.model import WitnessKind
    >>> pair = Witness(WitnessKind.STEP, ((4, 5),))
    >>> witnesses_in_words(Scale.of(0, 4, 5), (pair, pair, pair), most=2)
    'E–F, E–F and 1 more'
    """
    shown = [witness_in_words(scale, witness) for witness in witnesses[:most]]
    rest = len(witnesses) - len(shown)
    text = ", ".join(dict.fromkeys(shown) if not rest else shown)
    return f"{text} and {rest} more" if rest else text


def source_in_short(citation: Citation) -> str:
    """Name a source by author and year, as running text cites it.

    Parameters
    ----------
    citation : Citation
        The citation.

    Returns
    -------
    str
        Such as "Forte 1973"; "common practice" where there is no single source.

    Examples
    --------
    >>> from gamutwright.facts.bibliography import CLOUGH_DOUTHETT_1991
    >>> source_in_short(Citation(CLOUGH_DOUTHETT_1991, "p. 93"))
    'Clough & Douthett 1991'
    """
    if citation.evidence is Evidence.PRACTICE or not citation.source.author:
        return "common practice"
    surnames = [name.split()[-1] for name in citation.source.author.split(",")]
    who = " & ".join(surnames) if len(surnames) < 3 else f"{surnames[0]} et al."
    return f"{who} {citation.source.year}".strip()


def citation_in_full(citation: Citation) -> str:
    """Print a citation as a bibliography does, and say how far it was checked.

    Parameters
    ----------
    citation : Citation
        The citation.

    Returns
    -------
    str
        Author, year, title, place, locator and evidence.

    Examples
    --------
    >>> from gamutwright.facts.bibliography import FORTE_1973
    >>> citation_in_full(Citation(FORTE_1973, "chapter 1"))
    'Allen Forte (1973), The Structure of Atonal Music, Yale University Press, chapter 1 [from memory]'
    """
    source = citation.source
    if citation.evidence is Evidence.PRACTICE:
        return f"{citation.evidence.value}: {citation.locator}"
    head = f"{source.author} ({source.year})" if source.author else ""
    parts = [part for part in (head, source.title, source.where, citation.locator) if part]
    return f"{', '.join(parts)} [{citation.evidence.value}]"


def scale_to_plain(scale: Scale) -> dict[str, Plain]:
    """Write a scale for a program.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    dict
        Divisions, root, tones as steps above the root, bits, root first, and note names where there are letters.

    Examples
    --------
    >>> scale_to_plain(Scale.of(9, 1, 4))["bits"]
    '100010010000'
    """
    return {
        "divisions": scale.divisions,
        "root": scale.root,
        "tones": list(scale.tones),
        "bits": scale.bits,
        "names": list(tone_names(scale)) if scale.divisions == 12 else None,
    }
