"""A phrase of a scale, or of the places of a fact."""

from __future__ import annotations

from gamutwright.diagrams.phrases import PHRASES, phrase
from gamutwright.errors import DomainError
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.ir.sound import Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import PIECES, Request, piece_of
from gamutwright.music.pitches import EQUAL, tuning_named
from gamutwright.music.tune import METRES
from gamutwright.publish.score.piece_score import piece_score
from gamutwright.theory.scale import Scale

__all__ = ["scored", "sounded"]


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
    wish = _wish(metre, bars, version, tempo)
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


def _wish(metre: str | None, bars: int | None, version: int, tempo: float | None) -> Request:
    if metre is not None and metre not in METRES:
        raise DomainError(f"metre {metre!r}", "there is none", f"Choose one of {', '.join(METRES)}.")
    return Request(METRES[metre] if metre else None, bars, version, tempo)


def scored(
    scale: Scale,
    kind: str | None,
    *,
    metre: str | None = None,
    bars: int | None = None,
    version: int = 1,
    tempo: float | None = None,
) -> str:
    """Write what has bars as MusicXML.

    Parameters
    ----------
    scale : Scale
        The scale.
    kind : str or None
        Id of a phrase that has bars.
    metre, bars, version, tempo
        As for `sounded`.

    Returns
    -------
    str
        The document.

    Raises
    ------
    DomainError
        If the phrase has no bars, or the scale has no such piece.

    Examples
    --------
    >>> scored(Scale.of(0, 2, 4, 5, 7, 9, 11), "vamp").count("<harmony>")
    4
    """
    if kind is None or kind not in PIECES:
        raise DomainError(
            f"a score of {kind or next(iter(PHRASES))}",
            "it has no bars",
            f"Choose one of {', '.join(PIECES)}; a lesson's package has a score of its scale.",
        )
    return piece_score(piece_of(kind, scale, _wish(metre, bars, version, tempo)), tempo=tempo)
