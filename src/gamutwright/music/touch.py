"""A player's touch: small accents, a swell over each half, notes that are let go in time, and never two strokes alike.

**Conventions.** Onsets stay exactly where they are written, so that they can be measured; force and length alone are
alive. Accents are of a size that is felt, not noticed (common practice, no source). The same piece is always played
alike.
"""

from __future__ import annotations

import random
from dataclasses import replace

from gamutwright.ir.playing import Part
from gamutwright.music.piece import Piece, Tone, bar_length
from gamutwright.music.rules import is_strong

__all__ = ["played"]

_LOUD = {Part.TUNE: 0.66, Part.CHORD: 0.34, Part.DRONE: 0.36, Part.BASS: 0.5}
_SHARES = {Part.TUNE: 0.94, Part.CHORD: 0.82, Part.DRONE: 1.0, Part.BASS: 0.9}
_SWELL = 0.06
_LEAST = 0.012
"""Two strokes of one part after another differ by so much at least."""


def played(piece: Piece, seed: str = "") -> Piece:
    """Give every tone and stroke of a piece its force, and every tone the share of its length it is held.

    Parameters
    ----------
    piece : Piece
        The piece as written.
    seed : str
        Another text gives other small differences.

    Returns
    -------
    Piece
        The same notes, alive; forces that are written are the middle of those of strokes.
    """
    chance = random.Random(f"{piece.title} {piece.metre} {piece.bars} {seed}")  # noqa: S311 - repeatable, no secret
    last: dict[tuple[Part, int], float] = {}
    tones = tuple(_toned(piece, tone, chance, last) for tone in piece.tones)
    before = 0.0
    taps = []
    for tap in piece.taps:
        before = _apart(tap.force + 0.05 * is_strong(piece.metre, tap.start) + chance.uniform(-0.04, 0.04), before)
        taps.append(replace(tap, force=before))
    return replace(piece, tones=tones, taps=tuple(taps))


def _toned(piece: Piece, tone: Tone, chance: random.Random, last: dict[tuple[Part, int], float]) -> Tone:
    bar = bar_length(piece.metre)
    accent = 0.05 * (tone.start % bar == 0) + 0.05 * is_strong(piece.metre, tone.start)
    # Two bars rise and fall like a breath.
    place = tone.start % (2 * bar) / (2 * bar)
    swell = _SWELL * 4 * place * (1 - place) if tone.part is Part.TUNE else 0.0
    force = _LOUD[tone.part] + accent + swell + chance.uniform(-0.03, 0.03)
    key = (tone.part, tone.degree if tone.part is Part.CHORD else 0)
    last[key] = _apart(force, last.get(key, 0.0))
    share = _SHARES[tone.part] - (chance.uniform(0.0, 0.05) if tone.part is not Part.DRONE else 0.0)
    return replace(tone, force=last[key], share=round(share, 3))


def _apart(force: float, before: float) -> float:
    force = round(min(0.98, max(0.05, force)), 3)
    if abs(force - before) < _LEAST:
        force = round(before + (_LEAST if before < 0.9 else -_LEAST), 3)
    return force
