"""The tones of the scale on a keyboard in quarter-comma meantone: every fifth but one is a quarter of the syntonic
comma narrow, so that eight of the major thirds are pure.

Conventions: the fifths run from E flat up to G sharp; the last, from G sharp to E flat, is much too wide, the wolf. C
is the home of the tuning and each pitch class has one key, so the sizes depend on where the scale begins and not on how
it is spelled. Sizes are cents above the root.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import BARBOUR_1951
from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Witness, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import QUARTER_COMMA_MEANTONE, tuned_cents

__all__ = ["FACT", "quarter_comma_cents"]

TABLE = Citation(BARBOUR_1951, "chapter 3, table of the quarter-comma temperament")


def quarter_comma_cents(scale: Scale) -> tuple[float, ...]:
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
    >>> [round(cents, 3) for cents in quarter_comma_cents(Scale.of(0, 4, 7))]
    [0.0, 386.314, 696.578]
    """
    return tuned_cents(scale, QUARTER_COMMA_MEANTONE)


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
    return labelled_tones(scale, (f"{cents:.2f}" for cents in quarter_comma_cents(scale)))


FACT = Fact(
    id="quarter_comma_cents",
    doc=__doc__,
    title="Quarter-comma meantone",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=quarter_comma_cents,
    witnesses=witnesses,
    domain=Domain(
        divisions=(12, 12), rooted=True, rule="these tunings are those of a keyboard with twelve keys to the octave"
    ),
    needs=("tone_cents",),
    terms=("quarter-comma meantone",),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    sources=(Citation(BARBOUR_1951, "chapter 3"),),
    worked=(
        Worked(
            Scale.of(*range(12)),
            (0.0, 76.049, 193.157, 310.265, 386.314, 503.422, 579.471, 696.578, 772.627, 889.735, 1006.843, 1082.892),
            TABLE,
            tolerance=5e-4,
        ),
        Worked(Scale.of(0, 4, 7), (0.0, 386.314, 696.578), TABLE, tolerance=5e-4),
        # E flat serves badly as D sharp: the third on B is not pure.
        Worked(Scale.of(11, 3), (0.0, 386.314), TABLE, tolerance=5e-4, refutes=True),
    ),
)
