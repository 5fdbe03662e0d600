"""The size of the interval from the root up to each tone, in cents: hundredths of an equal semitone, twelve hundred to
the octave.

Conventions: every step of the division has the same size, 1200 cents divided by the number of steps.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import HELMHOLTZ_1885
from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Witness, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import tone_cents

__all__ = ["FACT"]

DEFINITION = Citation(HELMHOLTZ_1885, "appendix XX, the cent as a twelve-hundredth of the octave")


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their cents.

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
    >>> [w.label for w in witnesses(Scale.of(0, 11, divisions=19))]
    ['0.00', '694.74']
    """
    return labelled_tones(scale, (f"{cents:.2f}" for cents in tone_cents(scale)))


FACT = Fact(
    id="tone_cents",
    doc=__doc__,
    title="Tones in cents",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="cents",
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=tone_cents,
    witnesses=witnesses,
    domain=Domain(rooted=True),
    terms=("cent", "cents"),
    picture=Picture("ladder"),
    sound=Phrase("scale"),
    sources=(Citation(HELMHOLTZ_1885, "appendix XX, the cent"),),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), (0.0, 200.0, 400.0, 500.0, 700.0, 900.0, 1100.0), DEFINITION),
        Worked(Scale.of(0, 2, 4, divisions=5), (0.0, 480.0, 960.0), DEFINITION),
        # A pure fifth is no step of twelve divisions.
        Worked(Scale.of(0, 7), (0.0, 701.955), DEFINITION, tolerance=5e-4, refutes=True),
    ),
)
