"""Tones and places in words, for alt texts.

Conventions: names are those of the sketch; an interval has a dash, a set of tones spaces.
"""

from __future__ import annotations

from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.theory.notenames import to_symbols

__all__ = ["place_in_words", "tones_in_words"]


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
        Names of its tones and its label.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> place_in_words(Sketch(Scale.of(0, 4, 7)), Place(Kind.CHORD, ((0, 4, 7),), "C"))
    'C (C E G)'
    """
    label = to_symbols(place.label)
    if place.kind is Kind.AXIS:
        twice, n = place.parts[0][0], sketch.scale.divisions
        ends = [
            sketch.name(end // 2)
            if end % 2 == 0
            else f"between {sketch.name(end // 2)} and {sketch.name(end // 2 + 1)}"
            for end in (twice, twice + n)
        ]
        return " to ".join(ends)
    joiner = "–" if place.kind in {Kind.STEP, Kind.INTERVAL, Kind.INTERVAL_PAIR} else " "
    between = {Kind.INTERVAL_PAIR: " beside ", Kind.LINK: " to ", Kind.PATH: ", "}.get(place.kind, " ")
    words = between.join(joiner.join(sketch.name(tone) for tone in part) for part in place.parts)
    return f"{label} ({words})" if label and label != words else words
