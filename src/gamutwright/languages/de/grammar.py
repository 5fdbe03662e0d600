"""German: numerals and the names of notes, chords and intervals."""

from __future__ import annotations

import re

from gamutwright.languages.language import Agreement, ClaimWords, NameWords, Numerals, any_of
from gamutwright.theory.notenames import names_in

__all__ = ["AGREEMENT", "CLAIMS", "NAMES", "NUMERALS", "tidy"]

_UNITS = ["ein", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun"]
_TEENS = ["zehn", "elf", "zwölf", "dreizehn", "vierzehn", "fünfzehn", "sechzehn", "siebzehn", "achtzehn", "neunzehn"]
_TENS = ["zwanzig", "dreißig", "vierzig", "fünfzig", "sechzig", "siebzig", "achtzig", "neunzig"]
_VALUES = (
    {word: value for value, word in enumerate((*_UNITS, *_TEENS), 1)}
    | {word: 10 * value for value, word in enumerate(_TENS, 2)}
    | {"eins": 1, "zwo": 2, "dreissig": 30, "null": 0, "": 0}
)
_ORDINAL_STEMS = {1: "erst", 3: "dritt", 7: "siebt", 8: "acht"}


def _compound(number: int) -> str:
    if number >= 1000:
        head, rest = divmod(number, 1000)
        return f"{_compound(head)}tausend{_compound(rest)}"
    if number >= 100:
        head, rest = divmod(number, 100)
        return f"{_UNITS[head - 1]}hundert{_compound(rest)}"
    if number >= 20:
        head, rest = divmod(number, 10)
        return (f"{_UNITS[rest - 1]}und" if rest else "") + _TENS[head - 2]
    return (_UNITS + _TEENS)[number - 1] if number else ""


def _count_to_words(number: int) -> str:
    if number == 0:
        return "null"
    words = _compound(number)
    return words + "s" if words.endswith("ein") else words


def _stem(number: int) -> str:
    """Ordinal without its ending."""
    rest = number % 100
    if 0 < rest < 20:
        return _compound(number - rest) + _ORDINAL_STEMS.get(rest, f"{_compound(rest)}t")
    return f"{_compound(number)}st"


def _ordinal_to_words(number: int) -> str:
    if number == 100:
        return "hundertste"
    return f"{_stem(number)}e"


def _cardinal_value(words: str) -> int:
    text = words.lower().replace("dreiss", "dreiß")
    for mark, size in (("tausend", 1000), ("hundert", 100)):
        if mark in text:
            head, _, rest = text.partition(mark)
            rest = rest.removeprefix("und")
            return (_cardinal_value(head) if head else 1) * size + (_cardinal_value(rest) if rest else 0)
    unit, joined, ten = text.partition("und")
    return _VALUES[unit] + _VALUES[ten] if joined else _VALUES[text]


_STEMS = {_stem(number): number for number in range(1, 20)} | {"siebent": 7}
_LATER = {f"{word}st": value for word, value in _VALUES.items() if value >= 20} | {"hundertst": 100, "tausendst": 1000}


def _stem_value(stem: str) -> int:
    if stem in _STEMS:
        return _STEMS[stem]
    if stem in _LATER:
        return _LATER[stem]
    if re.search(r"(?:ig|hundert|tausend)st$", stem):
        return _cardinal_value(stem.removesuffix("st"))
    last = max((known for known in _STEMS if stem.endswith(known)), key=len)
    return _cardinal_value(stem.removesuffix(last).removesuffix("und")) + _STEMS[last]


def _ordinal_value(words: str) -> int:
    return _stem_value(re.sub(r"(?:e[nrsm]?)$", "", words.lower()))


def _fraction_value(words: str) -> int:
    word = words.lower()
    if word in {"halb", "halbe"}:
        return 2
    return _stem_value(re.sub(r"(?<=t)el[ns]?$", "", word))


def _fraction_to_words(numerator: int, denominator: int) -> str:
    if denominator == 2:
        return "die Hälfte"
    part = _stem(denominator).capitalize() + "el"
    return f"{'ein' if numerator == 1 else _count_to_words(numerator)} {part}"


_UNIT, _TEEN = any_of([*_UNITS, "zwo"]), any_of(_TEENS)
_TEN = any_of([*_TENS, "dreissig"])
_BELOW_100 = rf"(?:(?:{_UNIT}und)?{_TEN}|{_TEEN}|eins|{_UNIT})"
_BELOW_1000 = rf"(?:(?:{_UNIT}|{_TEEN})?hundert(?:(?:und)?{_BELOW_100})?|{_BELOW_100})"
_CARDINAL = rf"(?:(?:{_BELOW_1000})?tausend(?:(?:und)?{_BELOW_1000})?|(?!ein\b){_BELOW_1000}|null)"
_STEM_UNIT = any_of(list(_STEMS))
_ORDINAL = (
    rf"(?:(?:{_BELOW_1000}?tausend(?:und)?)?(?:{_UNIT}?hundert(?:und)?)?(?:(?:{_UNIT}und)?{_TEN}st|(?<!zu )(?<!auf )"
    rf"(?<!zum ){_STEM_UNIT})|(?:{_BELOW_1000}?tausend)?{_UNIT}?hundertst|{_BELOW_1000}?tausendst)e[nrsm]?"
)

NUMERALS = Numerals(
    count_to_words=_count_to_words,
    ordinal_to_words=_ordinal_to_words,
    cardinal=_CARDINAL,
    cardinal_value=_cardinal_value,
    ordinal=_ORDINAL,
    ordinal_value=_ordinal_value,
    fraction=(
        rf"(?:halbe?|(?:(?:{_UNIT}?hundert(?:und)?)?(?:(?:{_UNIT}und)?{_TEN}st|{_STEM_UNIT})|hundertst|tausendst)el[ns]?)"
    ),
    fraction_value=_fraction_value,
    ones="ein",
    phrases={
        "ein halbes dutzend": (6, 1),
        "zwei dutzend": (24, 1),
        "ein dutzend": (12, 1),
        "die hälfte": (1, 2),
        "der hälfte": (1, 2),
        "zur hälfte": (1, 2),
        "einhalb": (1, 2),
        "eineinhalb": (3, 2),
        "anderthalb": (3, 2),
        "beide": (2, 1),
        "beiden": (2, 1),
        "beider": (2, 1),
        "beides": (2, 1),
        "einmal": (1, 1),
        "zweimal": (2, 1),
        **{f"{_count_to_words(number)}mal": (number, 1) for number in range(3, 100)},
        **{f"{article} einzige{end}": (1, 1) for article, end in (("eine", ""), ("einen", "n"), ("einem", "n"))},
        **{f"{article} einzige{end}": (1, 1) for article, end in (("ein", "r"), ("ein", "s"), ("einer", "n"))},
        **{f"{just} ein{end}": (1, 1) for just in ("nur", "genau") for end in ("", "e", "en", "em", "er", "es")},
    },
    bound_phrases={f"ein{end}": (1, 1) for end in ("", "e", "en", "em", "er", "es")},
    zeros=r"(?:kein(?:e[nmrs]?)?(?: einzige[nmrs]?)?|nicht ein(?:e[nmrs]?)?(?: einzige[nmrs]?)?|weder)",
    ignored=(
        r"(?:achten? (?:wir|sie|auf|darauf)"
        r"|noch einmal|auf einmal|einmal mehr|nicht einmal|erst einmal|zum ersten mal|in erster linie|keinen? zweifel"
        r"|fürs erste|als erstes|an erster stelle|im ersten moment|keine sorge|zweiter ordnung)"
    ),
    hedges=r"(?:etwa|ungefähr|rund|knapp|fast|gut|circa|ca\.|annähernd|beinahe|nahezu|gegen|in etwa)",
    minus="minus",
    percent="(?:%|prozent)",
    times="(?:mal)",
    decimal_mark=",",
    group_mark=".",
    ordinal_digits=(
        r"\.(?=\s+(?-i:[a-zäöü]|Stufe|Modus|Modi|Ton\b|Tones|Tons|Tonleiter|Mal|Ordnung|Platz|Intervall|Schritt))"
    ),
    shares="(?:von|aus|unter|auf)",
    every="jede[rsnm]?",
    and_word="und",
    or_word="oder",
    fraction_to_words=_fraction_to_words,
    hedge="etwa",
    minus_word="minus",
    percent_word="Prozent",
    no_word="keine",
    share_word="von",
    plural=lambda number: "one" if number == 1 else "other",
)

_SYMBOLS = {"♭♭": "bb", "𝄫": "bb", "♭": "b", "♯♯": "##", "𝄪": "##", "♯": "#"}
_LETTERS = names_in("german")
_WRITTEN = [_LETTERS.write(letter + sign) for letter in "CDEFGAB" for sign in ("", "b", "#", "bb", "##")]
_NOTE = (
    rf"(?:{'|'.join(sorted([*_WRITTEN, 'Asas'], key=len, reverse=True))}|[A-H](?:♭♭|𝄫|bb|♯♯|𝄪|##|♭|♯|#|b))"
    r"(?![^\W\d_]|[♭♯#])"
)
_PRONOUNS = frozenset({"Es", "Des", "As", "Eis"})


def _read_note(text: str) -> str | None:
    known = _LETTERS.read(text)
    if known is not None:
        return known
    letter, signs = text[0].upper(), _SYMBOLS.get(text[1:], text[1:])
    # A sign shows that the letters are the international ones, where B is a semitone below C.
    return {"H": "B"}.get(letter, letter) + signs


def _is_no_note(text: str, start: int, end: int, is_bound: bool) -> bool:  # noqa: FBT001
    """Whether *Es* or *Des* opens a sentence as a pronoun or article, or a letter is part of a longer word."""
    after = text[end : end + 60]
    if re.match(r"-(?!Dur\b|Moll\b|(?:[A-H](?:e?s|is)*)\b)\w|\.\s?[a-zA-Z]\.|['’]", after):
        return True
    if re.search(r"\b[A-Za-z]\.\s?$", text[max(0, start - 60) : start]) and re.match(r"\.", after):
        return True
    if text[start:end] == "A" and re.match(r"m (?!und|oder|nach|bis|zu)\w", after):
        return True  # the preposition "am"
    before = text[max(0, start - 60) : start].rstrip(" \t\n\"„“'([*_")
    if text[start:end] not in _PRONOUNS or (before and before[-1] not in ".!?:\n") or (not before and is_bound):
        return False
    return not re.match(r"\s*(?:[,;.:!?)–]|$)|\s+(?:und|bis|nach|oder|sowie|zu|vermindert|übermäßig|mit)\b|-", after)


_SEVEN = r"(?: mit (?:einer )?{} (?:Septime|Septe|Sept|7))"
_CHORD_WORDS = {
    "mM7": ("Moll mit großer Septime", "Moll" + _SEVEN.format("gro(?:ß|ss)er")),
    "+M7": ("übermäßig mit großer Septime", "überm(?:äß|äss)ig" + _SEVEN.format("gro(?:ß|ss)er")),
    "7#5": ("übermäßig mit kleiner Septime", "überm(?:äß|äss)ig" + _SEVEN.format("kleiner")),
    "7b5": ("hartvermindert mit kleiner Septime", "hartvermindert" + _SEVEN.format("kleiner")),
    "m6": ("Moll mit großer Sexte", "Moll mit gro(?:ß|ss)er Sexte"),
    "6": ("Dur mit großer Sexte", "Dur mit gro(?:ß|ss)er Sexte"),
    "5": ("mit leerer Quinte", "mit leerer Quinte"),
    "m7b5": (
        "halbvermindert",
        r"(?:halbverminderte?[rn]?(?: Septakkord)?|vermindert" + _SEVEN.format("kleiner") + ")",
    ),
    "dim7": ("vermindert mit verminderter Septime", "vermindert" + _SEVEN.format("verminderter")),
    "maj7": ("Dur mit großer Septime", "Dur" + _SEVEN.format("gro(?:ß|ss)er")),
    "m7": ("Moll mit kleiner Septime", "Moll(?:septakkord|" + _SEVEN.format("kleiner") + ")"),
    "7": ("Dur mit kleiner Septime", "(?:Dur" + _SEVEN.format("kleiner") + "|Dominantseptakkord)"),
    "dim": ("vermindert", r"vermindert(?:er (?:Drei|Ak)klang)?"),
    "aug": ("übermäßig", r"überm(?:äß|äss)ig(?:er Dreiklang)?"),
    "m": ("Moll", r"Moll(?:-?dreiklang|-?akkord)?|m(?=oll)"),
    "": ("Dur", r"Dur(?:-?dreiklang|-?akkord)?"),
}


def _speak_chord(root: str, suffix: str) -> str:
    spoken, words = _LETTERS.write(root), _CHORD_WORDS[suffix][0]
    if words.startswith("Moll"):
        return f"{spoken.lower()}-{words}"
    return f"{spoken}-{words}" if words.startswith("Dur") else f"{spoken} {words}"


_SIZES = {
    1: "Primen?",
    2: "Sekunden?",
    3: "Terz(?:en)?",
    4: "Quart(?:en?)?",
    5: "Quint(?:en?)?",
    6: "Sext(?:en?)?",
    7: "Sept(?:imen?|en?)?",
    8: "Oktaven?",
}
_QUALITIES = {
    "klein": {2: 1, 3: 3, 6: 8, 7: 10},
    "gro(?:ß|ss)": {2: 2, 3: 4, 6: 9, 7: 11},
    "rein": {1: 0, 4: 5, 5: 7, 8: 12},
    "überm(?:äß|äss)ig": {1: 1, 2: 3, 3: 5, 4: 6, 5: 8, 6: 10, 8: 13},
    "vermindert": {3: 2, 4: 4, 5: 6, 6: 7, 7: 9, 8: 11},
}


def _interval_patterns() -> tuple[tuple[str, int | None, int | None], ...]:
    patterns: list[tuple[str, int | None, int | None]] = [
        (rf"{quality}e[nrsm]? {_SIZES[size]}", semitones, size)
        for quality, sizes in _QUALITIES.items()
        for size, semitones in sizes.items()
    ]
    patterns += [(word, {1: 0, 4: 5, 5: 7, 8: 12}.get(size), size) for size, word in _SIZES.items()]
    patterns += [(r"Triton(?:us|i|en)", 6, None)]
    patterns += [(r"Halbt(?:on|öne?n?)(?:s|es|schritt(?:e[ns]?|s)?|abst(?:and|ände?n?))?", 1, None)]
    patterns += [(r"Ganzt(?:on|öne?n?)(?:s|es|schritt(?:e[ns]?|s)?)?", 2, None)]
    return tuple(patterns)


NAMES = NameWords(
    speak_note=_LETTERS.write,
    read_note=_read_note,
    note_pattern=_NOTE,
    is_no_note=_is_no_note,
    chord_words=_CHORD_WORDS,
    chord_root=(
        rf"(?:{'|'.join(sorted([*_WRITTEN, *(name.lower() for name in _WRITTEN)], key=len, reverse=True))}"
        r"|[A-Ha-h](?:♭|♯|#))(?:-(?=[DdMm])|[ ](?=[DdMmüÜvVhH]))"
    ),
    speak_chord=_speak_chord,
    chords_on=r" (?:auf|über) ",
    not_chord_before=r"-?(?:tonleiter|skala|pentatonik|Tonleiter|Skala|Pentatonik|Tonart|Bebop)",
    intervals={
        0: "Prime",
        1: "kleine Sekunde",
        2: "große Sekunde",
        3: "kleine Terz",
        4: "große Terz",
        5: "reine Quarte",
        6: "Tritonus",
        7: "reine Quinte",
        8: "kleine Sexte",
        9: "große Sexte",
        10: "kleine Septime",
        11: "große Septime",
        12: "Oktave",
    },
    interval_patterns=_interval_patterns(),
    step="Schritt",
    step_pattern=r"Schritt(?:en?)?|Stufen?|Ton|Tönen?",
    between="nach",
    after="gegen",
    signs={
        "bb": ("doppelt erniedrigte", r"doppelt erniedrigte[rnms]?|bb|♭♭|𝄫"),
        "##": ("doppelt erhöhte", r"doppelt erhöhte[rnms]?|##|♯♯|𝄪"),
        "b": ("erniedrigte", r"erniedrigte[rnms]?|tief(?:alteriert)?e[rnms]?|kleine[rnms]?|b|♭"),
        "#": ("erhöhte", r"erhöhte[rnms]?|hoch(?:alteriert)?e[rnms]?|hohe[rnms]?|#|♯"),
        "": ("", r"(?:gro(?:ß|ss)e[rnms]?|reine[rnms]?)?"),
    },
    altered={"bb": "doppelt erniedrigte", "##": "doppelt erhöhte", "b": "erniedrigte", "#": "erhöhte", "": ""},
    ratio="zu",
    stacked="geschichtet",
    plus="plus",
    here=("hier", "da"),
    scale_names={
        "octatonic, semitone first": "oktatonisch mit dem Halbton zuerst",
        "octatonic, tone first": "oktatonisch mit dem Ganzton zuerst",
        "hexatonic, semitone first": "hexatonisch mit dem Halbton zuerst",
        "hexatonic, minor third first": "hexatonisch mit der kleinen Terz zuerst",
        "major pentatonic": "Durpentatonik",
        "minor pentatonic": "Mollpentatonik",
        "harmonic minor": "harmonisch Moll",
        "melodic minor": "melodisch Moll",
        "harmonic major": "harmonisch Dur",
        "natural minor": "natürlich Moll",
        "bebop dominant": "Bebop-Dominantskala",
        "bebop major": "Bebop-Durskala",
        "Messiaen mode": "Messiaens Modus",
        "whole-tone": "Ganztonleiter",
        "mixolydian": "mixolydisch",
        "chromatic": "chromatisch",
        "phrygian": "phrygisch",
        "acoustic": "akustisch",
        "aeolian": "äolisch",
        "altered": "alteriert",
        "locrian": "lokrisch",
        "dorian": "dorisch",
        "ionian": "ionisch",
        "lydian": "lydisch",
        "thaat": "Thaat",
        "blues": "Blues",
        "mela": "Mela",
        "with added": "dazu",
        "natural": "aufgelöste",
        "without": "ohne",
        " and ": " und ",
        " on ": " auf ",
        "major": "Dur",
    },
    rooted_names={
        "major": "{Root}-Dur",
        "natural minor": "{root}-Moll",
        "harmonic minor": "harmonisch {root}-Moll",
        "melodic minor": "melodisch {root}-Moll",
        "harmonic major": "harmonisch {Root}-Dur",
        "major pentatonic": "{Root}-Dur-Pentatonik",
        "minor pentatonic": "{root}-Moll-Pentatonik",
    },
    mode_of="der {ordinal} Modus von {scale}",
)

CLAIMS = ClaimWords(
    negation=r"(?:nicht|nie|niemals|weder|kaum|ohne|kein(?:e[rsmn]?)?)",
    more=r"(?:mehr|größer\w*|höher\w*|länger\w*|reicher\w*)",
    fewer=r"(?:weniger|kleiner\w*|niedriger\w*|tiefer\w*|kürzer\w*|ärmer\w*)",
    same=r"(?:ebenso viele?|genauso viele?|gleich(?: viele?| groß| hoch)?|so viele? wie|dieselbe\w*|nicht mehr)",
    times=((r"doppelt", 2, 1), (r"dreimal", 3, 1), (r"halb", 1, 2)),
    joins=r"(?:,? und |,? oder |, |; )",
    endings="(?:s|n|en|e|er|es)",
)


def _nought(before: str, following: str) -> str:
    del before
    return "keine" if following else "null"


AGREEMENT = Agreement(
    nought=_nought,
    plural_before=r"\b(?:sind|waren|diese)\W*$",
    singular_before=r"\b(?:es ist|eine[nrms]?|jede[nrms]?)\W*$",
    inflected=r"(?:isch|al|ar|är|ig|iv|per|rt|nt)(e[nrms]?)$",
    is_plural=lambda _: False,  # no ending tells it
)


def tidy(text: str) -> str:
    """Write note names with capitals, as readers expect them.

    Parameters
    ----------
    text : str
        Typed or transcribed.

    Returns
    -------
    str
        As long as the text.

    Examples
    --------
    >>> tidy("zwischen e und f, in as-Moll")
    'zwischen E und F, in As-Moll'
    """
    text = re.sub(r"(?<![\w'.♯♭#])[b-h](?![\w'.)]\w|[\w'])", lambda found: found[0].upper(), text)
    return re.sub(
        r"(?<![\w'.])(?:[a-h](?:is|es)?|as|es)(?=-(?:[Mm]oll|[Dd]ur|dorisch|phrygisch|lydisch|mixolydisch))",
        lambda found: found[0].capitalize(), text,
    )  # fmt: skip
