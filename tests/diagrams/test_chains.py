"""Chains on the ring: the circle of fifths is walked link by link, and does not close where the scale does not."""

from __future__ import annotations

import pytest

from gamutwright.diagrams.clock import clock
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.facts.picturing import picture_of
from gamutwright.facts.registry import default_registry
from gamutwright.ir.figure import Dot, Figure, Path, Role, walk
from gamutwright.theory.scale import Scale

DIATONIC = Scale.of(0, 2, 4, 5, 7, 9, 11)


def paths_of(figure: Figure) -> dict[str, Path]:
    return {shape.name: shape for shape in walk(figure.shapes) if isinstance(shape, Path)}


def points_of(path: Path) -> list[tuple[float, float]]:
    return [(x, y) for x, y in zip(path.numbers[::2], path.numbers[1::2], strict=True)]


def places_on_the_ring(figure: Figure) -> dict[int, tuple[float, float]]:
    """Directions of the pegs from the centre of the ring, by pitch class."""
    pegs = {shape.name: shape for shape in walk(figure.shapes) if isinstance(shape, Dot) and shape.name[:4] == "peg "}
    return {int(name[4:]): (peg.x, peg.y) for name, peg in pegs.items()}


def nearest(point: tuple[float, float], pegs: dict[int, tuple[float, float]]) -> int:
    return min(pegs, key=lambda tone: (pegs[tone][0] - point[0]) ** 2 + (pegs[tone][1] - point[1]) ** 2)


def test_the_diatonic_scale_is_seven_tones_in_a_chain_of_fifths_from_f_to_b() -> None:
    """F C G D A E B: the chain of fifths of the white keys; common practice, no source."""
    figure = picture_of(default_registry().fact("generators"), DIATONIC)
    chains = [paths_of(figure)[f"mark {number}"] for number in (1, 2)]
    pegs = places_on_the_ring(figure)
    fourths, fifths = ([nearest(point, pegs) for point in points_of(chain)] for chain in chains)
    assert fifths == [5, 0, 7, 2, 9, 4, 11]
    assert fourths == fifths[::-1]
    for chain in chains:
        assert chain.verbs == "M" + "L" * 6  # open: six links join seven tones
        assert chain.fill is None
        assert chain.stroke is not None
        assert chain.stroke.role is Role.NOW
    begins = {s.name: (s.x, s.y) for s in walk(figure.shapes) if isinstance(s, Dot) and s.name.startswith("start ")}
    assert {name: nearest(point, pegs) for name, point in begins.items()} == {"start 1": 11, "start 2": 5}


@pytest.mark.parametrize("tones", [(3,), (3, 7)])
def test_the_shortest_chains_are_drawn(tones: tuple[int, ...]) -> None:
    scale = Scale.of(0, *tones)
    figure = clock(Sketch(scale, (Place(Kind.TONES, (tones,)),)))
    assert ("mark 1" in paths_of(figure)) == (len(tones) > 1)
    assert any(shape.name == "start 1" for shape in walk(figure.shapes))
