"""Systematic names: every rooted set of twelve has one, none share one, and each decodes."""

from __future__ import annotations

from functools import cache

import pytest

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale
from gamutwright.theory.systematic import FAMILIAR, scale_from_systematic_name, systematic_name


@pytest.mark.exhaustive
def test_all_rooted_sets_have_different_names_that_decode() -> None:
    names = {mask: systematic_name(Scale(mask)) for mask in range(1, 4096, 2)}
    assert len(set(names.values())) == 2048
    for mask, name in names.items():
        assert scale_from_systematic_name(name) == mask
        assert (
            scale_from_systematic_name(name.replace("b", "♭") if "without" in name and name[0] == "i" else name) == mask
        )


# Chord-scale names of jazz teaching: common practice, no source.
@pytest.mark.parametrize(
    ("tones", "name"),
    [
        ((0, 2, 3, 6, 7, 9, 10), "dorian #4"),
        ((0, 1, 3, 5, 7, 9, 10), "dorian b2"),
        ((0, 2, 4, 6, 8, 9, 11), "lydian #5"),
        ((0, 3, 4, 6, 7, 9, 11), "lydian #2"),
        ((0, 2, 4, 5, 7, 8, 10), "aeolian natural 3"),
        ((0, 1, 3, 4, 6, 8, 10), "locrian b4"),
        ((0, 2, 4, 7, 9), "ionian without 4 and 7"),
        ((0, 3, 5, 7, 10), "aeolian without 2 and 6"),
        ((0, 2, 4, 5, 7, 9, 10, 11), "ionian with added b7"),
        ((0, 3, 5, 6, 7, 10), "aeolian without 2 and 6 with added b5"),
    ],
)
def test_names_as_teachers_say_them(tones: tuple[int, ...], name: str) -> None:
    assert systematic_name(Scale.of(*tones)) == name


def test_familiar_scales_are_their_own_names() -> None:
    for name, tones in FAMILIAR.items():
        assert systematic_name(Scale.of(*tones).transposed(3)) == name


def slow_changes(tones: tuple[int, ...], familiar: tuple[int, ...]) -> int:
    """Fewest changes by trying every way to pair, leave out and add."""

    @cache
    def best(i: int, j: int) -> int:
        if i == len(tones):
            return 7 - j
        if j == 7:
            return len(tones) - i
        signs = abs(tones[i] - (0, 2, 4, 5, 7, 9, 11)[j])
        pair = 0 if tones[i] == familiar[j] else max(signs, 1) if signs <= 2 else 99
        return min(best(i + 1, j) + 1, best(i, j + 1) + 1, best(i + 1, j + 1) + pair)

    return best(1, 1)


def written_changes(name: str) -> int:
    for base in sorted(FAMILIAR, key=len, reverse=True):
        if name.startswith(base):
            rest = name.removeprefix(base).replace(",", " ").replace("natural ", "n").split()
            words = [word for word in rest if word not in {"without", "with", "added", "and"}]
            return sum(2 if word.startswith(("bb", "##")) else 1 for word in words)
    raise AssertionError(name)


@pytest.mark.exhaustive
def test_no_familiar_scale_is_nearer_than_the_one_named() -> None:
    for mask in range(1, 4096, 14):
        scale = Scale(mask)
        name = systematic_name(scale)
        least = {base: slow_changes(scale.tones, tones) for base, tones in FAMILIAR.items()}
        assert written_changes(name) == min(least.values()), name
        first = next(base for base, changes in least.items() if changes == min(least.values()))
        assert name.startswith(first)


@pytest.mark.parametrize(
    ("text", "tones"),
    [
        ("Dorian ♯4", (0, 2, 3, 6, 7, 9, 10)),
        ("dorian sharp 4", (0, 2, 3, 6, 7, 9, 10)),
        ("natural minor flat 5", (0, 2, 3, 5, 6, 8, 10)),
        ("minor ♮7", (0, 2, 3, 5, 7, 8, 11)),
        ("major without 4, 7", (0, 2, 4, 7, 9)),
        ("aeolian with added b2", (0, 1, 2, 3, 5, 7, 8, 10)),
        ("locrian bb7", (0, 1, 3, 5, 6, 8, 9)),
    ],
)
def test_other_ways_to_write_them(text: str, tones: tuple[int, ...]) -> None:
    assert Scale(scale_from_systematic_name(text)).tones == tones


@pytest.mark.parametrize(
    "text",
    ["", "cheese", "dorian cheese", "dorian #9", "dorian b1", "dorian without 1", "dorian without b3", "dorian 4",
     "dorian #3 #4 b4", "ionian with added 4", "ionian #3", "ionian without 4 and 4", "dorianic", "dorian natural b3",
     "major without", "ionian with added #7"],
)  # fmt: skip
def test_nonsense_is_refused_in_words(text: str) -> None:
    with pytest.raises(DomainError) as caught:
        scale_from_systematic_name(text)
    assert caught.value.next_step.endswith(".")


def test_only_rooted_sets_of_twelve_have_names() -> None:
    for scale in (Scale(0b10), Scale(1, 19)):
        with pytest.raises(DomainError, match="twelve divisions"):
            systematic_name(scale)
