"""A voice

A voice is anything with `speak`, `identity` and `credit` (`Voice` in `src/gamutwright/render/voice.py`). It gives the
samples of a line and says when each word begins, since pictures and sounds hang on words. What it does not know may be
left to `fill_times`. Its identity is a digest of all that settles how it sounds: lines are kept under it, so a voice
that changes without changing it would be heard as it was. A film takes it by `Choices(voice=...)`; a voice that every
teacher may choose gets an option in `VoiceSettings` of `src/gamutwright/settings.py` and a line in `voice_of` of
`stages.py`.

Here a lamp post hums: a quarter of a second for each word. Keep what you make as quiet as the others.
"""

from collections.abc import Collection

import numpy as np

from gamutwright.codec import digest
from gamutwright.render.voice import TICKS_PER_SECOND, SpokenLine, Voice, fill_times, word_spans

WORD = TICKS_PER_SECOND // 4


class Hum:
    """One tone for each word."""

    def __init__(self, freq_hz: float = 110.0) -> None:
        self.freq_hz = freq_hz

    @property
    def identity(self) -> str:
        """A digest of what settles how it sounds."""
        return digest(["hum", 1, self.freq_hz])

    @property
    def credit(self) -> str:
        """What the end of a film says of it."""
        return "Hum of a lamp post, our own"

    def speak(self, line: str, notes: Collection[tuple[int, int]] = ()) -> SpokenLine:
        """Hum a line."""
        spans = word_spans(line)
        ticks = np.arange(WORD * len(spans))
        samples = 0.1 * np.sin(2 * np.pi * self.freq_hz * ticks / TICKS_PER_SECOND)
        known = [(WORD * place, WORD * (place + 1) - 1) for place in range(len(spans))]
        return SpokenLine(samples.astype(np.float32), fill_times(spans, known, len(ticks)) if spans else ())


voice: Voice = Hum()
spoken = voice.speak("It has two tritones.")
print(len(spoken.words), "words in", spoken.seconds, "seconds")
