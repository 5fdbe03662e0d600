"""Each tone over one octave in the equal division as the MIDI Tuning Standard writes it: a key of equal temperament and
the fraction of a semitone above it, in three bytes.

Conventions: hexadecimal; the root lies at middle C, key 3C, or the first place above it, the A above it at 440 hertz.
The fraction has fourteen bits and is rounded to the nearest.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import MIDI_TUNING
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
from gamutwright.facts.roles import Roles
from gamutwright.theory.miditune import semitones_to_word, word_text
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import tone_semitones

__all__ = ["FACT", "value"]


def value(scale: Scale) -> tuple[str, ...]:
    """Write the words.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of str
        One for each tone, upwards from the root.

    Examples
    --------
    >>> value(Scale.of(0, 5, divisions=10))
    ('3C 00 00', '42 00 00')
    """
    return tuple(word_text(semitones_to_word(semitones)) for semitones in tone_semitones(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the tones with their words.

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
    >>> [w.label for w in witnesses(Scale.of(9))]
    ['45 00 00']
    """
    return labelled_tones(scale, value(scale))


FACT = Fact(
    id="midi_tuning_words",
    doc=__doc__,
    title="MIDI tuning words",
    group=Group.TUNING,
    dtype=Dtype.TEXTS,
    level=Level.RESEARCH,
    scope=Scope.SPELLED,
    value=value,
    witnesses=witnesses,
    needs=("tone_frequencies",),
    terms=("MIDI tuning",),
    picture=Picture("keyboard"),
    sound=Phrase("scale"),
    roles=Roles(longest=0),
    sources=(Citation(MIDI_TUNING, "frequency data format", Evidence.READ),),
    worked=(
        Worked(Scale.of(0), ("3C 00 00",), Citation(MIDI_TUNING, "frequency data examples", Evidence.READ)),
        Worked(Scale.of(9), ("45 00 00",), Citation(MIDI_TUNING, "frequency data examples", Evidence.READ)),
        Worked(
            Scale.of(0, 7, divisions=24),
            ("3C 00 00", "3F 40 00"),
            Citation(MIDI_TUNING, "frequency data format; half a semitone is half of 14 bits", Evidence.RECOMPUTED),
        ),
        # The less significant seven bits first.
        Worked(
            Scale.of(0, 7, divisions=24),
            ("3C 00 00", "3F 00 40"),
            Citation(MIDI_TUNING, "frequency data format", Evidence.READ),
            refutes=True,
        ),
    ),
)
