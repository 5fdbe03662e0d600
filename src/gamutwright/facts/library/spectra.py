"""For each number of scale steps from one up to one less than the number of tones, the sizes of all intervals in the
scale that cover so many steps.

Conventions: a row for each span, seconds first; sizes are steps of the division, ascending, each given once. Intervals
that run across the octave count. A witness is an interval, labelled with its size; they come span by span, upwards from
the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_MYERSON_1985
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
from gamutwright.theory.scale import Scale
from gamutwright.theory.spectra import interval_sizes, spectra

__all__ = ["FACT"]

QUOTED = Citation(CLOUGH_MYERSON_1985, "as given in Wikipedia, Generic and specific intervals", Evidence.QUOTED)
RECOMPUTED = Citation(CLOUGH_MYERSON_1985, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List every interval of the scale, span by span.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        An interval each, labelled with its size.

    Examples
    --------
    >>> [(w.parts[0], w.label) for w in witnesses(Scale.of(0, 4, 7))][:3]
    [((0, 4), '4'), ((4, 7), '3'), ((7, 0), '5')]
    """
    tones = scale.tones
    return tuple(
        Witness(WitnessKind.INTERVAL, ((tone, (tone + size) % scale.divisions),), str(size))
        for row in interval_sizes(scale)
        for tone, size in zip(tones, row, strict=True)
    )


FACT = Fact(
    id="spectra",
    title="Spectra",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.INT_ROWS,
    unit="steps of the division",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=spectra,
    witnesses=witnesses,
    domain=Domain(tones=(2, 72)),
    needs=("step_pattern",),
    terms=("spectrum", "spectra", "generic interval", "specific interval"),
    picture=Picture("spectra"),
    sound=Phrase("intervals"),
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ((1, 2), (3, 4), (5, 6), (6, 7), (8, 9), (10, 11)), QUOTED),
        Worked(Scale.of(0, 2, 4, 7, 9), ((2, 3), (4, 5), (7, 8), (9, 10)), QUOTED),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), ((2,), (4,), (6,), (8,), (10,)), RECOMPUTED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ((1, 2), (3, 4), (5,), (7,), (8, 9), (10, 11)), QUOTED, refutes=True),
    ),
)
