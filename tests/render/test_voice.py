"""Words of a line, times filled in, and the change of sample rate, checked against waves made apart."""

from __future__ import annotations

import itertools
from random import Random

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import DomainError
from gamutwright.render.voice import fill_times, resample, word_spans


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("E flat, E♭ and F𝄪.", ["E", "flat", "E♭", "and", "F𝄪"]),
        ("Myhill’s set 6-Z29: 0.81 of 1,024 (50%)!", ["Myhill’s", "set", "6-Z29", "0.81", "of", "1,024", "50%"]),
        ("Bm7♭5, F#m and C##.", ["Bm7♭5", "F#m", "and", "C##"]),
        ("“Half-diminished” – it’s vii°.", ["Half-diminished", "it’s", "vii°"]),
        ("Für H und Es-Dur: größer", ["Für", "H", "und", "Es-Dur", "größer"]),
        ("A ♭ alone, #1 and … –", ["A", "♭", "alone", "1", "and"]),
        ("", []),
    ],
)
def test_words_of_a_line(line: str, words: list[str]) -> None:
    assert [line[start:end] for start, end in word_spans(line)] == words


@given(st.text(alphabet="aB1♭♯#'’-.,/ –(%", max_size=40))
def test_every_letter_and_figure_is_in_exactly_one_word(line: str) -> None:
    spans = word_spans(line)
    inside = [any(start <= place < end for start, end in spans) for place in range(len(line))]
    assert all(is_in for sign, is_in in zip(line, inside, strict=True) if sign.isalnum() or sign in "♭♯")
    assert all(first[1] <= second[0] for first, second in itertools.pairwise(spans))


@given(
    st.lists(st.tuples(st.integers(1, 9), st.booleans()), min_size=1, max_size=12),
    st.randoms(use_true_random=False),
    st.integers(0, 5000),
)
def test_filled_times_are_in_order_and_none_is_empty(words: list[str], random: Random, extra: int) -> None:
    length = len(words) + extra
    spans, known, place = [], [], 0
    edges = sorted(random.randint(0, length) for _ in range(2 * len(words)))
    for index, (letters, is_known) in enumerate(words):
        spans.append((place, place + letters))
        place += letters + 1
        known.append((edges[2 * index], edges[2 * index + 1]) if is_known else None)
    filled = fill_times(spans, known, length)
    assert [(word.start_char, word.end_char) for word in filled] == spans
    flat = [tick for word in filled for tick in (word.start_tick, word.end_tick)]
    assert flat == sorted(flat)
    assert all(word.end_tick > word.start_tick for word in filled)
    assert flat[0] >= 0
    assert flat[-1] <= length


def test_a_line_too_short_for_its_words_is_refused() -> None:
    with pytest.raises(DomainError, match="2 words"):
        fill_times([(0, 1), (2, 3)], [None, None], 1)


@pytest.mark.parametrize("rate_hz", [8000, 11025, 16000, 22050, 32000, 44100, 48000, 96000])
def test_resampling_gives_the_wave_sampled_at_the_other_rate(rate_hz: int) -> None:
    def wave(rate: int) -> np.ndarray:
        seconds = np.arange(rate) / rate
        return np.sin(2 * np.pi * 1234.5 * seconds) * np.sin(np.pi * seconds) ** 2

    made = resample(wave(rate_hz).astype(np.float32), rate_hz)
    assert len(made) == 48000
    assert np.abs(made - wave(48000)).max() < 1e-3


def test_resampling_down_leaves_out_what_the_lower_rate_cannot_hold() -> None:
    seconds = np.arange(48000) / 48000
    high = np.sin(2 * np.pi * 12000 * seconds).astype(np.float32) * np.hanning(48000).astype(np.float32)
    assert np.abs(resample(high, 48000, 16000)).max() < 1e-3
