"""Whether two revisions say, draw and print the same, byte by byte: drafts, films, ledgers and pages.

Usage: `python tools/same_bytes.py BASE [REVISION]`; without the second, the files as they are here. Ten scales are
drafted in every language of each revision, checked, and laid out with durations that are made up (the voice is no part
of it), by that revision's own code. Of a film its timeline is compared, which holds every word, picture and sound in
it. What differs is listed with its first line that does, and the exit status is 1.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
from itertools import takewhile, zip_longest
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from revision import unpacked

SCALES = (
    "C major",
    "D dorian",
    "G acoustic",
    "Eb harmonic minor",
    "F# phrygian dominant",
    "A minor pentatonic",
    "C whole-tone",
    "C octatonic, semitone first",
    "Bb blues",
    "3-3-2-3-3-3-2",
)
DIVISIONS = {"3-3-2-3-3-3-2": 19}
WIDTH = 160


def write(folder: Path) -> None:
    """Write everything that is compared, by the code on Python's path."""
    from gamutwright.codec import canonical_json  # noqa: PLC0415 - of the revision on the path
    from gamutwright.languages import known_languages  # noqa: PLC0415 - as above
    from gamutwright.lessons.claims import check  # noqa: PLC0415 - as above
    from gamutwright.lessons.ledger import ledger  # noqa: PLC0415 - as above
    from gamutwright.lessons.parse import parse  # noqa: PLC0415 - as above
    from gamutwright.publish.page.document import Media, page  # noqa: PLC0415 - as above
    from publish.lessons import lesson_from, source_of  # noqa: PLC0415 - as above

    media = Media("film.mp4", "poster.png", "", "captions.vtt", 1920, 1080, ())
    for language in known_languages():
        for place, name in enumerate(SCALES, 1):
            source = source_of(name, language, 4.0, DIVISIONS.get(name, 12))
            told = lesson_from(source)
            made = {
                "script.md": source,
                "ledger.json": canonical_json(ledger(check(parse(source)), told.registry)),
                "film.json": canonical_json(told.timeline),
                "page.html": page(told, (), media=media).html,
            }
            for file, text in made.items():
                (folder / f"{place:02}-{language}-{file}").write_text(text, encoding="utf-8")


def made_by(revision: str, place: Path) -> Path:
    """Let a revision write everything."""
    root, folder = unpacked(revision, ("src", "tests"), place / "files"), place / "made"
    folder.mkdir(parents=True)
    paths = os.pathsep.join(str(root / name) for name in ("src", "tests"))
    done = subprocess.run(  # noqa: S603 - this file again
        [sys.executable, __file__, "--write", str(folder)],
        env={**os.environ, "PYTHONPATH": paths, "PYTHONUTF8": "1"}, check=False,
    )  # fmt: skip
    if done.returncode:
        raise SystemExit(f"revision {revision or 'here'!r}: it does not write them. See what it said above.")
    return folder


def unlike(one: str, other: str) -> str:
    """Tell the first line that differs, from a little before the place."""
    for number, (a, b) in enumerate(zip_longest(one.splitlines(), other.splitlines(), fillvalue=""), 1):
        if a != b:
            start = max(
                0, sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(a, b, strict=False))) - WIDTH // 4
            )
            return f"  line {number}\n  - {a[start : start + WIDTH]}\n  + {b[start : start + WIDTH]}"
    return "  the ends of its lines"


def compared(one: Path, other: Path) -> tuple[int, list[str]]:
    """Compare two folders: how many files there are, and what is to be said of those that differ."""
    names = sorted({file.name for folder in (one, other) for file in folder.iterdir()})
    told = []
    for name in names:
        texts = [(folder / name).read_bytes() if (folder / name).exists() else None for folder in (one, other)]
        if None in texts:
            told.append(f"{name}: only {'after' if texts[0] is None else 'before'}")
        elif texts[0] != texts[1]:
            told.append("\n".join([name, unlike(*(text.decode() for text in texts if text is not None))]))
    return len(names), told


def main() -> int:
    """Compare two revisions, or write what one makes."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("base", nargs="?", default="HEAD", help="the revision before")
    reader.add_argument("revision", nargs="?", default="", help="the one after; the files as they are here without it")
    reader.add_argument("--write", type=Path, help=argparse.SUPPRESS)
    asked = reader.parse_args()
    if asked.write:
        write(asked.write)
        return 0
    with tempfile.TemporaryDirectory() as place:
        before = made_by(asked.base, Path(place, "before"))
        many, told = compared(before, made_by(asked.revision, Path(place, "after")))
    sys.stdout.write("\n".join([*told, f"{many} files compared, {len(told)} differ.", ""]))
    return 1 if told else 0


if __name__ == "__main__":
    sys.exit(main())
