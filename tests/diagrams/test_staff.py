"""The staff, read back as a musician reads a bar: an accidental holds for its line or space until it is cancelled.

The rule is common practice (Read, Music Notation, 1979, chapter 9, from memory); it is written out here apart from the
program.
"""

from __future__ import annotations

import re

from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.diagrams.staff import bare_staff, staff
from gamutwright.ir.figure import Engraving, Figure, walk
from gamutwright.theory.harmony import triads
from gamutwright.theory.scale import Scale

NATURAL = {"c": 0, "d": 2, "e": 4, "f": 5, "g": 7, "a": 9, "b": 11}
ALTERED = {"s": 1, "x": 2, "f": -1, "ff": -2, "n": 0}
NOTE = re.compile(r'<note[^>]*?pname="([a-g])" oct="(\d)"(?: accid="(\w+)")?')


def heard(figure: Figure) -> list[int]:
    """Read the notes of a bar from left to right as keys, C4 being 60."""
    (source,) = [shape.source for shape in walk(figure.shapes) if isinstance(shape, Engraving)]
    standing: dict[tuple[str, str], int] = {}
    keys = []
    for letter, octave, sign in NOTE.findall(source):
        if sign:
            standing[letter, octave] = ALTERED[sign]
        keys.append(12 * (int(octave) + 1) + NATURAL[letter] + standing.get((letter, octave), 0))
    return keys


@settings(max_examples=300, deadline=None)
@given(st.integers(0, 2**11 - 1), st.integers(0, 11))
def test_every_scale_is_read_as_it_sounds(above: int, root: int):
    scale = Scale(1 | above << 1, 12, root)
    keys = heard(staff(Sketch(scale)))
    assert [key - keys[0] for key in keys] == [*scale.tones, 12]
    assert keys[0] % 12 == root
    assert heard(bare_staff(Sketch(scale), 600, 260)) == keys


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 2**11 - 1), st.integers(0, 11))
def test_chords_one_after_another_are_read_as_they_sound(above: int, root: int):
    scale = Scale(1 | above << 1, 12, root)
    chords = [chord.tones for chord in triads(scale)][:14]
    if not chords:
        return
    places = tuple(Place(Kind.CHORD, (tones,)) for tones in chords)
    keys = heard(staff(Sketch(scale, places)))
    assert [key % 12 for key in keys] == [(tone + root) % 12 for tones in chords for tone in tones]


def test_a_natural_is_written_only_where_it_is_needed():
    (engraving,) = [
        s for s in walk(staff(Sketch(Scale.of(0, 1, 3, 4, 6, 7, 9, 10))).shapes) if isinstance(s, Engraving)
    ]
    assert engraving.source.count('accid="n"') == 1  # E after E flat; G and A have other lines than G flat or B flat
    (engraving,) = [s for s in walk(staff(Sketch(Scale.of(0, 2, 4, 5, 7, 9, 11))).shapes) if isinstance(s, Engraving)]
    assert "accid" not in engraving.source
