"""What a film is going to promise: its timeline, placed into the frame it is drawn in, as evidence for the ledger.

Conventions: as `ir.evidence`. Engravings are expanded first, so that their notes have places.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import replace

from gamutwright.codec import to_plain
from gamutwright.ir.evidence import (
    FORMAT,
    Colour,
    Evidence,
    Loudness,
    Picture,
    Spot,
    changes_of,
    examples_of,
)
from gamutwright.ir.figure import Figure, Role
from gamutwright.ir.litplaces import Mark, marks_of, views_of
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, Timeline
from gamutwright.jobs.job import sources_digest
from gamutwright.jobs.store import Parcel, Store
from gamutwright.render.audiofile import HIGHEST_DBTP
from gamutwright.render.engrave import expanded
from gamutwright.render.frames import FORMATS, moving_frames
from gamutwright.render.mix import TARGET_LUFS
from gamutwright.render.raster import fitted
from gamutwright.render.soundtrack import CHANNELS
from gamutwright.render.theme import load_theme

__all__ = ["TOLERANCE_LU", "film_evidence"]

TOLERANCE_LU = 0.5
_Marks = tuple[Mark, ...]


def film_evidence(
    timeline: Timeline, sounds: Mapping[str, Sound], width: int, height: int, theme: str, store: Store | None = None
) -> Evidence:
    """Say what a film must show and sound.

    Parameters
    ----------
    timeline : Timeline
        What is encoded.
    sounds : mapping of str to Sound
        The sounds it plays, by the key of their clips.
    width, height : int
        Size of the frame in pixels.
    theme : str
        Name of the theme.
    store : Store, optional
        Where the places of figures are kept, which take a while to be found.

    Returns
    -------
    Evidence
        For `ir.evidence.with_film`.
    """
    form = FORMATS["wide" if width >= height else "tall"]
    pixels = width / form.width
    looks = load_theme(theme).looks
    lit_roles = frozenset(role for role in Role if looks[role].mark == looks[Role.NOW].mark)
    known: dict[Figure, Figure] = {}
    shots = [
        replace(shot, figure=known.setdefault(shot.figure, expanded(shot.figure))) if shot.figure else shot
        for shot in timeline.shots
    ]

    def placed(figure: Figure) -> tuple[float, float, float]:
        scale, left, top = fitted(figure, form.stage)
        return scale * pixels, left * pixels, top * pixels

    def marks(figures: tuple[Figure, ...], where: tuple[float, float, float], roles: frozenset[Role]) -> _Marks:
        return marks_of(figures, where, roles) if store is None else _kept(store, figures, where, roles)

    places, views, unread = views_of(shots, moving_frames, placed, lit_roles, marks)
    return Evidence(
        FORMAT,
        timeline.title,
        timeline.language,
        timeline.ticks,
        Picture(width, height, timeline.ticks // FRAME_TICKS),
        TICKS_PER_SECOND,
        CHANNELS,
        Loudness(TARGET_LUFS, TOLERANCE_LU, HIGHEST_DBTP),
        tuple(Colour(role.value, looks[role].mark) for role in Role),
        timeline.chapters,
        timeline.captions,
        changes_of(shots, moving_frames),
        places,
        views,
        unread,
        examples_of(timeline, sounds),
    )


def _kept(
    store: Store, figures: tuple[Figure, ...], where: tuple[float, float, float], roles: frozenset[Role]
) -> _Marks:
    """Find the places of figures of one kind, or read what was found before."""
    content = f"marks{sources_digest('ir')}{where}{sorted(roles)}{figures!r}"
    key = hashlib.sha256(content.encode()).hexdigest()
    parcel = store.get(key)
    if parcel is None:
        marks = marks_of(figures, where, roles)
        store.put(key, Parcel(to_plain(marks)))
        return marks
    rows: list[dict] = parcel.data  # type: ignore[assignment, type-arg]  # as written above
    return tuple(Mark(Spot(**row["spot"]), tuple(row["shares"]), row["most"]) for row in rows)
