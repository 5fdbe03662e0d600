"""Pointing words, gathered over sentences that follow each other.

"There is one here. And another here." points twice.

**Conventions.** A pointing word counts at the end of a phrase or before *and*; "look here", "here is" and the like
point at nothing. A single one counts only after a word such as *one* or *once*, or where a list of them goes on.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from gamutwright.lessons.auditing.heard_lexicon import Entry, Lexicon
from gamutwright.lessons.auditing.identities import Subject
from gamutwright.lessons.auditing.marked import Marked
from gamutwright.lessons.auditing.transcript import Sentence

__all__ = ["Pointing"]

_Place = tuple[int, Sentence, int, int]


@dataclass(slots=True)
class Pointing:
    """What has been pointed at since another fact was brought up."""

    places: list[_Place] = field(default_factory=list)
    entry: Entry | None = None
    subject: Subject | None = None
    last: list[tuple[int, int]] = field(default_factory=list)

    def find(self, marked: Marked, lexicon: Lexicon) -> list[tuple[int, int]]:
        """Find the pointing words of a sentence.

        Parameters
        ----------
        marked : Marked
            The sentence.
        lexicon : Lexicon
            The patterns of the language.

        Returns
        -------
        list of (int, int)
            Start and end of each.
        """
        text, raw = marked.signs, lexicon.raw
        barred = [match.span() for match in re.finditer(raw["here_not"], text, re.IGNORECASE)]
        found = [
            match.span()
            for match in re.finditer(rf"(?<![\w-]){raw['here']}{raw['after_here']}", text, re.IGNORECASE)
            if not any(low <= match.start() and match.end() <= high for low, high in barred)
        ]
        if len(found) == 1 and not self.places:
            is_one = re.search(rf"(?<!\w){raw['one_here']}", text[: found[0][0]], re.IGNORECASE)
            found = found if is_one else []
        self.last = found
        return found

    def here(self, marked: Marked) -> list[tuple[int, int]]:
        """Give the places found last, with the word before each, which they take up."""
        return [(max(0, marked.text.rfind(" ", 0, max(0, start - 1)) + 1), end) for start, end in self.last]

    def add(
        self, number: int, sentence: Sentence, found: list[tuple[int, int]], entry: Entry | None, subject: Subject
    ) -> None:
        """Keep what a sentence points at.

        Parameters
        ----------
        number : int
            Number of the sentence.
        sentence : Sentence
            The sentence.
        found : list of (int, int)
            Its pointing words.
        entry : Entry or None
            The fact whose places they are.
        subject : Subject
            The scale under discussion.
        """
        self.places += [(number, sentence, start, end) for start, end in found]
        self.entry, self.subject = entry, subject

    def take(self) -> tuple[list[_Place], Entry | None, Subject | None]:
        """Give what was gathered, and begin anew."""
        gathered = self.places, self.entry, self.subject
        self.places, self.entry, self.subject = [], None, None
        return gathered
