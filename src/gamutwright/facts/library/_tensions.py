"""What the facts about tones above the first chord symbol share: which are named, and where they are."""

from __future__ import annotations

from collections.abc import Callable

from gamutwright.facts.bibliography import NETTLES_GRAF_1997
from gamutwright.facts.library._places import named_tones
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
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
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.harmonyroles import ChordSymbol, Tension, chord_symbols
from gamutwright.theory.scale import Scale

__all__ = ["CHORD_SCALES", "tension_fact"]

CHORD_SCALES = Citation(NETTLES_GRAF_1997, "available tensions and tones to avoid")


def tension_fact(  # noqa: PLR0913 - the fields of a fact that differ
    fact_id: str,
    doc: str | None,
    title: str,
    chosen: Callable[[ChordSymbol], tuple[Tension, ...]],
    *,
    none_when: str,
    terms: tuple[str, ...],
    rank: int,
    worked: tuple[Worked, ...],
) -> Fact:
    """Make the fact of some of the tones above the chord.

    Parameters
    ----------
    fact_id, doc, title : str
        As for `Fact`.
    chosen : callable
        Gives the tones of a chord symbol.
    none_when, terms, worked
        As for `Fact`.
    rank : int
        As for `Roles`.

    Returns
    -------
    Fact
        The fact: names of the tones upwards from the root, each place labelled with its interval above the chord.

    Examples
    --------
    >>> about = {"none_when": "", "terms": (), "rank": 0, "worked": ()}
    >>> fact = tension_fact("x", "X.", "X", lambda symbol: symbol.available, **about)
    >>> major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    >>> fact.value(major), [w.label for w in fact.places(major)], fact.value(Scale.of(0, 4, 7))
    (('D', 'A'), ['9', '13'], None)
    """

    def found(scale: Scale) -> tuple[Tension, ...]:
        symbols = chord_symbols(scale)
        return chosen(symbols[0]) if symbols else ()

    def value(scale: Scale) -> tuple[str, ...] | None:
        return named_tones(scale, (tension.tone for tension in found(scale)))

    def witnesses(scale: Scale) -> tuple[Witness, ...]:
        return tuple(Witness(WitnessKind.TONE, ((tension.tone,),), tension.name) for tension in found(scale))

    return Fact(
        id=fact_id,
        doc=doc,
        title=title,
        group=Group.HARMONY,
        dtype=Dtype.TEXTS,
        level=Level.FURTHER,
        scope=Scope.SPELLED,
        value=value,
        witnesses=witnesses,
        domain=Domain(divisions=(12, 12), rooted=True, rule="chords are named in twelve divisions"),
        none_when=none_when,
        needs=("chord_symbols",),
        terms=terms,
        picture=Picture("keyboard"),
        sound=Phrase("witnesses"),
        roles=Roles(reader=Reader.NOTES, part=Part.HARMONY, rank=rank),
        sources=(CHORD_SCALES,),
        worked=worked,
    )
