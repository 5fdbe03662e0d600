"""English: numerals and the names of notes, chords and intervals."""

from __future__ import annotations

import re
from collections.abc import Sequence

from gamutwright.languages.language import Agreement, ClaimWords, NameWords, Numerals, any_of

__all__ = ["AGREEMENT", "CLAIMS", "NAMES", "NUMERALS", "tidy"]

_UNITS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
_TEENS = ["ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"]
_TENS = ["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"]
_VALUES = (
    {word: value for value, word in enumerate((*_UNITS, *_TEENS), 1)}
    | {word: 10 * value for value, word in enumerate(_TENS, 2)}
    | {"zero": 0, "a": 1}
)
_IRREGULAR = {
    "one": "first",
    "two": "second",
    "three": "third",
    "five": "fifth",
    "eight": "eighth",
    "nine": "ninth",
    "twelve": "twelfth",
}


def _count_to_words(number: int) -> str:
    if number >= 1000:
        head, rest = divmod(number, 1000)
        joiner = " and " if 0 < rest < 100 else " "
        return f"{_count_to_words(head)} thousand" + (joiner + _count_to_words(rest) if rest else "")
    if number >= 100:
        head, rest = divmod(number, 100)
        return f"{_UNITS[head - 1]} hundred" + (f" and {_count_to_words(rest)}" if rest else "")
    if number >= 20:
        head, rest = divmod(number, 10)
        return _TENS[head - 2] + (f"-{_UNITS[rest - 1]}" if rest else "")
    return "zero" if number == 0 else (_UNITS + _TEENS)[number - 1]


def _ordinal_word(word: str) -> str:
    return _IRREGULAR.get(word, word[:-1] + "ieth" if word.endswith("y") else word + "th")


_ORDINALS = {_ordinal_word(word): word for word in (*_UNITS, *_TEENS, *_TENS, "hundred", "thousand")}


def _ordinal_to_words(number: int) -> str:
    words = _count_to_words(number)
    head, last = re.fullmatch(r"(.*?)(\w+)", words).groups()  # type: ignore[union-attr]
    return head + _ordinal_word(last)


def _cardinal_value(words: str) -> int:
    total = part = 0
    for word in re.split(r"[\s,-]+", words.lower()):
        if word == "hundred":
            part = (part or 1) * 100
        elif word == "thousand":
            total, part = (part or 1) * 1000, 0
        elif word != "and":
            part += _VALUES[word]
    return total + part


def _ordinal_value(words: str) -> int:
    parts = re.split(r"[\s-]+", words.lower())
    return _cardinal_value(" ".join([*parts[:-1], _ORDINALS[parts[-1]]]))


_UNIT, _TEEN, _TEN = any_of(_UNITS), any_of(_TEENS), any_of(_TENS)
_BELOW_100 = rf"(?:{_TEN}(?:[- ]{_UNIT}\b)?|{_TEEN}|{_UNIT})"
_BELOW_1000 = rf"(?:(?:{_BELOW_100}|a) hundred\b(?: (?:and )?{_BELOW_100}\b)?|{_BELOW_100})"
_CARDINAL = rf"(?:(?:{_BELOW_1000}|a) thousand\b(?:,? (?:and )?{_BELOW_1000}\b)?|{_BELOW_1000}|zero)"
_ORD_UNIT = any_of([_ordinal_word(word) for word in _UNITS])
_ORD_LATER = any_of([_ordinal_word(word) for word in (*_TEENS, *_TENS)])
_ORD_100 = rf"(?:(?:{_TEN})[- ]{_ORD_UNIT}|{_ORD_LATER}|{_ORD_UNIT})"
_ORDINAL = (
    rf"(?:(?:{_BELOW_1000} thousand\b,? (?:and )?)?(?:{_UNIT} hundred\b (?:and )?)?{_ORD_100}"
    rf"|(?:{_BELOW_1000} thousand )?{_UNIT} hundredth|{_BELOW_1000} thousandth)"
)
_DENOMINATORS = {"half": 2, "halve": 2, "quarter": 4}


def _fraction_value(words: str) -> int:
    word = words.lower()
    single = word.removesuffix("s")
    return _DENOMINATORS.get(single) or _ordinal_value(single)


def _fraction_to_words(numerator: int, denominator: int) -> str:
    if denominator == 2:
        return "one half"
    return f"{_count_to_words(numerator)} {_ordinal_to_words(denominator)}{'s' if numerator > 1 else ''}"


NUMERALS = Numerals(
    count_to_words=_count_to_words,
    ordinal_to_words=_ordinal_to_words,
    cardinal=_CARDINAL,
    cardinal_value=_cardinal_value,
    ordinal=_ORDINAL,
    ordinal_value=_ordinal_value,
    fraction=(
        rf"(?:half|halves|quarters?|third(?=\s+of\b)|(?:{_TEN}-)?(?:(?!first|second){_ORD_UNIT}|{_ORD_LATER})s?"
        rf"|{_TEN}-(?:first|second)s?|hundredths?|thousandths?)"
    ),
    fraction_value=_fraction_value,
    ones="a(?= (?:half|quarter|(?:third|fifth|sixth|seventh|eighth|ninth|tenth) of|hundredth|thousandth))",
    phrases={
        "half a dozen": (6, 1),
        "two dozen": (24, 1),
        "a dozen": (12, 1),
        "both": (2, 1),
        "a single": (1, 1),
        "only one": (1, 1),
        "once": (1, 1),
        "twice": (2, 1),
        "thrice": (3, 1),
        "half": (1, 2),
    },
    bound_phrases={"a": (1, 1), "an": (1, 1)},
    zeros=r"(?:none|neither|no|not one|not a single)",
    ignored=(
        r"(?:once (?:more|again|we|you|it|they|there|the)|at once|one another|no one|no longer|no matter|no more than"
        r"(?= (?:that|this))|one by one|at first|first of all|at second|second to none|seventh chords?|second-order"
        r"|one-step|five-limit|half[- ]steps?|half[- ]octaves?|half-diminished|half an octave|each one|every one"
        r"|any ?one|(?:this|that|the|which|another|other|such an?|a \w+|the \w+) one\b(?! (?:of|in|hundred|thousand))"
        r"|one (?:can|could|may|might|must|will|would|should|hears?|sees?|feels?|gets?|says?|calls?|has|needs)"
        r"|twelve-tone|half(?:-| )?note|no doubt|one's)"
    ),
    hedges=(
        r"(?:about|around|roughly|nearly|almost|approximately|some|circa|close to|just (?:under|over)|a little (?:under"
        r"|over|more than|less than)|more or less)"
    ),
    after_hedge="(?:an?|the)",
    minus="(?:minus|negative)",
    percent="(?:%|percent|per cent)",
    times="(?:times)",
    decimal_mark=".",
    group_mark=",",
    ordinal_digits="(?:st|nd|rd|th)",
    shares="(?:out of|of every|in every|in|of)",
    every="every",
    and_word="and",
    or_word="or",
    fraction_to_words=_fraction_to_words,
    hedge="about",
    minus_word="minus",
    percent_word="percent",
    no_word="no",
    share_word="of",
    plural=lambda number: "one" if number == 1 else "other",
)

_SIGN_WORDS = {"": "", "b": " flat", "bb": " double flat", "#": " sharp", "##": " double sharp"}
_NOTE = (
    r"[A-G](?:[- ](?:double[- ]flat|double[- ]sharp|flat|sharp|natural)\b|♭♭|𝄫|bb(?![a-z])|♯♯|𝄪|##|♭|♯|#|b(?![a-z])"
    r"|(?![^\W\d_]|[♭♯#]))"
)
_READ_SIGN = {"": "", "natural": "", "flat": "b", "sharp": "#", "doubleflat": "bb", "doublesharp": "##"}
_READ_SIGN |= {
    "♭": "b",
    "♭♭": "bb",
    "𝄫": "bb",
    "♯": "#",
    "♯♯": "##",
    "𝄪": "##",
    "b": "b",
    "bb": "bb",
    "#": "#",
    "##": "##",
}
_AFTER_A_NOTE = frozenset(
    re.split(
        r"\s+",
        "to and or is has lies stands with without above below up down comes leads moves goes carries belongs makes "
        "sounds through then gives takes becomes falls rises lacks over",
    )
)
_KINDS = frozenset({"major", "minor", "diminished", "augmented", "half-diminished", "dominant"})
_NOUNS = frozenset(
    re.split(
        r"\s+",
        "second third fourth fifth sixth seventh octave triad triads chord scale tone interval step pentatonic key "
        "mode or and",
    )
)


def _speak_note(name: str) -> str:
    return name[0] + _SIGN_WORDS[name[1:]]


def _read_note(text: str) -> str | None:
    return text[0] + _READ_SIGN[re.sub(r"[- ]", "", text[1:])]


def _is_no_note(text: str, start: int, end: int, is_bound: bool) -> bool:  # noqa: FBT001
    """Whether a capital A is the article, or a letter is an initial."""
    after = text[end : end + 60]
    if re.match(r"\.\s?[A-Z]\.|-(?!(?:[A-G]\b))\w|['’]", after):
        return True
    if re.search(r"\b[A-Z]\.\s?$", text[max(0, start - 60) : start]) and re.match(r"\.", after):
        return True
    if text[start:end] == "Ebb" and after.startswith(" and flow"):
        return True
    before = text[max(0, start - 60) : start].rstrip(" \t\n\"“'([*_")
    if text[start:end] != "A" or (before and before[-1] not in ".!?:\n") or (not before and is_bound):
        return False
    following = re.findall(r"[\w-]+", after) if after[:1].isspace() else []
    if not following:
        return False
    if following[0] in _KINDS:
        return following[1:2] != [] and following[1] in _NOUNS
    return following[0] not in _AFTER_A_NOTE


_CHORD_WORDS = {
    "mM7": ("minor with a major seventh", r"minor[- ](?:with (?:a )?)?major[- ]seven(?:th)?(?: chord)?"),
    "+M7": ("augmented with a major seventh", r"augmented (?:with (?:a )?)?major[- ]seven(?:th)?(?: chord)?"),
    "7#5": ("seventh with a sharp fifth", r"(?:dominant )?seven(?:th)? (?:with a )?sharp (?:fifth|five)"),
    "7b5": ("seventh with a flat fifth", r"(?:dominant )?seven(?:th)? (?:with a )?flat (?:fifth|five)"),
    "m6": ("minor with an added sixth", r"minor,? with an added (?:sixth|six)"),
    "6": ("major with an added sixth", r"major,? with an added (?:sixth|six)"),
    "5": ("with its fifth alone", r"with its fifth alone"),
    "m7b5": (
        "half-diminished seventh",
        r"(?:half[- ]diminished(?: seven(?:th)?)?|minor seven(?:th)?,? flat (?:five|5|fifth))(?: chord)?",
    ),
    "dim7": ("diminished seventh", r"diminished seven(?:th)?(?: chord)?"),
    "maj7": ("major seventh", r"major seven(?:th)?(?: chord)?"),
    "m7": ("minor seventh", r"minor seven(?:th)?(?: chord)?"),
    "7": ("dominant seventh", r"(?:dominant )?seven(?:th)?(?: chord)?"),
    "dim": ("diminished", r"diminished(?: triad| chord)?"),
    "aug": ("augmented", r"augmented(?: triad| chord)?"),
    "m": ("minor", r"minor(?: triad| chord)?"),
    "": ("major", r"major(?: triad| chord)?"),
}
_SIZES = {1: "unison", 2: "second", 3: "third", 4: "fourth", 5: "fifth", 6: "sixth", 7: "seventh", 8: "octave"}
_QUALITIES = {
    "minor": {2: 1, 3: 3, 6: 8, 7: 10},
    "major": {2: 2, 3: 4, 6: 9, 7: 11},
    "perfect": {1: 0, 4: 5, 5: 7, 8: 12},
    "augmented": {1: 1, 2: 3, 3: 5, 4: 6, 5: 8, 6: 10, 8: 13},
    "diminished": {3: 2, 4: 4, 5: 6, 6: 7, 7: 9, 8: 11},
}
_ORDINAL_NOUN = (
    r"(?:mode|degree|tone|note|scale|chord|time|step|of|place|root|half|part|row|thing|chapter|line|picture|lesson"
    r"|order|finger|string|fret|key|one|look|sight|case|group|example|inversion|rule|way|kind|name|entry|coefficient"
    r"|spectrum|size|question|tuning|class|word|letter|voice|species|transposition|neighbour|number)s?"
)


def _not_fraction(size: int) -> str:
    """Lookbehinds that leave "two thirds" to the fractions."""
    return "".join(f"(?<!{word} )(?<!{word}-)" for word in _UNITS[: size - 1])


def _interval_patterns() -> tuple[tuple[str, int | None, int | None], ...]:
    patterns: list[tuple[str, int | None, int | None]] = [
        (rf"(?<!half-)(?<!half ){quality} {_SIZES[size]}s?(?! chord)", semitones, size)
        for quality, sizes in _QUALITIES.items()
        for size, semitones in sizes.items()
    ]
    for size in range(2, 8):
        word, usual = _SIZES[size], {4: 5, 5: 7}.get(size)
        patterns += [
            (rf"{_not_fraction(size)}{word}s(?! chord)", usual, size),
            (rf"{word}(?= (?:above|below|higher|lower|up\b|down\b|apart|over|under))", usual, size),
            (rf"(?<=\ba ){word}(?! {_ORDINAL_NOUN}\b)", usual, size),
            (rf"(?<=another ){word}(?! {_ORDINAL_NOUN}\b)", usual, size),
        ]
    patterns += [("octaves?", 12, 8), ("unisons?", 0, 1), ("tritones?", 6, None)]
    patterns += [(r"semitones?|half[- ]steps?", 1, None), (r"whole[- ](?:tones?|steps?)(?![- ]scale)", 2, None)]
    return tuple(patterns)


NAMES = NameWords(
    speak_note=_speak_note,
    read_note=_read_note,
    note_pattern=_NOTE,
    is_no_note=_is_no_note,
    chord_words=_CHORD_WORDS,
    chord_root=rf"{_NOTE} ",
    speak_chord=lambda root, suffix: f"{_speak_note(root)} {_CHORD_WORDS[suffix][0]}",
    chords_on=r" (?:on|above|over) ",
    not_chord_before=r"[- ](?:scales?|pentatonic|keys?|modes?|third|second|sixth|triads|chords|bebop|hexatonic)\b",
    intervals={
        0: "unison",
        1: "minor second",
        2: "major second",
        3: "minor third",
        4: "major third",
        5: "perfect fourth",
        6: "tritone",
        7: "perfect fifth",
        8: "minor sixth",
        9: "major sixth",
        10: "minor seventh",
        11: "major seventh",
        12: "octave",
    },
    interval_patterns=_interval_patterns(),
    step="step",
    step_pattern=r"steps?|tones?|notes?|number",
    between="to",
    after="against",
    signs={
        "bb": ("double flat", r"double[- ]flat|doubly lowered|bb|♭♭|𝄫"),
        "##": ("double sharp", r"double[- ]sharp|doubly raised|##|♯♯|𝄪"),
        "b": ("flat", r"flat|flattened|lowered|b|♭"),
        "#": ("sharp", r"sharp|sharpened|raised|#|♯"),
        "": ("", r"(?:natural|major|perfect)?"),
    },
    altered={"bb": "doubly lowered", "##": "doubly raised", "b": "lowered", "#": "raised", "": ""},
    ratio="to",
    stacked="stacked",
    plus="plus",
    here=("here", "there"),
    scale_names={},
    rooted_names={},
    mode_of="the {ordinal} mode of {scale}",
)

CLAIMS = ClaimWords(
    negation=r"(?:not|never|cannot|neither|nor|hardly|without|lacks?|fails? to|\w+n['’]t)",
    more=r"(?:more|larger|greater|higher|bigger|longer|richer|further|above)",
    fewer=r"(?:fewer|less|smaller|lower|shorter|poorer|below)",
    same=(r"(?:as many|just as many|equally many|the same(?: number)?|as large|as few|as high|equal(?:s|ly)?|no more)"),
    times=((r"twice", 2, 1), (r"three times", 3, 1), (r"half", 1, 2), (r"double", 2, 1)),
    joins=r"(?:,? and |,? or |, |; )",
    endings="(?:s|es)",
)

_SOUNDS_AS_VOWEL = re.compile(r"(?!(?:uni|use|eu|one\b|once))[aeiou]", re.IGNORECASE)


def _nought(before: str, following: str) -> str:
    """Say no tones, none of its tones, there are none, zero."""
    if not following:
        return "none" if re.search(r"\bthere\b", before, re.IGNORECASE) else "zero"
    return "none" if following.casefold() == "of" else "no"


def _article(article: str, words: str) -> str:
    del article
    return "an" if _SOUNDS_AS_VOWEL.match(words) else "a"


def _is_plural(words: Sequence[str]) -> bool:
    return any(word.endswith("s") for word in words[:3])


AGREEMENT = Agreement(
    nought=_nought,
    plural_before=r"\b(?:are|were|these|those)\W*$",
    singular_before=r"\b(?:there is|this|that|an?|another)\W*$",
    articles="an?",
    article=_article,
    is_plural=_is_plural,
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
    >>> tidy("between e and f, in c minor to b flat")
    'between E and F, in C minor to B flat'
    """
    text = re.sub(r"(?<![\w'.♯♭#])[b-g](?![\w'.)]\w|[\w'])", lambda found: found[0].upper(), text)
    text = re.sub(r"(?<![\w'.])a(?= (?:flat|sharp)(?:,|\.| and| to|$))", "A", text)
    return re.sub(
        r"(?<=[B-G])((?: sharp| flat|[♯♭#])?(?:,|,? and|,? to) )a(?=,|\.|$| and [B-G]\b)", lambda m: m[1] + "A", text
    )
