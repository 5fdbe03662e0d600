"""'Recordings' whose word times are known: a line by another voice, at another speed, with pauses, in a noisy room.

What is done to them stands apart from the alignment that is measured with them: voices, accents, pitches and speeds
that none of its references has; every stretch from word to word slowed down or sped up by its own factor (which bends
its pitch too); pauses before words; a tail of reverberation; noise that falls by 3 dB an octave.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

import numpy as np

from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.voice import SpokenLine

TICKS = 48_000
LINES = {
    "en": (
        "The tritone divides the octave into two equal halves, and it is its own inversion.",
        "Count with me: a whole step, a half step, and then three whole steps in a row.",
        "The ferry leaves at nine, so we shall stop after the last example.",
        "Its Forte label is 7-35, which it shares with the major scale.",
        "Myhill's property says that every interval comes in exactly two sizes.",
        "Raise the fourth degree by a semitone, and dorian becomes something quite different.",
        "F sharp and C are six semitones apart, the only pair of that kind.",
        "Try it slowly at first, with one finger, and say the names aloud.",
    ),
    "de": (
        "Heute steigen wir Schritt für Schritt die dorische Leiter auf D hinauf.",
        "Von E nach F und von H nach C sind es Halbtöne, alle anderen Schritte sind ganze Töne.",
        "Hört auf die Terz über dem Grundton, denn sie entscheidet über Dur und Moll.",
        "Der Kammerton ist für diese Aufgabe nicht wichtig, wohl aber das Verhältnis der Töne.",
    ),
}


@dataclass(frozen=True)
class Speaker:
    """A voice that no reference of the alignment has."""

    variant: str
    pitch: int
    rate: float
    accent: str = ""


SPEAKERS = (
    Speaker("f5", 55, 1.35, "gmw/en-US"),
    Speaker("m7", 35, 1.0),
    Speaker("Annie", 60, 1.2),
    Speaker("klatt2", 45, 1.1, "gmw/en-US"),
    Speaker("m2", 70, 1.55, "gmw/en-GB-scotland"),
    Speaker("steph", 50, 0.9),
)
NOISES_DB = (30.0, 20.0, 15.0)


def spoken_by(speaker: Speaker, line: str, language: str) -> SpokenLine:
    accent = speaker.accent if language == "en" else ""
    return EspeakVoice(language, speaker.rate, speaker.pitch, speaker.variant, accent=accent).speak(line)


def recorded(
    spoken: SpokenLine, random: np.random.Generator, signal_to_noise_db: float
) -> tuple[np.ndarray, np.ndarray]:
    """Make a recording of a spoken line; give it with the true start tick of every word."""
    starts = [word.start_tick for word in spoken.words]
    paused = set(random.choice(np.arange(1, len(starts)), min(2, len(starts) - 1), replace=False).tolist())
    pieces = [np.zeros(int(random.integers(4_800, 30_000)))]
    true, ticks = [], len(pieces[0])
    edges = [0, *starts, len(spoken.samples)]
    for number, (begin, end) in enumerate(itertools.pairwise(edges)):
        if number - 1 in paused:
            pieces.append(np.zeros(int(random.integers(12_000, 48_000))))
            ticks += len(pieces[-1])
        if number:
            true.append(ticks)
        pieces.append(at_speed(spoken.samples[begin:end], random.uniform(0.85, 1.2)))
        ticks += len(pieces[-1])
    pieces.append(np.zeros(20_000))
    dry = np.concatenate(pieces)
    room = in_a_room(dry, random)
    noise = falling_noise(len(room), random)
    speech_power = float(np.mean(spoken.samples.astype(float) ** 2))
    noise *= np.sqrt(speech_power / np.mean(noise**2)) * 10 ** (-signal_to_noise_db / 20)
    return (0.5 * (room + noise)).astype(np.float32), np.array(true)


def at_speed(samples: np.ndarray, factor: float) -> np.ndarray:
    count = round(len(samples) / factor)
    return (
        np.interp(np.linspace(0, len(samples) - 1, count), np.arange(len(samples)), samples) if count else np.zeros(0)
    )


def in_a_room(dry: np.ndarray, random: np.random.Generator, decay_seconds: float = 0.35) -> np.ndarray:
    count = int(TICKS * decay_seconds)
    tail = random.standard_normal(count) * 10 ** (-3 * np.arange(count) / count)
    tail /= np.sqrt((tail**2).sum())
    length = len(dry) + count
    wet = np.fft.irfft(np.fft.rfft(dry, length) * np.fft.rfft(tail, length), length)[: len(dry)]
    return dry + 0.25 * wet


def falling_noise(count: int, random: np.random.Generator) -> np.ndarray:
    spectrum = np.fft.rfft(random.standard_normal(count))
    return np.fft.irfft(spectrum / np.sqrt(np.maximum(1, np.arange(len(spectrum)))), count)
