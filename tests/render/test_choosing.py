"""Which take is heard, and takes that were thrown away: every choice can be undone, and nothing is ever lost."""

from __future__ import annotations

import contextlib
import json
import random
from pathlib import Path

import pytest

from gamutwright.errors import DomainError, FileError
from gamutwright.render import discards
from gamutwright.render.choosing import choose_take, chosen_take, earlier_choice, undo_choice
from gamutwright.render.discards import discard_take, list_discarded, restore_take
from gamutwright.render.takefile import Take, discarded_folder, list_takes, read_take, words_digest, write_take

LINE = "Listen to the ferry's horn."


DEEP = "[" * 100_000


def put(takes: Path, number: int) -> None:
    """Lay down a take as `add_take` does, without the sound."""
    path = takes / "horn" / f"{number:02d}.flac"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(f"sound {number}".encode())
    write_take(Take(path, number, LINE, words_digest(LINE), 1.5, (), -16.0, -1.5, -60.0, 140.0, (), "mine.wav"))
    choose_take(takes, "horn", number)


@pytest.fixture
def takes(tmp_path: Path) -> Path:
    for number in (1, 2, 3):
        put(tmp_path / "takes", number)
    return tmp_path / "takes"


def heard(takes: Path) -> int | None:
    take = chosen_take(takes, "horn")
    return take.number if take else None


def numbers(found: tuple[Take, ...]) -> list[int]:
    return [take.number for take in found]


def test_choices_are_undone_one_by_one(takes: Path) -> None:
    choose_take(takes, "horn", 1)
    choose_take(takes, "horn", 1)
    assert heard(takes) == 1
    assert [undo_choice(takes, "horn").number for _ in range(3)] == [3, 2, 1]
    assert earlier_choice(takes, "horn") is None
    with pytest.raises(DomainError, match="no other take"):
        undo_choice(takes, "horn")
    assert heard(takes) == 1


def test_a_file_of_an_earlier_version_and_a_damaged_one_are_read(takes: Path) -> None:
    place = takes / "horn" / "chosen.json"
    place.write_text('{"take": 1}\n')
    assert (heard(takes), earlier_choice(takes, "horn")) == (1, None)
    for damaged in ("", "{", "[]", '{"take": "1"}', '{"take": 77, "before": 3}', "null", DEEP, '{"take": 1e999}'):
        place.write_text(damaged)
        assert heard(takes) == 3, "the newest"
        choose_take(takes, "horn", 2)
        assert undo_choice(takes, "horn").number == 3
    place.unlink()
    assert heard(takes) == 3


def test_the_take_before_is_heard_when_the_chosen_one_is_thrown_away(takes: Path) -> None:
    choose_take(takes, "horn", 1)
    put(takes, 4)
    discard_take(takes, "horn", 4)
    assert heard(takes) == 1
    restore_take(takes, "horn", 4)
    assert heard(takes) == 4
    for number in (1, 2, 3, 4):
        discard_take(takes, "horn", number)
    assert heard(takes) is None
    assert numbers(list_discarded(takes, "horn")) == [1, 2, 3, 4]


def test_what_is_thrown_away_lies_apart_and_whole(takes: Path) -> None:
    before = {path.name: path.read_bytes() for path in (takes / "horn").iterdir()}
    discard_take(takes, "horn", 2)
    assert numbers(list_takes(takes, "horn")) == [1, 3]
    assert {path.name for path in (discarded_folder(takes) / "horn").iterdir()} == {"02.flac", "02.json"}
    assert takes not in discarded_folder(takes).parents, "nothing that is made from the takes sees it"
    restore_take(takes, "horn", 2)
    assert {path.name: path.read_bytes() for path in (takes / "horn").iterdir()} == before
    for missing in (2, 9):
        with pytest.raises(DomainError, match="no such take"):
            restore_take(takes, "horn", missing)
    with pytest.raises(DomainError, match="no such take"):
        discard_take(takes, "horn", 9)


@pytest.mark.parametrize("seed", range(20))
def test_a_program_that_ends_between_two_moves_loses_no_take(
    takes: Path, seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whichever move is the last one, every take is either among the takes or among those thrown away, never both."""
    chance = random.Random(seed)  # noqa: S311 - which move fails is no secret
    move = discards._move

    def unsure(path: Path, folder: Path) -> None:
        if chance.random() < 0.4:
            raise KeyboardInterrupt
        move(path, folder)

    monkeypatch.setattr(discards, "_move", unsure)
    for _ in range(30):
        number = chance.randrange(1, 4)
        there = number in numbers(list_takes(takes, "horn"))
        with contextlib.suppress(KeyboardInterrupt):
            (discard_take if there else restore_take)(takes, "horn", number)
        kept = numbers(list_takes(takes, "horn")) + numbers(list_discarded(takes, "horn"))
        assert sorted(kept) == [1, 2, 3]
    monkeypatch.setattr(discards, "_move", move)
    for number in numbers(list_discarded(takes, "horn")):
        restore_take(takes, "horn", number)
    assert [(takes / "horn" / f"0{number}.flac").read_bytes() for number in (1, 2, 3)] == [
        b"sound 1", b"sound 2", b"sound 3",
    ]  # fmt: skip


def test_nothing_is_written_over(takes: Path) -> None:
    discard_take(takes, "horn", 2)
    put(takes, 2)  # by hand, since the program gives a number once
    with pytest.raises(FileError, match="already"):
        discard_take(takes, "horn", 2)
    with pytest.raises(FileError, match="already"):
        restore_take(takes, "horn", 2)
    assert (takes / "horn" / "02.flac").read_bytes() == b"sound 2"
    assert json.loads((takes / "horn" / "chosen.json").read_text())["take"] == 2


@pytest.mark.parametrize(
    ("entry", "value"),
    [
        ("times", "[[0, 5, 1e999, 2]]"),
        ("times", "[[0, 5, NaN, 2]]"),
        ("times", "[[0, 5, 0, 99999999999]]"),
        ("times", "[[0, 5, 9, 3]]"),
        ("times", "[[-1, 5, 0, 3]]"),
        ("times", "[[0, 5, 3]]"),
        ("times", '["0123"]'),
        ("times", '[["0", "5", "0", "3"]]'),
        ("seconds", '"long"'),
        ("text", "3"),
        ("faults", '["made up"]'),
        ("loudness_lufs", "Infinity"),
        ("source", DEEP),
        ("words", "[" * 900 + "]" * 900),
    ],
)
def test_a_description_that_says_nothing_sensible_is_refused(entry: str, value: str, takes: Path) -> None:
    place = takes / "horn" / "02.json"
    told = {key: json.dumps(one) for key, one in json.loads(place.read_text("utf-8")).items()} | {entry: value}
    place.write_text("{" + ", ".join(f'"{key}": {one}' for key, one in told.items()) + "}")
    with pytest.raises(FileError, match="does not describe a take"):
        read_take(place)
