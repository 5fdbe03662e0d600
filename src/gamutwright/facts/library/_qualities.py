"""What the facts about triads of one quality share: the tones that carry one, and the chords themselves."""

from __future__ import annotations

from gamutwright.facts.library._places import chord_places
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
    Worked,
)
from gamutwright.facts.roles import Roles
from gamutwright.theory.harmony import TRIADS, chords_present
from gamutwright.theory.scale import Scale

__all__ = ["quality_fact"]


def quality_fact(  # noqa: PLR0913 - the fields of a fact that differ
    fact_id: str,
    doc: str | None,
    title: str,
    suffix: str,
    *,
    level: Level,
    scope: Scope,
    terms: tuple[str, ...],
    roles: Roles,
    sources: tuple[Citation, ...],
    worked: tuple[Worked, ...],
) -> Fact:
    """Make the fact of a quality: how many tones of the scale carry such a triad.

    Parameters
    ----------
    fact_id, doc, title : str
        As for `Fact`.
    suffix : str
        The quality: a key of `theory.harmony.TRIADS`.
    level, scope, terms, roles, sources, worked
        As for `Fact`.

    Returns
    -------
    Fact
        The fact.

    Examples
    --------
    >>> about = {"terms": (), "roles": Roles(), "sources": (), "worked": ()}
    >>> fact = quality_fact("x", "X.", "X", "m", level=Level.FOUNDATION, scope=Scope.TN, **about)
    >>> major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    >>> fact.value(major), [w.label for w in fact.places(major)]
    (3, ['Dm', 'Em', 'Am'])
    """
    shape = {suffix: TRIADS[suffix]}

    def value(scale: Scale) -> int:
        return len(chords_present(scale, shape))

    def witnesses(scale: Scale) -> tuple[Witness, ...]:
        return chord_places(scale, chords_present(scale, shape))

    return Fact(
        id=fact_id,
        doc=doc,
        title=title,
        group=Group.HARMONY,
        dtype=Dtype.INT,
        unit="chords",
        level=level,
        scope=scope,
        value=value,
        witnesses=witnesses,
        counts=True,
        domain=Domain(divisions=(12, 12), rule="chords are named in twelve divisions"),
        needs=("spelling",),
        terms=terms,
        picture=Picture("clock"),
        sound=Phrase("chords"),
        roles=roles,
        sources=sources,
        worked=worked,
    )
