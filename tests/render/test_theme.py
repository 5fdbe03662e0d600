"""Contrast by WCAG 2.2, and roles that can be told apart without colour.

Ratios: success criteria 1.4.3 (text, 4.5:1) and 1.4.11 (needed graphics, 3:1), from memory of the recommendation. The
formula is checked on the published pairs black on white = 21 and #767676 on white = 4.54. Colour-vision deficiencies
are simulated with the matrices of Machado, Oliveira and Fernandes (2009) at severity 1, from memory.
"""

from __future__ import annotations

import itertools
import math

import pytest

from gamutwright.errors import DomainError
from gamutwright.ir.figure import Role
from gamutwright.render.theme import THEMES, contrast, load_theme

PROTANOPIA = ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998))
DEUTERANOPIA = ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.01182, 0.04294, 0.968881))
WORDS = [role for role in Role if role is not Role.GROUND]


def linear(colour: str) -> list[float]:
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    return [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in channels]


def lab(rgb: list[float]) -> tuple[float, float, float]:
    """CIE L*a*b* of linear sRGB, D65."""
    matrix = ((0.4124, 0.3576, 0.1805), (0.2126, 0.7152, 0.0722), (0.0193, 0.1192, 0.9505))
    white = (0.9505, 1.0, 1.089)
    x, y, z = (
        (value ** (1 / 3) if value > 0.008856 else 7.787 * value + 16 / 116)
        for value in (
            max(0.0, sum(a * b for a, b in zip(row, rgb, strict=True))) / w
            for row, w in zip(matrix, white, strict=True)
        )
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def test_formula_on_published_pairs():
    assert contrast("#000000", "#FFFFFF") == 21
    assert contrast("#767676", "#FFFFFF") == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("theme", THEMES)
@pytest.mark.parametrize("role", WORDS)
def test_contrast(theme: str, role: Role):
    looks = load_theme(theme).looks
    ground = looks[Role.GROUND].mark
    assert contrast(looks[role].mark, ground) >= 3
    assert contrast(looks[role].text, ground) >= 4.5


@pytest.mark.parametrize("theme", THEMES)
def test_numbers_on_marks_can_be_read(theme: str):
    """Numbered discs carry ground on the role's colour."""
    looks = load_theme(theme).looks
    for role in (Role.NOW, Role.INK):
        assert contrast(looks[Role.GROUND].text, looks[role].mark) >= 4.5


@pytest.mark.parametrize("theme", ["light", "night"])
@pytest.mark.parametrize("matrix", [PROTANOPIA, DEUTERANOPIA])
def test_now_and_other_stay_apart_in_colour_vision_deficiency(theme: str, matrix: tuple[tuple[float, ...], ...]):
    looks = load_theme(theme).looks
    seen = []
    for role in (Role.NOW, Role.OTHER, Role.INK):
        rgb = linear(looks[role].mark)
        seen.append(lab([max(0.0, sum(a * b for a, b in zip(row, rgb, strict=True))) for row in matrix]))
    for one, two in itertools.combinations(seen, 2):
        assert math.dist(one, two) > 20


@pytest.mark.parametrize("theme", THEMES)
def test_every_role_differs_by_more_than_colour(theme: str):
    looks = load_theme(theme).looks
    assert looks[Role.NOW].weight >= 1.5 * looks[Role.INK].weight
    assert looks[Role.OTHER].dash
    assert looks[Role.WRONG].hatch is not None
    shapes = {
        role: (looks[role].weight, looks[role].dash, looks[role].hatch) for role in (Role.INK, Role.NOW, Role.OTHER)
    }
    assert len(set(shapes.values())) == 3


def test_unknown_themes_are_refused():
    with pytest.raises(DomainError, match="light, night, print"):
        load_theme("sepia")
