"""The number of tones whose perfect fifth above is not in the scale.

Conventions: the perfect fifth is seven semitones. Such a tone cannot be the root of a plain major or minor chord of the
scale.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
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
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.intervals import tones_without_fifth
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tones_without_fifth_count"]

COUNTED = Citation(PRACTICE, "fifths of the diatonic scale: only the seventh degree lacks one", Evidence.PRACTICE)


def tones_without_fifth_count(scale: Scale) -> int:
    """Count the tones whose perfect fifth above is missing.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Number of tones.

    Examples
    --------
    >>> tones_without_fifth_count(Scale.of(0, 2, 4, 5, 7, 9, 11))
    1
    """
    return len(tones_without_fifth(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((11,),)]
    """
    return at_tones(tones_without_fifth(scale))


FACT = Fact(
    id="tones_without_fifth",
    title="Tones without a fifth above",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INT,
    unit="tones",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=tones_without_fifth_count,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="the perfect fifth is seven semitones of twelve divisions"),
    needs=("spelling",),
    terms=("fifth above", "fifths above"),
    picture=Picture("clock"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=6, comparing=5),
    sources=(COUNTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, COUNTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, COUNTED),
        Worked(Scale.of(*range(12)), 0, COUNTED),
    ),
)
