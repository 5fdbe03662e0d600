"""The built-in voice: eSpeak NG from its wheel, called through its C interface.

The idea: it needs no model and no network, speaks over a hundred languages, and tells when it reaches each word.

Two things had to be settled. The library keeps its state from line to line, so that the same line gives other samples
the second time, and some of its voices draw random numbers from a seed taken from the clock. So every line is spoken by
a freshly loaded library with a fixed seed; where the system cannot unload a library, by a process of its own. And it
reads letters: what it is given has been written out by `render.lexicon`.

eSpeak NG is free software under the GNU General Public License, version 3 or later.

References: eSpeak NG 1.52, `speak_lib.h` (events, flags, parameters), as shipped with espeakng-loader.

**Conventions.** Rate 1.0 is about 140 words a minute; pitch is 0 to 99, 50 the voice's own.
"""

from __future__ import annotations

import ctypes
import importlib
import json
import platform
import subprocess
import sys
import threading
from collections.abc import Collection
from dataclasses import asdict, dataclass, field
from functools import lru_cache
from pathlib import Path
from typing import Any, Self

import numpy as np

from gamutwright.codec import digest
from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.jobs.interrupts import held_interrupts
from gamutwright.render.lexicon import Lexicon, Respelling, load_lexicon, respell
from gamutwright.render.voice import TICKS_PER_SECOND, Samples, SpokenLine, fill_times, resample

__all__ = ["EspeakVoice", "phonemes_of"]

_SYNCHRONOUS, _PHONEME_EVENTS, _DONT_EXIT = 2, 1, 0x8000
_UTF8, _PHONEMES_IN_BRACKETS, _END_PAUSE = 1, 0x100, 0x1000
_CHARACTER_POSITIONS = 1
_RATE, _PITCH = 1, 3
_WORD, _END, _PHONEME = 1, 5, 7
_LIST_END = 0
_SEED = 1
_WORDS_PER_MINUTE_AT_ONE = 118
"""What the library calls 118 words a minute is about 140 of a lesson's words, which are short."""
_LONGEST_DATA_PATH = 140
"""The library cuts longer paths off (its own limit is 160, with file names)."""
_EDGE_TICKS = 960
"""Silence kept behind the last sound: 20 ms."""
_LOUDEST_SILENCE = 10 ** (-60 / 20)

_lock = threading.Lock()


class _Id(ctypes.Union):
    _fields_ = (("number", ctypes.c_int), ("name", ctypes.c_char_p), ("string", ctypes.c_char * 8))


class _Event(ctypes.Structure):
    _fields_ = (
        ("type", ctypes.c_int),
        ("unique_identifier", ctypes.c_uint),
        ("text_position", ctypes.c_int),
        ("length", ctypes.c_int),
        ("audio_position", ctypes.c_int),
        ("sample", ctypes.c_int),
        ("user_data", ctypes.c_void_p),
        ("id", _Id),
    )


_Callback = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.POINTER(_Event))


@dataclass(frozen=True, slots=True)
class _Request:
    """What the library is asked: a text in its own spelling, and how it is spoken."""

    text: str
    voice: str
    rate: int
    pitch: int


@dataclass(frozen=True, slots=True)
class _Answer:
    """What it gave: the sample rate, 16-bit samples, and words and pauses as (sample, place in the text or -1)."""

    rate_hz: int
    audio: bytes
    events: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class EspeakVoice:
    """The built-in voice.

    Parameters
    ----------
    language : str
        A language with a lexicon.
    rate : float in [0.7, 3]
        Speed; 1.0 is about 140 words a minute.
    pitch : int in [0, 99]
        Height of the voice.
    variant : str
        One of the library's variants, such as `f3`; "" for its own voice.
    own_words : Path or None
        A course's own lexicon.
    accent : str
        Another of the library's voices for the language, such as `gmw/en-US`; "" for the one of the lexicon.

    Examples
    --------
    >>> spoken = EspeakVoice("en").speak("E flat is not a letter and a tyre.")
    >>> len(spoken.words), 1.5 < spoken.seconds < 4
    (9, True)
    """

    language: str = "en"
    rate: float = 1.0
    pitch: int = 50
    variant: str = ""
    own_words: Path | None = None
    accent: str = ""
    lexicon: Lexicon = field(init=False, repr=False)

    def __post_init__(self) -> None:
        if not 0.7 <= self.rate <= 3:
            raise DomainError(
                f"rate {self.rate}", "the voice speaks from 0.7 to 3 times its rate", "Choose one in that range."
            )
        if not 0 <= self.pitch <= 99:
            raise DomainError(f"pitch {self.pitch}", "pitch goes from 0 to 99", "Choose one in that range.")
        object.__setattr__(self, "lexicon", load_lexicon(self.language, self.own_words))

    @property
    def identity(self) -> str:
        """Digest of the settings, the lexicon and the library's version."""
        settings = [self.rate, self.pitch, self.variant, self.accent, self.lexicon.identity]
        return digest(["espeak", _library_version(), *settings])

    @property
    def credit(self) -> str:
        """What it is called and under which licence it stands."""
        return "eSpeak NG, GNU General Public License 3"

    def speak(self, line: str, notes: Collection[tuple[int, int]] = ()) -> SpokenLine:
        """Speak a line; the same line gives the same samples every time.

        Parameters
        ----------
        line : str
            The line.
        notes : collection of (int, int)
            Places in it known to name notes.

        Returns
        -------
        SpokenLine
            Samples and word times.

        Raises
        ------
        MissingPartError
            If the library is not installed.
        DomainError
            If there is no such variant or accent.
        """
        written = respell(line, self.lexicon, notes)
        if not written.spans:
            return SpokenLine(np.zeros(0, np.float32), ())
        answer = _ask(self._request(written.text))
        raw = np.frombuffer(answer.audio, np.int16).astype(np.float32) / 32768
        samples = _without_end_silence(resample(raw, answer.rate_hz))
        return SpokenLine(samples, _word_times(written, answer, len(samples)))

    def _request(self, text: str) -> _Request:
        voice = self.accent or self.lexicon.espeak
        name = f"{voice}+{self.variant}" if self.variant else voice
        return _Request(text, name, round(self.rate * _WORDS_PER_MINUTE_AT_ONE), self.pitch)


def _without_end_silence(samples: Samples) -> Samples:
    loud = np.flatnonzero(np.abs(samples) > _LOUDEST_SILENCE)
    return samples[: loud[-1] + _EDGE_TICKS] if len(loud) else samples


def _word_times(written: Respelling, answer: _Answer, length: int) -> tuple[Any, ...]:
    """Lead the library's events back to the words of the line."""
    known: list[tuple[int, int] | None] = [None] * len(written.spans)
    starts = [start for start, _ in written.spoken]
    marks = [(min(length, sample * TICKS_PER_SECOND // answer.rate_hz), place) for sample, place in answer.events]
    current = -1
    for number, (tick, place) in enumerate(marks):
        if place < 0:
            continue
        word = int(np.searchsorted(starts, place, side="right")) - 1
        end = marks[number + 1][0] if number + 1 < len(marks) else length
        if word > current:
            known[word], current = (tick, end), word
        elif current >= 0:
            # A word said as several, such as 346 or E♭, lasts until the last of them ends.
            known[current] = (known[current][0], end)  # type: ignore[index]
    return fill_times(written.spans, known, length)


def phonemes_of(text: str, lexicon: Lexicon, *, is_ipa: bool = False) -> str:
    """Give the phonemes the library makes of a text in its own spelling.

    Parameters
    ----------
    text : str
        Such as `Respelling.text`.
    lexicon : Lexicon
        Settles the voice.
    is_ipa : bool
        The alphabet of the International Phonetic Association instead of the library's.

    Returns
    -------
    str
        Phonemes; clauses are parted by a blank.

    Examples
    --------
    >>> phonemes_of("E flat", load_lexicon("en"))
    "'i: fl'at"
    """
    with _lock, _Library() as library:
        # Only speaking switches phonemes in brackets on, and it stays on: so a blank is spoken first.
        library.synthesise(_Request(" ", lexicon.espeak, _WORDS_PER_MINUTE_AT_ONE, 50))
        return library.phonemes(text, is_ipa=is_ipa)


@lru_cache(maxsize=1)
def _library_version() -> str:
    with _lock, _Library() as library:
        return library.version()


def _can_unload() -> bool:
    return platform.libc_ver()[0] == "glibc"


def _ask(request: _Request) -> _Answer:
    if not _can_unload():
        return _ask_process(request)
    with _lock, _Library() as library:
        return library.synthesise(request)


def _ask_process(request: _Request) -> _Answer:
    """Let a process of its own speak, for systems on which a library stays loaded."""
    command = [sys.executable, "-c", "from gamutwright.render.espeak import _serve; _serve()"]
    done = subprocess.run(command, input=json.dumps(asdict(request)).encode(), capture_output=True, check=False)  # noqa: S603
    if done.returncode:
        last = done.stderr.decode(errors="replace").strip().splitlines()[-1:]
        raise DomainError(f"voice {request.voice}", f"it did not speak ({''.join(last)})", "Run gamutwright doctor.")
    head, _, audio = done.stdout.partition(b"\n")
    told = json.loads(head)
    return _Answer(told["rate_hz"], audio, tuple((sample, place) for sample, place in told["events"]))


def _serve() -> None:
    """Speak one request from standard input to standard output."""
    with _Library() as library:
        answer = library.synthesise(_Request(**json.load(sys.stdin)))
    head = json.dumps({"rate_hz": answer.rate_hz, "events": answer.events})
    sys.stdout.buffer.write(head.encode() + b"\n" + answer.audio)


class _Library:
    """The library, loaded afresh and unloaded at the end."""

    def __enter__(self) -> Self:
        try:
            espeakng_loader = importlib.import_module("espeakng_loader")
        except ImportError as error:
            raise MissingPartError(
                "espeakng-loader", "the built-in voice is not installed", "Run: pip install espeakng-loader"
            ) from error
        data = str(espeakng_loader.get_data_path()).encode()
        if len(data) > _LONGEST_DATA_PATH:
            raise FileError(
                data.decode(),
                f"the voice reads no path longer than {_LONGEST_DATA_PATH} bytes",
                "Install in a shorter path.",
            )
        self._lib: Any = ctypes.CDLL(str(espeakng_loader.get_library_path()))
        self._lib.espeak_TextToPhonemes.restype = ctypes.c_char_p
        self._lib.espeak_Info.restype = ctypes.c_char_p
        self._rate_hz = self._lib.espeak_Initialize(_SYNCHRONOUS, 0, data, _PHONEME_EVENTS | _DONT_EXIT)
        if self._rate_hz <= 0:
            raise FileError(
                data.decode(), "the voice's data cannot be read", "Run: pip install --force-reinstall espeakng-loader"
            )
        self._lib.espeak_ng_SetRandSeed(ctypes.c_long(_SEED))
        return self

    def __exit__(self, *_: object) -> None:
        self._lib.espeak_Terminate()
        handle = self._lib._handle  # noqa: SLF001 - ctypes has no public way to unload
        del self._lib
        if _can_unload():
            import _ctypes  # noqa: PLC0415 - not on every system

            _ctypes.dlclose(handle)

    def version(self) -> str:
        return str(self._lib.espeak_Info(None).decode())

    def choose(self, voice: str) -> None:
        if self._lib.espeak_SetVoiceByName(voice.encode()) != 0:
            raise DomainError(
                f"voice {voice!r}", "the library has no voice of this name", "Leave out variant and accent."
            )

    def phonemes(self, text: str, *, is_ipa: bool) -> str:
        source = ctypes.c_char_p(text.encode())
        pointer, clauses = ctypes.pointer(source), []
        while pointer.contents.value:
            said = self._lib.espeak_TextToPhonemes(ctypes.cast(pointer, ctypes.c_void_p), _UTF8, 2 if is_ipa else 0)
            clauses.append(said.decode().strip())
        return " ".join(filter(None, clauses))

    def synthesise(self, request: _Request) -> _Answer:
        audio: list[bytes] = []
        events: list[tuple[int, int]] = []

        def take(wave: Any, count: int, told: Any) -> int:  # noqa: ANN401 - what ctypes hands over
            if wave and count > 0:
                audio.append(ctypes.string_at(wave, count * 2))
            index = 0
            while told[index].type != _LIST_END:
                event = told[index]
                if event.type == _WORD:
                    events.append((event.sample, event.text_position - 1))
                elif event.type == _END or (event.type == _PHONEME and event.id.string.startswith(b"_:")):
                    events.append((event.sample, -1))
                index += 1
            return 0

        callback = _Callback(take)
        self._lib.espeak_SetSynthCallback(callback)
        self.choose(request.voice)
        self._lib.espeak_SetParameter(_RATE, request.rate, 0)
        self._lib.espeak_SetParameter(_PITCH, request.pitch, 0)
        text = request.text.encode()
        flags = _UTF8 | _PHONEMES_IN_BRACKETS | _END_PAUSE
        # An interrupt inside `take` would be lost, and a part of the voice with it.
        with held_interrupts():
            self._lib.espeak_Synth(text, len(text) + 1, 0, _CHARACTER_POSITIONS, 0, flags, None, None)
            self._lib.espeak_Synchronize()
        return _Answer(self._rate_hz, b"".join(audio), tuple(events))
