"""Euler's degree of sweetness of each tone against the root, in just intonation: the larger the prime numbers in the
ratio and the more of them, the higher the degree and the less sweet the interval.

Conventions: one more than the sum of p - 1 over all prime factors p of the product of the two terms, in lowest terms;
the unison has degree one. The ratios are the nearest just ones.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import EULER_1739
from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Witness, Worked
from gamutwright.theory.ratios import euler_gradus, just_ratios
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "value"]

TABLE = Citation(EULER_1739, "chapter 4, degrees of ratios")


def value(scale: Scale) -> tuple[int, ...]:
    """Give the degree of each tone.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of int >= 1
        One for each tone, upwards from the root.

    Examples
    --------
    >>> value(Scale.of(0, 4, 7))
    (1, 7, 4)
    """
    return tuple(euler_gradus(ratio.numerator, ratio.denominator) for ratio in just_ratios(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their ratios and degrees.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, upwards from the root.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0, 7))]
    ['1/1: 1', '3/2: 4']
    """
    pairs = zip(just_ratios(scale), value(scale), strict=True)
    return labelled_tones(scale, (f"{ratio.numerator}/{ratio.denominator}: {degree}" for ratio, degree in pairs))


FACT = Fact(
    id="euler_gradus",
    doc=__doc__,
    title="Euler's gradus suavitatis",
    group=Group.CONSONANCE,
    dtype=Dtype.INTS,
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=value,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    needs=("just_ratios",),
    terms=("gradus suavitatis", "degree of sweetness"),
    picture=Picture("ladder"),
    sound=Phrase("drone"),
    sources=(Citation(EULER_1739, "chapter 4"),),
    worked=(
        Worked(Scale.of(0, 4, 5, 7), (1, 7, 5, 4), TABLE),
        Worked(Scale.of(0, 3, 8, 9), (1, 8, 8, 7), TABLE),
        Worked(Scale.of(0, 1, 2, 6, 11), (1, 11, 8, 14, 10), TABLE),
        # The fourth is not as sweet as the fifth: octaves count too.
        Worked(Scale.of(0, 5, 7), (1, 4, 4), TABLE, refutes=True),
    ),
)
