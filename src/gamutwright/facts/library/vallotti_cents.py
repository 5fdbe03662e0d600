"""The tones of the scale on a keyboard in Vallotti's tuning: the six fifths from F up to B are a sixth of the
Pythagorean comma narrow, the other six pure.

Conventions: keys with few accidentals have the purest thirds. C is the home of the tuning and each pitch class has one
key, so the sizes depend on where the scale begins and not on how it is spelled. Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Witness, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import VALLOTTI, tuned_cents

__all__ = ["FACT", "vallotti_cents"]

TABLE = Citation(BARBOUR_1951, "chapter 7, Vallotti; table of modern tuners")


def vallotti_cents(scale: Scale) -> tuple[float, ...]:
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
    >>> [round(cents, 3) for cents in vallotti_cents(Scale.of(0, 4, 7))]
    [0.0, 392.18, 698.045]
    """
    return tuned_cents(scale, VALLOTTI)


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
    return labelled_tones(scale, (f"{cents:.2f}" for cents in vallotti_cents(scale)))


FACT = Fact(
    id="vallotti_cents",
    doc=__doc__,
    title="Vallotti",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=vallotti_cents,
    witnesses=witnesses,
    domain=Domain(
        divisions=(12, 12), rooted=True, rule="these tunings are those of a keyboard with twelve keys to the octave"
    ),
    needs=("tone_cents",),
    terms=("Vallotti",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    sources=(Citation(BARBOUR_1951, "chapter 7, Vallotti"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 94.135, 196.090, 298.045, 392.180, 501.955, 592.180, 698.045, 796.090, 894.135, 1000.0, 1090.225),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(6, 10, 1), (0.0, 407.820, 701.955), TABLE, tolerance=5e-4),
        # The triad on F sharp is not that on C.
        Worked(Scale.of(6, 10, 1), (0.0, 392.180, 698.045), TABLE, tolerance=5e-4, refutes=True),
    ),
)
