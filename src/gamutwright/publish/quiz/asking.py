"""What a quiz asks about the facts of a lesson: one question for each fact, its wrong answers from near scales.

**Conventions.** A question that is not yet laid out keeps its right answer apart from the wrong ones; `Asking.order`
puts things in an order that a digest decides.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from gamutwright.facts.model import Dtype, Fact, Value, Witness, WitnessKind
from gamutwright.facts.profile import find
from gamutwright.facts.roles import Further, Reader
from gamutwright.facts.vocabulary import Scope
from gamutwright.ir.sound import Sound
from gamutwright.phrasing.printed import printed_value
from gamutwright.phrasing.values import entries_in_words
from gamutwright.publish.quiz.near_scales import Nearness, NearScale, near_scales
from gamutwright.publish.quiz.quiz_words import QuizWords, quiz_words
from gamutwright.publish.told_lesson import Lesson, Telling
from gamutwright.theory.scale import Scale

__all__ = ["KINDS", "MOST_WRONG", "Asked", "Asking", "written_questions"]

MOST_WRONG = 3
_LONGEST_ANSWER = 120
_ENOUGH = 8
_PLACED_BY_NAME = frozenset({WitnessKind.TONE, WitnessKind.STEP, WitnessKind.INTERVAL, WitnessKind.CHORD})
_T = TypeVar("_T")


@dataclass(frozen=True, slots=True)
class Asked:
    """A question before its choices are in order.

    Parameters
    ----------
    id : str
        Small letters, figures and hyphens.
    prompt : str
        What is asked.
    right : tuple of str
        The right answer, and why it is right.
    wrong : tuple of tuple of str
        The wrong ones, and for what they would be right.
    fact_id : str
        The fact it asks for.
    sound : Sound or None
        What is to be listened to.
    """

    id: str
    prompt: str
    right: tuple[str, str]
    wrong: tuple[tuple[str, str], ...]
    fact_id: str
    sound: Sound | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Asking:
    """What questions are made from.

    Parameters
    ----------
    scale : Scale
        The scale.
    tellings : tuple of Telling
        What the lesson told of it.
    words : QuizWords
        The words of its language.
    name : str
        What the scale is called in questions.
    seed : str
        What the orders depend on.
    near : tuple of NearScale
        The scales near to it.
    """

    scale: Scale
    tellings: tuple[Telling, ...]
    words: QuizWords
    name: str
    seed: str
    near: tuple[NearScale, ...]

    @classmethod
    def of(cls, lesson: Lesson, seed: str) -> Asking:
        """Prepare the questions of a lesson.

        Parameters
        ----------
        lesson : Lesson
            The lesson.
        seed : str
            What the orders depend on.

        Returns
        -------
        Asking
            Everything that questions need.
        """
        words = quiz_words(lesson.language)
        return cls(lesson.scale, lesson.tellings, words, words.name(lesson.scale), seed, near_scales(lesson.scale))

    def order(self, items: Iterable[_T], key: Callable[[_T], object], *salt: str) -> list[_T]:
        """Put things in an order that looks like chance and is the same everywhere.

        Parameters
        ----------
        items : iterable
            The things.
        key : callable
            What tells them apart, written with `repr`.
        *salt : str
            What the order is for.

        Returns
        -------
        list
            All of them.
        """
        start = "\x1f".join((self.seed, *salt, ""))
        return sorted(items, key=lambda item: hashlib.sha256(f"{start}{key(item)!r}".encode()).digest())

    def about(self, question: str, answer: str) -> str:
        """Name the scale before a question, unless it has no name or its name holds the answer."""
        if self.name == self.words.unnamed or answer.casefold() in re.findall(r"\w+", self.name.casefold()):
            return question
        return self.words.say("asking", "about", name=self.name, question=question)

    def would(self, near: NearScale | None) -> str:
        """Say for which scale an answer would be right."""
        return self.words.say("answering", "would", scale=self.words.near(self.scale, near))


def written_questions(asking: Asking) -> Iterator[Asked]:
    """Ask for every fact that was told, where near scales give wrong answers.

    Parameters
    ----------
    asking : Asking
        What questions are made from.

    Yields
    ------
    Asked
        In the order in which the lesson tells the facts; degrees and step patterns give a second question.
    """
    for telling in asking.tellings:
        if not (telling.fact.roles.names_scale or telling.fact.dtype is Dtype.INT_ROWS):
            for kind in KINDS:
                yield from kind(asking, telling)


def _why(asking: Asking, telling: Telling) -> str:
    places = telling.places
    if telling.fact.counts and places and {place.kind for place in telling.witnesses} <= _PLACED_BY_NAME:
        return asking.words.say("answering", "here", definition=telling.definition, places=places)
    return telling.definition


def _distance(one: Value, other: Value) -> float:
    """How far two values are apart in form: numbers by their difference, lists by their length."""
    if isinstance(one, tuple) and isinstance(other, tuple):
        return abs(len(one) - len(other))
    if isinstance(one, int | float | Fraction) and isinstance(other, int | float | Fraction):
        return abs(float(one) - float(other))
    return 0.0


def _is_other(fact: Fact, value: Value, right: Value) -> bool:
    """Whether a value is certainly another answer: what has no order differs in more than its order."""
    if isinstance(value, tuple) and isinstance(right, tuple) and fact.scope is Scope.SPELLED:
        return sorted(map(str, value)) != sorted(map(str, right))
    return value != right


def _of_one_form(right: str, others: Iterable[str]) -> list[str]:
    """Choose wrong answers none of which gives itself away by its length."""
    chosen = [right]
    for text in others:
        lengths = sorted(map(len, (*chosen, text)))
        if len(chosen) <= MOST_WRONG and lengths[-1] <= 4 * lengths[0] + 8:
            chosen.append(text)
    return chosen[1:]


def _value(asking: Asking, telling: Telling) -> Iterator[Asked]:
    fact, words = telling.fact, asking.words
    if fact.dtype is Dtype.BOOL or _is_list_of_places(telling):
        return
    right = words.value(fact, telling.value, asking.scale)
    if not 0 < len(right) <= _LONGEST_ANSWER:
        return
    found: dict[str, tuple[float, int, NearScale]] = {}
    for near in asking.near:
        value = find(fact, near.scale).value
        if value is None or not _is_other(fact, value, telling.value):
            continue
        text = words.value(fact, value, near.scale)
        if text != right and text and len(text) <= _LONGEST_ANSWER:
            found.setdefault(text, (_distance(value, telling.value), near.respelled, near))
        if len(found) >= _ENOUGH and near.nearness is not Nearness.MOVED:
            break
    shuffled = asking.order(found, str, fact.id)
    nearest = _of_one_form(right, sorted(shuffled, key=lambda text: found[text][:2]))
    if nearest:
        question = words.wording.question(fact, asking.scale) or words.say(
            "asking", "which-value", title=words.cards.title(fact)
        )
        wrong = tuple((text, asking.would(found[text][2])) for text in nearest)
        yield Asked(_id(fact.id), asking.about(question, right), (right, _why(asking, telling)), wrong, fact.id)


def _id(fact_id: str, kind: str = "") -> str:
    return f"{fact_id}-{kind}".strip("-").replace("_", "-").lower()


def _near_with(asking: Asking, fact: Fact, value: Value) -> NearScale | None:
    return next((near for near in asking.near if find(fact, near.scale).value == value), None)


def _statement(asking: Asking, telling: Telling) -> Iterator[Asked]:
    """Ask which statement is true: one about this fact, wrong ones about others that the lesson told."""
    if telling.fact.dtype is not Dtype.BOOL:
        return
    words = asking.words

    def stated(fact: Fact, value: Value) -> str:
        printed = printed_value(fact, value, words.wording.language)
        return words.say("answering", "statement", title=words.cards.title(fact), value=printed)

    others = [other for other in asking.tellings if other.fact.dtype is Dtype.BOOL and other.fact is not telling.fact]
    # A wrong statement with the same yes or no as the right one comes first, so that the word gives nothing away.
    ranked = sorted(
        asking.order(others, lambda other: other.fact.id, telling.fact.id),
        key=lambda other: other.value == telling.value,
    )
    wrong: list[tuple[str, str]] = []
    for other in ranked or [telling]:
        near = _near_with(asking, other.fact, not other.value)
        if near is not None and len(wrong) < MOST_WRONG:
            wrong.append((stated(other.fact, not other.value), asking.would(near)))
    if wrong:
        prompt = words.say("asking", "statements", name=asking.name)
        right = (stated(telling.fact, telling.value), telling.definition)
        yield Asked(_id(telling.fact.id), prompt, right, tuple(wrong), telling.fact.id)


def _is_list_of_places(telling: Telling) -> bool:
    """Whether each entry of a list of texts is a chord, of several, or a scale that is there."""
    kinds = {place.kind for place in telling.witnesses}
    value = telling.value
    is_aligned = (
        telling.fact.dtype is Dtype.TEXTS and isinstance(value, tuple) and len(value) == len(telling.witnesses) > 0
    )
    is_chords = kinds == {WitnessKind.CHORD} and telling.fact.scope is Scope.SPELLED and len(telling.witnesses) > 1
    return is_aligned and (is_chords or telling.fact.roles.reader is Reader.SCALES)


def _place_tones(place: Witness) -> frozenset[int]:
    return frozenset(tone for part in place.parts for tone in part)


def _belonging(asking: Asking, telling: Telling) -> Iterator[Asked]:
    """Ask which chord, or named scale, belongs; one that does not is there in a near scale on the same root."""
    if not _is_list_of_places(telling):
        return
    fact, words, own = telling.fact, asking.words, set(asking.scale.tones)
    is_around = fact.roles.lists_supersets
    assert isinstance(telling.value, tuple)  # noqa: S101 - _is_list_of_places has looked
    entries = entries_in_words(fact, telling.value, words.wording.language)
    right, place = asking.order(zip(entries, telling.witnesses, strict=True), lambda pair: pair[0], fact.id)[0]
    wrong: dict[str, str] = {}
    seen = {_place_tones(place)}
    for near in asking.order(asking.near, lambda near: near.scale.mask, fact.id):
        found = find(fact, near.scale)
        if near.nearness is not Nearness.MOVED or not isinstance(found.value, tuple):
            continue
        there = zip(entries_in_words(fact, found.value, words.wording.language), found.witnesses, strict=True)
        for text, other in asking.order(there, lambda pair: pair[0], fact.id, "near"):
            tones = _place_tones(other)
            is_true = tones >= own if is_around else tones <= own
            if not is_true and tones not in seen and text not in (*entries, *wrong):
                wrong[text] = words.say("answering", "belongs-wrong", scale=words.near(asking.scale, near))
                seen.add(tones)
                break
        if len(wrong) == MOST_WRONG:
            break
    if not wrong:
        return
    kind = "around" if is_around else "inside" if fact.roles.reader is Reader.SCALES else "chord"
    prompt = words.say("asking", kind, name=asking.name)
    named = words.tones(asking.scale, asking.scale.tones if is_around else place.parts[0])
    why = words.say("answering", "around-right" if is_around else "belongs-right", tones=named)
    yield Asked(_id(fact.id), prompt, (right, why), tuple(wrong.items()), fact.id)


def _tone_of_degree(asking: Asking, telling: Telling) -> Iterator[Asked]:
    """Ask which tone is a degree; the wrong ones are other degrees of the same scale."""
    if telling.fact.roles.further is not Further.TONE_OF_DEGREE:
        return
    words, scale = asking.words, asking.scale
    degrees = dict(zip(scale.tones, telling.text.split(", "), strict=True))
    tones = asking.order(scale.tones[1:], int, "degrees-tone")
    if not tones:
        return
    # An altered degree is the one worth asking for.
    asked = min(tones, key=lambda tone: degrees[tone][0].isdigit())
    others = sorted((tone for tone in scale.tones if tone != asked), key=lambda tone: abs(tone - asked))

    def said(tone: int) -> str:
        return words.say("answering", "tone", tone=words.tone(scale, tone), degree=degrees[tone])

    yield Asked(
        _id(telling.fact.id, "tone"),
        words.say("asking", "tone", name=asking.name, degree=degrees[asked]),
        (words.tone(scale, asked), said(asked)),
        tuple((words.tone(scale, tone), said(tone)) for tone in others[:MOST_WRONG]),
        telling.fact.id,
    )


def _pattern_of_mode(asking: Asking, telling: Telling) -> Iterator[Asked]:
    """Ask for the step pattern from another tone; the wrong ones are those from the tones left."""
    if telling.fact.roles.further is not Further.PATTERN_OF_MODE:
        return
    words, scale = asking.words, asking.scale
    first: dict[tuple[int, ...], int] = {}
    for degree, tone in enumerate(scale.tones, 1):
        first.setdefault(scale.mode(degree).step_pattern, tone)
    patterns = asking.order(list(first)[1:], tuple, "step-pattern-mode")
    if not patterns:
        return
    right, *others = (*patterns, scale.step_pattern)

    def written(pattern: tuple[int, ...]) -> str:
        return " ".join(map(str, pattern))

    def said(key: str, pattern: tuple[int, ...]) -> str:
        return words.say("answering", key, tone=words.tone(scale, first[pattern]))

    wrong = asking.order(others, tuple, "step-pattern-mode", "wrong")[:MOST_WRONG]
    prompt = words.say("asking", "mode", name=asking.name, tone=words.tone(scale, first[right]))
    yield Asked(
        _id(telling.fact.id, "mode"),
        prompt,
        (written(right), said("mode-right", right)),
        tuple((written(pattern), said("mode-wrong", pattern)) for pattern in wrong),
        telling.fact.id,
    )


KINDS: list[Callable[[Asking, Telling], Iterator[Asked]]] = [
    _statement,
    _belonging,
    _value,
    _tone_of_degree,
    _pattern_of_mode,
]
"""Every kind of question about a fact: what was told of it to questions, none where the kind does not apply."""
