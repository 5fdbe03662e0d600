"""Values of facts in spoken words, and the places that make them true.

Every dtype has a way of being said, and texts that mean notes, chords, degrees or ratios are said as such. What is said
here, the readers of `numbers` and `names` find again.

Conventions: tones are called by their spelling in twelve divisions and by number of steps above the root in others.
Lists longer than `LONGEST` are not read out.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache

from gamutwright.facts.model import Dtype, Fact, Value, Witness, WitnessKind
from gamutwright.facts.roles import Reader
from gamutwright.languages import language_of
from gamutwright.phrasing.degree_words import spoken_degree, spoken_numeral, spoken_ratio
from gamutwright.phrasing.slots import filled
from gamutwright.phrasing.spoken_names import spoken_chord, spoken_note
from gamutwright.phrasing.spoken_numbers import decimal_to_words, list_in_words, number_in_speech, ordinal_to_words
from gamutwright.theory.character import nearest_relative
from gamutwright.theory.harmony import TRIADS
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = [
    "MOST_PLACES",
    "entries_in_words",
    "is_too_long",
    "places_in_words",
    "pointing_words",
    "spoken_rooted_scale",
    "spoken_scale_name",
    "spoken_tone",
    "text_in_words",
    "value_as_words",
    "written_text",
]

MOST_PLACES = 6
"""As many places are named or pointed at, single tones twice as many."""
_LONGEST = {Dtype.INTS: 12, Dtype.TEXTS: 12, Dtype.FLOATS: 8, Dtype.FRACTIONS: 8, Dtype.INT_ROWS: 6}
_MOST_ALIKE = 6
_DECIMALS = {"cents": 0, "hertz": 0}


def written_text(fact: Fact, text: str, language: str) -> str:
    """Write one text of a fact as a language prints it: names of scales translated, figures and signs left.

    Parameters
    ----------
    fact : Fact
        The fact.
    text : str
        The text, or one entry of a list of texts.
    language : str
        Language tag.

    Returns
    -------
    str
        Its print.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> written_text(default_registry().fact("systematic_name"), "lydian b7", "de")
    'lydisch b7'
    """
    match fact.roles.reader:
        case Reader.SCALES:
            return _scale_name(text, language)
        case Reader.ROOTED_SCALES:
            return spoken_rooted_scale(text, language)
        case _:
            return text


def _scale_name(text: str, language: str) -> str:
    for name, spoken in language_of(language).names.scale_names.items():
        text = re.sub(rf"(?<!\w){re.escape(name)}(?!\w)" if name.strip() == name else re.escape(name), spoken, text)
    return text


def spoken_scale_name(name: str, language: str) -> str:
    """Say a traditional or systematic name of a scale.

    Parameters
    ----------
    name : str
        The name as the program writes it.
    language : str
        Language tag.

    Returns
    -------
    str
        The name with degrees in words.

    Examples
    --------
    >>> spoken_scale_name("lydian b7", "en"), spoken_scale_name("ionian without 4 and 7", "de")
    ('lydian flat seven', 'ionisch ohne vier und sieben')
    """
    spoken = _scale_name(name, language)
    if re.search(r"(?i)\b(?:mela|messiaens?|thaat)\b", name):
        on = re.escape(language_of(language).names.scale_names.get(" on ", " on "))
        return re.sub(rf"(?<={on})(?:bb|b|##|#)?\d\b", lambda found: spoken_degree(found[0], language), spoken)
    return re.sub(r"(?<!\w)(?:bb|b|##|#)?\d(?!\w)", lambda found: spoken_degree(found[0], language), spoken)


def _verbatim(text: str, language: str) -> str:
    del language
    return text


def _bits(text: str, language: str) -> str:
    del language
    return " ".join(text)


def spoken_rooted_scale(name: str, language: str) -> str:
    """Say a scale with its root, or which mode of it.

    Parameters
    ----------
    name : str
        Root and name as the program writes them, `A natural minor`, perhaps after `mode 6 of`.
    language : str
        Language tag.

    Returns
    -------
    str
        The name as the language has it.

    Examples
    --------
    >>> spoken_rooted_scale("mode 2 of Bb major", "en"), spoken_rooted_scale("G# harmonic minor", "de")
    ('the second mode of B flat major', 'harmonisch gis-Moll')
    """
    names = language_of(language).names
    found = re.fullmatch(r"(?:mode (\d+) of )?(\S+) (.+)", name)
    if not found:
        return spoken_scale_name(name, language)
    ordinal, root, kind = found.groups()
    spoken = spoken_note(root, language)
    pattern = names.rooted_names.get(kind, "")
    scale = (
        filled(pattern.replace("{Root}", spoken), root=spoken.lower())
        if pattern
        else f"{spoken} {spoken_scale_name(kind, language)}"
    )
    return filled(names.mode_of, ordinal=ordinal_to_words(int(ordinal), language), scale=scale) if ordinal else scale


_SPEAKERS: dict[Reader, Callable[[str, str], str]] = {
    Reader.VERBATIM: _verbatim,
    Reader.NOTES: spoken_note,
    Reader.DEGREES: spoken_degree,
    Reader.CHORDS: spoken_chord,
    Reader.NUMERALS: spoken_numeral,
    Reader.RATIOS: spoken_ratio,
    Reader.SCALES: spoken_scale_name,
    Reader.ROOTED_SCALES: spoken_rooted_scale,
    Reader.DIGITS: _bits,
}


def text_in_words(fact: Fact, text: str, language: str) -> str:
    """Say one text of a fact.

    Parameters
    ----------
    fact : Fact
        The fact.
    text : str
        The text, or one entry of a list of texts.
    language : str
        Language tag.

    Returns
    -------
    str
        Its words.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> text_in_words(default_registry().fact("degrees"), "b3", "en")
    'flat three'
    """
    return _SPEAKERS[fact.roles.reader](text, language)


def is_too_long(fact: Fact, value: Value) -> bool:
    """Whether a value is a list that nobody wants read out.

    Parameters
    ----------
    fact : Fact
        The fact.
    value : Value
        Its value.

    Returns
    -------
    bool
        True for long lists, for lists that repeat the same entry, and for long rows of ones and zeros.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> is_too_long(default_registry().fact("step_pattern"), (1,) * 31)
    True
    """
    most = _LONGEST.get(fact.dtype) if fact.roles.longest is None else fact.roles.longest
    if isinstance(value, tuple) and len(value) > _MOST_ALIKE and len(set(value)) == 1:
        return True
    return most is not None and isinstance(value, tuple | str) and len(value) > most


def _one(fact: Fact, value: Value, language: str, *, in_list: bool) -> str:
    match value:
        case bool():
            return str(value)
        case str():
            return text_in_words(fact, value, language)
        case tuple():
            return list_in_words(
                (_one(fact, item, language, in_list=True) for item in value),
                language,
                language_of(language).numerals.or_word,
            )
        case int() if value == 0 and not in_list:
            return language_of(language).numerals.no_word
        case int():
            return number_in_speech(value, language)
        case _ if in_list:
            return decimal_to_words(value, _DECIMALS.get(fact.unit, 2), language)
        case _:
            return number_in_speech(value, language, _DECIMALS.get(fact.unit) if isinstance(value, float) else None)


def entries_in_words(fact: Fact, value: tuple[Value, ...], language: str) -> tuple[str, ...]:
    """Say each entry of a list.

    Parameters
    ----------
    fact : Fact
        The fact.
    value : tuple
        Its value.
    language : str
        Language tag.

    Returns
    -------
    tuple of str
        The entries in words; decimals rounded, cents and hertz to whole ones.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> entries_in_words(default_registry().fact("spectra"), ((1, 2), (3,)), "en")
    ('one or two', 'three')
    """
    return tuple(_one(fact, item, language, in_list=True) for item in value)


def value_as_words(fact: Fact, value: Value, language: str) -> str:
    """Say a value that is neither yes or no nor one of a fixed few.

    Parameters
    ----------
    fact : Fact
        The fact.
    value : Value
        Its value.
    language : str
        Language tag.

    Returns
    -------
    str
        Its words.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> value_as_words(default_registry().fact("step_pattern"), (2, 1), "de")
    'zwei und eins'
    """
    if isinstance(value, tuple):
        return list_in_words(entries_in_words(fact, value, language), language)
    return _one(fact, value, language, in_list=False)


@lru_cache(maxsize=256)
def _tone_names(scale: Scale) -> dict[int, str]:
    """Name all twelve tones: by the scale, else by its nearest familiar scale, else as a chromatic scale."""
    relative = nearest_relative(scale)
    names = tone_name_map(Scale(0xFFF, root=scale.root)) | (tone_name_map(relative.scale) if relative else {})
    return names | tone_name_map(scale)


def spoken_tone(scale: Scale, tone: int, language: str) -> str:
    """Call a tone by its name, or by its number where the division has no letters.

    Parameters
    ----------
    scale : Scale
        The scale it is counted in.
    tone : int
        Steps above the root.
    language : str
        Language tag.

    Returns
    -------
    str
        Such as `E flat` or `step 3`.

    Examples
    --------
    >>> spoken_tone(Scale.of(0, 3, 7), 3, "de"), spoken_tone(Scale.of(0, 5, divisions=19), 5, "en")
    ('Es', 'step 5')
    """
    if scale.divisions == 12:
        return spoken_note(_tone_names(scale)[tone], language)
    return f"{language_of(language).names.step} {tone}"


def _chord(scale: Scale, tones: tuple[int, ...], language: str) -> str | None:
    shape = tuple((tone - tones[0]) % scale.divisions for tone in tones)
    suffix = next((suffix for suffix, triad in TRIADS.items() if triad == shape), None)
    if suffix is None or scale.divisions != 12:
        return None
    return spoken_chord(_tone_names(scale)[tones[0]] + suffix, language)


def _place(scale: Scale, witness: Witness, language: str) -> str | None:
    """Name one place; None where pointing is all one can do."""
    names = language_of(language).names
    match witness.kind:
        case WitnessKind.TONE | WitnessKind.MODE:
            return spoken_tone(scale, witness.parts[0][0], language)
        case WitnessKind.STEP | WitnessKind.INTERVAL | WitnessKind.INTERVAL_PAIR:
            pairs = [f" {names.between} ".join(spoken_tone(scale, t, language) for t in part) for part in witness.parts]
            return f" {names.after} ".join(pairs)
        case WitnessKind.CHORD if re.match(r"[A-G]", witness.label):
            return spoken_chord(witness.label, language)
        case WitnessKind.LINK:
            chords = [_chord(scale, part, language) for part in witness.parts]
            return f" {names.between} ".join(chord for chord in chords if chord) if all(chords) else None
        case _:
            return None


def pointing_words(count: int, language: str) -> str:
    """Point at so many places without naming them.

    Parameters
    ----------
    count : int
        How many.
    language : str
        Language tag.

    Returns
    -------
    str
        As many pointing words.

    Examples
    --------
    >>> pointing_words(3, "en"), pointing_words(1, "de")
    ('here, here and here', 'hier')
    """
    return list_in_words([language_of(language).names.here[0]] * count, language)


def places_in_words(scale: Scale, witnesses: tuple[Witness, ...], language: str, *, is_pointing: bool = False) -> str:
    """Name the places that make a fact true, or point at them.

    Parameters
    ----------
    scale : Scale
        The scale.
    witnesses : tuple of Witness
        The places.
    language : str
        Language tag.
    is_pointing : bool
        Whether to point ("here and here") even where they have names.

    Returns
    -------
    str
        All of them in order; "" for none, and for too many to say.

    Examples
    --------
    >>> steps = tuple(Witness(WitnessKind.STEP, (pair,)) for pair in ((4, 5), (11, 0)))
    >>> places_in_words(Scale.of(0, 2, 4, 5, 7, 9, 11), steps, "en")
    'E to F and B to C'
    """
    is_tones = all(witness.kind in {WitnessKind.TONE, WitnessKind.MODE} for witness in witnesses)
    if not 0 < len(witnesses) <= MOST_PLACES * (2 if is_tones else 1):
        return ""
    if any(witness.kind in {WitnessKind.PATH, WitnessKind.SCALE, WitnessKind.TONES} for witness in witnesses):
        return ""
    named = [_place(scale, witness, language) for witness in witnesses]
    if is_pointing or not all(named):
        return pointing_words(len(witnesses), language)
    return list_in_words([name for name in named if name], language)
