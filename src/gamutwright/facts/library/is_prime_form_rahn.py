"""Whether the scale, counted from its root, is already the prime form of its set class by Rahn's rule.

Conventions: true of at most one mode of a scale or of its inversion.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import RAHN_1980
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import prime_form_rahn
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "is_prime_form_rahn"]

TABLE = Citation(RAHN_1980, "table of set classes, as transcribed in hmt", Evidence.QUOTED)


def is_prime_form_rahn(scale: Scale) -> bool:
    """Compare the tones with the prime form.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        True where they are the same.

    Examples
    --------
    >>> is_prime_form_rahn(Scale.of(0, 1, 3, 5, 6, 8, 10)), is_prime_form_rahn(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (True, False)
    """
    return scale.tones == prime_form_rahn(scale)


FACT = Fact(
    id="is_prime_form_rahn",
    title="Is its prime form (Rahn)",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=is_prime_form_rahn,
    domain=Domain(rooted=True),
    needs=("prime_form_rahn",),
    terms=(),
    picture=Picture("clock", "value"),
    sources=(Citation(RAHN_1980, "chapter 4"),),
    worked=(
        Worked(Scale.of(0, 1, 5, 6, 8), True, TABLE),
        Worked(Scale.of(0, 2, 3, 6, 7, 9), True, TABLE),
        Worked(Scale.of(0, 1, 3, 7, 8), False, TABLE),
    ),
)
