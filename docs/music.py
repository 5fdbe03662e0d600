"""Write the examples of the page about music: a staff and a sound file for each, and the end of the page itself.

Run by `make docs`; a test fails where a staff or the page is not what this writes.
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.diagrams.piece_staff import piece_staff
from gamutwright.diagrams.sketch import Sketch
from gamutwright.inputs.text import read_scale
from gamutwright.ir.sound import Sound
from gamutwright.music.pieces import Request, piece_of
from gamutwright.music.sounding import piece_sound
from gamutwright.music.tune import METRES
from gamutwright.render.audiofile import export
from gamutwright.render.drawn import Drawn
from gamutwright.render.signal import Signal

DOCS = Path(__file__).parent
BEGINS = "## Twelve examples"
LOUDNESS_LUFS = -20.0

# File name, scale, piece, what is asked of it, what to hear.
SHOWN: tuple[tuple[str, str, str, Request, str], ...] = (
    ("dorian", "D dorian", "tune-over-vamp", Request(), "Dm and G: the B that makes the mode is the third of G."),
    ("phrygian", "E phrygian", "tune-changed", Request(), "First with F, then with F♯ as in natural minor."),
    ("lydian", "F lydian", "tune", Request(METRES["6/8"]), "The B, a sharp fourth, is held on a strong beat."),
    ("mixolydian", "G mixolydian", "tune-over-drone", Request(METRES["3/4"]), "Over G and D; F is a tone below home."),
    ("locrian", "B locrian", "tune", Request(version=2), "Home has no perfect fifth above it."),
    ("harmonic-minor", "A harmonic minor", "tune-over-vamp", Request(METRES["3/4"], 8), "G♯ is in the chord of E."),
    ("pentatonic", "C major pentatonic", "tune-changed", Request(), "Then with what it leaves out."),
    ("acoustic", "G acoustic", "call-and-answer", Request(), "Two bars, two of silence, the answer."),
    ("thirds", "Bb major", "thirds", Request(), "A pattern of practice."),
    ("cadence", "E F G# A B C D", "cadence", Request(), "Home, the chord of colour, home."),
    ("whole-tone", "C whole tone", "tune", Request(METRES["6/8"]), "Six tones, and all steps alike."),
    ("bell", "C major", "step-rhythm", Request(bars=2), "2 2 1 2 2 2 1 on a wood block."),
)  # fmt: skip


def staff_and_sound(text: str, name: str, request: Request) -> tuple[Drawn, Sound]:
    """Make one example."""
    scale = read_scale(text).scale
    piece = piece_of(name, scale, request)
    return Drawn(piece_staff(Sketch(scale), piece), "light"), piece_sound(piece)


def examples() -> tuple[dict[Path, str], dict[Path, Sound]]:
    """Give every written file with its text, and every sound file with its sound."""
    texts: dict[Path, str] = {}
    sounds: dict[Path, Sound] = {}
    lines = [
        BEGINS,
        "",
        "Staff, what is played, and a file to listen to at a moderate level; written by `make docs`.",
        "",
    ]
    for file, text, name, request, caption in SHOWN:
        drawn, sound = staff_and_sound(text, name, request)
        texts[DOCS / "music" / f"{file}.svg"] = drawn.content(".svg").decode()
        sounds[DOCS / "music" / f"{file}.m4a"] = sound
        options = [f"metre={request.metre}"] if request.metre else []
        options += [f"bars={request.bars}"] if request.bars else []
        options += [f"version={request.version}"] if request.version != 1 else []
        asked = " ".join([f"play={name}", *options])
        lines += [
            f"![{drawn.figure.alt}](music/{file}.svg)",
            "",
            f"*{text}*, `{{{asked}}}`. {caption} [Listen](music/{file}.m4a)",
            "",
        ]
    page = (DOCS / "music.md").read_text(encoding="utf-8").partition(BEGINS)[0].rstrip("\n")
    texts[DOCS / "music.md"] = f"{page}\n\n" + "\n".join(lines)
    return texts, sounds


def main() -> None:
    """Write everything, and remove what is gone."""
    texts, sounds = examples()
    (DOCS / "music").mkdir(exist_ok=True)
    for stale in set((DOCS / "music").iterdir()) - texts.keys() - sounds.keys():
        stale.unlink()
    for path, text in texts.items():
        path.write_text(text, encoding="utf-8")
    for path, sound in sounds.items():
        export(path, Signal.of_sound(sound), LOUDNESS_LUFS, 1)


if __name__ == "__main__":
    main()
