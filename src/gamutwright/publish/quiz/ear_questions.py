"""What a quiz gives to listen to: tunes, a whole scale, the lesson's own or one near to it, and two of its tones.

**Conventions.** Sounds are phrases on the same root, so that the pitch of the beginning gives nothing away; answers
about scales list as many tones as the one that sounds, where near scales have as many.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import zip_longest

from gamutwright.diagrams.phrases import phrase
from gamutwright.diagrams.sketch import Kind, Place
from gamutwright.facts.registry import default_registry
from gamutwright.facts.roles import Basic
from gamutwright.ir.sound import TICKS_PER_SECOND, joined
from gamutwright.music.ear import EarQuestion, EarTask, ear_questions
from gamutwright.music.sounding import piece_sound
from gamutwright.publish.quiz.asking import MOST_WRONG, Asked, Asking
from gamutwright.publish.quiz.near_scales import Nearness, NearScale
from gamutwright.theory.scale import Scale

__all__ = ["listening_questions", "music_questions"]

_MOST_OF_A_KIND = 12
_BETWEEN_TICKS = TICKS_PER_SECOND


def listening_questions(asking: Asking) -> Iterator[Asked]:
    """Ask about tunes, which scale sounds, and how far two tones are apart, in turns.

    Parameters
    ----------
    asking : Asking
        What questions are made from.

    Yields
    ------
    Asked
        Questions with sounds.
    """
    for some in zip_longest(music_questions(asking), _heard_scales(asking), _heard_intervals(asking)):
        yield from (asked for asked in some if asked is not None)


def music_questions(asking: Asking, version: int = 1) -> Iterator[Asked]:
    """Play tunes in the scale and in its nearest relative: which was it, where did they part, did it end at home.

    Parameters
    ----------
    asking : Asking
        What questions are made from.
    version : int > 0
        Another number gives other tunes and other right answers.

    Yields
    ------
    Asked
        Questions with sounds.
    """
    for question in ear_questions(asking.scale, version):
        pieces = [piece_sound(piece) for piece in question.pieces]
        about = _Heard(asking, question)
        right, *wrong = (about.answer(number) for number in about.numbers)
        yield Asked(
            f"music-{question.task.value}" + (f"-{version}" if version > 1 else ""),
            about.prompt,
            right,
            tuple(wrong[:MOST_WRONG]),
            default_registry().basic(Basic.PITCH_CLASSES).id,
            joined(pieces, _BETWEEN_TICKS),
        )


@dataclass(frozen=True, slots=True)
class _Heard:
    """A question of the ear in words."""

    asking: Asking
    question: EarQuestion

    @property
    def numbers(self) -> list[int]:
        """The answers, the right one first."""
        others = [k for k in range(1, self.question.choices + 1) if k != self.question.right]
        return [self.question.right, *others]

    @property
    def prompt(self) -> str:
        """What is asked."""
        words, scale = self.asking.words, self.asking.scale
        key = f"music-{self.question.task.value}"
        if self.question.task is EarTask.HOME:
            return words.say("asking", key, name=self.asking.name, root=words.tone(scale, scale.tones[0]))
        return words.say("asking", key, name=self.asking.name, other=self._other)

    @property
    def _other(self) -> str:
        relative = self.question.relative
        return self.asking.words.name(relative) if relative else ""

    def answer(self, number: int) -> tuple[str, str]:
        """Give an answer, and what it rests on."""
        words, scale, question = self.asking.words, self.asking.scale, self.question
        is_right = number == question.right
        if question.task is EarTask.HOME:
            told = words.say("answering", "music-ends", tone=words.tone(scale, question.tones[0][0]))
            return words.say("answering", "music-yes" if number == 1 else "music-no"), told
        slots = {
            "mine": words.tones(scale, [mine for mine, _ in question.tones]),
            "theirs": words.tones(question.relative or scale, [theirs for _, theirs in question.tones]),
        }
        if question.task is EarTask.WHERE:
            told = words.say("answering", "music-changed" if is_right else "music-same", **slots)
            return words.say("answering", "music-where", count=number), told
        key = "music-heard" if is_right else "music-not-heard"
        told = words.say("answering", key, name=self.asking.name, other=self._other, **slots)
        return words.say("answering", f"music-which-{number}"), told


def _heard_scales(asking: Asking) -> Iterator[Asked]:
    """Play the scale or a near one, and ask for its tones."""
    words, scale = asking.words, asking.scale
    near = [found for found in asking.near if found.nearness not in {Nearness.MODE, Nearness.FAMILIAR}]
    shuffled: list[NearScale] = sorted(
        asking.order(near, lambda found: found.scale.mask, "heard"),
        key=lambda found: (abs(found.scale.cardinality - scale.cardinality), found.respelled),
    )
    prompt = words.say("asking", "heard" if scale.divisions == 12 else "heard-steps", divisions=scale.divisions)
    for number in range(min(_MOST_OF_A_KIND, len(shuffled))):
        group: list[NearScale | None] = [None, *shuffled[number : number + MOST_WRONG]]
        heard, *others = asking.order(group, lambda found: found.scale.mask if found else 0, "heard", str(number))
        sounding = heard.scale if heard else scale

        def said(key: str, found: NearScale | None) -> tuple[str, str]:
            tones = words.tones(found.scale if found else scale)
            return tones, words.say("answering", key, tones=tones, scale=words.near(scale, found))

        yield Asked(
            f"heard-{number + 1}",
            prompt,
            said("heard-right", heard),
            tuple(said("heard-wrong", found) for found in others),
            default_registry().basic(Basic.PITCH_CLASSES).id,
            phrase("scale", sounding),
        )


def _pairs_by_size(scale: Scale) -> dict[int, list[tuple[int, int]]]:
    """Group pairs of tones by the steps from the lower up to the higher, within the octave."""
    pairs: dict[int, list[tuple[int, int]]] = {}
    for low in scale.tones:
        for high in scale.tones:
            if low != high:
                pairs.setdefault((high - low) % scale.divisions, []).append((low, high))
    return pairs


def _heard_intervals(asking: Asking) -> Iterator[Asked]:
    """Play two tones of the scale, and ask for their distance; other distances are there between other tones."""
    words, scale = asking.words, asking.scale
    pairs = _pairs_by_size(scale)
    sizes = asking.order(pairs, int, "interval")
    if len(sizes) < 2:
        return
    key = "interval" if scale.divisions == 12 else "interval-steps"
    prompt = words.say("asking", key, name=asking.name, divisions=scale.divisions)

    def said(key: str, size: int) -> tuple[str, str]:
        low, high = asking.order(pairs[size], tuple, "interval", str(size))[0]
        names = {"low": words.tone(scale, low), "high": words.tone(scale, high)}
        return str(size), words.say("answering", key, count=size, **names)

    for number, size in enumerate(sizes[:_MOST_OF_A_KIND], 1):
        others = sorted((other for other in sizes if other != size), key=lambda other: abs(other - size))
        pair = asking.order(pairs[size], tuple, "interval", str(size))[0]
        yield Asked(
            f"interval-{number}",
            prompt,
            said("interval-right", size),
            tuple(said("interval-wrong", other) for other in others[:MOST_WRONG]),
            default_registry().basic(Basic.STEPS).id,
            phrase("intervals", scale, (Place(Kind.INTERVAL, (pair,)),)),
        )
