"""Tones and places in words, for alt texts and the terminal.

Conventions: names are those of the sketch; an interval has a dash, a set of tones spaces.
"""

from __future__ import annotations

from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.music.pitches import names_of_steps
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.scale import Scale

__all__ = ["place_in_words", "tones_in_words"]

_THIRDS = {(4, 7): "", (3, 7): "m"}


def tones_in_words(sketch: Sketch) -> str:
    """List the tones of the scale.

    Parameters
    ----------
    sketch : Sketch
        What was asked for.

    Returns
    -------
    str
        Names upwards from the root; "none" for the empty set.
    """
    return " ".join(sketch.name(tone) for tone in sketch.scale.tones) or "none"


def place_in_words(sketch: Sketch, place: Place) -> str:
    """Say a place in a few words.

    Parameters
    ----------
    sketch : Sketch
        What was asked for.
    place : Place
        The place.

    Returns
    -------
    str
        Names of tones joined by a dash for an interval or step, by a space otherwise; the label where it says more.

    Examples
    --------
    >>> place_in_words(Sketch(Scale.of(0, 2, 4, 5, 7, 9, 11)), Place(Kind.STEP, ((4, 5),)))
    'E–F'
    >>> place_in_words(Sketch(Scale.of(2, 4, 5, 7, 9, 11, 0)), Place(Kind.AXIS, ((0,),)))
    'D to A♭'
    >>> place_in_words(Sketch(Scale.of(2, 5)), Place(Kind.TONE, ((0,),), "D"))
    'D'
    """
    label, parts = to_symbols(place.label), _parts_in_words(sketch, place)
    match place.kind:
        case Kind.AXIS:
            return _axis_in_words(sketch, place.parts[0][0])
        case Kind.CHORD if label:
            return label
        case Kind.LINK | Kind.PATH:
            triads = "–".join(_triad_in_words(sketch, part) for part in place.parts)
            return f"{triads} ({label})" if label else triads
        case Kind.MODE | Kind.TONE if label and label != parts[0]:
            return f"{parts[0]} {label}"
        case Kind.INTERVAL_PAIR:
            return " / ".join(parts)
        case _ if label and label != parts[0]:
            return f"{parts[0]} ({label})"
        case _:
            return " ".join(parts)


def _parts_in_words(sketch: Sketch, place: Place) -> list[str]:
    if place.kind is Kind.SCALE:  # another scale, which has a spelling of its own
        other = Scale(sum(1 << tone for tone in place.parts[0]), sketch.scale.divisions, sketch.scale.root)
        return [" ".join(names_of_steps(other)[tone] for tone in other.tones)]
    joiner = "–" if place.kind in {Kind.STEP, Kind.INTERVAL, Kind.INTERVAL_PAIR} else " "
    return [joiner.join(sketch.name(tone) for tone in part) for part in place.parts]


def _axis_in_words(sketch: Sketch, twice: int) -> str:
    """Say where a reflection cuts the ring of steps."""
    ends = [
        sketch.name(end // 2) if end % 2 == 0 else f"between {sketch.name(end // 2)} and {sketch.name(end // 2 + 1)}"
        for end in (twice, twice + sketch.scale.divisions)
    ]
    return " to ".join(ends)


def _triad_in_words(sketch: Sketch, triad: tuple[int, ...]) -> str:
    """Name a major or minor triad by its root; any other chord by its tones."""
    shape = tuple((tone - triad[0]) % 12 for tone in triad[1:])
    if shape in _THIRDS:
        return sketch.name(triad[0]) + _THIRDS[shape]
    return " ".join(sketch.name(tone) for tone in triad)
