"""What a line states outside its bound words: numbers, names, terms and negations that nobody has tied to a fact.

Beside a claim, a sentence may use the claim's own vocabulary: the terms of its fact and of what that fact needs, and
whatever the held wording of the fact says. Everything else that could be right or wrong must be bound. The names of the
lesson's scale, and of a scale that a mark of the line compares with, are no statements. A question states nothing, so
terms may stand in it; numbers and names may not, since they presuppose.

Conventions: offsets are those of the line's spoken text. A negation counts only in a line that makes a claim, where it
could turn the claim round from outside.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import told
from gamutwright.facts.model import Fact
from gamutwright.facts.registry import Registry
from gamutwright.languages import language_of
from gamutwright.lessons.script import Line
from gamutwright.phrasing.claimwords import find_negations
from gamutwright.phrasing.engine import Wording
from gamutwright.phrasing.numbers import find_quantities
from gamutwright.phrasing.spoken_names import find_chords, find_intervals, find_notes, spoken_note
from gamutwright.phrasing.stretches import within
from gamutwright.phrasing.values import spoken_rooted_scale, spoken_scale_name
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_names
from gamutwright.theory.systematic import systematic_name

__all__ = ["Mention", "Surroundings", "unbound_mentions"]

RELEASING = ("fact", "each", "rare", "mode-of", "define", "opinion", "quote")
_LONGEST_NAME = 200
_LETTER = re.compile(r"(?<!\w)[A-H](?=\s)")
_ROOTED = re.compile(r"[A-G](?:[#b]{0,2}) \D")
_WORD = re.compile(r"[^\W_]+(?:['’-][^\W_]+)*|[·‹{]")
BIND = told("Bind it, as in [words]{fact=ID}, or release it with {opinion} or {quote source=...}.")


@dataclass(frozen=True, slots=True)
class Mention:
    """Something stated outside bound words.

    Parameters
    ----------
    start, end : int
        Its place in the line's text.
    kind : str
        number, ordinal, note, chord, interval, term or negation.
    reason : str
        What it is, to begin a sentence about it.
    mend : str
        What to do.
    """

    start: int
    end: int
    kind: str
    reason: str
    mend: str = BIND


@dataclass(frozen=True, slots=True)
class _Terms:
    """Every term of every fact, and who it belongs to."""

    pattern: re.Pattern[str]
    owners: dict[str, tuple[str, ...]]


def _stem(term: str) -> str:
    """Tell the forms of a term apart from others, not from each other."""
    return re.sub(r"(?:s|n|en|e|er|es)$", "", term.casefold()) if len(term) > 5 else term.casefold()


@lru_cache(maxsize=8)
def _terms(wording: Wording, facts: tuple[Fact, ...]) -> _Terms:
    owners: dict[str, tuple[str, ...]] = {}
    written = set()
    for fact in facts:
        for term in wording.terms(fact):
            owners[_stem(term)] = (*owners.get(_stem(term), ()), fact.id)
            written.add(term.casefold())
    longest_first = sorted(written, key=lambda term: (-len(term), term))
    choices = "|".join(re.escape(term) for term in longest_first) or r"(?!)"
    endings = language_of(wording.language).claims.endings
    return _Terms(re.compile(rf"(?<!\w)(?:{choices})(?:{endings})?(?!\w)", re.IGNORECASE), owners)


@lru_cache(maxsize=4096)
def _needed(fact: Fact, registry_facts: tuple[Fact, ...]) -> frozenset[str]:
    """Ids of the fact and of all that it needs."""
    by_id = {other.id: other for other in registry_facts}
    found: set[str] = set()
    waiting = [fact.id]
    while waiting:
        name = waiting.pop()
        if name not in found and name in by_id:
            found.add(name)
            waiting.extend(by_id[name].needs)
    return frozenset(found)


def _scale_names(scale: Scale, language: str) -> Iterator[str]:
    """Every way to name the scale, with its root and without."""
    if scale.divisions != 12 or not scale.is_rooted:
        return
    names = {systematic_name(scale)}
    for record in names_of(scale):
        names.update((record.name, *record.aliases))
    root = tone_names(scale)[0]
    yield from (spoken_rooted_scale(f"{root} {name}", language) for name in names)
    for name in names | {spoken_scale_name(name, language) for name in names}:
        yield from (name, f"{root} {name}", f"{spoken_note(root, language)} {name}", f"{to_symbols(root)} {name}")


@lru_cache(maxsize=256)
def _known_names(scale: Scale, language: str) -> frozenset[str]:
    return frozenset(_scale_names(scale, language))


def _covered(line: Line, others: Sequence[str], scale: Scale, language: str) -> list[tuple[int, int]]:
    """Places in the line that are bound, released, or the name of a scale."""
    places = [mark.words for mark in line.marks if any(mark.get(key) is not None for key in RELEASING)]
    named = {part for text in others for part in (text, text.partition(" ")[2]) if part}
    spoken = {spoken_scale_name(text, language) for text in named}
    spoken |= {spoken_rooted_scale(text, language) for text in others if _ROOTED.match(text)}
    for name in {*_known_names(scale, language), *named, *spoken}:
        places.extend(
            match.span() for match in re.finditer(rf"(?<!\w){re.escape(name)}(?!\w)", line.text, re.IGNORECASE)
        )
    return places


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a line may speak of without stating it.

    Parameters
    ----------
    facts : tuple of Fact
        The facts its passage is bound to.
    others : tuple of str
        Other scales its marks name.
    scale : Scale
        The scale of the lesson.
    makes_claims : bool
        Whether the line itself makes a claim that a negation could turn round.
    """

    facts: tuple[Fact, ...]
    others: tuple[str, ...]
    scale: Scale
    makes_claims: bool = False


def unbound_mentions(
    line: Line, surroundings: Surroundings, wording: Wording, registry: Registry
) -> tuple[Mention, ...]:
    """Find what a line states outside its bound words.

    Parameters
    ----------
    line : Line
        The line.
    surroundings : Surroundings
        What it may speak of without stating it.
    wording : Wording
        The wording of the script's language.
    registry : Registry
        The facts on offer.

    Returns
    -------
    tuple of Mention
        In the order of the text, the longest where several overlap.
    """
    text, language, facts = line.text, wording.language, surroundings.facts
    covered = _covered(line, surroundings.others, surroundings.scale, language)
    offered = tuple(registry.facts.values())
    allowed = frozenset().union(*(_needed(fact, offered) for fact in facts)) if facts else frozenset()
    vocabulary = " ".join(wording.vocabulary(fact) for fact in facts).casefold()
    is_question = text.rstrip(" \"”“»«'").endswith("?")
    found = [
        *_numbers(_masked(text, covered), language),
        *_names(text, language),
        *([] if is_question else _intervals(text, language, allowed, vocabulary, _terms(wording, offered))),
        *([] if is_question else _unowned_terms(text, allowed, vocabulary, _terms(wording, offered))),
        *(_negations(text, covered, language, vocabulary) if surroundings.makes_claims else []),
        *_roots_of_names(text, surroundings.scale, language),
    ]
    kept: list[Mention] = []
    reach, is_covered = 0, within(covered)
    for mention in sorted(found, key=lambda m: (m.start, m.start - m.end)):
        if mention.start >= reach and not is_covered(mention.start, mention.end):
            kept.append(mention)
            reach = mention.end
    return tuple(kept)


def _masked(text: str, covered: Iterable[tuple[int, int]]) -> str:
    """Blot out bound words, so that a number does not reach across their border ("[seven] seventh chords")."""
    signs = list(text)
    for start, end in covered:
        signs[start:end] = "·" * (end - start)
    return "".join(signs)


def _numbers(text: str, language: str) -> Iterator[Mention]:
    for quantity in find_quantities(text, language):
        kind = "ordinal" if quantity.kind == "ordinal" else "number"
        what = (
            told("the ordinal '{text}'", text=quantity.text)
            if kind == "ordinal"
            else told("the number '{text}'", text=quantity.text)
        )
        yield Mention(quantity.start, quantity.end, kind, what)


def _names(text: str, language: str) -> Iterator[Mention]:
    for chord in find_chords(text, language):
        yield Mention(chord.start, chord.end, "chord", told("the chord '{text}'", text=chord.text))
    for note in find_notes(text, language):
        yield Mention(note.start, note.end, "note", told("the note '{text}'", text=note.text))


def _roots_of_names(text: str, scale: Scale, language: str) -> Iterator[Mention]:
    """Find a root that stands before a name of the scale, also where it could pass for an article ("A dorian")."""
    names = _known_names(scale, language)
    places = [(note.start, note.end) for note in find_notes(text, language, is_bound=True)]
    for start, end in (*places, *(match.span() for match in _LETTER.finditer(text))):
        following = text[end : end + _LONGEST_NAME].lstrip().casefold()
        if any(len(name) > 3 and following.startswith(name.casefold()) for name in names):
            yield Mention(start, end, "note", told("the note '{text}'", text=text[start:end]))


def _is_own(word: str, allowed: Iterable[str], vocabulary: str, terms: _Terms) -> bool:
    owners = terms.owners.get(_stem(word), ())
    return any(owner in allowed for owner in owners) or _stem(word) in vocabulary


def _intervals(text: str, language: str, allowed: Iterable[str], vocabulary: str, terms: _Terms) -> Iterator[Mention]:
    for interval in find_intervals(text, language):
        is_octave = interval.semitones is not None and interval.semitones % 12 == 0
        if not is_octave and not _is_own(interval.text, allowed, vocabulary, terms):
            yield Mention(interval.start, interval.end, "interval", told("the interval '{text}'", text=interval.text))


def _unowned_terms(text: str, allowed: Iterable[str], vocabulary: str, terms: _Terms) -> Iterator[Mention]:
    for match in terms.pattern.finditer(text):
        if not _is_own(match[0], allowed, vocabulary, terms):
            yield Mention(*match.span(), "term", told("the term '{text}'", text=match[0]))


def _negations(text: str, covered: Sequence[tuple[int, int]], language: str, vocabulary: str) -> Iterator[Mention]:
    """Find negations that the held wording does not have before the same word."""
    known = f" {' '.join(_WORD.findall(vocabulary))} "
    masked = _masked(text, covered)
    for start, end in find_negations(text, language):
        after = _WORD.search(masked, end)
        if f" {text[start:end].casefold()} {after[0].casefold() if after else '.'} " not in known:
            yield Mention(
                start,
                end,
                "negation",
                told("the word '{text}', which could turn a claim round,", text=text[start:end]),
                told("Take it into the bound words, or word the sentence without it."),
            )
