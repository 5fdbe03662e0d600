"""Which asterisks and underscores of a paragraph are emphasis, and so not spoken.

The idea: CommonMark's own rule for delimiter runs, because a teacher's other tools read the file by it. Source:
CommonMark 0.31.2, section 6.2 (rules 1 to 16) and its appendix, "Phase 2: inline structure", process emphasis.

**Conventions.** A run is its offsets and what stands beside it; matching takes characters off the right end of the
opening run and off the left end of the closing one. What is left over is spoken text.
"""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass

__all__ = ["Run", "match_runs", "run_at"]


@dataclass(slots=True)
class Run:
    """A run of asterisks or underscores.

    Parameters
    ----------
    character : str
        `*` or `_`.
    start, end : int
        Its place in the source.
    can_open, can_close : bool
        Whether it may begin or end emphasis.
    taken_left, taken_right : int
        How many characters at its left and right end are emphasis; set by `match_runs`.
    """

    character: str
    start: int
    end: int
    can_open: bool
    can_close: bool
    taken_left: int = 0
    taken_right: int = 0

    @property
    def length(self) -> int:
        """Characters in the run as written."""
        return self.end - self.start

    @property
    def left(self) -> int:
        """Characters that are not emphasis yet."""
        return self.length - self.taken_left - self.taken_right


def _is_punctuation(character: str) -> bool:
    return unicodedata.category(character)[0] in "PS"


def run_at(source: str, start: int, end: int, bounds: tuple[int, int]) -> Run:
    """Describe a run by what stands beside it.

    Parameters
    ----------
    source : str
        The script.
    start, end : int
        The run.
    bounds : tuple of int
        The paragraph; beyond it there are blanks.

    Returns
    -------
    Run
        The run, nothing taken yet.

    Examples
    --------
    >>> run = run_at("a *b", 2, 3, (0, 4))
    >>> run.can_open, run.can_close
    (True, False)
    """
    before = source[start - 1] if start > bounds[0] else " "
    after = source[end] if end < bounds[1] else " "
    left = not after.isspace() and (not _is_punctuation(after) or before.isspace() or _is_punctuation(before))
    right = not before.isspace() and (not _is_punctuation(before) or after.isspace() or _is_punctuation(after))
    if source[start] == "*":
        return Run("*", start, end, left, right)
    return Run(
        "_", start, end, left and (not right or _is_punctuation(before)), right and (not left or _is_punctuation(after))
    )


def _pairs(opener: Run, closer: Run) -> bool:
    """Whether two runs may pair: rules 9 and 10, the rule of three."""
    if opener.character != closer.character:
        return False
    if not (opener.can_close or closer.can_open) or (opener.length + closer.length) % 3:
        return True
    return opener.length % 3 == 0 and closer.length % 3 == 0


def match_runs(runs: list[Run]) -> None:
    """Find out which characters of the runs are emphasis.

    Parameters
    ----------
    runs : list of Run
        All runs at one level of brackets, in order; their taken characters are set.
    """
    openers: list[Run] = []
    # Below these places of the list no opener was found for closers of that kind: keeps the search linear.
    bottoms: dict[tuple[str, bool, int], int] = {}
    for closer in runs:
        kind = (closer.character, closer.can_open, closer.length % 3)
        while closer.can_close and closer.left:
            bottom = bottoms.get(kind, 0)
            at = next((i for i in range(len(openers) - 1, bottom - 1, -1) if _pairs(openers[i], closer)), None)
            if at is None:
                bottoms[kind] = len(openers)
                break
            opener = openers[at]
            del openers[at + 1 :]
            strong = 2 if min(opener.left, closer.left) >= 2 else 1
            opener.taken_right += strong
            closer.taken_left += strong
            if not opener.left:
                openers.pop()
            bottoms = {known: min(bottom, len(openers)) for known, bottom in bottoms.items()}
        if closer.can_open and closer.left:
            openers.append(closer)
