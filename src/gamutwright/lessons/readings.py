"""How the words of a claim are read, and held against the value they state.

Words agree with a value if they are what the wording itself would say, or if what they state can be read and is the
same: a number, a rounded number, a list in order, a name, yes or no, more or fewer. Words that state nothing readable
contradict; a claim is never passed because it was not understood.

Conventions: a number with d decimals states a value that rounds to it, so it may be half a unit of its last place away;
"about" allows a whole unit. Fractions and whole numbers are exact. Letters, accents of quotation and blanks at the ends
do not matter.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from gamutwright.errors import told
from gamutwright.facts.model import Dtype, Fact, Value, Witness
from gamutwright.facts.roles import Reader
from gamutwright.languages import language_of
from gamutwright.phrasing.claimwords import find_negations, pointing_count, without_negations
from gamutwright.phrasing.engine import Wording
from gamutwright.phrasing.numbers import Quantity, find_quantities, find_shares, ordinal_to_words
from gamutwright.phrasing.spoken_names import find_chords, find_degrees, find_notes, find_numerals, find_ratios
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import note_name_to_pitch_class, tone_name_map

__all__ = ["Reading", "read_comparison", "read_ordinal", "read_places", "read_share", "read_value"]


@dataclass(frozen=True, slots=True)
class Reading:
    """What words state, and whether it is so.

    Parameters
    ----------
    is_true : bool
        Whether the words agree with the value.
    said : str
        What was understood; "" where nothing was.
    expected : str
        Words that would agree.
    """

    is_true: bool
    said: str
    expected: str


def _normal(text: str) -> str:
    return " ".join(re.sub(r"[“”„‘’'\"]", "", text).casefold().replace("‑", "-").split()).strip(" .,;:")


def _agrees(said: Quantity, value: float | Fraction) -> bool:
    """Whether a number that was said is the value, rounded as the words round it."""
    exact = Fraction(value) if isinstance(value, int | Fraction) else Fraction(value).limit_denominator(10**12)
    if said.decimals is None or (said.kind not in {"decimal", "percent"} and not said.is_about):
        if said.is_about:
            return abs(said.value - exact) <= max(Fraction(1), abs(exact) / 10)
        return said.value == exact
    unit = Fraction(1, 10 ** (said.decimals + (2 if said.kind == "percent" else 0)))
    return abs(said.value - exact) <= (unit if said.is_about else unit / 2) + Fraction(1, 10**9)


def read_value(words: str, fact: Fact, value: Value, scale: Scale, wording: Wording) -> Reading:
    """Hold words against a fact's value.

    Parameters
    ----------
    words : str
        The words of the claim.
    fact : Fact
        The fact.
    value : Value
        Its value for the scale.
    scale : Scale
        The scale.
    wording : Wording
        The wording of the script's language.

    Returns
    -------
    Reading
        What they state, and whether it is so.
    """
    expected = wording.value_in_words(fact, value, scale)
    language = wording.language
    match value:
        case bool():
            return _read_truth(words, fact, value, expected, wording)
        case str():
            return _read_text(words, fact, value, expected, wording)
        case int() | float() | Fraction():
            is_true, said = _read_number(words, value, language)
        case tuple():
            is_true, said = _read_list(words, fact, value, language)
    if not is_true and _normal(words) == _normal(expected):
        return Reading(is_true=True, said=words, expected=expected)
    return Reading(is_true, said, expected)


def _read_number(words: str, value: float | Fraction, language: str) -> tuple[bool, str]:
    found = find_quantities(words, language, is_bound=True)
    said = " and ".join(quantity.text for quantity in found)
    if len(found) != 1 or found[0].kind == "ordinal" or (found[0].value and find_negations(words, language)):
        return False, said
    return _agrees(found[0], value), said


def _is_place(words: str, entry: Value, language: str) -> bool:
    """Whether words give the place of a degree, however it is altered: "seventh" for the lowered seventh."""
    table = language_of(language).numerals
    said = re.fullmatch(table.ordinal, words.strip(), re.IGNORECASE)
    return said is not None and str(entry).lstrip("b#") == str(table.ordinal_value(said[0]))


def _flat(value: Value) -> list[Value]:
    return [leaf for item in value for leaf in _flat(item)] if isinstance(value, tuple) else [value]


def _chord_names(words: str, language: str) -> list[str]:
    """Names of chords in order; a note that is no chord's root is its major triad."""
    chords = {chord.start: (chord.end, chord.name) for chord in find_chords(words, language, is_bound=True)}
    inside = [(start, end) for start, (end, _) in chords.items()]
    notes = {
        note.start: note.name
        for note in find_notes(words, language, is_bound=True)
        if not any(start <= note.start < end for start, end in inside)
    }
    named = {start: name for start, (_, name) in chords.items()} | notes
    return [named[start] for start in sorted(named)]


_NAME_READERS: dict[Reader, Callable[[str, str], list[str]]] = {
    Reader.NOTES: lambda words, language: [note.name for note in find_notes(words, language, is_bound=True)],
    Reader.CHORDS: _chord_names,
    Reader.NUMERALS: lambda words, language: [found.name for found in find_numerals(words, language)],
    Reader.DEGREES: lambda words, language: [found.name for found in find_degrees(words, language)],
    Reader.RATIOS: lambda words, language: [found.name for found in find_ratios(words, language)],
}


def _read_list(words: str, fact: Fact, value: tuple[Value, ...], language: str) -> tuple[bool, str]:
    if not value:
        return _read_number(words, 0, language)
    if fact.dtype is Dtype.TEXTS:
        items = [_normal(item) for item in re.split(language_of(language).claims.joins, words) if item.strip()]
        reader = _NAME_READERS.get(fact.roles.reader)
        if reader is not None:
            names = reader(words, language)
            if fact.roles.reader is Reader.DEGREES and len(value) == 1 and _is_place(words, value[0], language):
                return True, words
            return names == list(value) and len(items) == len(value), ", ".join(names)
        return False, ", ".join(items)
    found = find_quantities(words, language, is_bound=True)
    leaves = _flat(value)
    is_true = len(found) == len(leaves) and all(
        isinstance(leaf, int | float | Fraction) and _agrees(quantity, leaf)
        for quantity, leaf in zip(found, leaves, strict=True)
    )
    return is_true, ", ".join(quantity.text for quantity in found)


def _is_even(count: int) -> bool:
    return count % 2 == 0


def _read_truth(words: str, fact: Fact, value: bool, expected: str, wording: Wording) -> Reading:  # noqa: FBT001
    """Read yes or no: the predicate the wording holds, turned round by each "not"."""
    language = wording.language
    plain, turns_here = without_negations(words, language), len(find_negations(words, language))
    said = None
    for answer, predicate in wording.words_of(fact).items():
        if _normal(words) == _normal(predicate):
            said = answer == "yes"
            break
        if _normal(plain) == _normal(without_negations(predicate, language)):
            turns = turns_here - len(find_negations(predicate, language))
            said = (answer == "yes") is _is_even(turns)
    if said is None and any(_normal(term) in _normal(words) for term in (*fact.terms, fact.title)):
        said = _is_even(turns_here)
    if said is None:
        return Reading(is_true=False, said="", expected=expected)
    return Reading(said is value, "yes" if said else "no", expected)


def _read_text(words: str, fact: Fact, value: str, expected: str, wording: Wording) -> Reading:
    """Read one of a few words, or a name; each "not" turns it round."""
    language, exact = wording.language, _normal(words)
    choices = wording.words_of(fact)
    if not choices:
        return Reading(exact in {_normal(expected), _normal(value)}, words, expected)
    for choice, spoken in choices.items():
        if exact in {_normal(spoken), _normal(choice)}:
            return Reading(choice == value, choice, expected)
    plain = _normal(without_negations(words, language))
    if not _is_even(len(find_negations(words, language))):
        for choice, spoken in choices.items():
            if plain in {_normal(spoken), _normal(choice)}:
                return Reading(choice != value, f"not {choice}", expected)
    return Reading(is_true=False, said="", expected=expected)


def read_places(words: str, witnesses: Sequence[Witness], scale: Scale, wording: Wording) -> Reading:
    """Hold pointing words, or the names of places, against the witnesses.

    Parameters
    ----------
    words : str
        "here and here", or the places by name.
    witnesses : sequence of Witness
        The places that make the fact true.
    scale : Scale
        The scale.
    wording : Wording
        The wording of the script's language.

    Returns
    -------
    Reading
        Whether there are as many, and the same, in the same order; tones of the scale by the names they have in it.
    """
    language = wording.language
    expected = wording.places_in_words(tuple(witnesses), scale)
    pointed = pointing_count(words, language)
    if pointed is not None:
        return Reading(pointed == len(witnesses), f"{pointed}", expected)
    if _normal(words) == _normal(expected):
        return Reading(is_true=True, said=words, expected=expected)
    items = [item for item in re.split(language_of(language).claims.joins, words) if item.strip()]
    if scale.divisions != 12 or len(items) != len(witnesses):
        return Reading(is_true=False, said=words, expected=expected)
    chords = [witness.label for witness in witnesses if witness.kind.value == "chord"]
    if chords:
        names = _chord_names(words, language)
        return Reading(names == chords, ", ".join(names), expected)
    notes = [note.name for note in find_notes(words, language, is_bound=True)]
    due = [tone for witness in witnesses if witness.kind.value != "axis" for part in witness.parts for tone in part]
    spelled = tone_name_map(scale)
    is_true = len(notes) == len(due) > 0 and all(
        note == spelled[tone] if tone in spelled else note_name_to_pitch_class(note) == (tone + scale.root) % 12
        for note, tone in zip(notes, due, strict=True)
    )
    return Reading(is_true, ", ".join(notes), expected)


def read_comparison(words: str, one: float | Fraction, other: float | Fraction, wording: Wording) -> Reading:
    """Hold a comparison against two values: more, fewer, as many, twice as many, two more.

    Parameters
    ----------
    words : str
        The words of the claim.
    one, other : int, float or Fraction
        The value of the scale at hand, and of the scale it is compared with.
    wording : Wording
        The wording of the script's language.

    Returns
    -------
    Reading
        What they state, and whether it is so.
    """
    table, language = language_of(wording.language).claims, wording.language
    expected = "=" if one == other else ">" if one > other else "<"
    text = words.lower()

    def holds(pattern: str) -> bool:
        return re.search(rf"(?<!\w){pattern}(?!\w)", text) is not None

    for pattern, numerator, denominator in table.times:
        if holds(pattern):
            return Reading(one * denominator == other * numerator, words, expected)
    if holds(table.same):
        said: bool = one == other
    elif holds(table.more) or holds(table.fewer):
        is_more = holds(table.more)
        said = one > other if is_more else one < other
        steps = find_quantities(words, language)
        if said and steps:
            said = len(steps) == 1 and _agrees(steps[0], abs(Fraction(one) - Fraction(other)))
    else:
        return Reading(is_true=False, said="", expected=expected)
    turned = not _is_even(len(find_negations(words, language))) and not holds(table.same)
    return Reading(said is not turned, words, expected)


def read_ordinal(words: str, degrees: Sequence[int], wording: Wording) -> Reading:
    """Hold an ordinal against the degrees on which one scale stands in another.

    Parameters
    ----------
    words : str
        Such as "second".
    degrees : sequence of int
        Every degree that is right; empty where the scale is no mode of the other.
    wording : Wording
        The wording of the script's language.

    Returns
    -------
    Reading
        Whether it is one of them.
    """
    joined = f" {language_of(wording.language).numerals.or_word} "
    expected = joined.join(ordinal_to_words(degree, wording.language) for degree in degrees) or told("no mode of it")
    found = find_quantities(words, wording.language, is_bound=True)
    said = [int(quantity.value) for quantity in found if quantity.kind in {"ordinal", "count"}]
    is_true = len(found) == 1 == len(said) and said[0] in degrees and not find_negations(words, wording.language)
    return Reading(is_true, ", ".join(quantity.text for quantity in found), expected)


def read_share(words: str, count: int, total: int, wording: Wording) -> Reading:
    """Hold a share against the one that was counted: "66 of 462", "about 3 percent", "one in ten".

    Parameters
    ----------
    words : str
        The words of the claim.
    count, total : int
        How many of how many were counted.
    wording : Wording
        The wording of the script's language.

    Returns
    -------
    Reading
        Whether it is so; "one in ten" may be rounded to the nearest whole number.
    """
    share = Fraction(count, total)
    found = find_shares(words, wording.language)
    expected = wording.share_in_words(count, total)
    if len(found) != 1 or find_negations(words, wording.language):
        return Reading(is_true=False, said="", expected=expected)
    said = found[0]
    if said.kind == "fraction" and said.value.numerator == 1 and said.value > 0:
        is_true = round(1 / share) == said.value.denominator
        return Reading(said.value == share or is_true, said.text, expected)
    return Reading(_agrees(said, share), said.text, expected)
