"""The tones of the scale on a keyboard tuned by pure fifths, the ratio 3 to 2.

Conventions: the fifths run from E flat up to G sharp; the last, from G sharp to E flat, is narrow by the whole
Pythagorean comma. C is the home of the tuning and each pitch class has one key, so the sizes depend on where the scale
begins and not on how it is spelled. Sizes are cents above the root.
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
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import PYTHAGOREAN, tuned_cents

__all__ = ["FACT", "pythagorean_cents"]

TABLE = Citation(BARBOUR_1951, "chapter 1, table of the Pythagorean tuning")
COMMA = Citation(BARBOUR_1951, "chapter 1; a pure fifth less the Pythagorean comma", Evidence.RECOMPUTED)


def pythagorean_cents(scale: Scale) -> tuple[float, ...]:
    """Give the tones as the tuned keyboard sounds them.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of float, cents
        Each tone above the root.

    Examples
    --------
    >>> [round(cents, 3) for cents in pythagorean_cents(Scale.of(0, 4, 7))]
    [0.0, 407.82, 701.955]
    """
    return tuned_cents(scale, PYTHAGOREAN)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their cents.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A tone each, upwards from the root.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0))]
    ['0.00']
    """
    return labelled_tones(scale, (f"{cents:.2f}" for cents in pythagorean_cents(scale)))


FACT = Fact(
    id="pythagorean_cents",
    doc=__doc__,
    title="Pythagorean tuning",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=pythagorean_cents,
    witnesses=witnesses,
    domain=Domain(
        divisions=(12, 12), rooted=True, rule="these tunings are those of a keyboard with twelve keys to the octave"
    ),
    needs=("tone_cents",),
    terms=("Pythagorean tuning",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    sources=(Citation(BARBOUR_1951, "chapter 1"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 113.685, 203.910, 294.135, 407.820, 498.045, 611.730, 701.955, 815.640, 905.865, 996.090, 1109.775),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 3, 7), (0.0, 294.135, 701.955), TABLE, tolerance=5e-4),
        # The fifth on G sharp is the wolf.
        Worked(Scale.of(8, 3), (0.0, 678.495), COMMA, tolerance=5e-4),
        Worked(Scale.of(8, 3), (0.0, 701.955), COMMA, tolerance=5e-4, refutes=True),
    ),
)
