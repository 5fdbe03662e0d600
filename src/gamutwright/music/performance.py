"""How music is played: the timbre of its tune, its tempo and its tuning.

**Conventions.** Tempo is in beats a minute; a beat is dotted in compound metres. Beats are exact fractions until they
become ticks, so that nothing long drifts.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from gamutwright.errors import DomainError, told
from gamutwright.ir.sound import TICKS_PER_SECOND, Timbre
from gamutwright.theory.tuning import Tuning

__all__ = ["USUAL_TEMPO", "Performance"]

USUAL_TEMPO = 90.0
"""Beats a minute that suit most scales."""
_TEMPO = (20.0, 300.0)


@dataclass(frozen=True, slots=True)
class Performance:
    """How a phrase is played.

    Parameters
    ----------
    timbre : Timbre
        How the tones sound.
    tempo : float in [20, 300], optional
        Beats a minute; what suits the music without it.
    tuning : Tuning or None
        How the keys are tuned; None for the equal division.

    Raises
    ------
    DomainError
        If the tempo lies outside its range.

    Examples
    --------
    >>> Performance(tempo=120).ticks(Fraction(1, 2))
    12000
    """

    timbre: Timbre = Timbre.PLUCKED
    tempo: float | None = None
    tuning: Tuning | None = None

    def __post_init__(self) -> None:
        if self.tempo is not None and not _TEMPO[0] <= self.tempo <= _TEMPO[1]:
            raise DomainError(
                told("tempo {tempo}", tempo=f"{self.tempo:g}"),
                told(
                    "a tempo lies between {tempo} and {tempo2} beats a minute",
                    tempo=f"{_TEMPO[0]:g}",
                    tempo2=f"{_TEMPO[1]:g}",
                ),
                told("Choose another tempo; {usual_tempo} suits most scales.", usual_tempo=f"{USUAL_TEMPO:g}"),
            )

    def ticks(self, beats: Fraction) -> int:
        """Turn beats into ticks.

        Parameters
        ----------
        beats : Fraction
            A time in beats.

        Returns
        -------
        int
            The nearest tick.
        """
        return round(beats * 60 * TICKS_PER_SECOND / Fraction(self.tempo or USUAL_TEMPO))
