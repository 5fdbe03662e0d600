"""What the facts about tuned keyboards share: each tone of the scale as a keyboard with twelve keys sounds it."""

from __future__ import annotations

from gamutwright.facts.library._places import labelled_tones
from gamutwright.facts.model import Citation, Domain, Dtype, Fact, Group, Level, Phrase, Picture, Scope, Witness, Worked
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import Tuning, tuned_cents

__all__ = ["keyboard_fact"]


def keyboard_fact(
    fact_id: str,
    doc: str | None,
    title: str,
    tuning: Tuning,
    *,
    terms: tuple[str, ...],
    sources: tuple[Citation, ...],
    worked: tuple[Worked, ...],
) -> Fact:
    """Make the fact of a tuning: cents of each tone above the root, and each tone with its cents as a place.

    Parameters
    ----------
    fact_id, doc, title : str
        As for `Fact`.
    tuning : Tuning
        Twelve keys.
    terms, sources, worked : tuple
        As for `Fact`.

    Returns
    -------
    Fact
        The fact.

    Examples
    --------
    >>> from gamutwright.theory.tuning import VALLOTTI
    >>> fact = keyboard_fact("x", "X.", "X", VALLOTTI, terms=(), sources=(), worked=())
    >>> [round(cents, 3) for cents in fact.value(Scale.of(0, 4, 7))], [w.label for w in fact.places(Scale.of(0))]
    ([0.0, 392.18, 698.045], ['0.00'])
    """

    def value(scale: Scale) -> tuple[float, ...]:
        return tuned_cents(scale, tuning)

    def witnesses(scale: Scale) -> tuple[Witness, ...]:
        return labelled_tones(scale, (f"{cents:.2f}" for cents in value(scale)))

    return Fact(
        id=fact_id,
        doc=doc,
        title=title,
        group=Group.TUNING,
        dtype=Dtype.FLOATS,
        unit="cents",
        level=Level.RESEARCH,
        scope=Scope.SPELLED,
        value=value,
        witnesses=witnesses,
        domain=Domain(
            divisions=(12, 12), rooted=True, rule="these tunings are those of a keyboard with twelve keys to the octave"
        ),
        needs=("tone_cents",),
        terms=terms,
        picture=Picture("ladder"),
        sound=Phrase("scale"),
        sources=sources,
        worked=worked,
    )
