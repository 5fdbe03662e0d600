"""A phrase of a scale, or of the places of a fact."""

from __future__ import annotations

from gamutwright.diagrams.phrases import PHRASES, Performance, phrase
from gamutwright.diagrams.pitches import EQUAL, tuning_named
from gamutwright.errors import DomainError
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.ir.sound import Sound, Timbre
from gamutwright.theory.scale import Scale

__all__ = ["sounded"]


def sounded(
    scale: Scale,
    *,
    kind: str | None = None,
    fact: str | None = None,
    other: Scale | None = None,
    timbre: str = Timbre.PLUCKED.value,
    tempo: float = 90.0,
    tuning: str = EQUAL,
) -> Sound:
    """Write a phrase of a scale, or of the places of a fact.

    Parameters
    ----------
    scale : Scale
        The scale.
    kind : str, optional
        Id of a phrase; that of the fact without it, or the scale up and down.
    fact : str, optional
        Id of the fact whose places are played.
    other : Scale, optional
        A second scale, to alternate with.
    timbre : str
        plucked, struck or sustained.
    tempo : float in [20, 300]
        Beats a minute.
    tuning : str
        equal, or the id of a tuning of twelve keys.

    Returns
    -------
    Sound
        The phrase.

    Raises
    ------
    DomainError
        If the phrase, the timbre or the tuning does not exist, the fact does not apply, or it counts nothing here.
    UnknownFactError
        If no pack offers the fact.

    Examples
    --------
    >>> sound = sounded(Scale.of(0, 2, 4, 5, 7, 9, 11), fact="semitone_steps")
    >>> [(note.label, note.item) for note in sound.notes if note.start_tick < 32_000]
    [('E', 1), ('F', 1)]
    """
    if timbre not in set(Timbre):
        raise DomainError(f"timbre {timbre!r}", "there is none", f"Choose one of {', '.join(Timbre)}.")
    performance = Performance(Timbre(timbre), tempo, tuning_named(tuning))
    if fact is None:
        return phrase(kind or next(iter(PHRASES)), scale, other=other, performance=performance)
    record = default_registry().fact(fact)
    sketch = sketch_of(record, scale)
    if record.counts and not sketch.places:
        raise DomainError(
            f"fact {fact}", "this scale has no place of this kind, so there is nothing to hear", "Choose another fact."
        )
    own = record.sound.kind if record.sound else "witnesses"
    return phrase(kind or own, scale, sketch.places, other or sketch.other, performance)
