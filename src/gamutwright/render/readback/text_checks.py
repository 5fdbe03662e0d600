"""Chapters and captions in the file: both lists of chapters, and the text track, against what was promised.

Conventions: times in milliseconds, which is what both tracks count in; one may be lost by rounding. The list of
chapters some players read is the box `chpl`: a version, reserved bytes, a count, then for each chapter its start in
units of 100 nanoseconds, the length of its title and the title in UTF-8, at most 255 bytes (from memory). Others read
a text track that the picture's track names as its chapters.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest
from pathlib import Path

from gamutwright.ir.evidence import Evidence
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.render.readback.boxes import Box, Track, text_samples
from gamutwright.render.readback.film_report import RENDER_AGAIN, Check, Group, broken, clock, held, nothing

__all__ = ["caption_checks", "chapter_checks", "listed_chapters"]

NEAR_SECONDS = 0.0021
LONGEST_TITLE = 255
Entry = tuple[float, str]


def listed_chapters(file: Box) -> list[Entry] | None:
    """Read the list of chapters.

    Parameters
    ----------
    file : Box
        The boxes.

    Returns
    -------
    list of (float, str) or None
        Start in seconds and title of each; None where there is no list.
    """
    box = file.first("moov", "udta", "chpl")
    if box is None:
        return None
    data = box.body
    at = 9 if data[:1] == b"\1" else 5
    found: list[Entry] = []
    for _ in range(data[at - 1] if len(data) >= at else 0):
        if len(data) < at + 9:
            break
        start, length = int.from_bytes(data[at : at + 8], "big") / 1e7, data[at + 8]
        found.append((start, data[at + 9 : at + 9 + length].decode("utf-8", "replace")))
        at += 9 + length
    return found


def chapter_checks(path: Path, file: Box, tracks: tuple[Track, ...], film: Evidence) -> Iterator[Check]:
    """Compare both lists of chapters with what was promised.

    Parameters
    ----------
    path : Path
        The film.
    file : Box
        Its boxes.
    tracks : tuple of Track
        Its tracks.
    film : Evidence
        What was promised.

    Yields
    ------
    Check
        One for each list.
    """
    wanted = [(mark.start_tick / TICKS_PER_SECOND, mark.title) for mark in film.chapters]
    yield _compared("chapter list", "the list of chapters", wanted[:255], listed_chapters(file))
    numbers = {number for track in tracks if track.kind == "vide" for number in track.chapters}
    track = next((track for track in tracks if track.number in numbers), None)
    texts = None if track is None else [(start, text) for start, _, text in text_samples(path, track)]
    yield _compared("chapter track", "the track of chapters", wanted, texts)


def _compared(name: str, what: str, wanted: Sequence[Entry], found: Sequence[Entry] | None) -> Check:
    expected = f"{what} has the {len(wanted)} chapters of the ledger"
    if found is None:
        return broken(Group.WORDS, name, expected, "there is none", RENDER_AGAIN)
    for number, (one, other) in enumerate(zip_longest(wanted, found), 1):
        if one is None or other is None:
            return broken(Group.WORDS, name, expected, f"it has {len(found)}", RENDER_AGAIN)
        tick = round(one[0] * TICKS_PER_SECOND)
        title = one[1].encode()[:LONGEST_TITLE].decode("utf-8", "ignore")
        if title != other[1].rstrip("\ufffd"):
            return broken(
                Group.WORDS, name, f"chapter {number} is called {one[1]!r}", repr(other[1]), RENDER_AGAIN, tick
            )
        if abs(one[0] - other[0]) > NEAR_SECONDS:
            expected = f"chapter {number}, {one[1]!r}, begins at {clock(tick)}"
            return broken(Group.WORDS, name, expected, clock(round(other[0] * TICKS_PER_SECOND)), RENDER_AGAIN, tick)
    return held(Group.WORDS, name, expected, "it has")


def caption_checks(path: Path, tracks: tuple[Track, ...], film: Evidence) -> Iterator[Check]:
    """Compare the captions in the file with what was promised.

    Parameters
    ----------
    path : Path
        The film.
    tracks : tuple of Track
        Its tracks.
    film : Evidence
        What was promised.

    Yields
    ------
    Check
        Their words, and their times.
    """
    expected = f"the caption track says the {len(film.captions)} captions of the ledger, word for word"
    numbers = {number for track in tracks for number in track.chapters}
    track = next((t for t in tracks if t.kind in {"sbtl", "text", "subt"} and t.number not in numbers), None)
    if not film.captions and track is None:
        yield nothing(Group.WORDS, "captions", expected)
        return
    if track is None:
        yield broken(Group.WORDS, "captions", expected, "there is no caption track", RENDER_AGAIN)
        return
    found = [sample for sample in text_samples(path, track) if sample[2]]
    yield _words(expected, film, found)
    yield _times(film, found)


def _words(expected: str, film: Evidence, found: Sequence[tuple[float, float, str]]) -> Check:
    for number, (caption, sample) in enumerate(zip_longest(film.captions, found), 1):
        if caption is None or sample is None:
            return broken(Group.WORDS, "captions", expected, f"it says {len(found)}", RENDER_AGAIN)
        if caption.text != sample[2]:
            return broken(
                Group.WORDS, "captions", f"caption {number} says {caption.text!r}", repr(sample[2]), RENDER_AGAIN,
                caption.start_tick,
            )  # fmt: skip
    return held(Group.WORDS, "captions", expected, "it does")


def _times(film: Evidence, found: Sequence[tuple[float, float, str]]) -> Check:
    expected = "captions come and go when the ledger says, to 2 ms"
    for number, (caption, sample) in enumerate(zip(film.captions, found, strict=False), 1):
        for tick, second, does in ((caption.start_tick, sample[0], "comes"), (caption.end_tick, sample[1], "goes")):
            if abs(tick / TICKS_PER_SECOND - second) > NEAR_SECONDS:
                return broken(
                    Group.WORDS, "caption times", f"caption {number} {does} at {clock(tick)}",
                    f"it {does} at {clock(round(second * TICKS_PER_SECOND))}", RENDER_AGAIN, tick,
                )  # fmt: skip
    return held(Group.WORDS, "caption times", expected, "they do")
