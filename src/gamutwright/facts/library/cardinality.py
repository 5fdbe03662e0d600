"""The number of tones in the scale, the octave of the root not counted again.

Conventions: the empty set has cardinality 0.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973
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
    Worked,
)
from gamutwright.facts.pointing import at_tones
from gamutwright.facts.roles import Basic, Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "cardinality", "witnesses"]

TABLE = Citation(FORTE_1973, "Appendix 1, as transcribed in music21 10.5", Evidence.QUOTED)


def cardinality(scale: Scale) -> int:
    """Count the tones.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    int
        Number of tones.

    Examples
    --------
    >>> cardinality(Scale.of(0, 2, 4, 7, 9))
    5
    """
    return scale.cardinality


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones, upwards from the root.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each.

    Examples
    --------
    >>> len(witnesses(Scale.of(0, 2, 4, 7, 9)))
    5
    """
    return at_tones(scale.tones)


FACT = Fact(
    id="cardinality",
    title="Number of tones",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INT,
    unit="tones",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=cardinality,
    witnesses=witnesses,
    counts=True,
    domain=Domain(tones=(0, 72)),
    terms=("cardinality",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    kernel="gamutwright.kernels.interval_columns",
    roles=Roles(basic=Basic.SIZE, part=Part.HEAR, rank=1, is_needed=True),
    sources=(Citation(FORTE_1973, "chapter 1"),),
    worked=(
        Worked(Scale.of(0, 1, 3, 5, 6, 8, 10), 7, TABLE),
        Worked(Scale.of(0, 2, 4, 7, 9), 5, TABLE),
        Worked(Scale(0), 0, Citation(FORTE_1973, "chapter 1, the null set")),
    ),
)
