"""Questions for the ear: pieces to listen to, the answers to choose from, the right one, and what it rests on.

* *Which of two*: one tune twice, in the scale and in its nearest relative; which of the two was the scale?
* *Where*: the tune in the scale, then in the relative; in which bar is the first tone that differs?
* *Home*: a tune that ends on its root, or stops on the tone above it; does it end at home?

They are data: words are found where they are asked. What is asked for is seen nowhere but in the answer.

**Conventions.** Bars count from 1. The same request gives the same question.
"""

from __future__ import annotations

import random
from dataclasses import dataclass, replace
from enum import StrEnum

from gamutwright.errors import DomainError
from gamutwright.ir.playing import Part
from gamutwright.music.piece import Piece, Section, bar_length, step_of
from gamutwright.music.pieces import Request, piece_of
from gamutwright.theory.scale import Scale

__all__ = ["EarQuestion", "EarTask", "ear_questions"]


class EarTask(StrEnum):
    """What is asked."""

    WHICH = "which"
    WHERE = "where"
    HOME = "home"


@dataclass(frozen=True, slots=True)
class EarQuestion:
    """A question.

    Parameters
    ----------
    task : EarTask
        What is asked.
    pieces : tuple of Piece
        What is heard, one after another.
    choices : int
        How many answers there are: the pieces, the bars, or yes and no.
    right : int
        Which is right, counted from 1.
    relative : Scale or None
        The relative that is heard beside the scale.
    tones : tuple of (int, int)
        The tones it rests on, in steps above the root: of the scale, and what the relative has in their places; at the
        end of a tune the last tone and the root.
    """

    task: EarTask
    pieces: tuple[Piece, ...]
    choices: int
    right: int
    relative: Scale | None
    tones: tuple[tuple[int, int], ...]


def ear_questions(scale: Scale, version: int = 1) -> tuple[EarQuestion, ...]:
    """Make the questions of a scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    version : int > 0
        Another number gives other tunes and other right answers.

    Returns
    -------
    tuple of EarQuestion
        As many as it has: two need a relative, all need three tones.

    Examples
    --------
    >>> [(question.task.value, question.choices) for question in ear_questions(Scale.of(2, 4, 5, 7, 9, 11, 0))]
    [('which', 2), ('where', 4), ('home', 2)]
    """
    chance = random.Random(f"{scale.bits} {version}")  # noqa: S311 - repeatable, no secret
    found = []
    for make in (_which, _where, _home):
        try:
            found.append(make(scale, version, chance))
        except DomainError:
            continue
    return tuple(found)


def _halves(scale: Scale, version: int) -> tuple[Piece, Piece, Scale]:
    """Give the tune in the scale and in its relative as pieces of their own."""
    both = piece_of("tune-changed", scale, Request(version=version))
    later = both.sections[1].start
    bars = (both.bars - 1) // 2
    one = replace(
        both, bars=bars, sections=both.sections[:1], tones=tuple(tone for tone in both.tones if tone.start < later)
    )
    other = replace(
        both,
        bars=bars,
        sections=(Section(0, both.sections[1].scale),),
        tones=tuple(replace(tone, start=tone.start - later) for tone in both.tones if tone.start >= later),
    )
    return one, other, both.sections[1].scale


def _differing(scale: Scale, relative: Scale, one: Piece, other: Piece) -> list[tuple[int, tuple[int, int]]]:
    """List when tones differ, and which they are."""
    found = []
    for mine, theirs in zip(one.of(Part.TUNE), other.of(Part.TUNE), strict=True):
        steps = step_of(scale, mine.degree), step_of(relative, theirs.degree)
        if steps[0] != steps[1]:
            found.append((mine.start, (steps[0] % scale.divisions, steps[1] % scale.divisions)))
    return found


def _which(scale: Scale, version: int, chance: random.Random) -> EarQuestion:
    one, other, relative = _halves(scale, version)
    right = chance.choice((1, 2))
    pieces = (one, other) if right == 1 else (other, one)
    tones = dict.fromkeys(pair for _, pair in _differing(scale, relative, one, other))
    return EarQuestion(EarTask.WHICH, pieces, 2, right, relative, tuple(tones))


def _where(scale: Scale, version: int, chance: random.Random) -> EarQuestion:
    del chance
    one, other, relative = _halves(scale, version)
    start, pair = _differing(scale, relative, one, other)[0]
    bar = start // bar_length(one.metre) + 1
    return EarQuestion(EarTask.WHERE, (one, other), one.bars, bar, relative, (pair,))


def _home(scale: Scale, version: int, chance: random.Random) -> EarQuestion:
    tune = piece_of("tune", scale, Request(version=version))
    is_home = chance.choice((True, False))
    *others, last = tune.tones
    if not is_home:
        # The tone above home: whoever waits for the last step hears that it does not come.
        last = replace(last, degree=last.degree + 1)
        if others and others[-1].degree == last.degree:
            last = replace(last, degree=last.degree - 2)
    piece = replace(tune, tones=(*others, last))
    n = scale.divisions
    end = step_of(scale, last.degree) % n
    return EarQuestion(EarTask.HOME, (piece,), 2, 1 if is_home else 2, None, ((end, scale.tones[0]),))
