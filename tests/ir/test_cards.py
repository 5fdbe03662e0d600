"""Cards: what fits, what is legible, and how long it takes to read.

Reading figures: BBC Subtitle Guidelines 1.2.3, sections 4.1 (160 to 180 words a minute) and 4.5 (at least about 0.3
seconds a word), and Netflix Timed Text Style Guide, General Requirements (17 characters a second, the slower of its two
figures), as the sheet of standards quotes them.
"""

from __future__ import annotations

import unicodedata

from hypothesis import given
from hypothesis import strategies as st

from gamutwright.ir.cards import (
    CARD_SIZE,
    LONGEST_ENTRY_ROWS,
    ROOMS,
    Entry,
    legible,
    paged,
    placed_entries,
    reading_ticks,
    wrapped_words,
)
from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import is_drawable, text_width
from gamutwright.render.fonts import glyph_run

HOSTILE = (
    "x" * 300,
    "Aurelia " * 60,
    "\u202eevil\u202c name",
    "Ana 🎵👩‍🎤 Novák",
    "bell\x07 and\x00 nul\x1b[31m",
    "Zalgo Z̸̛̼a̵͎̕l̷̺̈g̶̱̓o̷̤͂",
    "שלום",
    "中文名字",
    "\u2028two\u2029lines\nthree",
    "   ",
    "",
    "ＦＵＬＬ ｗｉｄｔｈ",
    "ﬁne ligature ½",
    "a\u00adb\u200bc\ufeffd",
)


@given(st.text(max_size=400))
def test_any_text_becomes_drawable_in_every_typeface(text: str) -> None:
    cleaned = legible(text)
    assert all(letter == " " or is_drawable(letter) for letter in cleaned)
    assert cleaned == " ".join(cleaned.split())
    assert legible(cleaned) == cleaned
    for face in Face:
        glyph_run(cleaned, 40.0, face)


@given(st.text(st.characters(codec="latin-1", categories=["Lu", "Ll", "Nd"]), min_size=1, max_size=60))
def test_names_in_the_letters_of_western_europe_are_not_touched(name: str) -> None:
    assert legible(name) == unicodedata.normalize("NFC", name)


def test_names_of_many_tongues_keep_their_letters() -> None:
    for name in (
        "Nguyễn Thị Hà",
        "Ελένη Δήμου",
        "Łukasz Żak",
        "Đorđe Šarić",
        "Þóra Ólafsdóttir",
        "Олена",
        "O’Neill-Søby",
    ):
        assert legible(name) == name


@given(st.lists(st.builds(Entry, st.text(max_size=300), st.text(max_size=120)), max_size=40), st.sampled_from([1, 2]))
def test_pages_hold_every_entry_once_and_fit_both_shapes(entries: list[Entry], columns: int) -> None:
    pages = paged(entries, columns)
    kept = [entry for entry in entries if legible(entry.text) or legible(entry.value)]
    assert [entry for page in pages for entry in page] == kept
    for page in pages:
        for shape, (width, height) in ROOMS.items():
            rows, tall = placed_entries(page, shape, columns)
            assert tall <= height
            assert all(row.x >= 0 and row.x + text_width(row.text, CARD_SIZE) <= width + 0.01 for row in rows)
            assert all(CARD_SIZE * 0.5 <= row.y <= height for row in rows)


def test_hostile_names_are_cut_and_set_apart() -> None:
    (page,) = paged([Entry(name) for name in HOSTILE], 2)
    for shape in ROOMS:
        rows, _ = placed_entries(page, shape, 2)
        assert len({(row.x, row.y) for row in rows}) == len(rows)
        assert sum(row.text.endswith("…") for row in rows) >= 2
        assert max(sum(row.text.startswith("x") for row in rows), 1) <= LONGEST_ENTRY_ROWS
        assert any(row.text == "Ana Novák" for row in rows)
        assert any(row.text == "evil name" for row in rows)
        assert any(row.text == "two lines three" for row in rows)


@given(st.lists(st.text("abcdefghij", min_size=1, max_size=14), min_size=1, max_size=80))
def test_reading_takes_at_least_as_long_as_the_published_figures_ask(words: list[str]) -> None:
    text = " ".join(words)
    seconds = reading_ticks(text) / 48_000
    assert seconds >= len(words) * 60 / 160
    assert seconds >= len(text) / 17
    assert seconds >= 1.2


def test_rows_are_as_wide_as_asked_and_lose_nothing() -> None:
    text = "The same key can have several names; the spelling tells what part the tone plays"
    for width in (200.0, 400.0, 900.0):
        rows = wrapped_words(text, width, 40.0)
        assert " ".join(rows) == text
        assert all(text_width(row, 40.0) <= width for row in rows)
