"""Every pattern of every fact, tried on one sentence, each match judged for the scale that is meant there.

**Conventions.** A clause ends at the words listed as `clause`. A statement is denied where the words that turn it round
stand an odd number of times between the beginning of its clause and its end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from gamutwright.facts.roles import Basic
from gamutwright.lessons.auditing.heard_lexicon import Entry, Frame, Lexicon
from gamutwright.lessons.auditing.identities import Discussion, Subject
from gamutwright.lessons.auditing.judging import Judge, Judged
from gamutwright.lessons.auditing.marked import Marked
from gamutwright.phrasing.interval_words import find_intervals
from gamutwright.phrasing.numbers import find_quantities, find_shares
from gamutwright.theory.spelling import note_name_to_pitch_class

__all__ = ["Hit", "hits_of", "is_denied"]

_FEWEST_NOTES = 5


@dataclass(frozen=True, slots=True)
class Hit:
    """A statement found in a sentence, and what became of it.

    Parameters
    ----------
    start, end : int
        Its words.
    shape : str
        How it was read.
    entry : Entry or None
        What it was heard by.
    fact_id : str
        The fact; mode, name or root.
    subject : Subject
        The scale it is about.
    judged : Judged
        What became of it.
    nearness : int
        For lists: characters between the word that announces the list and the list.
    reach : int
        Where the words that announce it begin; -1 for none.
    """

    start: int
    end: int
    shape: str
    entry: Entry | None
    fact_id: str
    subject: Subject
    judged: Judged
    nearness: int = 0
    reach: int = -1

    @property
    def taken(self) -> tuple[int, int]:
        """The words it takes up, with those that announce it."""
        return (self.start if self.reach < 0 else min(self.start, self.reach)), self.end

    @property
    def weight(self) -> float:
        """Which of two overlapping matches counts: the longer, and of lists the one announced nearer."""
        return self.end - self.start - self.nearness / 100


def is_denied(text: str, start: int, end: int, lexicon: Lexicon) -> bool:
    """Whether a statement is turned round.

    Parameters
    ----------
    text : str
        A sentence.
    start, end : int
        The statement's words.
    lexicon : Lexicon
        The patterns of the language.

    Returns
    -------
    bool
        True for an odd number of turns.
    """
    words, raw = lexicon.words, lexicon.raw
    clause = re.sub(
        raw["turns_not"],
        lambda found: "_" * len(found[0]),
        text[lexicon.clause_start(text, start) : end],
        flags=re.IGNORECASE,
    )
    ahead = clause[: len(clause) - (end - start)]
    turns = len(re.findall(rf"(?<!\w){raw['turns']}(?!\w)", clause, re.IGNORECASE))
    near = re.search(rf"(?<!\w){raw['near_turns']}", ahead, re.IGNORECASE)
    after = words["turned_after"].match(text, end) if "turned_after" in words else None
    return (turns + (near is not None) + (after is not None)) % 2 == 1


def hits_of(marked: Marked, judge: Judge, discussion: Discussion, topic: Entry | None = None) -> Iterator[Hit]:
    """Try every pattern on a sentence.

    Parameters
    ----------
    marked : Marked
        The sentence.
    judge : Judge
        Holds matches against what is computed.
    discussion : Discussion
        Knows which scale is meant.
    topic : Entry, optional
        What was brought up before.

    Yields
    ------
    Hit
        Every match that can be read; they may overlap.
    """
    matcher = _Matcher(marked, judge, discussion)
    for entry in judge.lexicon.entries:
        is_there: dict[re.Pattern[str], bool] = {}
        for frame in entry.frames:
            if "count" in frame.pattern.groupindex and not matcher.numbers:
                continue
            if frame.needs is not None:
                if frame.needs not in is_there:
                    is_there[frame.needs] = frame.needs.search(marked.signs) is not None
                if not is_there[frame.needs]:
                    continue
            for match in frame.pattern.finditer(marked.signs):
                yield from matcher.read(entry, frame, match)
    yield from matcher.bare_lists()
    yield from matcher.chords()
    yield from matcher.pairs(topic)


class _Matcher:
    """Reads the matches of one sentence."""

    def __init__(self, marked: Marked, judge: Judge, discussion: Discussion) -> None:
        self.marked, self.judge, self.discussion = marked, judge, discussion
        self.lexicon = judge.lexicon
        self.numbers = find_quantities(marked.text, self.lexicon.language)

    def read(self, entry: Entry, frame: Frame, match: re.Match[str]) -> Iterator[Hit]:
        start, end = match.span()
        if self._is_beside(entry, start, end, frame):
            return
        subject = self.discussion.subject_at(self.marked, start, end)
        judged: Judged | None = None
        nearness, reach = 0, start
        if frame.shape in {"count", "say"}:
            judged = self._said(entry, match, subject)
        elif frame.shape == "compare":
            compared = self.discussion.compared(self.marked, start, end)
            if compared is not None:
                subject, other = compared
                denied = self._is_count_denied(match.start("compare"))
                judged = self.judge.comparison(entry, match["compare"], subject.scale, other.scale, is_denied=denied)
        elif frame.shape == "list":
            nearness = match.start("list") - start
            start = match.start("list")
            judged = self._list(entry, match, subject)
        elif frame.shape == "chords":
            start, end, judged = self._roots(entry, match, subject)
        elif frame.shape == "measure":
            start, end, judged = self._measure(entry, match, subject)
        elif frame.shape == "contains":
            judged = self._contains(match, subject)
        else:
            judged = self._plain(entry, frame, match, subject)
        if judged is not None:
            yield Hit(start, end, frame.shape, entry, entry.fact_id, subject, judged, nearness, reach)

    def _is_beside(self, entry: Entry, start: int, end: int, frame: Frame) -> bool:
        """Whether words beside a match show that something else is counted."""
        if frame.shape not in {"count", "some", "compare", "say"}:
            return False
        before, after = self.marked.signs[:start], self.marked.signs[end:]
        if frame.shape != "say" and entry.not_after is not None and entry.not_after.search(after):
            return True
        if entry.not_before is None or not re.search(rf"(?<!\w){entry.not_before.pattern}", before, re.IGNORECASE):
            return False
        unless = entry.not_before_unless
        return unless is None or unless.search(before) is None

    def _is_count_denied(self, place: int) -> bool:
        text = self.marked.signs[self.lexicon.clause_start(self.marked.signs, place) : place]
        return re.search(self.lexicon.raw["count_turns"], text, re.IGNORECASE) is not None

    def _said(self, entry: Entry, match: re.Match[str], subject: Subject) -> Judged | None:
        groups = match.groupdict()
        if groups.get("count"):
            return self._count(entry, match, subject)
        if groups.get("label"):
            denied = is_denied(self.marked.signs, *match.span(), self.lexicon)
            return self.judge.label(entry.fact_id, match["label"], subject.scale, is_denied=denied)
        if groups.get("degree"):
            denied = is_denied(self.marked.signs, *match.span(), self.lexicon)
            return self.judge.altered(entry, match["quality"], match["degree"], subject.scale, is_denied=denied)
        notes = self.marked.notes_in(*match.span())
        said = groups.get("ordinal") or groups.get("number") or ""
        quantities = find_quantities(said, self.lexicon.language, is_bound=True)
        if len(quantities) != 1 or subject.scale.divisions != 12:
            return None
        denied = is_denied(self.marked.signs, *match.span(), self.lexicon)
        if groups.get("step"):
            return self.judge.one_step(int(quantities[0].value), match["step"], subject.scale, is_denied=denied)
        if not notes:
            return None
        return self.judge.degree_note(int(quantities[0].value), notes[-1], subject.scale, is_denied=denied)

    def _count(self, entry: Entry, match: re.Match[str], subject: Subject) -> Judged | None:
        start, end = match.span("count")
        if not any(number.start < end and start < number.end for number in self.numbers) and not find_quantities(
            match["count"], self.lexicon.language, is_bound=True
        ):
            return None
        if any(number.kind == "ordinal" and number.start < end and start < number.end for number in self.numbers):
            return None
        bound = match.groupdict().get("bound") or ""
        return self.judge.number(
            entry, match["count"], bound, subject.scale, is_denied=self._is_count_denied(match.start())
        )

    def _plain(self, entry: Entry, frame: Frame, match: re.Match[str], subject: Subject) -> Judged | None:
        if self.lexicon.words["conditional"].match(self.marked.signs, match.end()):
            return None
        denied = is_denied(self.marked.signs, *match.span(), self.lexicon)
        match frame.shape:
            case "zero":
                return self.judge.none_of(entry, subject.scale)
            case "some":
                return self.judge.some_of(entry, subject.scale, is_denied=denied)
            case "choice":
                return self.judge.choice(entry.fact_id, frame.accepts, subject.scale, is_denied=denied)
            case shape:
                return self.judge.truth(entry, subject.scale, said=(shape == "yes") is not denied)

    def _list(self, entry: Entry, match: re.Match[str], subject: Subject) -> Judged | None:
        words = self.marked.text[slice(*match.span("list"))]
        scale = subject.scale
        if entry.kind == "notes":
            if self._is_announced(match.start(), match.start("list")):
                return None
            names = self.marked.notes_in(*match.span("list"))
            return self.judge.notes(names, scale) if self._is_whole(names, subject) else None
        if entry.kind == "steps":
            ahead = self.marked.signs[self.lexicon.clause_start(self.marked.signs, match.start()) : match.start("list")]
            beginning = self.lexicon.words["begins"].search(ahead) is not None
            return self.judge.steps(words, scale, is_beginning=beginning)
        if entry.kind == "degrees":
            return self.judge.degrees(words, scale)
        return self.judge.numbers(entry.fact_id, words, scale)

    def _is_announced(self, start: int, end: int) -> bool:
        """Whether a list is announced as the places of another fact."""
        words = self.marked.signs[start:end]
        return any(entry.topic.search(words) for entry in self.lexicon.entries if entry.topic is not None)

    def _is_whole(self, names: list[str], subject: Subject) -> bool:
        return subject.scale.divisions == 12 and len(names) >= max(4, subject.scale.cardinality - 2)

    def _measure(self, entry: Entry, match: re.Match[str], subject: Subject) -> tuple[int, int, Judged | None]:
        """Read the number nearest to what is measured, in the same clause."""
        text = self.marked.signs
        begin = self.lexicon.clause_start(text, match.start())
        stop = self.lexicon.words["clause"].search(text, match.end())
        last = stop.start() if stop and stop[0] != ":" else len(text)
        near = [n for n in self.numbers if begin <= n.start and n.end <= last and n.kind != "ordinal"]
        after = [n for n in near if match.end() <= n.start <= match.end() + 45]
        before = [n for n in near if match.start() - 30 <= n.end <= match.start()]
        if not after and not before:
            return *match.span(), None
        shares = find_shares(self.marked.text[match.end() : last], self.lexicon.language) if after else ()
        if shares and len(shares) == 1 and shares[0].kind == "fraction":
            begin, end = match.end() + shares[0].start, match.end() + shares[0].end
            if begin == after[0].start:
                return match.start(), end, self.judge.share(entry, shares[0], subject.scale)
        number = after[0] if after else before[-1]
        words = self.marked.text[max(begin, number.start - 16) : number.end] if number.is_about else number.text
        quantity = find_quantities(words, self.lexicon.language)
        words = words if len(quantity) == 1 else number.text
        start, end = min(match.start(), number.start), max(match.end(), number.end)
        denied = self._is_count_denied(number.start)
        return start, end, self.judge.number(entry, words, "", subject.scale, is_denied=denied)

    def _contains(self, match: re.Match[str], subject: Subject) -> Judged | None:
        notes = self.marked.notes_in(*match.span())
        if len(notes) != 1 or subject.scale.divisions != 12 or not self.discussion.is_rooted:
            return None
        denied = is_denied(self.marked.signs, *match.span(), self.lexicon)
        alone = re.match(rf"(?i){self.lexicon.raw['no_note']}", match[0])
        return self.judge.contains(notes[0], subject.scale, is_denied=denied or alone is not None)

    def _roots(self, entry: Entry, match: re.Match[str], subject: Subject) -> tuple[int, int, Judged | None]:
        names = self.marked.notes_in(*match.span("list"))
        if not names or subject.scale.divisions != 12 or not self.discussion.is_rooted:
            return *match.span(), None
        raw = self.lexicon.raw
        is_single = re.search(raw["single"], self.marked.signs[: match.start()].rstrip(), re.IGNORECASE) is not None
        is_some = re.search(raw["named_chords_only"], match[0], re.IGNORECASE) is not None
        is_all = not is_single and not is_some and re.search(raw["plural_chords"], match[0], re.IGNORECASE) is not None
        return *match.span(), self.judge.roots(entry.fact_id, names, subject.scale, is_all=is_all)

    def _basic(self, kind: Basic) -> str:
        return self.judge.checker.registry.basic(kind).id

    def bare_lists(self) -> Iterator[Hit]:
        """Read lists that no word announces: five notes or more, steps that fill the octave."""
        entries = {(entry.fact_id, entry.kind): entry for entry in self.lexicon.entries}
        tones, steps_id = self._basic(Basic.TONES), self._basic(Basic.STEPS)
        text = self.marked.signs
        for match in self.lexicon.frames["note_list"][0].finditer(text):
            names = self.marked.notes_in(*match.span())
            subject = self.discussion.subject_at(self.marked, *match.span())
            begin = self.lexicon.clause_start(text[: max(0, match.start() - 2)], match.start())
            if self._is_announced(begin, match.start()):
                continue
            if len(names) >= _FEWEST_NOTES and self._is_whole(names, subject) and self.discussion.is_rooted:
                judged = self.judge.notes(names, subject.scale)
                yield Hit(*match.span(), "list", entries[tones, "notes"], tones, subject, judged, 90)
        for match in self.lexicon.frames["step_list"][0].finditer(text):
            if self.lexicon.words["goes_on"].match(text, match.end()):
                continue
            subject = self.discussion.subject_at(self.marked, *match.span())
            steps = self.judge.steps(self.marked.text[slice(*match.span())], subject.scale, is_beginning=False)
            if steps and sum(map(int, steps.said.split(", "))) == subject.scale.divisions:
                yield Hit(*match.span(), "list", entries[steps_id, "steps"], steps_id, subject, steps, 90)

    def chords(self) -> Iterator[Hit]:
        """Read chords that the scale is said to have, and the kind of the chord on a degree."""
        text = self.marked.signs
        for pattern in self.lexicon.frames["chord_member"]:
            for match in pattern.finditer(text):
                low, high = match.span("list")
                named = [*self.marked.chords, *self.marked.notes]
                names = [m.name for m in sorted(named, key=lambda m: m.start) if low <= m.start < high]
                subject = self.discussion.subject_at(self.marked, *match.span())
                if names and self.discussion.is_rooted and subject.scale.divisions == 12:
                    denied = is_denied(text, *match.span(), self.lexicon)
                    judged = self.judge.chords(names, subject.scale, is_denied=denied)
                    yield Hit(
                        low, high, "chords", None, self._basic(Basic.TRIADS), subject, judged, reach=match.start()
                    )
        for pattern in self.lexicon.frames["degree_chord"]:
            for match in pattern.finditer(text):
                yield from self._chord_on(match)

    def pairs(self, topic: Entry | None) -> Iterator[Hit]:
        """Read where steps or intervals lie: "between E and F".

        Parameters
        ----------
        topic : Entry or None
            What was brought up before.

        Yields
        ------
        Hit
            One for each pair of notes.
        """
        text = self.marked.signs
        entries = [entry for entry in self.lexicon.entries if entry.kind == "pairs"]
        for match in self.lexicon.frames["pair"][0].finditer(text):
            named = [(m.end(), e) for e in entries if e.topic for m in e.topic.finditer(text, 0, match.start())]
            entry = max(named, key=lambda item: item[0])[1] if named else topic
            notes = self.marked.notes_in(*match.span())
            subject = self.discussion.subject_at(self.marked, *match.span())
            if entry is None or entry.kind != "pairs" or len(notes) != 2 or not self.discussion.is_rooted:
                continue
            if not named and find_intervals(self.marked.text, self.lexicon.language):
                continue
            if subject.scale.divisions == 12:
                denied = is_denied(text, *match.span(), self.lexicon)
                judged = self.judge.pair(entry.fact_id, notes, subject.scale, is_denied=denied)
                yield Hit(*match.span(), "pair", entry, entry.fact_id, subject, judged)

    def _chord_on(self, match: re.Match[str]) -> Iterator[Hit]:
        groups = match.groupdict()
        subject = self.discussion.subject_at(self.marked, *match.span())
        scale, number = subject.scale, 0
        notes = self.marked.notes_in(*match.span())
        if groups.get("root"):
            number = 1
        elif groups.get("ordinal"):
            quantities = find_quantities(match["ordinal"], self.lexicon.language, is_bound=True)
            number = int(quantities[0].value) if len(quantities) == 1 else 0
        elif notes:
            tone = (note_name_to_pitch_class(notes[0]) - scale.root) % 12
            number = scale.tones.index(tone) + 1 if tone in scale.tones else 0
        kind = next((name for name, pattern in self.kinds().items() if pattern.fullmatch(match["kind"])), "")
        if number and kind and scale.divisions == 12:
            denied = is_denied(self.marked.signs, *match.span(), self.lexicon)
            judged = self.judge.chord_on(number, kind, scale, is_denied=denied)
            yield Hit(*match.span(), "chords", None, self._basic(Basic.NUMERALS), subject, judged)

    def kinds(self) -> dict[str, re.Pattern[str]]:
        """Words for the kinds of triads."""
        words = self.lexicon.words
        return {kind: words[f"quality_{kind}"] for kind in ("major", "minor", "diminished", "augmented")}
