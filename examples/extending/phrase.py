"""A phrase

A phrase plays a scale, or the places of a fact, one item after another, and marks each item, so that a picture can
light it. It is two functions, what it walks through and how that is played, in a line of `WALKS` in
`src/gamutwright/diagrams/phrases.py`. Then scripts can say `play=pendulum`, and `gamutwright sound --phrase pendulum`
plays it. What has bars and beats is a piece instead: a function in `src/gamutwright/music` and a line in `PIECES`.

Here every tone swings back to the root. The `Writer` is the pen: it keeps the beat, turns steps of the
division into frequencies of any tuning, and counts what it marks.
"""

from gamutwright.diagrams.phrase_writer import Writer
from gamutwright.diagrams.phrases import WALKS, Walk, Walked, phrase, tones_of
from gamutwright.diagrams.sketch import Place
from gamutwright.inputs.text import read_scale


def play_pendulum(writer: Writer, walked: Walked, items: tuple[Place, ...]) -> None:
    """Play each tone and the root after it."""
    root, *_ = walked.scale.tones
    for number, item in enumerate(items, 1):
        writer.mark(number)
        writer.tone(item.parts[0][0])
        writer.tone(root)


WALKS["pendulum"] = Walk(tones_of, play_pendulum, "each tone and the root")

sound = phrase("pendulum", read_scale("C major").scale)
print(len(sound.notes), "notes,", len(sound.marks), "marks")
