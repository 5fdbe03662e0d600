"""Tuning words against the printed examples of the standard, and messages against mido's parser."""

from __future__ import annotations

from fractions import Fraction

import mido
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.theory.miditune import (
    NO_CHANGE,
    Word,
    bulk_tuning_dump,
    freq_hz_to_word,
    semitones_to_word,
    single_note_tuning_change,
    word_to_freq_hz,
    word_to_semitones,
)

seven_bits = st.integers(0, 127)
words = st.tuples(seven_bits, seven_bits, seven_bits).filter(lambda word: word != NO_CHANGE)


@given(words)
def test_words_come_back(word: Word) -> None:
    assert semitones_to_word(word_to_semitones(word)) == word
    assert freq_hz_to_word(word_to_freq_hz(word)) == word


@given(st.fractions(0, 127))
def test_rounding_is_to_the_nearest_of_14_bits(semitones: Fraction) -> None:
    assert abs(word_to_semitones(semitones_to_word(semitones)) - semitones) <= Fraction(1, 2 << 14)


def test_rounding_carries_into_the_next_key() -> None:
    assert semitones_to_word(61 - Fraction(1, 1 << 20)) == (61, 0, 0)


@pytest.mark.parametrize(
    ("word", "printed", "true"),
    [
        ((0, 0, 1), 8.2104, 8.1758),
        ((0x78, 0, 0), 8372.0190, 8372.0181),
        ((0x78, 0, 1), 8372.0630, 8372.0476),
        ((0x7F, 0, 0), 12543.8800, 12543.8540),
        ((0x7F, 0, 1), 12543.9200, 12543.8982),
        ((0x7F, 0x7F, 0x7E), 13289.7300, 13289.6566),
        ((0x3D, 0, 0), 277.1827, 277.1826),
    ],
)
def test_misprints_of_the_standard(word: Word, printed: float, true: float) -> None:
    """MIDI Tuning, frequency data examples; corrections as discussed in the forum of the MIDI Association."""
    assert word_to_freq_hz(word) == pytest.approx(true, abs=5.001e-5)
    assert abs(word_to_freq_hz(word) - printed) > 5e-5


@given(st.dictionaries(seven_bits, words, min_size=1, max_size=127), seven_bits, seven_bits)
def test_single_note_change_is_a_message_by_the_standard(keys: dict[int, Word], program: int, device: int) -> None:
    """F0 7F device 08 02 program count, then key and word for each, F7; mido reads it whole."""
    message = mido.Message.from_bytes(single_note_tuning_change(keys, program, device))
    assert message.type == "sysex"
    data = message.data
    assert data[:6] == (0x7F, device, 8, 2, program, len(keys))
    assert {data[at]: tuple(data[at + 1 : at + 4]) for at in range(6, len(data), 4)} == keys


def test_bulk_dump_is_a_message_by_the_standard() -> None:
    """F0 7E device 08 01 program, 16 letters, 128 words, checksum, F7: the inside cancels in exclusive or."""
    tuning = [(key, (key * 7) % 128, (key * 5) % 128) for key in range(127)] + [NO_CHANGE]
    dump = bulk_tuning_dump(tuning, "HARBOUR MEANTONE", program=3, device=0x10)
    assert len(dump) == 408
    data = mido.Message.from_bytes(dump).data
    assert data[:5] == (0x7E, 0x10, 8, 1, 3)
    assert bytes(data[5:21]) == b"HARBOUR MEANTONE"
    assert [tuple(data[at : at + 3]) for at in range(21, 405, 3)] == tuning
    check = 0
    for byte in data:
        check ^= byte
    assert check == 0


def test_refusals() -> None:
    with pytest.raises(DomainError, match="no pitch"):
        word_to_semitones(NO_CHANGE)
    with pytest.raises(DomainError, match="key 128"):
        semitones_to_word(128 - Fraction(1, 1 << 15))
    with pytest.raises(DomainError, match="key 0"):
        freq_hz_to_word(1.0)
    with pytest.raises(DomainError, match="positive"):
        freq_hz_to_word(0.0)
    with pytest.raises(DomainError, match="128 keys"):
        bulk_tuning_dump([(0, 0, 0)], "SHORT")
    with pytest.raises(DomainError, match="16 printable ASCII"):
        bulk_tuning_dump([(0, 0, 0)] * 128, "Kirnberger für Orgel")
    with pytest.raises(DomainError, match="0 to 127"):
        single_note_tuning_change({60: (60, 128, 0)})
    with pytest.raises(DomainError, match="one key or more"):
        single_note_tuning_change({})
