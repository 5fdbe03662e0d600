"""Every fact that names a picture has one, on scales of every size and division it applies to.

The places in a picture are counted against the witnesses of the fact, so that picture and words cannot disagree.
"""

from __future__ import annotations

from itertools import combinations

import pytest

from gamutwright.diagrams.atlas import DIAGRAMS
from gamutwright.diagrams.sketch import Kind
from gamutwright.errors import DomainError
from gamutwright.facts.model import Fact
from gamutwright.facts.picturing import entry_places, picture_of, sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.facts.vocabulary import WitnessKind
from gamutwright.ir.figure import Dot, Text, walk
from gamutwright.ir.metrics import box_of, boxes_overlap
from gamutwright.render.engrave import expanded
from gamutwright.render.svg import figure_to_svg
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
SCALES = {
    "one tone": Scale.of(0),
    "tritone": Scale.of(0, 6),
    "pentatonic": Scale.of(9, 0, 2, 4, 7),
    "major": MAJOR,
    "harmonic minor on Ab": Scale.of(8, 10, 11, 1, 3, 4, 7),
    "octatonic": Scale.of(0, 1, 3, 4, 6, 7, 9, 10),
    "chromatic": Scale(4095),
    "seven of nineteen": Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19),
    "twelve of thirty-one": Scale((1 << 12) - 1, 31),
}
PICTURED = [fact for fact in default_registry().facts.values() if fact.picture]


def test_kinds_of_witnesses_and_places_are_the_same():
    assert {kind.value for kind in WitnessKind} == {kind.value for kind in Kind}


def test_every_picture_named_by_a_fact_exists_and_every_diagram_is_used():
    named = {fact.picture.diagram for fact in PICTURED if fact.picture}
    assert named <= set(DIAGRAMS)
    assert set(DIAGRAMS) - named <= {"fretboard"}


@pytest.mark.parametrize("name", SCALES)
@pytest.mark.parametrize("fact", PICTURED, ids=lambda fact: fact.id)
def test_every_fact_is_drawn(fact: Fact, name: str):
    scale = SCALES[name]
    if fact.evaluate(scale) is None:
        with pytest.raises(DomainError, match="does not apply"):
            picture_of(fact, scale)
        return
    figure = expanded(picture_of(fact, scale, "A closing sentence."))
    assert figure.alt.endswith("A closing sentence.")
    assert figure_to_svg(figure).startswith("<svg")
    texts = [shape for shape in walk(figure.shapes) if isinstance(shape, Text)]
    boxes = [box_of(text) for text in texts]
    for index, box in enumerate(boxes):
        assert box[0] >= -1
        assert box[2] <= figure.width + 1
        assert not [texts[other].text for other in range(index) if boxes_overlap(box, boxes[other], 1.0)]


@pytest.mark.parametrize("fact", [fact for fact in PICTURED if fact.counts], ids=lambda fact: fact.id)
def test_counted_places_are_all_in_the_picture(fact: Fact):
    if fact.picture is None or fact.picture.marks != "witnesses" or fact.evaluate(MAJOR) is None:
        return
    value = fact.evaluate(MAJOR)
    sketch = sketch_of(fact, MAJOR)
    assert len(sketch.places) == value or isinstance(value, tuple)
    parts = {part.name for part in expanded(picture_of(fact, MAJOR)).parts}
    witnesses = {name for name in parts if name.startswith("witness ")}
    assert witnesses == {f"witness {number}" for number in range(1, len(sketch.places) + 1)}


def test_semitone_steps_are_shown_where_they_are():
    """E-F and B-C in C major (rudiments teaching; common practice, no source)."""
    fact = default_registry().fact("semitone_steps")
    figure = picture_of(fact, MAJOR, diagram="clock")
    assert "Marked: 1 E–F; 2 B–C." in figure.alt
    one, two = (figure.part(f"witness {number}") for number in (1, 2))
    assert one.x > 500
    assert one.y > 400  # lower right: between four and five o'clock
    assert two.x < 500
    assert two.y < 400  # upper left: between eleven and twelve


def test_the_upper_tetrachord_reaches_the_octave():
    """Two halves of equal height in major, one above the other: rudiments teaching; common practice, no source."""
    strung = picture_of(default_registry().fact("tetrachords"), MAJOR, diagram="ladder")
    columns: dict[float, list[float]] = {}
    for shape in walk(strung.shapes):
        if isinstance(shape, Dot) and shape.radius == 9:
            columns.setdefault(shape.x, []).append(shape.y)
    lower, upper = (columns[x] for x in sorted(columns) if len(columns[x]) == 4)
    assert max(upper) < min(lower)
    assert max(upper) - min(upper) == pytest.approx(max(lower) - min(lower))


def test_normal_form_is_numbered_in_its_own_order():
    """B C D E F G A is the normal form of C major (Forte 1973, from memory)."""
    sketch = sketch_of(default_registry().fact("normal_form"), MAJOR)
    assert [sketch.name(place.parts[0][0]) for place in sketch.places] == list("BCDEFGA")


def test_systematic_name_is_compared_with_the_scale_it_alters():
    sketch = sketch_of(default_registry().fact("systematic_name"), Scale.of(2, 4, 5, 8, 9, 11, 0))
    assert sketch.other is not None
    assert sketch.other.tones == (0, 2, 3, 5, 7, 9, 10)


def test_entries_of_an_interval_vector_have_as_many_places_as_they_count() -> None:
    """<254361> for the diatonic set (Forte 1973, from memory); four tones have as many intervals as classes."""
    fact = default_registry().fact("interval_class_vector")
    assert [len(entry_places(fact, MAJOR, number)) for number in range(1, 7)] == [2, 5, 4, 3, 6, 1]
    tetrachord = Scale.of(0, 1, 5, 6)
    value = fact.evaluate(tetrachord)
    assert isinstance(value, tuple)
    sizes = [min(b - a, 12 - b + a) for a, b in combinations((0, 1, 5, 6), 2)]
    counted = [sizes.count(size) for size in range(1, 7)]
    assert [len(entry_places(fact, tetrachord, number)) for number in range(1, 7)] == counted
    for number in range(1, 7):
        for place in entry_places(fact, tetrachord, number):
            low, high = place.parts[0]
            assert min((high - low) % 12, (low - high) % 12) == number


def test_a_row_of_the_spectra_has_the_intervals_of_so_many_steps() -> None:
    for scale in (MAJOR, SCALES["seven of nineteen"], SCALES["octatonic"]):
        tones, n = scale.tones, scale.divisions
        for steps in range(1, len(tones)):
            expected = {(tone, tones[(k + steps) % len(tones)]) for k, tone in enumerate(tones)}
            places = entry_places(default_registry().fact("spectra"), scale, steps)
            assert {tuple(tone % n for tone in place.parts[0]) for place in places} == expected


@pytest.mark.parametrize("fact", PICTURED, ids=lambda fact: fact.id)
def test_no_place_belongs_to_two_entries(fact: Fact) -> None:
    for scale in SCALES.values():
        value = fact.evaluate(scale)
        if not isinstance(value, tuple):
            continue
        chosen = [entry_places(fact, scale, number) for number in range(len(value) + 2)]
        assert chosen[0] == chosen[-1] == ()
        assert sum(map(len, chosen)) <= len(sketch_of(fact, scale).places)
