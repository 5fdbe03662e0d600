"""How English and German words sound, near enough to notice when a machine has misheard a term.

The idea: automatic captions write what they hear in words they know: "door Ian" for *dorian*, "try tone" for *tritone*.
Spelled letters are turned into phonemes by a small set of rules of our own, and two rows of phonemes are compared by a
weighted edit distance in which sounds that are often confused cost little.

**Conventions.** Phonemes are written in the small letters of the ARPAbet (common practice in speech research, no
source), without stress. The rules are coarse: they read ordinary spelling and no exceptions; terms whose spelling
misleads have their phonemes in `heard-<language>.toml`. Distances are divided by the number of phonemes of the term:
0 is the same sound, 1 nothing in common.
"""

from __future__ import annotations

import re
from functools import lru_cache
from math import inf

from gamutwright.languages import language_of

__all__ = ["phonemes", "sound_distance"]


@lru_cache(maxsize=4)
def _rules(language: str) -> tuple[tuple[re.Pattern[str], tuple[str, ...]], ...]:
    rules = []
    for item in language_of(language).table("sounds")["rules"].strip("\n").replace("\n", "|").split("|"):
        spelling, _, sound = item.partition(" ")
        rules.append((re.compile(spelling), tuple(sound.split())))
    return tuple(rules)


@lru_cache(maxsize=20_000)
def phonemes(words: str, language: str) -> tuple[str, ...]:
    """Turn spelled words into sounds.

    Parameters
    ----------
    words : str
        One word or several; the sounds of several run together.
    language : str
        en or de.

    Returns
    -------
    tuple of str
        Phonemes.

    Examples
    --------
    >>> phonemes("try tone", "en"), phonemes("semitone", "en")
    (('t', 'r', 'ay', 't', 'ow', 'n'), ('s', 'eh', 'm', 'ih', 't', 'ow', 'n'))
    """
    found: list[str] = []
    rewrite = language_of(language).table("sounds").get("rewrite")
    for word in re.findall(r"[^\W\d_]+", words.lower().replace("'", "")):
        if rewrite and re.fullmatch(rewrite[0], word):
            word = re.sub(rewrite[0], rewrite[1], word)  # noqa: PLW2901 - as the language says
        place = 0
        while place < len(word):
            for spelling, sound in _rules(language):
                match = spelling.match(word, place)
                if match and match.end() > place:
                    found += [match.expand(part) if "\\" in part else part for part in sound]
                    place = match.end()
                    break
            else:
                place += 1
    return tuple(one for k, one in enumerate(found) if k == 0 or one != found[k - 1])


_VOWELS = {
    "iy": (0, 0), "ih": (1, 0), "ey": (2, 0), "eh": (3, 0), "ae": (4, 1), "ah": (3, 2), "er": (3, 2), "aa": (5, 3),
    "ao": (4, 4), "a": (5, 2), "ow": (2, 4), "uw": (0, 4), "ay": (4, 2), "aw": (4, 3), "oy": (3, 4),
}  # fmt: skip
"""Height from 0, closed, and place from 0, front."""

_ALIKE = (
    "p b", "t d", "k g", "f v", "s z", "sh zh", "ch jh", "th f", "th s", "th t", "m n", "n ng", "l r", "w v", "sh ch",
    "s sh", "ts s", "ts t", "zh jh", "d th", "b v", "k h", "y iy", "y ih", "w uw", "jh d", "ch t", "g jh",
)  # fmt: skip
_PAIRS = {frozenset(pair.split()) for pair in _ALIKE}
_WEAK = {"ah": 0.3, "ih": 0.4, "er": 0.5, "h": 0.35, "y": 0.25, "w": 0.5, "iy": 0.5, "eh": 0.5}


@lru_cache(maxsize=256)
def _weight(one: str) -> float:
    return _WEAK.get(one, 0.6 if one in _VOWELS else 0.9)


@lru_cache(maxsize=8192)
def _change(one: str, other: str) -> float:
    if one == other:
        return 0.0
    if one in _VOWELS and other in _VOWELS:
        (height, place), (height_, place_) = _VOWELS[one], _VOWELS[other]
        weak = {"ah", "ih", "er"} & {one, other}
        return min(0.7, 0.12 + 0.09 * (abs(height - height_) + abs(place - place_))) * (0.7 if weak else 1.0)
    return 0.35 if frozenset((one, other)) in _PAIRS else 1.2


def sound_distance(heard: tuple[str, ...], term: tuple[str, ...], most: float = inf) -> float:
    """Compare two rows of phonemes.

    Parameters
    ----------
    heard, term : tuple of str
        Phonemes; the length of the term is the measure.
    most : float
        The largest distance of interest.

    Returns
    -------
    float
        Weighted edit distance for each phoneme of the term; infinite where it exceeds `most`.

    Examples
    --------
    >>> sound_distance(phonemes("try tone", "en"), phonemes("tritone", "en")) < 0.1
    True
    >>> sound_distance(phonemes("harbour", "en"), phonemes("tritone", "en")) > 0.5
    True
    """
    row = [0.0]
    for other in term:
        row.append(row[-1] + _weight(other))
    length = max(1, len(term))
    weights = [_weight(other) for other in term]
    for one in heard:
        lost = _weight(one)
        above, row = row, [row[0] + lost]
        for k, other in enumerate(term):
            row.append(min(above[k] + _change(one, other), above[k + 1] + lost, row[k] + weights[k]))
        if min(row) > most * length:
            return inf
    return row[-1] / length
