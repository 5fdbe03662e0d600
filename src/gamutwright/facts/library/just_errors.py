"""How far each tone of the equal division lies from the nearest ratio of just intonation.

Conventions: tempered minus just, in cents: positive where the tempered interval above the root is the wider. The ratios
are those of the fact about the nearest just ratios.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._places import labelled_tones
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
from gamutwright.theory.ratios import just_errors
from gamutwright.theory.scale import Scale

__all__ = ["FACT"]

LOGARITHMS = Citation(BARBOUR_1951, "chapters 3 and 6; errors from logarithms", Evidence.RECOMPUTED)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their errors.

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
    ['+0.00', '-1.96']
    """
    return labelled_tones(scale, (f"{error:+.2f}" for error in just_errors(scale)))


FACT = Fact(
    id="just_errors",
    doc=__doc__,
    title="Errors against just intonation",
    group=Group.CONSONANCE,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=just_errors,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    needs=("just_ratios",),
    picture=Picture("ladder"),
    sound=Phrase("drone"),
    sources=(Citation(BARBOUR_1951, "chapters 3 and 6"),),
    worked=(
        Worked(Scale.of(0, 3, 4, 7), (0.0, -15.641, 13.686, -1.955), LOGARITHMS, tolerance=5e-4),
        Worked(Scale.of(0, 5, 6, 11, divisions=19), (0.0, 0.148, -7.366, -7.218), LOGARITHMS, tolerance=5e-4),
        Worked(
            Scale.of(0, 8, 10, 18, 25, divisions=31), (0.0, -5.964, 0.783, -5.181, -1.084), LOGARITHMS, tolerance=5e-4
        ),
        # Just minus tempered.
        Worked(Scale.of(0, 3, 4, 7), (0.0, 15.641, -13.686, 1.955), LOGARITHMS, tolerance=5e-4, refutes=True),
    ),
)
