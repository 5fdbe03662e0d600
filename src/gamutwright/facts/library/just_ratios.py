"""The frequency ratio of just intonation that lies nearest to each tone above the root.

Conventions: the ratios are those of the primes 2, 3, 5 and 7 that have names of their own: 1/1 25/24 16/15 10/9 9/8 8/7
7/6 6/5 5/4 9/7 4/3 7/5 45/32 and their complements to the octave. Of two equally near the lower is taken, so that the
half octave is 45/32. A label gives the error, negative where the tempered tone is the lower.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951, HELMHOLTZ_1885
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
from gamutwright.facts.roles import Reader, Roles
from gamutwright.theory.ratios import just_errors, just_ratios
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "value"]

COMPARED = Citation(BARBOUR_1951, "chapter 6; logarithms compared one by one", Evidence.RECOMPUTED)


def value(scale: Scale) -> tuple[str, ...]:
    """Print the nearest ratios.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of str
        A ratio for each tone, upwards from the root.

    Examples
    --------
    >>> value(Scale.of(0, 3, 7))
    ('1/1', '6/5', '3/2')
    """
    return tuple(f"{ratio.numerator}/{ratio.denominator}" for ratio in just_ratios(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with ratio and error.

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
    >>> [w.label for w in witnesses(Scale.of(0, 4))]
    ['1/1 (+0.00 cents)', '5/4 (+13.69 cents)']
    """
    labels = (f"{ratio} ({error:+.2f} cents)" for ratio, error in zip(value(scale), just_errors(scale), strict=True))
    return labelled_tones(scale, labels)


FACT = Fact(
    id="just_ratios",
    doc=__doc__,
    title="Nearest just ratios",
    group=Group.CONSONANCE,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=value,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    needs=("tone_cents",),
    terms=("just ratio", "just ratios"),
    picture=Picture("ladder"),
    sound=Phrase("drone"),
    roles=Roles(reader=Reader.RATIOS, longest=8),
    sources=(Citation(HELMHOLTZ_1885, "appendix XX, table of intervals"), Citation(BARBOUR_1951, "chapter 5")),
    worked=(
        Worked(
            Scale.of(0, 2, 4, 5, 7, 9, 11),
            ("1/1", "9/8", "5/4", "4/3", "3/2", "5/3", "15/8"),
            Citation(BARBOUR_1951, "chapter 5, the just major scale"),
        ),
        Worked(Scale.of(0, 10, 18, 25, divisions=31), ("1/1", "5/4", "3/2", "7/4"), COMPARED),
        Worked(Scale.of(0, 4, 7, 10), ("1/1", "5/4", "3/2", "16/9"), COMPARED),
        # The harmonic seventh is 31 cents away.
        Worked(Scale.of(0, 4, 7, 10), ("1/1", "5/4", "3/2", "7/4"), COMPARED, refutes=True),
    ),
)
