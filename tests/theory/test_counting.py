"""Counts of set classes against printed sequences and against listing the classes."""

from __future__ import annotations

import pytest

from gamutwright.errors import DomainError
from gamutwright.theory.counting import bracelet_counts, necklace_counts


# OEIS A035495 and A052307, page seen for the second.
def test_classes_of_twelve() -> None:
    assert necklace_counts(12) == (1, 1, 6, 19, 43, 66, 80, 66, 43, 19, 6, 1, 1)
    assert bracelet_counts(12) == (1, 1, 6, 12, 29, 38, 50, 38, 29, 12, 6, 1, 1)


def test_totals() -> None:
    """OEIS A000029, page seen, and A000031, from memory."""
    assert [sum(bracelet_counts(n)) for n in range(1, 13)] == [2, 3, 4, 6, 8, 13, 18, 30, 46, 78, 126, 224]
    assert [sum(necklace_counts(n)) for n in range(1, 13)] == [2, 3, 4, 6, 8, 14, 20, 36, 60, 108, 188, 352]


@pytest.mark.parametrize("divisions", range(1, 14))
def test_counts_by_listing_every_class(divisions: int) -> None:
    turned: set[tuple[int, ...]] = set()
    mirrored: set[tuple[int, ...]] = set()
    for mask in range(1 << divisions):
        word = [mask >> k & 1 for k in range(divisions)]
        rotations = [tuple(word[k:] + word[:k]) for k in range(divisions)]
        turned.add(min(rotations))
        mirrored.add(min(rotations + [rotation[::-1] for rotation in rotations]))
    assert necklace_counts(divisions) == tuple(sum(sum(w) == d for w in turned) for d in range(divisions + 1))
    assert bracelet_counts(divisions) == tuple(sum(sum(w) == d for w in mirrored) for d in range(divisions + 1))


@pytest.mark.parametrize("count", [necklace_counts, bracelet_counts])
def test_a_division_is_positive(count: object) -> None:
    assert callable(count)
    with pytest.raises(DomainError):
        count(0)
