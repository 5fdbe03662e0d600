"""Words that would mend a contradicted claim, offered only where the sentence they make can be read.

The computed words seldom fit a sentence that somebody else began. So they are put in place, the sentence is read again
and checked again, and they are offered only if the claim then holds, nothing else breaks, and none of these is met:
a word or phrase said twice, a capital in the middle, one with a plural or many with a singular, an article that does
not go with its word. Words that stand before or after the claim already are left out; "a" becomes "an" where that is
all that is amiss.

Conventions: an edit is start, end and new source; a sentence is the spoken text of its line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from gamutwright.errors import GamutwrightError
from gamutwright.facts.registry import Registry
from gamutwright.languages import language_of
from gamutwright.lessons.claims import Checker, Claim, Report, Verdict
from gamutwright.lessons.format import escape_words, replace_words
from gamutwright.lessons.parse import parse
from gamutwright.lessons.script import Line, Mark, Passage, Script
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.numbers import find_quantities

__all__ = ["Mend", "is_readable", "mend_of"]

MENDABLE = frozenset({"fact", "each", "mode", "share"})
_MOST_OVERLAP = 5
_PHRASE = 3
"""Words that are not said twice in a row of a sentence."""
_WORD = re.compile(r"[^\W_]+(?:['’♯♭𝄪𝄫-][^\W_]+)*[♯♭𝄪𝄫]*")


@dataclass(frozen=True, slots=True)
class Mend:
    """What would mend a claim.

    Parameters
    ----------
    edits : tuple of (int, int, str)
        Edits of the script's source; the claim's own words, and an article before them where it has to change.
    words : str
        What is said instead of the claim's words.
    sentence : str
        The line as it is spoken then.
    """

    edits: tuple[tuple[int, int, str], ...]
    words: str
    sentence: str


def mend_of(report: Report, claim: Claim, registry: Registry) -> Mend | None:
    r"""Find words that mend a claim.

    Parameters
    ----------
    report : Report
        The check that found it.
    claim : Claim
        One of its claims.
    registry : Registry
        The facts on offer.

    Returns
    -------
    Mend or None
        None where the claim needs no mending, or no words would leave a readable sentence.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> from gamutwright.lessons.claims import check
    >>> def mended(sentence):
    ...     report = check(parse(f"---\nscale: C major\n---\n{sentence}"))
    ...     mend = mend_of(report, report.faults[0], default_registry())
    ...     return mend and mend.sentence
    >>> mended("It has [three]{fact=semitone_steps} semitone steps.")
    'It has two semitone steps.'
    >>> mended("It is an [octatonic]{fact=cardinality_word} scale.")
    'It is a heptatonic scale.'
    >>> mended("[It is]{fact=is_prime_form} its own prime form.") is None
    True
    """
    if claim.verdict is not Verdict.CONTRADICTED or claim.kind not in MENDABLE or not claim.expected:
        return None
    found = _where(report.script, claim)
    if found is None:
        return None
    passage, line, mark = found
    for words in _candidates(claim, line, mark, report.script.front.language):
        mend = _tried(report, claim, registry, (passage, line, mark), words)
        if mend is not None:
            return mend
    return None


def _where(script: Script, claim: Claim) -> tuple[Passage, Line, Mark] | None:
    for passage in script.passages:
        for line in passage.lines:
            if line.id == claim.line_id:
                for mark in line.marks:
                    if mark.span == claim.span:
                        return passage, line, mark
    return None


def _candidates(claim: Claim, line: Line, mark: Mark, language: str) -> Iterator[str]:
    """Give words to try: the computed ones, and these without what stands around them already."""
    before, after = line.text[: mark.words[0]], line.text[mark.words[1] :]
    told = [claim.expected]
    if claim.computed == 0 and not isinstance(claim.computed, bool) and claim.kind == "fact":
        told = [language_of(language).agreement.nought(before, _next_word(after))]
    for words in told:
        for cut in _without_overlap(words, before, after):
            yield _begun(cut, before)


def _next_word(after: str) -> str:
    """Give the word that follows at once, or nothing."""
    follows = _WORD.match(after.lstrip())
    return follows[0] if follows else ""


def _without_overlap(words: str, before: str, after: str) -> Iterator[str]:
    """Give words whole, then without those at their ends that the sentence says already."""
    parts = words.split()
    heads, tails = [0], [0]
    standing, following = _folded(before)[-_MOST_OVERLAP:], _folded(after)[:_MOST_OVERLAP]
    folded = [" ".join(_folded(part)) for part in parts]
    for count in range(1, min(len(parts) - 1, _MOST_OVERLAP) + 1):
        heads += [count] * (folded[:count] == standing[-count:])
        tails += [count] * (folded[-count:] == following[:count])
    for head in heads:
        for tail in tails:
            if head + tail < len(parts):
                yield " ".join(parts[head : len(parts) - tail])


def _folded(text: str) -> list[str]:
    return [word.casefold() for word in _WORD.findall(text)]


def _begun(words: str, before: str) -> str:
    """Begin with a capital at the beginning of a sentence; elsewhere as the words themselves do."""
    return words if _WORD.search(before) else words[:1].upper() + words[1:]


def _tried(
    report: Report, claim: Claim, registry: Registry, place: tuple[Passage, Line, Mark], words: str
) -> Mend | None:
    """Put words in place, read the sentence again, and give the mend where it holds."""
    passage, line, mark = place
    edits = [(*claim.span, escape_words(words))]
    agreement = language_of(report.script.front.language).agreement
    article = re.search(rf"(?:^|(?<=\W))({agreement.articles}) $", line.text[: mark.words[0]], re.IGNORECASE)
    if article:
        right = agreement.article(article[1].casefold(), words)
        if right != article[1].casefold():
            start, end = line.source_span(*article.span(1))
            edits.append((start, end, right if article[1].islower() else right.capitalize()))
    begin, end = passage.lines[0].span[0], passage.lines[-1].span[1]
    changed = replace_words(report.script, edits)[begin : end + sum(len(new) - (to - at) for at, to, new in edits)]
    try:
        script = parse(f"{_front(report.script)}{changed}\n")
        checker = Checker(report.scale, wording_for(script.front.language), registry)
        claims = [one for told in script.passages for one in checker.passage(told)]
    except GamutwrightError:
        return None
    new = script.lines[passage.lines.index(line)] if len(script.lines) == len(passage.lines) else None
    before = [one for one in report.faults if begin <= one.span[0] < end]
    well = {Verdict.CONFIRMED, Verdict.RELEASED}
    if new is None or sum(one.verdict not in well for one in claims) != len(before) - 1:
        return None
    begins = new.text.find(words, max(0, mark.words[0] - 1))
    spots = (mark.words, (begins, begins + len(words)))
    if begins < 0 or not is_readable(line.text, new.text, spots, report.script.front.language):
        return None
    return Mend(tuple(edits), words, new.text)


def _front(script: Script) -> str:
    """Write as much front matter as a check needs."""
    front = script.front
    divisions = dict(front.others).get("divisions", "12")
    return f"---\nscale: {front.scale}\nlanguage: {front.language}\ndivisions: {divisions}\n---\n"


def is_readable(old: str, new: str, places: tuple[tuple[int, int], tuple[int, int]], language: str) -> bool:
    """Judge a sentence in which words were replaced.

    Parameters
    ----------
    old, new : str
        The sentence before and after.
    places : tuple of (int, int), two
        Start and end of the words in each.
    language : str
        Language tag.

    Returns
    -------
    bool
        False for a word or phrase said twice, a capital in the middle that was not there, and numbers that do not agree
        with what stands around them.

    Examples
    --------
    >>> is_readable("It has two tritones.", "It has one tritones.", ((7, 10), (7, 10)), "en")
    False
    """
    (old_start, old_end), (start, end) = places
    before, words, after = new[:start], new[start:end], new[end:]
    if _is_doubled(before, words, after):
        return False
    ending = language_of(language).agreement.inflected
    inflected = re.search(ending, old[old_start:old_end]) if _next_word(after) else None
    if inflected and not words.endswith(inflected[1]):
        return False
    was, now = (find_quantities(text, language, is_bound=True) for text in (old[old_start:old_end], words))
    if len(was) != 1 or len(now) != 1 or was[0].value == now[0].value:
        return True
    return _agrees(int(was[0].value), int(now[0].value), (before, words, after), language)


def _is_doubled(before: str, words: str, after: str) -> bool:
    """Whether the words say again what stands around them."""
    around, said = [*_folded(before), "\0", *_folded(after)], _folded(words)
    whole = [*_folded(before), *said, *_folded(after)]
    first, last = len(_folded(before)), len(_folded(before)) + len(said)
    for place, (one, other) in enumerate(pairwise(whole)):
        if one == other and len(one) > 1 and not one.isdigit() and place + 1 in {first, last}:
            return True
    held = {tuple(around[k : k + _PHRASE]) for k in range(len(around) - _PHRASE + 1)}
    return any(tuple(said[k : k + _PHRASE]) in held for k in range(len(said) - _PHRASE + 1))


def _agrees(was: int, now: int, parts: tuple[str, str, str], language: str) -> bool:
    """Whether a number goes with the words around it, which went with the old one."""
    before, _, after = parts
    if now == 0:
        return True
    agreement, follows = language_of(language).agreement, _next_word(after)
    if was == 0 and now != 1:
        return not follows or agreement.is_plural(_folded(after))
    if (was == 1) == (now == 1):
        return True
    if follows:
        return False
    wrong = agreement.plural_before if now == 1 else agreement.singular_before
    return not re.search(wrong, before, re.IGNORECASE)
