"""How long titles and headings stand alone.

Conventions: ticks as in `ir.timeline`. A heading is left alone for 1.2 seconds and 0.3 for each of its words (BBC
Subtitle Guidelines 1.2.3, section 4.5) before anything replaces it.
"""

from __future__ import annotations

from gamutwright.ir.cards import LEAST_READING_TICKS
from gamutwright.ir.sound import TICKS_PER_SECOND

__all__ = ["SHOWING", "TITLE_TICKS", "heading_ticks"]

TITLE_TICKS = 3 * TICKS_PER_SECOND
SHOWING = ("fact", "each", "define", "rare", "mode-of", "show")
"""The attributes that bring a picture or words beside it."""


def heading_ticks(title: str) -> int:
    """Say how long a heading stands alone.

    Parameters
    ----------
    title : str
        The heading.

    Returns
    -------
    int
        Ticks.

    Examples
    --------
    >>> heading_ticks("What it does") / 48_000
    2.1
    """
    return LEAST_READING_TICKS + 3 * TICKS_PER_SECOND // 10 * len(title.split())
