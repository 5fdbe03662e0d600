"""A listener who follows a text sentence by sentence: which scale is meant, what is being counted, what is pointed at.

The idea: a teacher says once what the talk is about and then "it", "there are two of them", "here and here". The
listener keeps the scale under discussion, the fact last brought up and the pointing words since; a mode that is named
becomes the scale under discussion until another is named.

**Conventions.** Questions, general statements ("a scale is balanced when") and suppositions are not judged, but they
bring facts up. Overlapping matches: the longest counts.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from gamutwright.lessons.auditing.heard_lexicon import Entry, Lexicon
from gamutwright.lessons.auditing.identities import Discussion, Identity
from gamutwright.lessons.auditing.judging import Judge, Judged
from gamutwright.lessons.auditing.marked import Marked, mark
from gamutwright.lessons.auditing.matching import Hit, hits_of
from gamutwright.lessons.auditing.pointed_places import Pointing
from gamutwright.lessons.auditing.records import Statement, Unheard
from gamutwright.lessons.auditing.transcript import Sentence
from gamutwright.lessons.claims import Verdict
from gamutwright.phrasing.numbers import find_quantities

__all__ = ["Listener"]

_REMEMBERED = 2  # sentences for which a fact that was brought up can be counted by a bare number


@dataclass(slots=True)
class Listener:
    """Follows one text.

    Parameters
    ----------
    judge : Judge
        Holds what is heard against what is computed.
    discussion : Discussion
        The scale under discussion.
    terms : re.Pattern of str
        The terms of all facts.
    """

    judge: Judge
    discussion: Discussion
    terms: re.Pattern[str]
    topic: Entry | None = None
    topic_age: int = 0
    pointing: Pointing = field(default_factory=Pointing)
    mentions: tuple[re.Pattern[str], ...] = ()

    def __post_init__(self) -> None:
        shapes = {"yes", "no", "choice", "measure"}
        self.mentions = tuple(
            frame.pattern for entry in self.lexicon.entries for frame in entry.frames if frame.shape in shapes
        )

    @property
    def lexicon(self) -> Lexicon:
        """The patterns of the language."""
        return self.judge.lexicon

    def hear(self, number: int, sentence: Sentence) -> Iterator[Statement | Unheard]:
        """Listen to one sentence.

        Parameters
        ----------
        number : int
            Its number, from 0.
        sentence : Sentence
            The sentence.

        Yields
        ------
        Statement or Unheard
            What it states, and what of it was not judged; nothing for plain prose.
        """
        marked = mark(sentence.text, self.lexicon.language)
        identities = self.discussion.follow(marked, is_heading=sentence.is_heading)
        reason = self._reason(marked)
        hits = [] if reason else self._hits(marked, identities)
        self.topic_age += 1
        yield from self._points(number, sentence, marked, hits, is_judged=not reason)
        used = [hit.taken for hit in hits]
        topics = [hit.entry.topic for hit in hits if hit.entry is not None and hit.entry.topic is not None]
        used += [match.span() for topic in topics for match in topic.finditer(marked.signs)]
        used += [match.span() for match in self.lexicon.words["filler"].finditer(marked.signs)]
        for hit in hits:
            yield self._statement(number, sentence, hit)
        if not hits:
            self._bring_up(marked)
        left = self._left(marked, used)
        if left:
            yield Unheard(
                number, sentence.text, sentence.place_at(0), sentence.line_at(0), sentence.time_at(0),
                reason or ("partly" if hits else "nothing recognised"), left,
            )  # fmt: skip

    def finish(self) -> Iterator[Statement]:
        """Judge what was pointed at last."""
        yield from self._close_pointing()

    def _reason(self, marked: Marked) -> str:
        words, signs = self.lexicon.words, marked.signs
        if signs.rstrip(" \"'”»«)").endswith("?") and not re.search(r"\?\s+\S", signs):
            return "question"
        if words["general"].search(signs):
            return "general"
        return "supposed" if words["doubt"].search(signs) else ""

    def _hits(self, marked: Marked, identities: list[Identity]) -> list[Hit]:
        found = [*identities_as_hits(identities), *hits_of(marked, self.judge, self.discussion, self.topic)]
        kept = _longest(found)
        remembered = self.topic if self.topic_age < _REMEMBERED else None
        kept = _longest([*kept, *self._pronouns(marked, remembered)])
        for hit in sorted(kept, key=lambda hit: hit.start):
            if hit.entry is not None and hit.shape in {"count", "zero", "some", "say", "compare"}:
                self.topic, self.topic_age = hit.entry, -1
        return sorted(kept, key=lambda hit: hit.start)

    def _pronouns(self, marked: Marked, topic: Entry | None) -> Iterator[Hit]:
        """Read numbers that count what was brought up before: "there are two of them"."""
        raised = self._raised(marked)
        for pattern in self.lexicon.frames["pronoun"]:
            for match in pattern.finditer(marked.signs):
                before = [entry for end, entry in raised if end <= match.start("count")]
                entry = before[-1] if before else topic
                count = match["count"]
                quantities = find_quantities(count, self.lexicon.language, is_bound=True)
                if entry is None or len(quantities) != 1 or quantities[0].kind == "ordinal":
                    continue
                subject = self.discussion.subject_at(marked, match.start(), match.end())
                counted = self.judge.number(entry, count, "", subject.scale, is_denied=False)
                yield Hit(*match.span("count"), "count", entry, entry.fact_id, subject, counted)
        for pattern in self.lexicon.frames["compare"]:
            for match in pattern.finditer(marked.signs):
                before = [entry for end, entry in raised if end <= match.start("compare")]
                entry = before[-1] if before else topic
                compared = self.discussion.compared(marked, match.start(), match.end())
                if compared is None or entry is None:
                    continue
                subject, other = compared
                words = match["compare"]
                judged = self.judge.comparison(entry, words, subject.scale, other.scale, is_denied=False)
                if judged is not None:
                    yield Hit(*match.span("compare"), "compare", entry, entry.fact_id, subject, judged)

    def _raised(self, marked: Marked) -> list[tuple[int, Entry]]:
        """Give the facts a sentence mentions, with the places where it does, in order."""
        found = [
            (match.end(), entry)
            for entry in self.lexicon.entries
            if entry.topic is not None
            for match in entry.topic.finditer(marked.signs)
        ]
        found += [
            (match.end(), entry)
            for entry in self.lexicon.entries
            if entry.topic is None
            for frame in entry.frames
            if frame.shape == "say" and "count" in frame.pattern.groupindex
            for match in frame.pattern.finditer(marked.signs)
        ]
        return sorted(found, key=lambda item: item[0])

    def _bring_up(self, marked: Marked) -> None:
        """Remember the fact that a sentence mentions last."""
        found = self._raised(marked)
        if found:
            self.topic, self.topic_age = found[-1][1], 0

    def _points(
        self, number: int, sentence: Sentence, marked: Marked, hits: list[Hit], *, is_judged: bool
    ) -> Iterator[Statement]:
        found = self.pointing.find(marked, self.lexicon) if is_judged else []
        counted = [hit for hit in hits if hit.entry is not None and hit.shape in {"count", "zero"}]
        if not found or (counted and self.pointing.entry not in {None, counted[-1].entry}):
            yield from self._close_pointing()
        if found:
            place = found[0][0]
            raised = [entry for end, entry in self._raised(marked) if end <= place and entry.kind != "notes"]
            entry = self.pointing.entry or self.topic
            if counted or raised:
                entry = counted[-1].entry if counted else raised[-1]
            subject = self.discussion.subject_at(marked, place, place)
            self.pointing.add(number, sentence, found, entry, subject)

    def _close_pointing(self) -> Iterator[Statement]:
        gathered, entry, subject = self.pointing.take()
        if not gathered or entry is None or subject is None or entry.entry or entry.size:
            return
        finding = self.judge.finding(entry.fact_id, subject.scale)
        due = len(finding.witnesses)
        if not finding.fact.counts or finding.value is None or (len(gathered) == 1 and due != 1):
            return
        number, sentence, start, end = gathered[-1]
        first = next((item[2] for item in gathered if item[0] == number), start)
        expected = self.judge.wording.places_in_words(finding.witnesses, subject.scale) or "none"
        judged = Judged(
            len(gathered) == due, f"pointed {len(gathered)} times", finding.value, expected,
            witnesses=finding.witnesses,
        )  # fmt: skip
        hit = Hit(first, end, "each", entry, entry.fact_id, subject, judged)
        yield self._statement(number, sentence, hit)

    def _statement(self, number: int, sentence: Sentence, hit: Hit) -> Statement:
        judged = hit.judged
        fact = self.judge.checker.registry.facts.get(hit.fact_id)
        title = fact.title if fact else hit.fact_id.capitalize()
        if judged.is_true is None:
            verdict, reason = Verdict.INAPPLICABLE, judged.reason
        elif judged.is_true:
            verdict, reason = Verdict.CONFIRMED, ""
        else:
            verdict, reason = Verdict.CONTRADICTED, f"it says {judged.said}; what is so: {judged.expected}"
        return Statement(
            number, hit.start, hit.end, sentence.text[hit.start : hit.end], sentence.place_at(hit.start),
            sentence.line_at(hit.start), sentence.time_at(hit.start), hit.fact_id, title, hit.subject.label, verdict,
            judged.said, judged.computed, judged.expected, reason, judged.witnesses, fact.sources if fact else (),
        )  # fmt: skip

    def _left(self, marked: Marked, used: list[tuple[int, int]]) -> tuple[str, ...]:
        """Give the numbers, names and terms that no statement took up."""
        language = self.lexicon.language
        places = [*used, *self.pointing.here(marked)]
        places += [(scale.start, scale.end) for scale in marked.scales]
        places += [(mode.start, mode.end) for mode in marked.modes]
        spans = [(q.start, q.end) for q in find_quantities(marked.text, language)]
        spans += [(note.start, note.end) for note in marked.notes]
        spans += [(chord.start, chord.end) for chord in marked.chords]
        spans += [match.span() for match in self.terms.finditer(marked.text)]
        spans += [match.span() for pattern in self.mentions for match in pattern.finditer(marked.signs)]
        left: list[tuple[int, int]] = []
        for start, end in sorted(spans, key=lambda span: (span[0], -span[1])):
            is_used = any(low < end and start < high for low, high in places)
            if not is_used and not any(start < high for _, high in left):
                left.append((start, end))
        return tuple(marked.text[start:end] for start, end in left)


def identities_as_hits(identities: list[Identity]) -> Iterator[Hit]:
    """Give what was said to be called something as matches.

    Parameters
    ----------
    identities : list of Identity
        What was found.

    Yields
    ------
    Hit
        One for each.
    """
    for found in identities:
        judged = Judged(found.is_true, found.said, found.computed, found.expected)
        yield Hit(found.start, found.end, found.kind, None, found.kind, found.subject, judged)


def _longest(hits: list[Hit]) -> list[Hit]:
    kept: list[Hit] = []
    for hit in sorted(hits, key=lambda hit: (-hit.weight, hit.start)):
        if not any(hit.start < other.end and other.start < hit.end for other in kept):
            kept.append(hit)
    return kept
