"""A phrase of a scale, or of the places of a fact."""

from __future__ import annotations

from gamutwright.diagrams.phrases import PHRASES, phrase
from gamutwright.errors import DomainError
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.ir.sound import Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import Request
from gamutwright.music.pitches import EQUAL, tuning_named
from gamutwright.music.tune import METRES
from gamutwright.theory.scale import Scale

__all__ = ["sounded"]


def sounded(  # noqa: PLR0913 - each is something a listener may ask for
    scale: Scale,
    *,
    kind: str | None = None,
    fact: str | None = None,
    other: Scale | None = None,
    timbre: str = Timbre.PLUCKED.value,
    tempo: float | None = None,
    tuning: str = EQUAL,
    metre: str | None = None,
    bars: int | None = None,
    version: int = 1,
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
    tempo : float in [20, 300], optional
        Beats a minute; what suits the phrase without it.
    tuning : str
        equal, or the id of a tuning of twelve keys.
    metre : str, optional
        4/4, 3/4 or 6/8, for what has bars.
    bars : int, optional
        How many, for what has them.
    version : int
        Another number gives another tune.

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
    if metre is not None and metre not in METRES:
        raise DomainError(f"metre {metre!r}", "there is none", f"Choose one of {', '.join(METRES)}.")
    wish = Request(METRES[metre] if metre else None, bars, version)
    if timbre not in set(Timbre):
        raise DomainError(f"timbre {timbre!r}", "there is none", f"Choose one of {', '.join(Timbre)}.")
    performance = Performance(Timbre(timbre), tempo, tuning_named(tuning))
    if fact is None:
        return phrase(kind or next(iter(PHRASES)), scale, (), other, performance, wish)
    record = default_registry().fact(fact)
    sketch = sketch_of(record, scale)
    if record.counts and not sketch.places:
        raise DomainError(
            f"fact {fact}", "this scale has no place of this kind, so there is nothing to hear", "Choose another fact."
        )
    own = record.sound.kind if record.sound else "witnesses"
    return phrase(kind or own, scale, sketch.places, other or sketch.other, performance, wish)
