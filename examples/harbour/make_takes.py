"""Make the recordings of the demo course again: the opening chapter of its first lesson, in a stand-in's voice.

Nobody was recorded. The built-in voice speaks each line at another pitch and rate than the course's own, and each is
taken in as a teacher's recording is: trimmed, levelled, and laid along its words. To stay small, the samples are then
rounded to 16 bits.

Usage: `python examples/harbour/make_takes.py`. What lies in the folders of these lines is replaced.
"""

from __future__ import annotations

import shutil
import sys
import tempfile
from pathlib import Path

import numpy as np

from gamutwright.lessons.parse import load
from gamutwright.lessons.script import Line
from gamutwright.phrasing.spoken_names import note_places
from gamutwright.render.audiofile import write_audio
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.recording import decode
from gamutwright.render.signal import Signal
from gamutwright.render.takes import Take, add_take
from gamutwright.settings import takes_folder

HERE = Path(__file__).parent
SCRIPT = HERE / "lessons" / "lydian" / "script.md"
RATE, PITCH = 0.94, 22
"""A calmer and lower voice than the course's, which speaks at rate 1 and pitch 50."""
SILENCE = np.zeros(24_000, np.float32)
"""Half a second before and after each line, as when somebody switches a recorder on and off; taking in trims it."""


def opening(script: Path) -> tuple[Line, ...]:
    """Give the lines of a script's first chapter that are spoken."""
    passages = load(script).chapters[0].passages
    return tuple(line for passage in passages for line in passage.lines if line.text)


def take(line: Line, folder: Path) -> Take:
    """Speak a line into a file and take it in under number 1."""
    language = load(SCRIPT).front.language
    notes = note_places(line.text, language)
    spoken = EspeakVoice(language, RATE, PITCH).speak(line.text, notes)
    recording = folder / f"{line.id}.wav"
    write_audio(recording, Signal.of_samples(np.concatenate((SILENCE, spoken.samples, SILENCE))))
    shutil.rmtree(takes_folder(SCRIPT) / line.id, ignore_errors=True)
    made = add_take(takes_folder(SCRIPT), line.id, line.text, recording, language, notes)
    samples = decode(made.path).samples
    write_audio(made.path, Signal.of_samples(np.round(samples * 2**15) / 2**15))
    return made


def main() -> int:
    """Make them all, and say how long they are."""
    with tempfile.TemporaryDirectory() as folder:
        for line in opening(SCRIPT):
            made = take(line, Path(folder))
            print(f"{made.path.relative_to(HERE)}: {made.seconds:.1f} s, {made.path.stat().st_size // 1000} kB")  # noqa: T201 - it is a command
    return 0


if __name__ == "__main__":
    sys.exit(main())
