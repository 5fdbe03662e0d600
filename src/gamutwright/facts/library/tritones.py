"""The number of pairs of tones that stand half an octave apart.

Conventions: augmented fourth and diminished fifth between the same two tones are one pair.
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
from gamutwright.facts.pointing import at_intervals
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.intervals import pairs_of_class
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "tritones"]

APPENDIX = Citation(FORTE_1973, "Appendix 1, as transcribed in music21 10.5 and in hmt", Evidence.QUOTED)


def tritones(scale: Scale) -> int:
    """Count the tritones.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Number of pairs of tones.

    Examples
    --------
    >>> tritones(Scale.of(0, 2, 4, 5, 7, 9, 11))
    1
    """
    return len(pairs_of_class(scale, 6))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tritones, upwards from the root.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        An interval each.

    Examples
    --------
    >>> [w.parts for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [((5, 11),)]
    """
    return at_intervals(pairs_of_class(scale, 6))


FACT = Fact(
    id="tritones",
    title="Tritones",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INT,
    unit="pairs of tones",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=tritones,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="the tritone is six semitones of twelve divisions"),
    needs=("spelling",),
    terms=("tritone", "tritones"),
    picture=Picture("clock"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=5, comparing=2),
    sources=(APPENDIX,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, APPENDIX),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 2, APPENDIX),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 3, APPENDIX),
        Worked(Scale.of(0, 2, 4, 7, 9), 0, APPENDIX),
    ),
)
