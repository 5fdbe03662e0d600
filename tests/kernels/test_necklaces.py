"""Classes are generated once each: counts from the OEIS, representatives by a slow definition."""

from __future__ import annotations

import numpy as np
import pytest

from gamutwright.errors import DomainError
from gamutwright.kernels.necklaces import necklace_chunks, rooted_members
from gamutwright.theory.scale import Scale, rotated_mask

# OEIS A000031, binary necklaces of length n, n = 1..20 (from memory; the terms to 12 also stand in the table of
# published values).
A000031 = [2, 3, 4, 6, 8, 14, 20, 36, 60, 108, 188, 352, 632, 1182, 2192, 4116, 7712, 14602, 27596, 52488]
# OEIS A035495 as quoted in published-values.csv: transposition classes of twelve by number of tones.
A035495 = [1, 1, 6, 19, 43, 66, 80, 66, 43, 19, 6, 1, 1]


def classes(divisions: int, chunk: int = 1 << 16) -> np.ndarray:
    return np.concatenate(list(necklace_chunks(divisions, chunk)))


@pytest.mark.parametrize("divisions", range(1, 21))
def test_as_many_classes_as_the_oeis_says(divisions: int) -> None:
    assert classes(divisions).size == A000031[divisions - 1] - 1


def test_as_many_classes_of_each_size_as_the_oeis_says() -> None:
    sizes = np.bincount([int(word).bit_count() for word in classes(12)], minlength=13)
    assert [1, *sizes[1:]] == A035495


@pytest.mark.parametrize("divisions", [1, 2, 5, 8, 12])
def test_each_class_is_its_smallest_rotation_by_a_slow_definition(divisions: int) -> None:
    smallest = {min(rotated_mask(mask, k, divisions) for k in range(divisions)) for mask in range(1, 1 << divisions)}
    assert classes(divisions).tolist() == sorted(smallest)


@pytest.mark.parametrize("chunk", [1, 7, 351, 352])
def test_the_size_of_the_chunks_does_not_matter(chunk: int) -> None:
    assert classes(12, chunk).tolist() == classes(12).tolist()


@pytest.mark.parametrize("divisions", [1, 2, 7, 12, 16])
def test_members_are_all_rooted_sets_each_once(divisions: int) -> None:
    words = classes(divisions)
    members, owners = rooted_members(words, divisions)
    assert sorted(members.tolist()) == list(range(1, 1 << divisions, 2))
    for member, owner in list(zip(members.tolist(), owners.tolist(), strict=True))[::17]:
        scale = Scale(member, divisions)
        assert min(scale.mode(k).mask for k in range(1, scale.cardinality + 1)) == int(words[owner])


@pytest.mark.parametrize("divisions", [0, 37])
def test_divisions_out_of_range_are_refused(divisions: int) -> None:
    with pytest.raises(DomainError, match="1 to 36"):
        next(necklace_chunks(divisions))
