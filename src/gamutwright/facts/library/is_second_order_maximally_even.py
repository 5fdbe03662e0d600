"""Whether the tones are spread as evenly as possible inside a scale that is itself spread as evenly as possible over
the octave.

Conventions: inside means counted in steps of that larger scale, as the tones of a triad are two, two and three steps of
the major scale apart. Every maximally even scale qualifies, since it is so inside itself. The witnesses are the larger
scales; the scale itself and the whole division are not listed.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import CLOUGH_DOUTHETT_1991
from gamutwright.facts.model import (
    Citation,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Picture,
    Scope,
    Witness,
    WitnessKind,
    Worked,
)
from gamutwright.theory.evenness import is_second_order_maximally_even, maximally_even_hosts
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

QUOTED = Citation(CLOUGH_DOUTHETT_1991, "as given in Wikipedia, Maximal evenness", Evidence.QUOTED)
RECOMPUTED = Citation(CLOUGH_DOUTHETT_1991, "definition; value recomputed", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the maximally even scales inside which the tones are spread evenly.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Witness
        A scale each, its tones counted from this root; smaller scales first.

    Examples
    --------
    >>> [w.parts[0] for w in witnesses(Scale.of(0, 4, 7))][:2]
    [(0, 2, 4, 7, 9), (0, 2, 4, 5, 7, 9, 10)]
    """
    return tuple(Witness(WitnessKind.SCALE, (host,)) for host in maximally_even_hosts(scale))


FACT = Fact(
    id="is_second_order_maximally_even",
    title="Second-order maximal evenness",
    doc=__doc__,
    group=Group.SPECTRA,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=is_second_order_maximally_even,
    witnesses=witnesses,
    needs=("is_maximally_even",),
    terms=("second-order maximally even", "second-order maximal evenness"),
    picture=Picture("comparison"),
    sources=(QUOTED,),
    worked=(
        Worked(Scale.of(0, 4, 7), True, QUOTED),
        Worked(Scale.of(0, 4, 7, 11), True, QUOTED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), True, RECOMPUTED),
        Worked(Scale.of(0, 3, 5, 6, 7, 10), False, RECOMPUTED),
        Worked(Scale.of(0, 1, 2), False, RECOMPUTED),
    ),
)
