"""How long the quick voice takes for a sentence, as four numbers a language, and how far lessons agree with them.

Run it after a change of the voice or of the lexicons: `python benchmarks/speech_model.py`. It speaks thirty drafts in
each language, fits seconds for each word, character, pause and sentence to twenty of them, and prints what it finds
beside the error over the ten others, by line and by lesson; the figures go into `languages/<tag>/prose.toml`.
"""

from __future__ import annotations

import random
import re
import sys
from collections.abc import Iterator

import numpy as np

from gamutwright.facts.model import Level
from gamutwright.lessons.draft import draft
from gamutwright.lessons.pace import speech_seconds
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.prose import word_spans
from gamutwright.phrasing.spoken_names import note_places
from gamutwright.render.espeak import EspeakVoice
from gamutwright.theory.scale import Scale

SCRIPTS = 30
FITTED = 20


def spoken(language: str) -> Iterator[tuple[int, float, int, int, int, float]]:
    """Speak every line of the drafts: script, seconds, words, characters, pauses, seconds by the figures held."""
    voice, source = EspeakVoice(language), random.Random(11)  # noqa: S311 - a repeatable choice, no secret
    for number in range(SCRIPTS):
        scale = Scale(source.getrandbits(12) | 1, 12, source.randrange(12))
        wish = Wish(level=list(Level)[number % 3], minutes=4, seed=number)
        for line in parse(draft(scale, wish, language).source).lines:
            if line.text:
                seconds = voice.speak(line.text, note_places(line.text, language)).seconds
                pauses = len(re.findall("[,;:–]", line.text))
                held = speech_seconds(line.text, language)
                yield number, seconds, len(word_spans(line.text)), len(line.text), pauses, held


def main(languages: list[str]) -> None:
    """Fit, and print."""
    for language in languages:
        rows = np.array(list(spoken(language)))
        features = np.c_[rows[:, 2:5], np.ones(len(rows))]
        fitted = rows[:, 0] < FITTED
        found, *_ = np.linalg.lstsq(features[fitted], rows[fitted, 1], rcond=None)
        print(language, dict(zip(("word", "character", "pause", "sentence"), np.round(found, 4).tolist(), strict=True)))
        for name, guess in (("fitted now", features @ found), ("held", rows[:, 5])):
            others = ~fitted
            lines = np.abs(guess[others] - rows[others, 1]).mean()
            lessons = [
                abs(guess[rows[:, 0] == k].sum() / rows[rows[:, 0] == k, 1].sum() - 1) for k in range(FITTED, SCRIPTS)
            ]
            print(
                f"  {name}: a line {lines:.2f} s, a lesson {np.mean(lessons):.1%} on average, {max(lessons):.1%} most"
            )


if __name__ == "__main__":
    main(sys.argv[1:] or ["en", "de"])
