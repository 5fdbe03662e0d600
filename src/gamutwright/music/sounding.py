"""A piece as a sound: degrees become frequencies, twelfths of a quarter become ticks.

Notes of the tune, and of whoever leads without one, belong to items, numbered by their degree in the scale from 1, with
a mark at each; so pictures of the scale step with them. Between them marks say 0 where nothing leads.

**Conventions.** As `ir.sound` and `music.piece`. The gamut of each section is promised with the sound.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import cache

from gamutwright.errors import DomainError, told
from gamutwright.ir.playing import ChordSymbol, Gamut, Part, Stroke
from gamutwright.ir.sound import TICKS_PER_SECOND, Mark, Note, Sound
from gamutwright.music.performance import Performance
from gamutwright.music.piece import QUARTER, Piece, Tone, bar_length, step_of
from gamutwright.music.pitches import Register, names_of_steps

__all__ = ["LEADERS", "LONGEST_SECONDS", "leading_part", "piece_sound"]

LONGEST_SECONDS = 1800
LEADERS = (Part.TUNE, Part.CHORD, Part.BASS)
"""Whose notes pictures follow: the first of these that plays."""
_RING_TICKS = TICKS_PER_SECOND // 2


def leading_part(piece: Piece) -> Part | None:
    """Say whose notes pictures follow.

    Parameters
    ----------
    piece : Piece
        The piece.

    Returns
    -------
    Part or None
        The first of `LEADERS` that plays; None for drums alone.
    """
    return next((part for part in LEADERS if part in piece.parts), None)


def piece_sound(piece: Piece, performance: Performance | None = None) -> Sound:
    """Write a piece as a sound.

    Parameters
    ----------
    piece : Piece
        The piece.
    performance : Performance, optional
        Timbre, tempo and tuning.

    Returns
    -------
    Sound
        Notes of all parts, strokes, bars, chord symbols and gamuts.

    Raises
    ------
    DomainError
        If it would last longer than half an hour.
    """
    performance = performance or Performance()
    if performance.tempo is None:
        performance = replace(performance, tempo=piece.tempo)
    beat = QUARTER * piece.metre.quarters_per_beat

    @cache
    def tick(start: int) -> int:
        return performance.ticks(Fraction(start) / beat)

    ticks = tick(piece.length) + _RING_TICKS
    if ticks > LONGEST_SECONDS * TICKS_PER_SECOND:
        raise DomainError(
            told("a piece of {part} minutes", part=f"{ticks / TICKS_PER_SECOND / 60:.0f}"),
            told("a phrase lasts up to {part} minutes", part=LONGEST_SECONDS // 60),
            told("Choose fewer bars or a quicker tempo."),
        )
    register = Register(piece.sections[0].scale, performance.tuning)
    leader = leading_part(piece)
    notes = []
    for tone in piece.tones:
        scale = piece.scale_at(tone.start)
        step = step_of(scale, tone.degree)
        begin, end = tick(tone.start), tick(tone.start + tone.length)
        length = max(1, round((end - begin) * tone.share))
        name = names_of_steps(scale)[step % scale.divisions]
        item = _item(piece, tone) if tone.part is leader else 0
        notes.append(Note(begin, length, register.freq_hz(step), tone.force, name, item, tone.part))
    bar = bar_length(piece.metre)
    return Sound(
        ticks,
        tuple(sorted(notes, key=lambda note: (note.start_tick, note.freq_hz))),
        performance.timbre,
        _marks(piece, leader, tick),
        performance.ticks(Fraction(1)),
        piece.title,
        tuple(Stroke(tick(tap.start), tap.drum, tap.force, tap.item) for tap in piece.taps),
        piece.metre,
        tuple(tick(bar * number) for number in range(piece.bars)),
        tuple(ChordSymbol(tick(one.start), one.symbol) for one in piece.harmonies),
        tuple(
            Gamut(tick(section.start), tuple(register.freq_hz(tone) for tone in section.scale.tones))
            for section in piece.sections
        ),
    )


def _item(piece: Piece, tone: Tone) -> int:
    return tone.degree % piece.scale_at(tone.start).cardinality + 1


def _marks(piece: Piece, leader: Part | None, tick: Callable[[int], int]) -> tuple[Mark, ...]:
    """Mark the leader's notes, the lowest of those that begin together, and silences; without notes the strokes."""
    if leader is None:
        return tuple(Mark(tick(tap.start), tap.item) for tap in piece.taps if tap.item)
    marks = []
    tones = [lowest for lowest, *_ in piece.together(leader)]
    for number, tone in enumerate(tones):
        marks.append(Mark(tick(tone.start), _item(piece, tone)))
        end = tone.start + tone.length
        after = tones[number + 1].start if number + 1 < len(tones) else piece.length
        if after > end:
            marks.append(Mark(tick(end), 0))
    return tuple(marks)
