"""Whether the scale, counted from its root, is already the prime form of its set class by Forte's rule.

Conventions: true of at most one mode of a scale or of its inversion.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import FORTE_1973
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.theory.pcset import prime_form
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "is_prime_form"]

TABLE = Citation(FORTE_1973, "Appendix 1, as transcribed in music21 10.5", Evidence.QUOTED)


def is_prime_form(scale: Scale) -> bool:
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
    >>> is_prime_form(Scale.of(0, 1, 3, 5, 6, 8, 10)), is_prime_form(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (True, False)
    """
    return scale.tones == prime_form(scale)


FACT = Fact(
    id="is_prime_form",
    title="Is its prime form (Forte)",
    doc=__doc__,
    group=Group.CLASSES,
    dtype=Dtype.BOOL,
    level=Level.RESEARCH,
    scope=Scope.ROOTED,
    value=is_prime_form,
    domain=Domain(rooted=True),
    needs=("prime_form",),
    terms=(),
    picture=Picture("clock", "value"),
    sources=(Citation(FORTE_1973, "chapter 1"),),
    worked=(
        Worked(Scale.of(0, 1, 3, 5, 6, 8, 10), True, TABLE),
        Worked(Scale.of(0, 1, 3, 7, 8), True, TABLE),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), False, TABLE),
        Worked(Scale.of(0, 1, 5, 6, 8), False, TABLE),
    ),
)
