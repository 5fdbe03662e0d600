"""Words in a transcript that are probably a technical term misheard.

Groups of up to four words are sounded out and compared with the terms. A group is proposed where it sounds nearly like
a term, holds more than ordinary words, and is no term itself; short terms, and single words, are proposed only beside a
word such as *scale*. Proposals change nothing.

**Conventions.** The distance allowed grows with the length of the term, from 0.05 for five phonemes or fewer to 0.19
for eight or more, and by 0.08 beside such a word. A group that ends with a term may still be a longer one, as
"mix a lydian" is, within 0.12.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from gamutwright.lessons.auditing.heard_lexicon import Lexicon
from gamutwright.lessons.auditing.records import Misheard
from gamutwright.lessons.auditing.transcript import Sentence, Transcript
from gamutwright.phrasing.sounds import phonemes, sound_distance

__all__ = ["mishearings"]

_LONGEST = 4
_REMEMBERED = 100_000
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)?")
_ALLOWED = {5: 0.05, 6: 0.1, 7: 0.15}
_MOST, _BESIDE, _AFTER_TERM = 0.19, 0.08, 0.12

_Found = tuple[float, int, int, str]


@lru_cache(maxsize=20_000)
def _stem(word: str, endings: str) -> str:
    return re.sub(endings, "", word.lower())


class _Terms:
    """The terms of a language and how they sound; what was compared once is remembered."""

    def __init__(self, lexicon: Lexicon) -> None:
        self._lexicon = lexicon
        self._sounds = [(term, tuple(sounds.split())) for term, sounds in lexicon.sounds.items()]
        self._kinds = [frozenset(sounds) for _, sounds in self._sounds]
        self._endings = lexicon.raw["term_endings"]
        self._known = {_stem(part, self._endings) for term, _ in self._sounds for part in term.split()}
        self._compared: dict[tuple[str, bool], tuple[tuple[float, str], ...]] = {}

    def is_known(self, word: str) -> bool:
        """Whether a word is part of a term, but for its ending."""
        return _stem(word, self._endings) in self._known

    def like(self, group: list[str], *, is_beside: bool) -> tuple[tuple[float, str], ...]:
        """Give the terms that a group of words sounds like, each with its distance."""
        words = " ".join(group).lower()
        key = (words, is_beside)
        if key not in self._compared:
            if len(self._compared) >= _REMEMBERED:
                self._compared.clear()
            self._compared[key] = tuple(self._alike(words.split(" "), is_beside=is_beside))
        return self._compared[key]

    def _alike(self, group: list[str], *, is_beside: bool) -> Iterator[tuple[float, str]]:
        if all(word in self._lexicon.ordinary for word in group):
            return
        heard = phonemes(" ".join(group), self._lexicon.language)
        in_heard = set(heard)
        ending, is_one = group[-1], len(group) == 1
        is_known = self.is_known(ending)
        for (term, sounds), kinds in zip(self._sounds, self._kinds, strict=True):
            if is_known and (is_one or not term.endswith(ending) or term == ending):
                continue
            if abs(len(heard) - len(sounds)) > 3 or ((len(sounds) <= 5 or is_one) and not is_beside):
                continue
            if 2 * len(in_heard & kinds) < len(kinds):
                continue
            allowed = _AFTER_TERM if is_known else _ALLOWED.get(max(5, len(sounds)), _MOST) + _BESIDE * is_beside
            distance = sound_distance(heard, sounds, allowed)
            if distance <= allowed and (not is_one or ending != term.lower()):
                yield distance, term


def mishearings(transcript: Transcript, lexicon: Lexicon) -> tuple[Misheard, ...]:
    """Find words that sound like terms.

    Parameters
    ----------
    transcript : Transcript
        The text.
    lexicon : Lexicon
        The terms of the language, with their sounds.

    Returns
    -------
    tuple of Misheard
        Proposals in the order of the text.
    """
    terms = _Terms(lexicon)
    found = []
    for number, sentence in enumerate(transcript.sentences):
        for distance, start, end, term in _in_sentence(sentence, terms, lexicon):
            words, place = sentence.text[start:end], sentence.place_at(start)
            found.append(
                Misheard(
                    number, words, term, round(distance, 3), place, sentence.line_at(start), sentence.time_at(start)
                )
            )
    return tuple(found)


def _in_sentence(sentence: Sentence, terms: _Terms, lexicon: Lexicon) -> list[_Found]:
    words = list(_WORD.finditer(sentence.text))
    candidates: list[_Found] = []
    for first in range(len(words)):
        for last in range(first, min(first + _LONGEST, len(words))):
            if last > first and sentence.text[words[last - 1].end() : words[last].start()] not in {" ", "-"}:
                break
            if last > first and terms.is_known(words[last - 1][0]):
                break
            following = words[last + 1][0] if last + 1 < len(words) else ""
            is_beside = lexicon.beside_term.fullmatch(following) is not None
            start, end = words[first].start(), words[last].end()
            group = [word[0] for word in words[first : last + 1]]
            candidates += [(distance, start, end, term) for distance, term in terms.like(group, is_beside=is_beside)]
    kept: list[_Found] = []
    for candidate in sorted(candidates):
        if not any(candidate[1] < end and start < candidate[2] for _, start, end, _ in kept):
            kept.append(candidate)
    return sorted(kept, key=lambda one: one[1])
