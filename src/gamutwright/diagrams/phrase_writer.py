"""A pen for phrases: it keeps the beat, turns steps into frequencies and beats into ticks, and counts what it marks.

**Conventions.** Beats are exact fractions until they become ticks, so that a long phrase does not drift. Chords share
the force of a single tone: each of m tones has the m-th part of its energy.
"""

from __future__ import annotations

import math
from fractions import Fraction

from gamutwright.errors import DomainError
from gamutwright.ir.sound import TICKS_PER_SECOND, Mark, Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pitches import Register, close_voicing, names_of_steps

__all__ = ["LONGEST_SECONDS", "Writer"]

LONGEST_SECONDS = 1800
_FORCE = 0.7
_DRONE_FORCE = 0.45
_RING_TICKS = TICKS_PER_SECOND // 2
_STRUCK_AGAIN = 4


class Writer:
    """Collects notes and marks as a phrase goes on.

    Parameters
    ----------
    register : Register
        Where the scale lies.
    performance : Performance
        How it is played.
    """

    def __init__(self, register: Register, performance: Performance) -> None:
        self._register = register
        self._performance = performance
        self._names = names_of_steps(register.scale)
        self._now = Fraction(0)
        self._item = 0
        self._notes: list[Note] = []
        self._marks: list[Mark] = []

    def mark(self, item: int, label: str = "") -> None:
        """Say that an item begins now.

        Parameters
        ----------
        item : int >= 0
            Its number; 0 for none.
        label : str
            What a reader would call it.
        """
        self._item = item
        self._marks.append(Mark(self._performance.ticks(self._now), item, label))

    def rest(self, beats: float) -> None:
        """Wait.

        Parameters
        ----------
        beats : float
            For how long.
        """
        self._now += Fraction(beats)

    def tone(self, step: int, beats: float = 1) -> None:
        """Play one tone and go on when it ends.

        Parameters
        ----------
        step : int
            Steps above the root.
        beats : float
            For how long.
        """
        self.struck((step,), beats)

    def struck(self, steps: tuple[int, ...], beats: float) -> None:
        """Play tones together and go on when they end.

        Parameters
        ----------
        steps : tuple of int
            Steps above the root.
        beats : float
            For how long.
        """
        for step in steps:
            self._put(step, self._now, Fraction(beats), _FORCE / math.sqrt(len(steps)))
        self.rest(beats)

    def broken(self, steps: tuple[int, ...]) -> None:
        """Play tones one after another, half a beat each.

        Parameters
        ----------
        steps : tuple of int
            Steps above the root.
        """
        for step in steps:
            self.tone(step, 0.5)

    def run(self, steps: tuple[int, ...]) -> None:
        """Play a row of tones and its first an octave up, half a beat each, the last a whole beat.

        Parameters
        ----------
        steps : tuple of int
            Rising steps above the root.
        """
        self.broken(steps)
        self.tone(steps[0] + self._register.scale.divisions)

    def drone(self, step: int, beats: int) -> None:
        """Let a tone sound under what follows, softer, struck again where the timbre fades.

        Parameters
        ----------
        step : int
            Steps above the root.
        beats : int
            For how long.
        """
        stride = beats if self._performance.timbre is Timbre.SUSTAINED else _STRUCK_AGAIN
        for begin in range(0, beats, stride):
            self._put(step, self._now + begin, Fraction(min(stride, beats - begin)), _DRONE_FORCE)

    def close(self, tones: tuple[int, ...]) -> tuple[int, ...]:
        """Stack tones upwards from the root.

        Parameters
        ----------
        tones : tuple of int
            Tones in steps above the root, in rising order.

        Returns
        -------
        tuple of int
            Rising steps.
        """
        return close_voicing(tones, self._register.scale.divisions)

    def sound(self, title: str = "") -> Sound:
        """Finish.

        Parameters
        ----------
        title : str
            A short name.

        Returns
        -------
        Sound
            Everything written, with half a second to ring on.

        Raises
        ------
        DomainError
            If it lasts longer than half an hour.
        """
        ticks = max((note.end_tick for note in self._notes), default=0) + _RING_TICKS
        if ticks > LONGEST_SECONDS * TICKS_PER_SECOND:
            raise DomainError(
                f"a phrase of {ticks / TICKS_PER_SECOND / 60:.0f} minutes",
                f"a phrase lasts up to {LONGEST_SECONDS // 60} minutes",
                "Choose fewer places, a shorter phrase or a quicker tempo.",
            )
        notes = tuple(sorted(self._notes, key=lambda note: (note.start_tick, note.freq_hz)))
        beat = self._performance.ticks(Fraction(1))
        return Sound(ticks, notes, self._performance.timbre, tuple(self._marks), beat, title)

    def _put(self, step: int, start: Fraction, beats: Fraction, velocity: float) -> None:
        ticks = self._performance.ticks
        name = self._names[step % self._register.scale.divisions]
        begin = ticks(start)
        length = max(1, ticks(start + beats) - begin)
        self._notes.append(Note(begin, length, self._register.freq_hz(step), velocity, name, self._item))
