"""What is one click away from a scale, and two scales beside each other.

Conventions: modes are listed upwards from the root. A neighbour comes from moving one tone by one step; where it is the
root that moves, the neighbour is told on the root's new place. The mirror keeps the root; the complement begins on its
first tone above the root. Every scale that is told can be looked at.
"""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Query
from fastapi.responses import Response

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.sketch import Sketch
from gamutwright.facts.registry import default_registry
from gamutwright.facts.scale_comparison import Comparison, Difference, Measure, compare
from gamutwright.music.pitches import names_of_steps
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.printed import printed_value
from gamutwright.render.drawn import Drawn
from gamutwright.studio.scalecards import MOST_DIVISIONS, card, frequencies, from_bits, scale_asked, title_of
from gamutwright.studio.tongue import say, tongue
from gamutwright.theory.naming import subsets_named, supersets_named
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.spelling import to_symbols
from gamutwright.theory.voiceleading import one_step_neighbours

__all__ = ["comparison_data", "relatives", "router"]

router = APIRouter()

MOST_NAMED: Final = 40
"""Named scales inside that are told; the chromatic scale has hundreds."""
THEMES: Final = {"light": "light", "dark": "night"}

Bits = Annotated[str, Query(max_length=72, pattern="^[01]*$")]
Root = Annotated[int, Query(ge=0, lt=72)]
Text = Annotated[str, Query(max_length=200)]
Divisions = Annotated[int, Query(ge=2, le=MOST_DIVISIONS)]


@router.get("/api/relatives")
def read_relatives(bits: Bits, root: Root = 0) -> dict[str, Any]:
    """Give what is one click away from a scale."""
    return relatives(from_bits(bits, root))


@router.get("/api/comparison")
def read_comparison(
    bits: Bits, root: Root = 0, other_text: Text = "", other_bits: Bits = "", other_root: Root = 0
) -> dict[str, Any]:
    """Set a scale beside another one of the same division."""
    one = from_bits(bits, root)
    return comparison_data(one, scale_asked(other_text, other_bits, other_root, one.divisions))


@router.get("/api/comparison/picture")
def draw_comparison(
    bits: Bits,
    other_bits: Bits,
    root: Root = 0,
    other_root: Root = 0,
    shade: Annotated[str, Query(pattern="^(light|dark)$")] = "light",
) -> Response:
    """Draw the two as lessons do."""
    sketch = Sketch(from_bits(bits, root), other=from_bits(other_bits, other_root))
    drawn = Drawn(draw_diagram("comparison", sketch), THEMES[shade], 2.0)
    return Response(drawn.content(".svg"), media_type="image/svg+xml")


def relatives(scale: Scale) -> dict[str, Any]:
    """Gather what is one click away from a scale.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.

    Returns
    -------
    dict
        Plain data: cards of its modes, neighbours, mirror, complement, named scales inside and around, and of the same
        scale on every root.

    Examples
    --------
    >>> found = relatives(Scale.of(2, 4, 5, 7, 9, 11, 0))
    >>> [mode["title"] for mode in found["modes"]][:2], found["mirror"]["is_same"]
    (['D dorian', 'E phrygian'], True)
    """
    mirror = scale.inverted()
    inside = subsets_named(scale)
    return {
        "modes": _modes(scale),
        "neighbours": _neighbours(scale),
        "mirror": card(mirror) | {"is_same": mirror.mask == scale.mask},
        "complement": _complement(scale),
        "inside": [_named(scale, record.mask, tone, record.name) for tone, record in inside[:MOST_NAMED]],
        "more_inside": max(0, len(inside) - MOST_NAMED),
        "around": [_named(scale, record.mask, 0, record.name) for record in supersets_named(scale)],
        "roots": [_on_root(scale, root) for root in range(scale.divisions)],
    }


def _modes(scale: Scale) -> list[dict[str, Any]]:
    """List the rotations, those too that have the steps of an earlier one, and say so."""
    found: dict[int, str] = {}
    rows = []
    names = names_of_steps(scale)
    for degree, tone in enumerate(scale.tones, 1):
        mode = scale.mode(degree)
        like = found.setdefault(mode.mask, names[tone])
        rows.append(card(mode) | {"like": "" if like == names[tone] else like})
    return rows


def _neighbours(scale: Scale) -> list[dict[str, Any]]:
    rows = []
    names = names_of_steps(scale)
    for move in one_step_neighbours(scale):
        moved = move.scale
        if move.tone == 0:
            moved = Scale(rotated_mask(moved.mask, -move.step, scale.divisions), scale.divisions, scale.root)
            moved = moved.transposed(move.step)
        told = card(moved)
        place = names_of_steps(moved)[(move.tone + move.step + scale.root - moved.root) % scale.divisions]
        way = say("{tone} up to {place}", tone=names[move.tone], place=place)
        if move.step < 0:
            way = say("{tone} down to {place}", tone=names[move.tone], place=place)
        rows.append(told | {"move": way})
    return rows


def _complement(scale: Scale) -> dict[str, Any] | None:
    left_out = scale.complement().tones
    if not left_out:
        return None
    mask = rotated_mask(scale.complement().mask, -left_out[0], scale.divisions)
    return card(Scale(mask, scale.divisions, (scale.root + left_out[0]) % scale.divisions))


def _named(scale: Scale, mask: int, tone: int, name: str) -> dict[str, Any]:
    found = Scale(mask, scale.divisions, (scale.root + tone) % scale.divisions)
    return card(found) | {"title": f"{names_of_steps(found)[0]} {to_symbols(name)}"}


def _on_root(scale: Scale, root: int) -> dict[str, Any]:
    moved = scale.transposed(root - scale.root)
    return card(moved) | {"name": names_of_steps(moved)[0], "is_here": root == scale.root}


def comparison_data(one: Scale, other: Scale) -> dict[str, Any]:
    """Set two scales beside each other.

    Parameters
    ----------
    one, other : Scale
        The scales, of one division, their roots among their tones.

    Returns
    -------
    dict
        Plain data: both with their frequencies, how they are related, the tones they share and do not, the smallest
        way from one to the other, how far apart they are, and the facts that differ and that are the same.

    Raises
    ------
    DomainError
        If the divisions differ.

    Examples
    --------
    >>> found = comparison_data(Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(7, 9, 11, 0, 2, 4, 6))
    >>> found["relations"], found["only_other"], found["moves"]
    (['G major is the same scale moved up by 7.'], 'F♯', ['F to F♯'])
    """
    found = compare(one, other)
    differing = {difference.fact.id for difference in found.differences}
    spoken = [fact for fact in default_registry().facts.values() if fact.id not in differing]
    return {
        "one": card(one) | {"hz": frequencies(one)},
        "other": card(other) | {"hz": frequencies(other)},
        "relations": [_related(found, relation) for relation in found.relations],
        "common": _names(one, found.common),
        "only_one": _names(one, found.only_one),
        "only_other": _names(other, found.only_other),
        "moves": _moves(found),
        "measures": [_measure(measure) for measure in found.measures],
        "differ": [_difference(difference) for difference in found.differences],
        "alike": [wording_for(tongue().tag).title(fact) for fact in spoken if fact.evaluate(one) is not None],
    }


def _related(found: Comparison, relation: str) -> str:
    one, other = title_of(found.one), title_of(found.other)
    if "of the other" in relation:
        return f"{one} is {relation.replace('the other', other)}."
    return f"{other} is {relation}."


def _names(scale: Scale, pitch_classes: tuple[int, ...]) -> str:
    names = names_of_steps(scale)
    return " ".join(names[(pitch_class - scale.root) % scale.divisions] for pitch_class in pitch_classes)


def _moves(found: Comparison) -> list[str]:
    """Say which tones move, in a smallest way from one scale to the other."""
    if found.voice_leading is None:
        return []
    n = found.one.divisions
    moves = [(start, (start + by) % n) for start, by in found.voice_leading.moves if by]
    return [
        say("{tone} to {place}", tone=_names(found.one, (start,)), place=_names(found.other, (end,)))
        for start, end in moves
    ]


def _measure(measure: Measure) -> dict[str, str]:
    value = measure.value
    told = say("not defined: {why}", why=tongue().retold(measure.reason)) if value is None else _figure(value)
    source = measure.citation.source
    return {"title": measure.title, "value": told, "source": f"{source.author}: {source.title} ({source.year})"}


def _figure(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(map(_figure, value)) or tongue().none
    return f"{value:.4f}".rstrip("0").rstrip(".") if isinstance(value, float) else str(value)


def _difference(difference: Difference) -> dict[str, str]:
    fact = difference.fact
    values = (
        "–" if value is None else printed_value(fact, value, tongue().tag)
        for value in (difference.one, difference.other)
    )
    return {"id": fact.id, "title": wording_for(tongue().tag).title(fact), "level": fact.level.value} | dict(
        zip(("one", "other"), values, strict=True)
    )
