"""What a film is going to promise: its timeline, placed into the frame it is drawn in, as evidence for the ledger.

Conventions: as `ir.evidence`. Engravings are expanded first, so that their notes have places.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from gamutwright.ir.evidence import (
    FORMAT,
    Colour,
    Evidence,
    Loudness,
    Picture,
    changes_of,
    examples_of,
)
from gamutwright.ir.figure import Figure, Role
from gamutwright.ir.litplaces import views_of
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, Timeline
from gamutwright.render.audiofile import HIGHEST_DBTP
from gamutwright.render.engrave import expanded
from gamutwright.render.frames import FORMATS, moving_frames
from gamutwright.render.mix import TARGET_LUFS
from gamutwright.render.raster import fitted
from gamutwright.render.theme import load_theme

__all__ = ["TOLERANCE_LU", "film_evidence"]

TOLERANCE_LU = 0.5


def film_evidence(
    timeline: Timeline, sounds: Mapping[str, Sound], width: int, height: int, theme: str, channels: int = 2
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
    channels : int
        Of the sound.

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

    places, views, unread = views_of(shots, moving_frames, placed, lit_roles)
    return Evidence(
        FORMAT,
        timeline.title,
        timeline.language,
        timeline.ticks,
        Picture(width, height, timeline.ticks // FRAME_TICKS),
        TICKS_PER_SECOND,
        channels,
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
