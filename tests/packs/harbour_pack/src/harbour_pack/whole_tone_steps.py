"""The number of steps of two semitones between neighbouring tones, the step back up to the octave counted too."""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
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
    WitnessKind,
    Worked,
)
from gamutwright.facts.pointing import at_intervals
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "whole_tone_steps", "witnesses"]

RUDIMENTS = Citation(PRACTICE, "scale construction", Evidence.PRACTICE)


def whole_tone_steps(scale: Scale) -> int:
    """Count the steps of two semitones."""
    return scale.step_pattern.count(2)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the steps of two semitones, upwards from the root."""
    steps = zip(scale.tones, scale.step_pattern, strict=True)
    return at_intervals(((tone, (tone + 2) % 12) for tone, step in steps if step == 2), WitnessKind.STEP)


FACT = Fact(
    id="whole_tone_steps",
    title="Whole-tone steps",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.INT,
    unit="steps",
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=whole_tone_steps,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="a whole tone is two steps of twelve divisions"),
    needs=("step_pattern",),
    terms=("whole-tone step", "whole-tone steps"),
    picture=Picture("ladder"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.BUILD, rank=1),
    sources=(RUDIMENTS,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 5, RUDIMENTS),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), 6, RUDIMENTS),
        Worked(Scale.of(0, 3, 6, 9), 0, RUDIMENTS),
    ),
)
