"""How often each interval class occurs between two tones of the scale, from the smallest class to the half octave.

Conventions: an interval and its inversion are of one class, named by the smaller of the two, in steps of the division.
Each pair of tones counts once, so the entries sum to the number of pairs; the half octave too counts once. The
witnesses are the pairs, class by class, each labelled with its class.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973, STRAUS
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
from gamutwright.theory.intervals import pairs_by_interval_class
from gamutwright.theory.pcset import interval_class_vector
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

APPENDIX = Citation(FORTE_1973, "Appendix 1, as transcribed in music21 10.5 and in hmt", Evidence.QUOTED)
ONCE = Citation(STRAUS, "the tritone maps onto itself, so its entry counts pairs, not common tones", Evidence.QUOTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List every pair of tones, class by class.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        An interval each, labelled with its interval class.

    Examples
    --------
    >>> [(w.parts[0], w.label) for w in witnesses(Scale.of(0, 4, 7))]
    [((4, 7), '3'), ((0, 4), '4'), ((0, 7), '5')]
    """
    return tuple(
        Witness(WitnessKind.INTERVAL, (pair,), str(of_class)) for of_class, pair in pairs_by_interval_class(scale)
    )


FACT = Fact(
    id="interval_class_vector",
    title="Interval-class vector",
    doc=__doc__,
    group=Group.INTERVALS,
    dtype=Dtype.INTS,
    unit="pairs of tones",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=interval_class_vector,
    witnesses=witnesses,
    domain=Domain(tones=(2, 72)),
    needs=("pitch_classes",),
    terms=("interval class", "interval classes", "interval-class vector"),
    picture=Picture("vector"),
    sound=Phrase("intervals"),
    kernel="gamutwright.kernels.interval_columns",
    sources=(APPENDIX,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (2, 5, 4, 3, 6, 1), APPENDIX),
        Worked(Scale.of(0, 2, 4, 7, 9), (0, 3, 2, 1, 4, 0), APPENDIX),
        Worked(Scale.of(0, 1, 6, 7), (2, 0, 0, 0, 2, 2), APPENDIX),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (2, 5, 4, 3, 6, 2), ONCE, refutes=True),
    ),
)
