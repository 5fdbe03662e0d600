"""The tones of the scale on a keyboard in Kirnberger's third tuning: the fifths on C, G, D and A are a quarter of the
syntonic comma narrow, so that C to E is a pure third, and the others but one are pure.

Conventions: the fifth on F sharp is narrow by the schisma that is left. C is the home of the tuning and each pitch
class has one key, so the sizes depend on where the scale begins and not on how it is spelled. Sizes are cents above the
root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Witness, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import KIRNBERGER_III, tuned_cents

__all__ = ["FACT", "kirnberger_cents"]

TABLE = Citation(BARBOUR_1951, "chapter 7, Kirnberger; table of modern tuners")


def kirnberger_cents(scale: Scale) -> tuple[float, ...]:
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
    >>> [round(cents, 3) for cents in kirnberger_cents(Scale.of(0, 4, 7))]
    [0.0, 386.314, 696.578]
    """
    return tuned_cents(scale, KIRNBERGER_III)


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
    return labelled_tones(scale, (f"{cents:.2f}" for cents in kirnberger_cents(scale)))


FACT = Fact(
    id="kirnberger_cents",
    doc=__doc__,
    title="Kirnberger III",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=kirnberger_cents,
    witnesses=witnesses,
    domain=Domain(
        divisions=(12, 12), rooted=True, rule="these tunings are those of a keyboard with twelve keys to the octave"
    ),
    needs=("tone_cents",),
    terms=("Kirnberger",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    sources=(Citation(BARBOUR_1951, "chapter 7, Kirnberger"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 90.225, 193.157, 294.135, 386.314, 498.045, 590.224, 696.578, 792.180, 889.735, 996.090, 1088.269),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 4, 7), (0.0, 386.314, 696.578), TABLE, tolerance=5e-4),
        # Only the third on C is pure: on G it is not.
        Worked(Scale.of(7, 11), (0.0, 386.314), TABLE, tolerance=5e-4, refutes=True),
    ),
)
