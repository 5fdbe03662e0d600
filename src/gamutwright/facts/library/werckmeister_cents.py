"""The tones of the scale on a keyboard in Werckmeister's third tuning: the fifths on C, G, D and B are a quarter of a
comma narrow and the others pure.

Conventions: the comma is the Pythagorean one, which is the modern reading; the treatise does not say. C is the home of
the tuning and each pitch class has one key, so the sizes depend on where the scale begins and not on how it is spelled.
Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951, WERCKMEISTER_1691
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
from gamutwright.theory.tuning import WERCKMEISTER_III, tuned_cents

__all__ = ["FACT", "werckmeister_cents"]

ROUNDED = Citation(
    WERCKMEISTER_1691, "third temperament, in whole cents as tabulated in the open library hmt", Evidence.QUOTED
)
COMMAS = Citation(
    WERCKMEISTER_1691, "third temperament; cents from the logarithms of fifths and comma", Evidence.RECOMPUTED
)


def werckmeister_cents(scale: Scale) -> tuple[float, ...]:
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
    >>> [round(cents, 3) for cents in werckmeister_cents(Scale.of(0, 4, 7))]
    [0.0, 390.225, 696.09]
    """
    return tuned_cents(scale, WERCKMEISTER_III)


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
    return labelled_tones(scale, (f"{cents:.2f}" for cents in werckmeister_cents(scale)))


FACT = Fact(
    id="werckmeister_cents",
    doc=__doc__,
    title="Werckmeister III",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=werckmeister_cents,
    witnesses=witnesses,
    domain=Domain(
        divisions=(12, 12), rooted=True, rule="these tunings are those of a keyboard with twelve keys to the octave"
    ),
    needs=("tone_cents",),
    terms=("Werckmeister",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    sources=(
        Citation(WERCKMEISTER_1691, "third temperament", Evidence.QUOTED),
        Citation(BARBOUR_1951, "chapter 7, Werckmeister"),
    ),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 90.0, 192.0, 294.0, 390.0, 498.0, 588.0, 696.0, 792.0, 888.0, 996.0, 1092.0),
            ROUNDED,
            tolerance=0.5,
        ),
        Worked(Scale.of(0, 4, 7, 9), (0.0, 390.225, 696.090, 888.270), COMMAS, tolerance=5e-4),
        # Tables of whole cents are roundings: the A lies a quarter of a cent above 888.
        Worked(Scale.of(0, 9), (0.0, 888.0), COMMAS, tolerance=5e-4, refutes=True),
    ),
)
