"""Voices of Piper from files on the user's disk, as an optional part.

The idea: who has a Piper voice (a model `name.onnx` and its `name.onnx.json`) may use it instead of the built-in one.
No file is ever downloaded. The field's words go through the same lexicon: its phonemes are turned into the alphabet
such voices know, that of the International Phonetic Association. A voice that reads plain letters gets the line
respelled.

Word times come from the voice itself where its model tells how long each phoneme lasts; otherwise the line is laid
along the built-in voice's, as a recording is.

References: piper-tts 1.8, `piper/voice.py` (loading, `[[...]]` phonemes, alignments), `piper/config.py` (settings). The
part is under the GNU General Public License, version 3.

**Conventions.** Rate 1.0 is the voice's own; 2.0 is twice as fast.
"""

from __future__ import annotations

import hashlib
import importlib
import re
from collections.abc import Collection
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from gamutwright.codec import digest, plain_from_json
from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.render.align import align, reference_lines
from gamutwright.render.espeak import phonemes_of
from gamutwright.render.lexicon import Lexicon, Respelling, load_lexicon, respell
from gamutwright.render.voice import Samples, SpokenLine, fill_times, resample

__all__ = ["INSTALL", "PiperVoice"]

INSTALL = "pip install piper-tts"
_PHONEMES = re.compile(r"\[\[.*?\]\]")


@dataclass(frozen=True, slots=True)
class PiperVoice:
    """A Piper voice.

    Parameters
    ----------
    model : Path
        The model, `name.onnx`; its settings stand beside it in `name.onnx.json`.
    language : str
        A language with a lexicon.
    rate : float in [0.7, 3]
        Speed, as a multiple of the voice's own.
    speaker : int or None
        Which of a model's speakers; None for its first.
    own_words : Path or None
        A course's own lexicon.

    Raises
    ------
    MissingPartError
        If piper-tts is not installed.
    FileError
        If the model or its settings cannot be read.
    DomainError
        If the rate is outside its range.
    """

    model: Path
    language: str = "en"
    rate: float = 1.0
    speaker: int | None = None
    own_words: Path | None = None
    lexicon: Lexicon = field(init=False, repr=False)
    _part: Any = field(init=False, repr=False)
    _loaded: Any = field(init=False, repr=False)

    def __post_init__(self) -> None:
        if not 0.7 <= self.rate <= 3:
            raise DomainError(
                f"rate {self.rate}", "a voice speaks from 0.7 to 3 times its rate", "Choose one in that range."
            )
        object.__setattr__(self, "lexicon", load_lexicon(self.language, self.own_words))
        object.__setattr__(self, "_part", _part())
        object.__setattr__(self, "_loaded", _load(self._part, self.model))

    @property
    def identity(self) -> str:
        """Digest of the model, its settings and those given here."""
        files = [hashlib.sha256(path.read_bytes()).hexdigest() for path in (self.model, _settings_of(self.model))]
        return digest(["piper", *files, self.rate, self.speaker, self.lexicon.identity])

    @property
    def credit(self) -> str:
        """What it is called; its model's licence stands in the card that comes with it."""
        return f"Piper, {self.model.stem}"

    def __reduce__(self) -> tuple[type, tuple[object, ...]]:
        """Go to another process by its settings; the model is loaded there."""
        return PiperVoice, (self.model, self.language, self.rate, self.speaker, self.own_words)

    def speak(self, line: str, notes: Collection[tuple[int, int]] = ()) -> SpokenLine:
        """Speak a line.

        The noise that such voices are made from is turned off, so that the same line gives the same samples.

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
        """
        written = respell(line, self.lexicon, notes)
        if not written.spans:
            return SpokenLine(np.zeros(0, np.float32), ())
        settings = self._part.SynthesisConfig(
            speaker_id=self.speaker, length_scale=1 / self.rate, noise_scale=0.0, noise_w_scale=0.0
        )
        is_phonemic = self._loaded.config.phoneme_type.value == "espeak"
        text = self._in_ipa(written.text) if is_phonemic else self._in_letters(written, line)
        chunks = list(self._loaded.synthesize(text, settings, include_alignments=True))
        if not chunks:
            raise DomainError(f"'{line}'", "the voice spoke nothing", "Choose a voice of the line's language.")
        samples = resample(
            np.concatenate([chunk.audio_float_array for chunk in chunks]).astype(np.float32), chunks[0].sample_rate
        )
        times = _told_times(chunks, len(written.spans), len(samples))
        if times is not None:
            return SpokenLine(samples, fill_times(written.spans, times, len(samples)))
        return SpokenLine(samples, _laid_along(samples, line, self.language, tuple(notes)))

    def _in_ipa(self, text: str) -> str:
        def turned(match: re.Match[str]) -> str:
            return f"[[{phonemes_of(match[0], self.lexicon, is_ipa=True)}]]"

        return _PHONEMES.sub(turned, text)

    def _in_letters(self, written: Respelling, line: str) -> str:
        """Give voices that know no phonemes the word as it stands, where the lexicon has phonemes for it."""
        text = written.text
        for (start, end), (left, right) in reversed(list(zip(written.spans, written.spoken, strict=True))):
            if "[[" in text[left:right]:
                text = text[:left] + line[start:end] + text[right:]
        return text


def _part() -> Any:  # noqa: ANN401 - a module
    try:
        return importlib.import_module("piper")
    except ImportError as error:
        raise MissingPartError(
            "piper-tts", "it is not installed, and Piper voices need it", f"Run: {INSTALL}"
        ) from error


def _settings_of(model: Path) -> Path:
    return model.with_name(f"{model.name}.json")


def _load(part: Any, model: Path) -> Any:  # noqa: ANN401 - the part's own classes
    settings = _settings_of(model)
    for path in (model, settings):
        if not path.is_file():
            raise FileError(str(path), "it is not there", "Give the path of a Piper voice, with its .json beside it.")
    try:
        plain_from_json(settings.read_bytes())
        return part.PiperVoice.load(str(model), str(settings))
    except Exception as error:  # the runtime's errors share no root
        raise FileError(
            str(model), f"it cannot be read as a Piper voice ({error})", "Download the voice again."
        ) from error


def _told_times(chunks: list[Any], count: int, length: int) -> list[tuple[int, int] | None] | None:
    """Read word times from how long phonemes last; None where the model does not tell, or words were run together."""
    words: list[tuple[int, int]] = []
    offset = 0
    for chunk in chunks:
        told = chunk.phoneme_alignments
        if told is None:
            return None
        begin: int | None = None
        position = offset
        for phoneme in told:
            is_sound = phoneme.phoneme not in {"^", "$", "_"} and any(sign.isalpha() for sign in phoneme.phoneme)
            if is_sound and begin is None:
                begin = position
            elif begin is not None and phoneme.phoneme in {" ", "$"}:
                words.append((begin, position))
                begin = None
            position += phoneme.num_samples
        if begin is not None:
            words.append((begin, position))
        offset += len(chunk.audio_float_array)
    if len(words) != count:
        return None
    ratio = length / offset
    return [(round(begin * ratio), round(end * ratio)) for begin, end in words]


def _laid_along(samples: Samples, line: str, language: str, notes: tuple[tuple[int, int], ...]) -> tuple[Any, ...]:
    return align(samples, reference_lines(line, language, notes))
