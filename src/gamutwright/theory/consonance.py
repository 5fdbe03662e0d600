"""How consonant a scale is as a whole: by its interval classes, and by the roughness of all its tones at once.

Conventions: Huron's index weighs each entry of the interval-class vector; the weights are standard scores, so that
dissonant classes count negatively. It is a *sum*: sets of different sizes cannot be compared by it. For roughness all
tones of one octave sound together in the equal division, from the root at or above middle C, A4 at 440 Hz, without the
octave of the root; roughness therefore depends a little on the root.

References: Huron, Music Perception 11 (1994), 289-305, weights as transcribed in the open program incon; for roughness
see `gamutwright.theory.roughness`.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.errors import DomainError
from gamutwright.theory.roughness import (
    HUTCHINSON_KNOPOFF_HARMONICS,
    SETHARES_DECAY,
    SETHARES_HARMONICS,
    hutchinson_knopoff_roughness,
    inverse_harmonics,
    sethares_roughness,
    with_harmonics,
)
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.tuning import tone_frequencies

__all__ = ["HURON_WEIGHTS", "huron_consonance", "scale_hutchinson_knopoff_roughness", "scale_sethares_roughness"]

HURON_WEIGHTS: tuple[Fraction, ...] = tuple(Fraction(weight, 1000) for weight in (-1428, -582, 594, 386, 1240, -453))
"""Weights of the interval classes 1 to 6."""

_SETHARES_AMPLITUDES = tuple(SETHARES_DECAY**place for place in range(SETHARES_HARMONICS))
_SETHARES_UNIT = sethares_roughness([(440.0, 1.0), (460.0, 1.0)])


def huron_consonance(scale: Scale) -> Fraction:
    """Sum Huron's weights over all intervals of the set.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The set.

    Returns
    -------
    Fraction
        The sum of weights, exact in thousandths; not comparable between sets of different size.

    Raises
    ------
    DomainError
        If the set is not one of twelve divisions.

    Examples
    --------
    >>> float(huron_consonance(Scale.of(0, 3, 7)))
    2.22
    """
    if scale.divisions != 12:
        raise DomainError(
            f"a scale of {scale.divisions} divisions",
            "Huron's weights are those of the six interval classes of twelve divisions",
            "Choose twelve divisions.",
        )
    total = Fraction()
    for size, weight in enumerate(HURON_WEIGHTS, 1):
        places = (scale.mask & rotated_mask(scale.mask, size, 12)).bit_count()
        total += weight * (places // 2 if size == 6 else places)
    return total


def scale_sethares_roughness(scale: Scale) -> float:
    """Give the roughness of all tones together by Sethares's program.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    float >= 0
        In units of the roughness of two pure tones of amplitude 1 at 440 and 460 Hz; each tone has six harmonics, each
        0.88 times as strong as the one before.

    Examples
    --------
    >>> scale_sethares_roughness(Scale.of(0, 7)) < scale_sethares_roughness(Scale.of(0, 6))
    True
    """
    return sethares_roughness(with_harmonics(tone_frequencies(scale), _SETHARES_AMPLITUDES)) / _SETHARES_UNIT


def scale_hutchinson_knopoff_roughness(scale: Scale) -> float:
    """Give the roughness of all tones together by Hutchinson and Knopoff.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    float >= 0
        Weighted mean roughness; each tone has eleven harmonics of amplitudes 1, 1/2, 1/3 and so on.

    Examples
    --------
    >>> round(scale_hutchinson_knopoff_roughness(Scale.of(0, 3, 7)), 7)
    0.130083
    """
    amplitudes = inverse_harmonics(HUTCHINSON_KNOPOFF_HARMONICS)
    return hutchinson_knopoff_roughness(with_harmonics(tone_frequencies(scale), amplitudes))
