"""Practice patterns: a scale in thirds, in groups of three and four, and in broken triads, up an octave and down again.

A triad here is every other tone of the scale, in any division.

**Conventions.** Eighths without a rest, the last one held to the end of its bar. Where each pattern turns is a habit of
teaching (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gamutwright.errors import DomainError, told
from gamutwright.ir.playing import Metre
from gamutwright.music.piece import QUARTER, Piece, Section, Tone, bar_length
from gamutwright.theory.scale import Scale

__all__ = ["PATTERNS", "Pattern", "practice"]

_EIGHTH = QUARTER // 2


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern.

    Parameters
    ----------
    title : str
        A short name.
    metre : Metre
        The metre that its groups fill.
    offsets : tuple of int
        Degrees of a group, from its first.
    """

    title: str
    metre: Metre
    offsets: tuple[int, ...]

    def degrees(self, tones: int) -> tuple[int, ...]:
        """Give its degrees.

        Parameters
        ----------
        tones : int
            How many the scale has.

        Returns
        -------
        tuple of int
            Up to the octave, down again, and home.

        Examples
        --------
        >>> PATTERNS["thirds"].degrees(3)
        (0, 2, 1, 3, 2, 4, 3, 1, 2, 0, 1, -1, 0)
        """
        up = [k + offset for k in range(tones) for offset in self.offsets]
        down = [k - offset for k in range(tones, 0, -1) for offset in self.offsets]
        return (*up, *down, 0)


PATTERNS: Mapping[str, Pattern] = {
    "thirds": Pattern("in thirds", Metre(4, 4), (0, 2)),
    "groups-of-three": Pattern("in groups of three", Metre(6, 8), (0, 1, 2)),
    "groups-of-four": Pattern("in groups of four", Metre(4, 4), (0, 1, 2, 3)),
    "broken-triads": Pattern("in broken triads", Metre(6, 8), (0, 2, 4)),
}
"""Every pattern by its name."""


def practice(scale: Scale, name: str, metre: Metre | None = None) -> Piece:
    """Write a pattern.

    Parameters
    ----------
    scale : Scale, at least three tones
        The scale.
    name : str
        One of `PATTERNS`.
    metre : Metre, optional
        Another metre than its own.

    Returns
    -------
    Piece
        The pattern, one part.

    Raises
    ------
    DomainError
        If the scale has fewer than three tones.

    Examples
    --------
    >>> practice(Scale.of(0, 4, 7), "thirds").bars
    2
    """
    if scale.cardinality < 3:
        raise DomainError(
            told("a pattern of {cardinality} tones", cardinality=scale.cardinality),
            told("patterns take every other tone of three or more"),
            told("Give the scale another tone, or play it up and down: scale."),
        )
    pattern = PATTERNS[name]
    metre = metre or pattern.metre
    degrees, bar = pattern.degrees(scale.cardinality), bar_length(metre)
    end = -(-len(degrees) * _EIGHTH // bar) * bar
    tones = [
        Tone(k * _EIGHTH, _EIGHTH if k + 1 < len(degrees) else end - k * _EIGHTH, degree)
        for k, degree in enumerate(degrees)
    ]
    return Piece(pattern.title, metre, end // bar, (Section(0, scale),), tuple(tones))
