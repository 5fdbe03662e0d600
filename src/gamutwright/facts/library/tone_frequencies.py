"""The frequency of each tone over one octave in the equal division, with the A above middle C at 440 hertz.

Conventions: the root lies at middle C or the first place above it. In every division middle C is nine twelfths of an
octave below that A, 261.626 hertz.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import ISO_16, MIDI_TUNING
from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import (
    Citation,
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
from gamutwright.theory.tuning import tone_frequencies

__all__ = ["FACT"]


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their frequencies.

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
    >>> [w.label for w in witnesses(Scale.of(0, 9))]
    ['261.63', '440.00']
    """
    return labelled_tones(scale, (f"{freq_hz:.2f}" for freq_hz in tone_frequencies(scale)))


FACT = Fact(
    id="tone_frequencies",
    doc=__doc__,
    title="Tones in hertz",
    group=Group.TUNING,
    dtype=Dtype.FLOATS,
    unit="hertz",
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=tone_frequencies,
    witnesses=witnesses,
    needs=("tone_cents",),
    terms=("hertz",),
    picture=Picture("keyboard"),
    sound=Phrase("scale"),
    sources=(Citation(ISO_16, "clause on the standard tuning frequency"),),
    worked=(
        Worked(Scale.of(9), (440.0,), Citation(ISO_16, "clause on the standard tuning frequency")),
        Worked(
            Scale.of(0, 9),
            (261.6256, 440.0),
            Citation(MIDI_TUNING, "frequency data examples", Evidence.READ),
            tolerance=5e-5,
        ),
        # The physicists' C of 256 Hz.
        Worked(
            Scale.of(0),
            (256.0,),
            Citation(ISO_16, "clause on the standard tuning frequency"),
            tolerance=5e-5,
            refutes=True,
        ),
    ),
)
