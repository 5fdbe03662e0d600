"""The cards at the end: names from files, what was told, sources, and what comes next."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gamutwright.errors import FileError, InputError
from gamutwright.facts.registry import default_registry
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.languages import known_languages, language_of
from gamutwright.lessons.credits import MOST_SUPPORTERS, Credits, credits_of, end_cards, read_supporters
from gamutwright.lessons.parse import parse
from gamutwright.lessons.script import Front
from gamutwright.phrasing.card_words import card_words
from gamutwright.phrasing.engine import wording_for

REGISTRY = default_registry()


def written(folder: Path, content: str | bytes) -> Path:
    path = folder / "supporters.txt"
    path.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
    return path


def test_remarks_and_empty_lines_are_no_names(tmp_path: Path) -> None:
    path = written(tmp_path, "\ufeff# the choir\r\nAda Merrin\r\n\r\n  # more\r\n  Jonas   Ebb  \r\n🎵\r\n")
    assert read_supporters(path) == ("Ada Merrin", "Jonas Ebb")


def test_controls_pictographs_and_marks_of_direction_are_left_out(tmp_path: Path) -> None:
    path = written(tmp_path, "\u202eAda\u202c\x07 🎺\nIda\u2028Moor\n" + "y" * 300 + "\n")
    assert read_supporters(path) == ("Ada", "Ida Moor", "y" * 300)


@pytest.mark.parametrize(
    ("name", "code"), [("דנה", "U+05D3"), ("中文", "U+4E2D"), ("Ana 中", "U+4E2D"), ("محمد", "U+0645")]
)
def test_letters_that_cannot_be_drawn_are_refused_with_their_line(tmp_path: Path, name: str, code: str) -> None:
    with pytest.raises(InputError) as caught:
        read_supporters(written(tmp_path, f"Ada\n{name}\n"))
    assert "supporters.txt:2" in str(caught.value)
    assert code in str(caught.value)
    assert "Latin" in str(caught.value)


def test_a_missing_or_broken_list_is_an_error_with_a_next_step(tmp_path: Path) -> None:
    script = parse("---\nscale: C major\nsupporters: friends.txt\n---\n# A\nSo.\n")
    with pytest.raises(FileError, match=r"friends\.txt.*cannot be read.*take the line supporters: out"):
        credits_of(script, tmp_path)
    with pytest.raises(InputError, match="UTF-8"):
        read_supporters(written(tmp_path, b"Ren\xe9\n"))
    with pytest.raises(InputError, match="at most"):
        read_supporters(written(tmp_path, "Ada\n" * (MOST_SUPPORTERS + 1)))


def test_no_list_is_no_error(tmp_path: Path) -> None:
    assert credits_of(parse("---\nscale: C major\n---\n# A\nSo.\n"), tmp_path, "eSpeak NG") == Credits("eSpeak NG")


def test_a_mistyped_key_is_asked_about() -> None:
    with pytest.raises(InputError, match="Did you mean supporters"):
        parse("---\nscale: C major\nsuporters: friends.txt\n---\n# A\nSo.\n")


def test_cards_say_who_made_it_and_who_is_thanked_in_ten_seconds_besides() -> None:
    """Ten seconds are the project's own figure; supporters are named for as long as they take to read."""
    front = Front("C major", others=(("course", "Evening course"), ("lesson", "7"), ("next", "The blues scale")))
    made = Credits("a voice", is_recorded=True, supporters=("Ada", "Jonas"))
    cards = end_cards(front, made, card_words("en"))
    assert [card.heading for card in cards] == ["How this film was made", "With thanks to", "Next lesson"]
    values = " ".join(entry.value for entry in cards[0].entries)
    for words in ("Evening course · Lesson 7", "recorded by the teacher; a voice", "Gamutwright"):
        assert words in values
    assert [entry.text for entry in cards[1].entries] == ["Ada", "Jonas"]
    assert cards[2].sentence == "The blues scale"
    assert sum(card.hold_ticks for card in cards) <= 10 * TICKS_PER_SECOND


@pytest.mark.parametrize(
    ("is_recorded", "speaker", "voice"),
    [
        (True, "", "von der Lehrkraft gesprochen; Stimme"),
        (True, "die eingebaute Stimme\u202e", "die eingebaute Stimme; Stimme"),
        (False, "die eingebaute Stimme", "Stimme"),
    ],
)
def test_recordings_are_the_teachers_unless_a_speaker_is_named(is_recorded: bool, speaker: str, voice: str) -> None:
    front = parse(f"---\nscale: C major\nlanguage: de\nspeaker: {speaker}\n---\n# A\nSo.\n").front
    (card,) = end_cards(front, Credits("Stimme", is_recorded=is_recorded), card_words("de"))
    assert {entry.text: entry.value for entry in card.entries}["Stimme"] == voice


def test_every_language_has_every_word() -> None:
    tables = {tag: language_of(tag).table("cards") for tag in known_languages()}
    keys = {tag: table["cards"].keys() for tag, table in tables.items()}
    assert all(held == keys["en"] for held in keys.values())


def test_a_german_heading_has_the_term_that_the_definition_explains() -> None:
    """Bare adjectives make no heading; whoever reads one term and hears another takes them for two notions."""
    adjectives = {"cardinality_word", "hemitonic_word", "semitone_runs"}
    spoken, words = wording_for("de"), card_words("de")
    told = {fact.id: (words.title(fact), spoken.terms(fact)) for fact in REGISTRY.facts.values()}
    for fact_id, (title, terms) in told.items():
        if fact_id not in adjectives | {"cardinality"} and any(terms):
            parts = [[re.sub("(?:es|s|er|e)$", "", word) for word in _plain(term).split()] for term in terms]
            assert any(all(part in _plain(title) for part in term) for term in parts), (title, terms)
    assert sum(any(terms) for _, terms in told.values()) > 80


def _plain(text: str) -> str:
    """Leave umlauts out, which come and go with the plural."""
    return text.casefold().translate(str.maketrans("äöü", "aou"))
