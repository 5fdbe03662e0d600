"""Values, witnesses and citations in words, for people who read a terminal.

Conventions: exact values stay exact and get a rounded decimal beside them; nothing printed here is read by a program
(`--json` is).
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.model import Citation, Dtype, Evidence, Fact, Value, Witness, WitnessKind
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_name_map

__all__ = ["citation_in_full", "source_in_short", "value_in_words", "witness_in_words", "witnesses_in_words"]

SHOWN_WITNESSES = 8


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
    text = _plain_words(value)
    if fact.dtype in {Dtype.TEXT, Dtype.TEXTS}:
        return to_symbols(text)
    single = {Dtype.INT, Dtype.FLOAT, Dtype.FRACTION}
    return f"{text} {fact.unit}" if fact.unit and fact.dtype in single else text


def _plain_words(value: Value) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case Fraction():
            return str(value) if value.denominator == 1 else f"{value} ({float(value):.4f})"
        case float():
            return f"{value:.4f}"
        case ():
            return "none"
        case tuple() if isinstance(value[0], tuple):
            return " | ".join(_plain_words(row) for row in value)
        case tuple():
            separator = ", " if isinstance(value[0], str) else " "
            return separator.join(_plain_words(item) for item in value)
        case _:
            return str(value)


def _tone_words(scale: Scale) -> dict[int, str]:
    """Names of all steps above the root: spelled tones where there are letters, numbers elsewhere."""
    words = {step: str((step + scale.root) % scale.divisions) for step in range(scale.divisions)}
    if scale.divisions == 12:
        words |= {tone: to_symbols(name) for tone, name in tone_name_map(scale).items()}
    return words


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
    >>> witness_in_words(Scale.of(0, 2, 4, 5, 7, 9, 11), Witness(WitnessKind.STEP, ((4, 5),)))
    'E–F'
    """
    names = _tone_words(scale)
    if witness.kind is WitnessKind.AXIS:
        return f"x ↔ {witness.parts[0][0]} − x"
    joiner = "–" if witness.kind in {WitnessKind.STEP, WitnessKind.INTERVAL, WitnessKind.INTERVAL_PAIR} else " "
    parts = [joiner.join(names[tone] for tone in part) for part in witness.parts]
    label = to_symbols(witness.label)
    match witness.kind:
        case WitnessKind.CHORD if label:
            return label
        case WitnessKind.LINK | WitnessKind.PATH:
            return label or " → ".join(parts)
        case WitnessKind.MODE | WitnessKind.TONE if label and label != parts[0]:
            return f"{parts[0]} {label}"
        case WitnessKind.INTERVAL_PAIR:
            return " / ".join(parts)
        case _ if label:
            return f"{parts[0]} ({label})"
        case _:
            return " ".join(parts)


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
