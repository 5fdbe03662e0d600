"""What the stages of long work are called, for whoever watches it.

Conventions: keys are the names under which stages are told; words fit into "… 3 of 12". A stage without words of its
own is called by its name.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

__all__ = ["STAGE_WORDS", "stage_words"]

STAGE_WORDS: Final[Mapping[str, str]] = {
    "voice": "speaking",
    "making": "drawing, sounding, encoding",
    "level": "levelling",
    "film": "joining",
    "package": "page, handout, quiz, score",
    "hearing": "listening to the finished film",
    "seeing": "looking at the finished film",
}


def stage_words(stage: str) -> str:
    """Give what a stage is called.

    Parameters
    ----------
    stage : str
        The name under which it is told.

    Returns
    -------
    str
        Its words.

    Examples
    --------
    >>> stage_words("voice"), stage_words("reading films")
    ('speaking', 'reading films')
    """
    return STAGE_WORDS.get(stage, stage)
