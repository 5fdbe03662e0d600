"""Rows about spelling and names."""

from __future__ import annotations

import re

from gamutwright.theory.naming import MELAKARTA_NAMES, melakarta_mask, names_of, scales_called
from gamutwright.theory.scale import Scale, rotated_mask
from gamutwright.theory.spelling import spelled_from, tone_names
from published.row import Handler, Row


def _spelled(row: Row) -> None:
    names = tuple(row.expected.split())
    letter = re.fullmatch(r"spell major scale on pc (\d+) letter ([A-G])", row.property)
    named = re.fullmatch(r"spell ([A-G][b#]?) \w.*", row.property)
    assert letter or named
    root = names[0]
    if letter:
        assert root[0] == letter[2]
    if named:
        assert root == named[1]
    root_pitch_class = (2 * "CDEFGAB".index(root[0]) - ("CDEFGAB".index(root[0]) > 2)) % 12
    root_pitch_class = (root_pitch_class + root.count("#") - root[1:].count("b")) % 12
    if letter:
        assert root_pitch_class == int(letter[1])
    scale = Scale.of(*row.numbers, root=root_pitch_class)
    assert spelled_from(scale, root) == names
    policy = tone_names(scale)
    assert policy == names or policy[0] != root


def _melakarta(row: Row) -> None:
    found = re.fullmatch(r"melakarta (\d+) (\w+)", row.property)
    assert found
    number, name = int(found[1]), found[2]
    assert MELAKARTA_NAMES[number - 1] == name
    assert Scale(melakarta_mask(number)).tones == row.expected_ints == row.numbers
    assert f"mela {number} {name}" in {record.name for record in names_of(row.scale)}


def _hirajoshi_variant(row: Row) -> None:
    found = re.search(r"variant ([\w&/ ]+) C-", row.property)
    assert found
    for author in re.split(r"[&/]", found[1]):
        records = scales_called(f"hirajoshi ({author})")
        assert {record.scale.tones for record in records} == {row.numbers}
    pattern = Scale.of(0, 2, 3, 7, 8)
    rotations = {rotated_mask(pattern.mask, -tone, 12) for tone in pattern.tones}
    assert {record.mask for record in scales_called("hirajoshi")} <= rotations
    assert row.expected == "yes"


HANDLERS: list[Handler] = [
    (re.compile(r"spell .+"), _spelled),
    (re.compile(r"melakarta \d+ .+"), _melakarta),
    (re.compile(r"hirajoshi variant .+"), _hirajoshi_variant),
]
