"""The number of round trips through all major and minor triads of the scale, each visited once, changing one tone at a
time by the moves P, L and R and returning to the first.

Conventions: where a trip begins and which way it runs do not matter. A scale with fewer than two such triads has no
value.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import ALBINI_ANTONINI_2009, COHN_1996, COHN_1997, PRACTICE
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
from gamutwright.theory.scale import Scale
from gamutwright.theory.triadgraph import hamiltonian_cycle_count, hamiltonian_cycles
from gamutwright.theory.triadmoves import major_and_minor_triads, path_moves

__all__ = ["FACT", "count"]


def count(scale: Scale) -> int | None:
    """Count the round trips.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int or None
        Hamiltonian cycles without direction; None with fewer than two triads.

    Examples
    --------
    >>> count(Scale.of(0, 3, 4, 7, 8, 11))
    1
    """
    return hamiltonian_cycle_count(scale) if len(major_and_minor_triads(scale)) > 1 else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the round trips, each from the lowest triad.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        The triads of each in order, labelled with the moves; the last move leads back to the first triad.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0, 3, 4, 7, 8, 11))]
    ['PLPLPL']
    """
    return tuple(
        Witness(WitnessKind.PATH, tuple(chord.tones for chord in cycle), path_moves((*cycle, cycle[0])))
        for cycle in hamiltonian_cycles(scale)
    )


FACT = Fact(
    id="hamiltonian_cycles",
    doc=__doc__,
    title="Round trips through all triads",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="cycles",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=count,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    none_when="the scale has fewer than two major or minor triads",
    needs=("hamiltonian_paths",),
    terms=("Hamiltonian cycle", "Hamiltonian cycles"),
    picture=Picture("chordgraph"),
    sound=Phrase("path"),
    sources=(Citation(ALBINI_ANTONINI_2009, "Hamiltonian cycles in the graph of triads"),),
    worked=(
        Worked(
            Scale.of(*range(12)), 62, Citation(ALBINI_ANTONINI_2009, "number of cycles of the 24 triads", Evidence.READ)
        ),
        Worked(Scale.of(0, 3, 4, 7, 8, 11), 1, Citation(COHN_1996, "hexatonic cycle")),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), 1, Citation(COHN_1997, "octatonic cycle of P and R")),
        Worked(
            Scale.of(0, 2, 4, 5, 7, 9, 11),
            0,
            Citation(PRACTICE, "the diminished triad breaks the round of thirds", Evidence.PRACTICE),
        ),
        Worked(
            Scale.of(*range(12)),
            124,
            Citation(ALBINI_ANTONINI_2009, "each cycle counted in both directions", Evidence.READ),
            refutes=True,
        ),
    ),
)
