"""Alignment, measured on recordings whose true word times are known, and checked where it can be said exactly."""

from __future__ import annotations

import numpy as np
import pytest

from gamutwright.errors import DomainError
from gamutwright.render.align import align, reference_lines
from gamutwright.render.voice import SpokenLine, word_spans
from render.recordings import LINES, NOISES_DB, SPEAKERS, recorded, spoken_by
from thinning import usually

MEDIAN_MS, PERCENTILE_95_MS = 40, 120


@pytest.mark.parametrize(("language", "voices"), usually([("en", 1), ("en", 2), ("de", 2)], ("en", 1)))
def test_words_are_found_in_other_voices_speeds_rooms_and_noise(language: str, voices: int) -> None:
    """Each line said by one or two of the voices, which take turns."""
    random = np.random.default_rng(20)
    errors_ms: list[float] = []
    for number, line in enumerate(LINES[language]):
        references = reference_lines(line, language)
        for place in range(voices):
            speaker = SPEAKERS[(number + 2 * place) % len(SPEAKERS)]
            spoken = spoken_by(speaker, line, language)
            recording, true = recorded(spoken, random, NOISES_DB[(number + place) % len(NOISES_DB)])
            found = align(recording, references)
            assert [(word.start_char, word.end_char) for word in found] == list(word_spans(line))
            errors_ms += (np.abs(np.array([word.start_tick for word in found]) - true) / 48).tolist()
    assert len(errors_ms) > 50 * voices
    assert np.median(errors_ms) <= MEDIAN_MS
    assert np.percentile(errors_ms, 95) <= PERCENTILE_95_MS


def test_a_reference_laid_along_itself_gives_its_own_times() -> None:
    references = reference_lines(LINES["en"][2], "en")
    found = align(references[0].samples, references[:1])
    errors = [abs(word.start_tick - true.start_tick) for word, true in zip(found, references[0].words, strict=True)]
    # Where a word begins in a pause, the pause's edge is what counts; hence no closer.
    assert max(errors) <= 48 * MEDIAN_MS
    assert np.median(errors) <= 48 * 15


def test_the_order_of_words_is_kept_and_none_is_empty() -> None:
    line = LINES["en"][0]
    references = reference_lines(line, "en")
    # Another line altogether: nothing can be right, but the times must still be times.
    other = spoken_by(SPEAKERS[0], LINES["en"][6], "en")
    found = align(other.samples, references)
    ticks = [tick for word in found for tick in (word.start_tick, word.end_tick)]
    assert ticks == sorted(ticks)
    assert all(word.end_tick > word.start_tick for word in found)
    assert ticks[-1] <= len(other.samples)


def test_a_long_pause_in_the_middle_belongs_to_no_word() -> None:
    spoken = spoken_by(SPEAKERS[1], LINES["en"][4], "en")
    middle = spoken.words[5].start_tick
    recording = np.concatenate([spoken.samples[:middle], np.zeros(96_000, np.float32), spoken.samples[middle:]])
    noise = np.random.default_rng(1).standard_normal(len(recording)) * 1e-4
    found = align((recording + noise).astype(np.float32), reference_lines(LINES["en"][4], "en"))
    assert found[4].end_tick <= middle + 48 * 60
    assert abs(found[5].start_tick - middle - 96_000) <= 48 * 60


def test_silence_is_refused() -> None:
    with pytest.raises(DomainError, match="no speech"):
        align(np.zeros(48_000, np.float32), reference_lines("Listen well.", "en"))


def test_references_of_other_words_are_refused() -> None:
    mixed = (*reference_lines("Listen well.", "en"), *reference_lines("Listen.", "en"))
    with pytest.raises(DomainError, match="same words"):
        align(mixed[0].samples, mixed)
    with pytest.raises(DomainError, match="0 references"):
        align(mixed[0].samples, ())


def test_a_line_without_words_has_no_times() -> None:
    assert align(np.zeros(48_000, np.float32), [SpokenLine(np.zeros(0, np.float32), ())]) == ()
