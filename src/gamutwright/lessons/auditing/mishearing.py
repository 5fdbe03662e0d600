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

from gamutwright.lessons.auditing.lexicon import Lexicon
from gamutwright.lessons.auditing.records import Misheard
from gamutwright.lessons.auditing.transcript import Sentence, Transcript
from gamutwright.phrasing.sounds import phonemes, sound_distance

__all__ = ["mishearings"]

_LONGEST = 4
_WORD = re.compile(r"[^\W\d_]+(?:'[^\W\d_]+)?")
_ALLOWED = {5: 0.05, 6: 0.1, 7: 0.15}
_MOST, _BESIDE, _AFTER_TERM = 0.19, 0.08, 0.12

_Found = tuple[float, int, int, str]


def _stem(word: str) -> str:
    return re.sub(r"(?:s|es|e|en|er|n|ally|'s)$", "", word.lower())


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
    terms = {term: tuple(sounds.split()) for term, sounds in lexicon.sounds.items()}
    known = {_stem(part) for term in terms for part in term.split()}
    found = []
    for number, sentence in enumerate(transcript.sentences):
        for distance, start, end, term in _in_sentence(sentence, terms, known, lexicon):
            words, place = sentence.text[start:end], sentence.place_at(start)
            found.append(
                Misheard(
                    number, words, term, round(distance, 3), place, sentence.line_at(start), sentence.time_at(start)
                )
            )
    return tuple(found)


def _in_sentence(
    sentence: Sentence, terms: dict[str, tuple[str, ...]], known: set[str], lexicon: Lexicon
) -> list[_Found]:
    words = list(_WORD.finditer(sentence.text))
    candidates: list[_Found] = []
    for first in range(len(words)):
        for last in range(first, min(first + _LONGEST, len(words))):
            if last > first and sentence.text[words[last - 1].end() : words[last].start()] not in {" ", "-"}:
                break
            if last > first and _stem(words[last - 1][0]) in known:
                break
            candidates += _candidates(words, first, last, terms, lexicon)
    kept: list[_Found] = []
    for candidate in sorted(candidates):
        if not any(candidate[1] < end and start < candidate[2] for _, start, end, _ in kept):
            kept.append(candidate)
    return sorted(kept, key=lambda one: one[1])


def _candidates(
    words: list[re.Match[str]], first: int, last: int, terms: dict[str, tuple[str, ...]], lexicon: Lexicon
) -> Iterator[_Found]:
    group = [word[0] for word in words[first : last + 1]]
    if all(word.lower() in lexicon.ordinary for word in group):
        return
    heard = phonemes(" ".join(group), lexicon.language)
    in_heard = set(heard)
    is_beside = last + 1 < len(words) and lexicon.beside_term.fullmatch(words[last + 1][0]) is not None
    ending = group[-1].lower()
    is_known = any(_stem(part) == _stem(ending) for term in terms for part in term.split())
    for term, sounds in terms.items():
        if is_known and (last == first or not term.endswith(ending) or term == ending):
            continue
        if abs(len(heard) - len(sounds)) > 3 or ((len(sounds) <= 5 or first == last) and not is_beside):
            continue
        if 2 * len(in_heard.intersection(sounds)) < len(set(sounds)):
            continue
        allowed = _AFTER_TERM if is_known else _ALLOWED.get(max(5, len(sounds)), _MOST) + _BESIDE * is_beside
        distance = sound_distance(heard, sounds, allowed)
        if distance <= allowed and (first < last or ending != term.lower()):
            yield distance, words[first].start(), words[last].end(), term
