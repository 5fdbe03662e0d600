"""The number of pairs of major and minor triads in the scale that differ in a single tone, moved by a semitone or a
whole tone: the moves called parallel, leading-tone exchange and relative.

Conventions: P joins the major and the minor triad on one root, L a major triad to the minor one a major third above it,
R a major triad to the minor one a minor third below it. Each pair is counted once.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import COHN_1996, COHN_1997, DOUTHETT_STEINBACH_1998, PRACTICE
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
from gamutwright.theory.triadmoves import triad_links

__all__ = ["FACT", "parsimonious_links"]


def parsimonious_links(scale: Scale) -> int:
    """Count the links.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Pairs of triads joined by P, L or R.

    Examples
    --------
    >>> parsimonious_links(Scale.of(0, 2, 4, 5, 7, 9, 11))
    5
    """
    return len(triad_links(scale))


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the links, by the root of the major triad upwards.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        The major and the minor triad of each, labelled with the move.

    Examples
    --------
    >>> [(w.label, w.parts) for w in witnesses(Scale.of(0, 3, 4, 7))]
    [('P', ((0, 4, 7), (0, 3, 7)))]
    """
    return tuple(
        Witness(WitnessKind.LINK, (link.major.tones, link.minor.tones), link.move) for link in triad_links(scale)
    )


FACT = Fact(
    id="parsimonious_links",
    doc=__doc__,
    title="Links between triads",
    group=Group.HARMONY,
    dtype=Dtype.INT,
    unit="links",
    level=Level.FURTHER,
    scope=Scope.TNI,
    value=parsimonious_links,
    witnesses=witnesses,
    counts=True,
    domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
    needs=("triads",),
    terms=("parsimonious", "leading-tone exchange"),
    picture=Picture("chordgraph"),
    sound=Phrase("witnesses"),
    roles=Roles(part=Part.HARMONY, rank=11),
    sources=(
        Citation(DOUTHETT_STEINBACH_1998, "definition of the relations P and R"),
        Citation(COHN_1997, "operations P, L and R"),
    ),
    worked=(
        Worked(Scale.of(*range(12)), 36, Citation(COHN_1997, "each of 24 triads has three partners")),
        Worked(Scale.of(0, 3, 4, 7, 8, 11), 6, Citation(COHN_1996, "hexatonic cycle")),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), 8, Citation(COHN_1997, "octatonic cycle of P and R")),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), 5, Citation(PRACTICE, "triads compared by hand", Evidence.PRACTICE)),
        Worked(
            Scale.of(0, 2, 4, 6, 8, 10),
            0,
            Citation(PRACTICE, "a whole-tone scale has neither kind of triad", Evidence.PRACTICE),
        ),
    ),
)
