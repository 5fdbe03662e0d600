"""Draw contact sheets of films, and the page that shows them.

Run by `make docs`; a test fails where the page is not what this writes. Scripts are drafted, speech is as long as its
letters make it, and frames are painted without encoding, so the sheets show what a film would.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.catalogue.shares import shares_of
from gamutwright.codec import digest
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.timeline import Shot, ShotKind, Speech, SpokenWord, Timeline
from gamutwright.lessons.assemble import assemble
from gamutwright.lessons.credits import Credits
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.engine import wording_for
from gamutwright.render.frames import FORMATS, FramePainter, Run, frame_figure
from gamutwright.stages import sounds_of

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

DOCS = Path(__file__).parent
MINUTES = 4.0
MOST_PICTURES = 20
WORD_TICKS, LETTER_TICKS = 5_760, 2_976
"""A word takes 0.12 seconds and 0.062 more for each letter, about 150 words a minute."""
GUTTER = 6
THANKED = (
    "Ada Merrin",
    "Tomasz Wójcik",
    "Nguyễn Thị Hà",
    "Josefína Říhová",
    "Óscar Peñalver",
    "Ελένη Δήμου",
    "Ilse Graß",
)


@dataclass(frozen=True)
class Sheet:
    """One contact sheet: a lesson, and how its frames are drawn."""

    name: str
    caption: str
    scale: str
    language: str = "en"
    divisions: int = 12
    width: int = 320
    height: int = 180
    theme: str = "night"
    front: tuple[str, ...] = ()
    is_grey: bool = False


COURSE = ("course: Harbour Music School, evening course", "lesson: 7", "next: The blues scale")
KURS = ("course: Musikschule am Hafen, Abendkurs", "lesson: 7", "next: Die Bluestonleiter")
SHEETS = (
    Sheet("pentatonic", "Five tones.", "A minor pentatonic", front=COURSE),
    Sheet("mixolydian", "Seven tones, a mode of the major scale.", "D mixolydian"),
    Sheet("acoustic", "Seven tones; the ring of its parent turns into its own.", "G acoustic", front=COURSE),
    Sheet("octatonic", "Eight tones, on paper instead of at night.", "C octatonic, semitone first", theme="light"),
    Sheet("chromatic", "Twelve tones.", "C chromatic"),
    Sheet("nineteen", "Seven tones of nineteen: numbers for names, and no staff.", "0 3 6 8 11 14 17", divisions=19),
    Sheet("thirty-one", "Seven tones of thirty-one.", "0 5 10 13 18 23 28", divisions=31),
    Sheet("german", "In German, with the names of its notes.", "Eb harmonic minor", language="de", front=KURS),
    Sheet("upright", "Upright, for a telephone.", "G acoustic", width=180, height=320, front=COURSE),
    Sheet(
        "telephone",
        "The wide frame as small as on a telephone, in grey.",
        "E harmonic minor",
        width=352,
        height=198,
        is_grey=True,
    ),
)

HEAD = """# What films look like

One picture of every kind from drafted lessons, in their order; frames as `gamutwright render` draws them, only smaller.
The pages are written by `make docs`.

The picture stands left, one heading, a value and at most a sentence beside it; the lowest 15 % stay free for captions.
What is being said or heard is lit, one thing at a time; a question stands alone; the rail on top shows the chapters
and, in six steps, how far this one has come. Cards at the end stay as long as it takes to read them (film.md).
"""


def speech_of(text: str) -> Speech:
    """Make up how long a line takes to say."""
    words, at = [], 0
    for match in re.finditer(r"\S+", text):
        end = at + WORD_TICKS + LETTER_TICKS * len(match[0])
        words.append(SpokenWord(match.start(), match.end(), at, end))
        at = end
    return Speech(at, tuple(words))


@lru_cache(maxsize=16)
def film(sheet: Sheet) -> Timeline:
    """Lay out the film of a sheet."""
    registry = default_registry()
    scale = read_scale(sheet.scale, divisions=sheet.divisions).scale
    shares = shares_of(sheet.divisions) if sheet.divisions == 12 else None
    source = draft(scale, Wish(minutes=MINUTES), sheet.language, registry=registry, shares=shares).source
    front = "".join(f"{line}\n" for line in sheet.front)
    script = parse(source.replace("---\n", f"---\n{front}", 1), name=f"{sheet.name}.md")
    speeches = {line.id: speech_of(line.text) for line in script.lines if line.text}
    return assemble(
        script,
        scale,
        registry,
        speeches,
        sounds_of(script, scale, registry),
        title=spoken_name(scale, wording_for(sheet.language)),
        credits=Credits("eSpeak NG, GPL-3.0-or-later", supporters=THANKED if sheet.front else ()),
    )


def chosen(timeline: Timeline) -> list[Shot]:
    """Choose the first shot of every kind of picture, and each card."""
    seen: dict[tuple[object, ...], Shot] = {}
    for shot in timeline.shots:
        panel = shot.panel
        if shot.kind is ShotKind.STAGE and panel.above and not panel.value and not panel.sentence:
            continue
        own = panel.heading if shot.kind is ShotKind.END else ""
        key = (shot.kind, shot.drawing, bool(panel.value), bool(panel.sentence), shot.is_still and not panel.above, own)
        seen.setdefault(key, shot)
    shots = list(seen.values())
    return shots if len(shots) <= MOST_PICTURES else [*shots[: MOST_PICTURES - 6], *shots[-6:]]


def mark_of(sheet: Sheet) -> str:
    """Give a digest of everything that is drawn on a sheet."""
    timeline = film(sheet)
    form = FORMATS["wide" if sheet.width > sheet.height else "tall"]
    drawn = tuple((shot.figure, shot.panel.inset, frame_figure(shot, timeline, form)) for shot in chosen(timeline))
    return digest(drawn)[:12]


def painted(sheet: Sheet) -> NDArray[np.uint8]:
    """Draw a sheet."""
    import numpy as np  # noqa: PLC0415 - the page alone needs no pixels

    timeline = film(sheet)
    painter = FramePainter(timeline, sheet.width, sheet.height, sheet.theme)
    pictures = [painter.paint(Run(1, shot)) for shot in chosen(timeline)]
    columns = 4 if sheet.width > sheet.height else 10
    rows = -(-len(pictures) // columns)
    wide, tall = sheet.width + GUTTER, sheet.height + GUTTER
    whole = np.full((rows * tall - GUTTER, columns * wide - GUTTER, 4), 128, np.uint8)
    whole[..., 3] = 255
    for index, picture in enumerate(pictures):
        row, column = divmod(index, columns)
        whole[row * tall : row * tall + sheet.height, column * wide : column * wide + sheet.width] = picture
    if sheet.is_grey:
        whole[..., :3] = np.rint(whole[..., :3] @ np.array([0.2126, 0.7152, 0.0722]))[..., None]
    return whole


def page() -> str:
    """Write the page."""
    parts = [HEAD]
    for sheet in SHEETS:
        timeline = film(sheet)
        length = timeline.ticks // 48_000
        lasts = f"{length // 60} min {length % 60:02d} s"
        counted = f"{len(timeline.chapters)} chapters, {len(timeline.shots)} pictures held"
        words = f"*{timeline.title}.* {sheet.caption} {lasts}, {counted}."
        alt = f"{len(chosen(timeline))} frames of a lesson on {timeline.title}"
        parts.append(f"![{alt}](films/{sheet.name}.png)\n<!-- {mark_of(sheet)} -->\n\n{words}\n")
    return "\n".join(parts)


def main() -> None:
    """Write the page and its sheets, and remove sheets that are gone."""
    from gamutwright.render.raster import frame_to_png  # noqa: PLC0415 - the page alone needs no pixels

    (DOCS / "films").mkdir(exist_ok=True)
    kept = {DOCS / "films" / f"{sheet.name}.png" for sheet in SHEETS}
    for stale in set((DOCS / "films").glob("*.png")) - kept:
        stale.unlink()
    for sheet in SHEETS:
        (DOCS / "films" / f"{sheet.name}.png").write_bytes(frame_to_png(painted(sheet)))
    (DOCS / "films.md").write_text(page(), encoding="utf-8")


if __name__ == "__main__":
    main()
