"""The number of ways to pass through all major and minor triads of the scale, each once, changing one tone at a time by
the moves P, L and R.

Conventions: a way and its reverse are one. A scale with fewer than two such triads has no value.
"""

from __future__ import annotations

from functools import lru_cache

from gamutwright.facts.bibliography import ALBINI_ANTONINI_2009
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
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale
from gamutwright.theory.triadgraph import hamiltonian_path_count, hamiltonian_path_tones
from gamutwright.theory.triadmoves import major_and_minor_triads

__all__ = ["FACT", "count"]

SEARCHED = Citation(
    ALBINI_ANTONINI_2009, "the graph of 24 triads; paths counted by a plain search", Evidence.RECOMPUTED
)


def count(scale: Scale) -> int | None:
    """Count the paths.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int or None
        Undirected Hamiltonian paths; None with fewer than two triads.

    Examples
    --------
    >>> count(Scale.of(0, 2, 4, 5, 7, 9, 11)), count(Scale.of(0, 4, 7))
    (1, None)
    """
    return hamiltonian_path_count(scale) if len(major_and_minor_triads(scale)) > 1 else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the paths, each from its lower end.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        The triads of each in order, labelled with the moves.

    Examples
    --------
    >>> [w.label for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    ['RLRLR']
    """
    return _places(scale.mask)


@lru_cache(maxsize=4)
def _places(mask: int) -> tuple[Witness, ...]:
    scale = Scale(mask)
    if len(major_and_minor_triads(scale)) < 2:
        return ()
    return tuple(Witness(WitnessKind.PATH, path, moves) for path, moves in hamiltonian_path_tones(scale))


FACT = Fact(
    id="hamiltonian_paths",
    doc=__doc__,
    title="Paths through all triads",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="paths",
    level=Level.RESEARCH,
    scope=Scope.TNI,
    value=count,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    none_when="the scale has fewer than two major or minor triads",
    needs=("parsimonious_links",),
    terms=("Hamiltonian path", "Hamiltonian paths"),
    picture=Picture("chordgraph"),
    sound=Phrase("path"),
    roles=Roles(part=Part.HARMONY, rank=12),
    sources=(Citation(ALBINI_ANTONINI_2009, "Hamiltonian paths in the graph of triads"),),
    worked=(
        Worked(Scale.of(*range(12)), 5640, SEARCHED),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 1, SEARCHED),
        Worked(Scale.of(0, 2, 3, 5, 7, 8, 11), 0, SEARCHED),
        Worked(Scale.of(0, 4, 7), None, SEARCHED),
    ),
)
