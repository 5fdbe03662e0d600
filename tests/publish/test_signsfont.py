"""The font of accidentals: what is in it, and that it stands among letters as the table of the pictures says."""

from __future__ import annotations

import io

import pytest
from fontTools.ttLib import TTFont

from gamutwright.ir.metrics import SIGNS, text_width
from gamutwright.publish.page.signs_font import signs_font


@pytest.mark.parametrize("flavor", [None, "woff2"])
def test_accidentals_take_the_room_of_the_table(flavor: str | None, caplog: pytest.LogCaptureFixture):
    font = TTFont(io.BytesIO(signs_font(flavor)))
    names = font.getBestCmap()
    assert {chr(code) for code in names} == set("♯♭♮𝄪𝄫") == set(SIGNS)
    for code, name in names.items():
        assert font["hmtx"][name][0] == pytest.approx(text_width(chr(code), 1000), abs=1)
        assert font["CFF "].cff.topDictIndex[0].CharStrings[name].calcBounds(None)[3] > 300
    assert (font.flavor, font["head"].created) == (flavor, font["head"].modified)
    assert not caplog.records, "a font's reader finds nothing odd in it"
    assert signs_font.__wrapped__(flavor) == signs_font(flavor)
