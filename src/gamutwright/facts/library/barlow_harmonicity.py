"""Barlow's harmonicity of each tone against the root, in just intonation: the simpler the two numbers of the ratio, the
larger it is; it is negative where the upper tone has the simpler number.

Conventions: one over the sum of the indigestibilities of the two numbers, with a sign: fifths and major thirds are
positive, fourths and minor thirds negative. The ratios are the nearest just ones. The harmonicity of the unison is
infinite, so tones whose nearest ratio is 1/1, the root above all, are left out.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.bibliography import BARLOW_1987
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Phrase,
    Picture,
    Scope,
    Witness,
    WitnessKind,
    Worked,
)
from gamutwright.theory.ratios import harmonicity, just_ratios
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "value"]

TABLE = Citation(BARLOW_1987, "table 2, p. 45, as transcribed in the open library hmt", Evidence.QUOTED)
SIZES = Citation(BARLOW_1987, "table 2, p. 45, sizes as transcribed in hmt, signs by the formula", Evidence.QUOTED)


def _sounding(scale: Scale) -> tuple[tuple[int, Fraction], ...]:
    return tuple((tone, ratio) for tone, ratio in zip(scale.tones, just_ratios(scale), strict=True) if ratio != 1)


def value(scale: Scale) -> tuple[float, ...]:
    """Give the harmonicity of each tone but the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of float
        One for each tone whose nearest ratio is not 1/1, upwards from the root.

    Examples
    --------
    >>> [round(h, 6) for h in value(Scale.of(0, 5, 7))]
    [-0.214286, 0.272727]
    """
    return tuple(float(harmonicity(ratio)) for _, ratio in _sounding(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List those tones with their ratios.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone for each number of the value.

    Examples
    --------
    >>> [(w.parts, w.label) for w in witnesses(Scale.of(0, 7))]
    [(((7,),), '3/2')]
    """
    return tuple(
        Witness(WitnessKind.TONE, ((tone,),), f"{ratio.numerator}/{ratio.denominator}")
        for tone, ratio in _sounding(scale)
    )


FACT = Fact(
    id="barlow_harmonicity",
    doc=__doc__,
    title="Barlow's harmonicity",
    group=Group.CONSONANCE,
    dtype=Dtype.FLOATS,
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=value,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    needs=("just_ratios",),
    terms=("harmonicity",),
    picture=Picture("ladder"),
    sound=Phrase("drone"),
    sources=(Citation(BARLOW_1987, "table 2, p. 45, as transcribed in the open library hmt", Evidence.QUOTED),),
    worked=(
        Worked(Scale.of(0, 5), (-0.214286,), TABLE, tolerance=5e-7),
        Worked(Scale.of(0, 2), (0.12,), TABLE, tolerance=5e-7),
        Worked(Scale.of(0, 8, 9), (-0.106383, 0.110294), SIZES, tolerance=5e-7),
        Worked(Scale.of(0), (), Citation(BARLOW_1987, "the unison is infinitely harmonic")),
        # Without its sign.
        Worked(Scale.of(0, 5), (0.214286,), TABLE, tolerance=5e-7, refutes=True),
    ),
)
