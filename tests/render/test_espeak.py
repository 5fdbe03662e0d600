"""The built-in voice: the same every time, at the rate it states, with word times that the sound itself confirms."""

from __future__ import annotations

import importlib
import os
import signal
import threading
import time
from typing import Any

import numpy as np
import pytest

from gamutwright.errors import DomainError, MissingPartError
from gamutwright.render import espeak
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.voice import word_spans

LESSON = (
    "Tonight at the harbour school we climb the dorian scale on D.",
    "It has seven tones, and two of its steps are semitones: E to F, and B to C.",
    "Turned upside down the pattern stays the same, so the scale is a palindrome.",
    "Its Forte label is 7-35, which it shares with the major scale.",
)
HARD = (
    "E♭, B𝄫 and F## of 346 or 0.81, that’s half-diminished: A minor, 6-Z29, 2-1-2-2-1-2-2 (e.g. “Tn/TnI”)…",
    "Of the tones in the key that is on the top of it, a fifth of a tone is to be heard.",
    "♭ 5–7 IV vii° 50% Myhill's a A!",
    "Yes",
)


@pytest.mark.parametrize("line", HARD)
def test_every_word_of_the_line_has_its_own_time_in_order(line: str) -> None:
    spoken = EspeakVoice("en").speak(line)
    assert [(word.start_char, word.end_char) for word in spoken.words] == list(word_spans(line))
    ticks = [tick for word in spoken.words for tick in (word.start_tick, word.end_tick)]
    assert ticks == sorted(ticks)
    assert all(word.end_tick - word.start_tick >= 480 for word in spoken.words)
    assert ticks[-1] <= len(spoken.samples)


def test_german_words_have_their_times_too() -> None:
    line = "Es-Dur und fis-Moll, H, E♭ über die 3. Stufe, größer als 346."
    spoken = EspeakVoice("de").speak(line)
    assert [(word.start_char, word.end_char) for word in spoken.words] == list(word_spans(line))
    assert all(word.end_tick - word.start_tick >= 480 for word in spoken.words)


def test_words_begin_where_sound_begins_after_a_pause() -> None:
    # The voice pauses at every comma; where it goes on can be seen in the samples, without its own word. No word here
    # begins with a stop, whose silent closure belongs to it.
    line = "Semitone, mode, natural, sharp, lydian, major, flat, ratio."
    spoken = EspeakVoice("en").speak(line)
    loud = np.abs(spoken.samples) > 0.01
    onsets = [0]
    silence = 0
    for place, is_loud in enumerate(loud.tolist()):
        if is_loud and silence > 48000 // 10:
            onsets.append(place)
        silence = 0 if is_loud else silence + 1
    assert len(onsets) == len(spoken.words)
    errors_ms = [abs(word.start_tick - onset) / 48 for word, onset in zip(spoken.words, onsets, strict=True)]
    assert max(errors_ms) < 30


@pytest.mark.parametrize("variant", ["", "f3"])
def test_the_same_line_gives_the_same_samples_every_time(variant: str) -> None:
    # The library keeps state between calls, and f3 draws random numbers from a seed taken from the clock.
    voice = EspeakVoice("en", variant=variant)
    first = voice.speak(LESSON[0])
    voice.speak("Something else in between.")
    time.sleep(1.1)
    again = voice.speak(LESSON[0])
    assert first.words == again.words
    assert np.array_equal(first.samples, again.samples)


def test_a_process_of_its_own_speaks_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    here = EspeakVoice("en").speak(LESSON[1])
    monkeypatch.setattr(espeak, "_can_unload", lambda: False)
    there = EspeakVoice("en").speak(LESSON[1])
    assert np.array_equal(here.samples, there.samples)
    assert here.words == there.words


def test_rate_one_is_the_pace_of_teaching_and_other_rates_scale_it() -> None:
    # 130 to 150 words a minute: common practice, no source.
    def rate(multiple: float) -> float:
        spoken = [EspeakVoice("en", multiple).speak(line) for line in LESSON]
        return 60 * sum(len(line.words) for line in spoken) / sum(line.seconds for line in spoken)

    assert 130 <= rate(1.0) <= 150
    assert rate(1.5) / rate(1.0) == pytest.approx(1.5, rel=0.15)


def test_a_setting_that_changes_the_sound_changes_the_identity() -> None:
    voices = [EspeakVoice("en"), EspeakVoice("de"), EspeakVoice("en", 1.1), EspeakVoice("en", 1.0, 60)]
    assert len({voice.identity for voice in voices}) == len(voices)
    assert EspeakVoice("en").identity == EspeakVoice("en").identity


def test_nothing_to_say_gives_no_samples() -> None:
    spoken = EspeakVoice("en").speak(" … ")
    assert (len(spoken.samples), spoken.words) == (0, ())


def test_phonemes_in_the_teachers_own_text_are_read_as_words() -> None:
    spoken = EspeakVoice("en").speak("Say [[hello]] to them.")
    assert len(spoken.words) == 4


def test_without_the_library_the_error_says_how_to_install_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(name: str) -> object:
        raise ImportError(name)

    monkeypatch.setattr(importlib, "import_module", refuse)
    with pytest.raises(MissingPartError, match="pip install espeakng-loader"):
        EspeakVoice("en").speak("Listen.")


@pytest.mark.parametrize("settings", [{"rate": 0.1}, {"pitch": 100}, {"language": "xx"}])
def test_settings_outside_their_range_are_refused(settings: dict[str, Any]) -> None:
    with pytest.raises(DomainError):
        EspeakVoice(**settings)


def test_an_unknown_accent_is_refused() -> None:
    with pytest.raises(DomainError, match="no voice of this name"):
        EspeakVoice("en", accent="no/such").speak("Listen.")


def test_an_interrupt_while_it_speaks_is_heard() -> None:
    """Raised inside what the library calls back, it would be printed and forgotten, and some of the voice with it."""
    voice = EspeakVoice()
    for part in range(10):
        timer = threading.Timer(part / 100, os.kill, (os.getpid(), signal.SIGINT))
        with pytest.raises(KeyboardInterrupt):
            interrupted(voice, timer)


def interrupted(voice: EspeakVoice, timer: threading.Timer) -> None:
    timer.start()
    voice.speak("One two three. " * 20)
    # What comes late comes here.
    timer.join()
    time.sleep(1)
