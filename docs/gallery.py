"""Write the pictures of the page about figures, and the page itself.

Run by `make docs`; a test fails where a file is not what this writes.
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.door.drawing import drawn
from gamutwright.inputs.text import read_scale
from gamutwright.render.drawn import Drawn

DOCS = Path(__file__).parent

# File name, what to see, scale, options.
SHOWN: tuple[tuple[str, str, str, dict[str, str]], ...] = (
    ("ladder", "One octave upright; the steps as tall as they are.", "D dorian", {"mark": "semitone_steps"}),
    (
        "clock",
        "The two semitone steps, numbered upwards from the root.",
        "G acoustic",
        {"figure": "clock", "mark": "semitone_steps"},
    ),
    (
        "keyboard",
        "Triads unfolded over the keys, an open dot on each root.",
        "Eb major",
        {"mark": "major_triads", "figure": "keyboard"},
    ),
    ("staff", "Engraved with its accidentals; degrees under the names.", "Ab harmonic minor", {"mark": "spelling"}),
    ("fretboard", "Every place of the scale on six strings.", "A minor pentatonic", {"figure": "fretboard"}),
    (
        "spectra",
        "Where two rows share a size, intervals are ambiguous; the disc counts the pairs.",
        "A harmonic minor",
        {"mark": "ambiguities"},
    ),
    ("vector", "One bead for each pair of tones; the rare ones lit.", "C major", {"mark": "rare_intervals"}),
    ("pairs", "The pairs of every interval class as lines.", "C major", {"figure": "pairs"}),
    (
        "fourier",
        "How strongly the tones gather at k places; the dashed line is the most there could be.",
        "C major",
        {"mark": "fourier_magnitudes"},
    ),
    (
        "chordgraph",
        "Major (full) and minor (open) triads, joined by P, L and R.",
        "0 1 3 4 6 7 9 10",
        {"mark": "parsimonious_links"},
    ),
    ("modes", "One ring, turned to each of its tones.", "C major", {"mark": "mode_count"}),
    ("neighbours", "Ten scales, one moved tone away.", "C major pentatonic", {"mark": "one_step_neighbours"}),
    (
        "comparison",
        "Diamonds are tones of the first alone, open circles of the second alone.",
        "C major",
        {"figure": "comparison", "beside": "C harmonic minor"},
    ),
    (
        "thirty-one",
        "The same ring in thirty-one divisions.",
        "0 5 10 13 18 23 28",
        {"divisions": "31", "figure": "clock", "mark": "step_pattern"},
    ),
    ("night", "The theme of the film.", "C major", {"mark": "tritones", "theme": "night"}),
    (
        "print",
        "The theme of the page: hatching and weight instead of colour.",
        "C major",
        {"mark": "tritones", "theme": "print"},
    ),
)

HEAD = """# Figures

`gamutwright picture` draws any diagram of a scale and marks the places of a fact in it:

```text
gamutwright picture G acoustic --figure clock --mark semitone_steps -o steps.svg
gamutwright picture C major --figure comparison --with "C harmonic minor" -o two.pdf --theme print
gamutwright picture A minor pentatonic --figure fretboard --tuning "D A D G A D" -o board.png
```

The ending of the file says the format: SVG, PNG or PDF, all from one description. Without `--figure` a fact brings its
own diagram; without `-o` the SVG is printed. `--upto 2` marks the first two places only, which is how a film points at
one after another. In a notebook the same picture shows itself:

```python
import gamutwright as gw

gw.scale("C major").facts["semitone_steps"].picture()
```

One look holds for all of them. Roles have colour, pitches have none: what is being said is heavier and numbered, what
it is compared with is dashed, the root carries a double ring, tones left out are hairlines. Every picture carries its
alt text, computed from the same fact. Colours are tested against WCAG 2.2 (4.5:1 for words, 3:1 for marks) in three
themes: `light`, `night` and `print`. Words are never smaller than 32 units of a 1000 x 800 stage; what has no room is
left out.

The pages are written by `make docs`; each picture below is drawn from the scale its caption names.
"""


def picture(text: str, options: dict[str, str]) -> Drawn:
    """Draw one picture of the gallery."""
    scale = read_scale(text, divisions=int(options.get("divisions", "12"))).scale
    beside = options.get("beside")
    return drawn(
        scale,
        figure=options.get("figure"),
        mark=options.get("mark"),
        other=read_scale(beside).scale if beside else None,
        theme=options.get("theme", "light"),
    )


def gallery() -> dict[Path, str]:
    """Give every generated file with its text."""
    files: dict[Path, str] = {}
    lines = [HEAD]
    for name, caption, text, options in SHOWN:
        shown = picture(text, options)
        files[DOCS / "figures" / f"{name}.svg"] = shown.content(".svg").decode()
        beside = f" beside {options['beside']}" if "beside" in options else ""
        lines.append(f"![{shown.figure.alt}](figures/{name}.svg)\n\n*{text}{beside}.* {caption}\n")
    files[DOCS / "figures.md"] = "\n".join(lines)
    return files


def main() -> None:
    """Write the page and its pictures, and remove pictures that are gone."""
    wanted = gallery()
    (DOCS / "figures").mkdir(exist_ok=True)
    for stale in set((DOCS / "figures").glob("*.svg")) - wanted.keys():
        stale.unlink()
    for path, text in wanted.items():
        path.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
