"""Traditional names against rules that stand outside the table."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import scale as music21_scale

from gamutwright.errors import DomainError
from gamutwright.theory.naming import (
    MELAKARTA_NAMES,
    all_names,
    melakarta_mask,
    names_of,
    scales_called,
    subsets_named,
    supersets_named,
)
from gamutwright.theory.scale import Scale


@pytest.mark.parametrize(
    ("name", "reference"),
    [
        ("ionian", music21_scale.MajorScale),
        ("dorian", music21_scale.DorianScale),
        ("phrygian", music21_scale.PhrygianScale),
        ("lydian", music21_scale.LydianScale),
        ("mixolydian", music21_scale.MixolydianScale),
        ("aeolian", music21_scale.MinorScale),
        ("locrian", music21_scale.LocrianScale),
        ("harmonic minor", music21_scale.HarmonicMinorScale),
        ("melodic minor", music21_scale.MelodicMinorScale),
        ("whole-tone", music21_scale.WholeToneScale),
    ],
)
def test_common_scales_agree_with_music21(name: str, reference: type[music21_scale.ConcreteScale]) -> None:
    pitches = reference("C").getPitches("C4", "C5", direction=music21_scale.Direction.ASCENDING)
    (record,) = scales_called(name)
    assert set(record.scale.tones) == {p.pitchClass for p in pitches}


def test_harmonic_major_is_the_mirror_of_harmonic_minor() -> None:
    # The modes of one are the inversions of the modes of the other (common knowledge, no source).
    (minor,), (major,) = scales_called("harmonic minor"), scales_called("harmonic major")
    modes = {major.scale.mode(k).mask for k in range(1, 8)}
    assert minor.scale.inverted().mask in modes


def test_acoustic_and_altered_are_modes_of_melodic_minor() -> None:
    # Fourth and seventh mode of melodic minor: Lendvai 1971 and jazz teaching, from memory.
    (minor,), (acoustic,), (altered,) = (scales_called(n) for n in ("melodic minor", "acoustic", "altered"))
    assert minor.scale.mode(4).mask == acoustic.mask
    assert minor.scale.mode(7).mask == altered.mask


# The melakarta scheme by its swara words: Sa, a pair of Ri and Ga, Ma, Pa, a pair of Dha and Ni
# (Wikipedia, Melakarta, read for the rule). R1 R2 R3 are 1 2 3, G1 G2 G3 are 2 3 4, and so on.
RI_GA = ["R1 G1", "R1 G2", "R1 G3", "R2 G2", "R2 G3", "R3 G3"]
DHA_NI = ["D1 N1", "D1 N2", "D1 N3", "D2 N2", "D2 N3", "D3 N3"]
SWARA = {
    "R1": 1, "R2": 2, "R3": 3, "G1": 2, "G2": 3, "G3": 4, "M1": 5, "M2": 6,
    "D1": 8, "D2": 9, "D3": 10, "N1": 9, "N2": 10, "N3": 11,
}  # fmt: skip


def test_all_melakartas_by_their_swaras() -> None:
    scheme = itertools.product(["M1", "M2"], RI_GA, DHA_NI)
    for number, (ma, ri_ga, dha_ni) in enumerate(scheme, 1):
        tones = {0, SWARA[ma], 7, *(SWARA[swara] for swara in (ri_ga + " " + dha_ni).split())}
        assert set(Scale(melakarta_mask(number)).tones) == tones
    assert len({melakarta_mask(number) for number in range(1, 73)}) == 72
    for number in (0, 73):
        with pytest.raises(DomainError, match="1 to 72"):
            melakarta_mask(number)


# The katapayadi rule: the first two syllables of the name give the number, units first (from memory). Latin letters
# leave some consonants open, so each stands for all the digits it may mean.
KATAPAYADI = {
    "kh": {2}, "gh": {4}, "chh": {7}, "ch": {6, 7}, "jh": {9}, "th": {2, 7}, "dh": {4, 9}, "ph": {2}, "bh": {4},
    "sh": {5, 6}, "jy": {8, 1}, "k": {1}, "g": {3}, "j": {8}, "t": {1, 6}, "d": {3, 8}, "n": {0}, "p": {1}, "b": {3},
    "m": {5}, "y": {1}, "r": {2}, "l": {3, 9}, "v": {4}, "w": {4}, "s": {5, 7}, "h": {8},
}  # fmt: skip
# Names whose Latin form hides the letter that counts: Naṭha for Nata, Ḷa and conjuncts resolved otherwise.
LATIN_HIDES = {"Natabhairavi"}


def digits(cluster: str) -> set[int]:
    found: set[int] = set()
    while cluster:
        letters = next(k for k in KATAPAYADI if cluster.startswith(k))
        found |= KATAPAYADI[letters]
        cluster = cluster[len(letters) :]
    return found


def test_melakarta_names_encode_their_numbers() -> None:
    for number, name in enumerate(MELAKARTA_NAMES, 1):
        if name in LATIN_HIDES:
            continue
        clusters = re.findall(r"[bcdfghjklmnpqrstvwxyz]+", name.lower())
        units = digits(clusters[0])
        tens = digits(clusters[1])
        assert number in {10 * ten + unit for ten in tens for unit in units}, name


def test_the_ten_thaats_are_these_melakartas() -> None:
    # Bhatkhande's thaats in melakarta numbers, from memory; marwa and purvi have the raised fourth.
    numbers = {
        "bilawal": 29, "khamaj": 28, "kafi": 22, "asavari": 20, "bhairavi": 8,
        "kalyan": 65, "bhairav": 15, "marwa": 53, "purvi": 51, "todi": 45,
    }  # fmt: skip
    for name, number in numbers.items():
        (record,) = scales_called(f"thaat {name}")
        assert record.mask == melakarta_mask(number)


def test_messiaens_modes_have_his_numbers_of_transpositions() -> None:
    # Messiaen 1944, chapter XVI, from memory: 2, 3, 4, 6, 6, 6, 6 transpositions.
    for number, count in enumerate((2, 3, 4, 6, 6, 6, 6), 1):
        (record,) = scales_called(f"Messiaen {number}")
        sets = {frozenset((tone + k) % 12 for tone in record.scale.tones) for k in range(12)}
        assert len(sets) == count


def test_octatonic_and_hexatonic_have_two_rotations() -> None:
    for name, patterns in {
        "octatonic": {(1, 2) * 4, (2, 1) * 4},
        "hexatonic": {(1, 3) * 3, (3, 1) * 3},
    }.items():
        assert {record.scale.step_pattern for record in scales_called(name)} == patterns


def test_hirajoshi_means_three_scales_by_five_authorities() -> None:
    # Wikipedia, Hirajoshi scale, citing the books (read).
    said = {
        "Burrows": (0, 4, 6, 7, 11), "Sachs": (0, 1, 5, 6, 10), "Slonimsky": (0, 1, 5, 6, 10),
        "Kostka": (0, 2, 3, 7, 8), "Speed": (0, 2, 3, 7, 8),
    }  # fmt: skip
    for author, tones in said.items():
        (record,) = scales_called(f"Hira-Joshi ({author})")
        assert record.scale.tones == tones
    assert len(scales_called("hirajoshi")) == 5
    assert scales_called("hirajoshi (nobody)") == ()


def test_names_are_found_from_tones_and_tones_from_names() -> None:
    for record in all_names():
        assert record in names_of(record.scale.transposed(7))
        for name in (record.name, *record.aliases):
            assert record in scales_called(name.upper())
        assert record.source
        assert record.locator
        assert record.evidence in {"from memory", "as quoted in another text", "common practice, no source"}
    assert names_of(Scale.of(0, 1, 2)) == ()
    assert names_of(Scale.of(0, 2, 4, 5, 7, 9, 11, divisions=19)) == ()
    assert scales_called("no such scale") == ()


@given(st.integers(0, 4095), st.integers(0, 11))
def test_relatives_by_sets_of_pitch_classes(mask: int, root: int) -> None:
    scale = Scale(mask, root=root)
    ours = set(scale.tones)
    known = {
        frozenset(r.scale.tones) for r in all_names() if "melakarta" not in r.tradition and len(r.scale.tones) < 12
    }
    inside = {(tone, tones) for tone in ours for tones in known if {(x + tone) % 12 for x in tones} < ours}
    assert {(tone, frozenset(r.scale.tones)) for tone, r in subsets_named(scale)} == inside
    assert len(subsets_named(scale)) == len(inside)
    around = {tones for tones in known if tones > ours}
    assert {frozenset(r.scale.tones) for r in supersets_named(scale)} == around
    assert subsets_named(Scale(1, 19)) == supersets_named(Scale(1, 19)) == ()
