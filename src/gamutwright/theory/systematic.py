"""A systematic name for every scale of twelve: how it departs from the nearest familiar scale on the same root.

Familiar scales are, in this order, ionian, aeolian, dorian, phrygian, lydian, mixolydian, locrian, harmonic minor,
melodic minor and harmonic major. Their degrees and the scale's tones are aligned in rising order (dynamic programming,
Needleman & Wunsch 1970). An altered degree, one left out and one added each count as one change, a double accidental as
two. The scale with the fewest changes gives the name, ties going to the earlier one; within one, ties go to the
fewest words, then to the smallest alterations.

Conventions: degrees are always measured from the major scale: `dorian #4`, `phrygian natural 6`,
`ionian without 4 and 7`, `aeolian with added b2`. Only rooted sets have such a name.
"""

from __future__ import annotations

import re
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale

__all__ = ["FAMILIAR", "scale_from_systematic_name", "systematic_name"]

FAMILIAR = {
    "ionian": (0, 2, 4, 5, 7, 9, 11),
    "aeolian": (0, 2, 3, 5, 7, 8, 10),
    "dorian": (0, 2, 3, 5, 7, 9, 10),
    "phrygian": (0, 1, 3, 5, 7, 8, 10),
    "lydian": (0, 2, 4, 6, 7, 9, 11),
    "mixolydian": (0, 2, 4, 5, 7, 9, 10),
    "locrian": (0, 1, 3, 5, 6, 8, 10),
    "harmonic minor": (0, 2, 3, 5, 7, 8, 11),
    "melodic minor": (0, 2, 3, 5, 7, 9, 11),
    "harmonic major": (0, 2, 4, 5, 7, 8, 11),
}
_ALIASES = {"major": "ionian", "natural minor": "aeolian", "minor": "aeolian"}
_MAJOR = FAMILIAR["ionian"]
_ADDED = {0: "1", 1: "b2", 2: "2", 3: "b3", 4: "3", 5: "4", 7: "5", 8: "b6", 9: "6", 10: "b7", 11: "7"}
_WIDEST = 2

_Change = tuple[str, int, int]
"""What happens (`alter`, `omit` or `add`), the degree's index in the familiar scale, and the tone."""
_Path = tuple[tuple[int, int, int], tuple[_Change, ...]]
"""Changes counted, words and size of alterations so far; and the changes."""


def _degree(index: int, tone: int) -> str:
    signs = tone - _MAJOR[index]
    return ("#" * signs or "b" * -signs) + str(index + 1)


def _align(tones: tuple[int, ...], familiar: tuple[int, ...]) -> _Path:
    """Align two rising rows of tones with the fewest changes; the root stays the root."""
    rows: list[_Path] = [((0, 0, 0), ())]
    for tone in tones[1:]:
        rows.append(_with(rows[-1], ("add", 0, tone)))
    for index in range(1, 7):
        column = [_with(rows[0], ("omit", index, 0))]
        for place, tone in enumerate(tones[1:], 1):
            options = [_with(column[-1], ("add", 0, tone)), _with(rows[place], ("omit", index, 0))]
            if tone == familiar[index]:
                options.append(rows[place - 1])
            elif (signs := abs(tone - _MAJOR[index])) <= _WIDEST:
                size = abs(tone - familiar[index])
                options.append(_with(rows[place - 1], ("alter", index, tone), max(signs, 1), size))
            column.append(min(options))
        rows = column
    return rows[-1]


def _with(path: _Path, change: _Change, count: int = 1, size: int = 0) -> _Path:
    (counted, words, sizes), changes = path
    return ((counted + count, words + 1, sizes + size), (*changes, change))


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def systematic_name(scale: Scale) -> str:
    """Name a scale as an alteration of the nearest familiar scale on its root.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    str
        The name, without the root; different for different tones.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions, or its root is not one of its tones.

    Examples
    --------
    >>> systematic_name(Scale.of(0, 2, 3, 6, 7, 9, 10)), systematic_name(Scale.of(0, 2, 4, 7, 9))
    ('dorian #4', 'ionian without 4 and 7')
    """
    if scale.divisions != 12 or not scale.is_rooted:
        raise DomainError(
            f"{scale.divisions} divisions" if scale.divisions != 12 else "a set without its root",
            "systematic names alter a familiar scale of twelve divisions on the same root",
            "Speak of its pitch classes instead.",
        )
    return _name(scale.mask)


@lru_cache(maxsize=1 << 12)
def _name(mask: int) -> str:
    tones = Scale(mask).tones
    best: tuple[int, str, tuple[_Change, ...]] | None = None
    for base, familiar in FAMILIAR.items():
        shared = sum(mask >> tone & 1 for tone in familiar)
        if best and max(len(tones), 7) - shared >= best[0]:
            continue  # an alteration mends at most one tone on each side
        (count, *_), changes = _align(tones, familiar)
        if best is None or count < best[0]:
            best = (count, base, changes)
    if best is None:
        raise AssertionError
    return _written(best[1], best[2], mask)


def _written(base: str, changes: tuple[_Change, ...], mask: int) -> str:
    words = [base]
    for kind, index, tone in changes:
        if kind == "alter":
            degree = _degree(index, tone)
            words.append(degree if degree[0] in "b#" else f"natural {degree}")
    omitted = [str(index + 1) for kind, index, _ in changes if kind == "omit"]
    tritone = "b5" if mask >> 5 & 1 else "#4"
    added = [_ADDED.get(tone, tritone) for kind, _, tone in changes if kind == "add"]
    if omitted:
        words.append(f"without {_listed(omitted)}")
    if added:
        words.append(f"with added {_listed(added)}")
    return " ".join(words)


_SYMBOLS = str.maketrans({"♯": "#", "♭": "b", "𝄪": "##", "𝄫": "bb", "♮": "natural "})
_BASE = re.compile(rf"({'|'.join(sorted((*FAMILIAR, *_ALIASES), key=len, reverse=True))})\b")
_TOKEN = re.compile(r"(?:(natural|sharp|flat)\s+)?(##|#|bb|b|)([1-7])")


def scale_from_systematic_name(text: str) -> int:
    """Read a systematic name.

    Parameters
    ----------
    text : str
        The name without a root: a familiar scale, altered degrees, `without ...`, `with added ...`.

    Returns
    -------
    int
        Mask of the tones above the root.

    Raises
    ------
    DomainError
        If it is no such name, or its changes contradict each other.

    Examples
    --------
    >>> Scale(scale_from_systematic_name("ionian without 4 and 7")).tones
    (0, 2, 4, 7, 9)
    """
    plain = " ".join(text.translate(_SYMBOLS).lower().replace(",", " ").split())
    found = _BASE.match(plain)
    if not found:
        raise DomainError(
            f"'{text}'",
            f"a systematic name begins with a familiar scale ({', '.join(FAMILIAR)})",
            "Write it like: dorian #4, or ionian without 4 and 7.",
        )
    base = _ALIASES.get(found[1], found[1])
    parts = re.fullmatch(r"(.*?)(?:without (.*?))?(?:with added (.*))?", plain[found.end() :].strip())
    altered, omitted, added = (_read_degrees(part or "", text) for part in parts.groups()) if parts else ([], [], [])
    degrees = dict(enumerate(FAMILIAR[base], 1))
    for number, tone in altered:
        if number == 1 or tone == degrees[number] or degrees[number] != FAMILIAR[base][number - 1]:
            raise _refusal(text, f"degree {number} cannot be altered to tone {tone} of {base}")
        degrees[number] = tone
    for number, tone in omitted:
        if number == 1 or number not in degrees or tone != _MAJOR[number - 1]:
            raise _refusal(text, f"degree {number} cannot be left out, or is left out twice or with a sign")
        del degrees[number]
    tones = [*degrees.values(), *(tone for _, tone in added)]
    if len({tone % 12 for tone in tones}) < len(tones):
        raise _refusal(text, "two of its degrees are the same tone")
    return sum(1 << tone % 12 for tone in tones)


def _refusal(text: str, rule: str) -> DomainError:
    return DomainError(f"'{text}'", rule, "Check the degrees; they are measured from the major scale.")


def _read_degrees(part: str, text: str) -> list[tuple[int, int]]:
    """Read degrees with their signs: number and tone."""
    part = " ".join(word for word in part.split() if word != "and")
    found, place = [], 0
    while place < len(part):
        token = _TOKEN.match(part, place)
        if not token or (token[1] and token[2]):
            raise _refusal(text, f"'{part[place:]}' is no degree such as b3, #4 or natural 6")
        signs = token[2].count("#") - token[2].count("b") + {"sharp": 1, "flat": -1}.get(token[1] or "", 0)
        found.append((int(token[3]), _MAJOR[int(token[3]) - 1] + signs))
        place = token.end() + (part[token.end() : token.end() + 1] == " ")
    return found
