"""Which scale is under discussion, and what scales and modes are said to be called.

The idea: "the fourth mode" turns the talk to that mode; "the fourth mode is Lydian" also states what it is called.
A scale that is only compared with ("than C major") changes nothing.

**Conventions.** A mode without a scale of its own is a mode of the scale last discussed that is no mode. A scale other
than the lesson's stays under discussion while pronouns refer to it; a mode stays until another scale is named. Roots
are compared only where they are named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field

from gamutwright.lessons.auditing.heard_lexicon import Lexicon
from gamutwright.lessons.auditing.marked import Marked, ModeMention, ScaleMention
from gamutwright.phrasing.numbers import ordinal_to_words
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import note_name_to_pitch_class, root_name, tone_names
from gamutwright.theory.systematic import systematic_name

__all__ = ["Discussion", "Identity", "Subject", "scale_label"]


@dataclass(frozen=True, slots=True)
class Subject:
    """A scale that is spoken about.

    Parameters
    ----------
    scale : Scale
        The scale.
    label : str
        What to call it.
    kind : str
        home, mode or other.
    """

    scale: Scale
    label: str
    kind: str


@dataclass(frozen=True, slots=True)
class Identity:
    """A statement about what a scale or mode is called, or where it begins.

    Parameters
    ----------
    start, end : int
        Its words.
    kind : str
        mode, name or root.
    subject : Subject
        What it is about.
    is_true : bool
        Whether it is so.
    said, expected : str
        What it says, and what is so.
    computed : tuple of int or str
        Degrees of the mode, or the name.
    """

    start: int
    end: int
    kind: str
    subject: Subject
    is_true: bool
    said: str
    expected: str
    computed: tuple[int, ...] | str


def scale_label(scale: Scale) -> str:
    """Give a scale's name with its root, by the first tradition that has one.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    str
        Such as "D dorian".

    Examples
    --------
    >>> scale_label(Scale.of(2, 4, 5, 7, 9, 11, 0))
    'D dorian'
    """
    if scale.divisions != 12 or not scale.is_rooted:
        return " ".join(map(str, scale.pitch_classes))
    known = names_of(scale)
    return f"{root_name(scale)} {known[0].name if known else systematic_name(scale)}"


@dataclass(slots=True)
class Discussion:
    """Follows which scale is meant.

    Parameters
    ----------
    home : Subject
        The scale of the text.
    lexicon : Lexicon
        The patterns of the language.
    is_rooted : bool
        Whether the root of the scale is known.
    """

    home: Subject
    lexicon: Lexicon
    is_rooted: bool = True
    current: Subject = field(init=False)
    base: Subject = field(init=False)
    before: Subject = field(init=False)
    _turns: list[tuple[int, int, Subject]] = field(default_factory=list)
    _references: list[tuple[int, Subject]] = field(default_factory=list)
    _entering: Subject | None = None

    def __post_init__(self) -> None:
        self.current = self.base = self.before = self.home

    def follow(self, marked: Marked, *, is_heading: bool = False) -> list[Identity]:
        """Take in the names of a sentence.

        Parameters
        ----------
        marked : Marked
            The sentence.
        is_heading : bool
            Whether it heads a part; then the talk returns to the scale of the text unless it names another.

        Returns
        -------
        list of Identity
            What it says that scales and modes are called.
        """
        words, text = self.lexicon.words, marked.signs
        self._turns, self._references = [], []
        if is_heading or (
            self.current.kind == "other" and (not words["pronouns"].search(text) or words["the_scale"].search(text))
        ):
            self._turn_to(self.home)
        self._entering = self.current
        identities: list[Identity] = []
        events: list[tuple[int, ScaleMention | ModeMention | re.Match[str]]] = [
            *((m.start, m) for m in marked.scales),
            *((m.start, m) for m in marked.modes),
            *((m.start(), m) for m in words["home"].finditer(text)),
            *((m.start(), m) for m in words["mode_start"].finditer(text)),
        ]
        for _, event in sorted(events, key=lambda item: item[0]):
            if isinstance(event, re.Match):
                self._matched(event, marked)
            else:
                identities += self._named(event, marked)
        identities += self._roots(marked)
        return identities

    def subject_at(self, marked: Marked, start: int, end: int) -> Subject:
        """Give the scale that words are about.

        Parameters
        ----------
        marked : Marked
            The sentence last followed.
        start, end : int
            The words.

        Returns
        -------
        Subject
            The scale named in the same clause after them ("two in C major"), or the last one named before.
        """
        raw = self.lexicon.raw
        before = [subject for place, _, subject in self._turns if place <= start]
        for place, _, subject in self._turns:
            between = marked.signs[end:place]
            is_near = place >= end and "," not in between and not self.lexicon.words["clause"].search(between)
            if is_near and re.search(rf"\b{raw['before_claim']} $", marked.signs[:place], re.IGNORECASE):
                return subject
        return before[-1] if before else self._entering or self.current

    def reference(self, marked: Marked, place: int) -> Subject | None:
        """Give the scale that words at a place compare with."""
        after = [subject for start, subject in self._references if start >= place]
        if after:
            return after[0]
        if self._references:
            return self._references[-1][1]
        if self.lexicon.words["ours"].search(marked.signs):
            return self.home
        return self.before if self.before.scale != self.current.scale else None

    def compared(self, marked: Marked, start: int, end: int) -> tuple[Subject, Subject] | None:
        """Give the two scales that words at a place compare, the one they are about first.

        Parameters
        ----------
        marked : Marked
            The sentence last followed.
        start, end : int
            The words.

        Returns
        -------
        tuple of Subject or None
            None where nothing is said to compare with.
        """
        other, subject = self.reference(marked, start), self.subject_at(marked, start, end)
        named_after = [turned for place, _, turned in self._turns if place >= end]
        if named_after and not self._references:
            # "More of them has the Dorian scale": the scale named last is what the sentence is about.
            before = self._entering or self.home
            return named_after[0], self.home if before.scale == named_after[0].scale else before
        if other is None:
            return None
        return (self.home if subject.scale == other.scale else subject), other

    def _turn_to(self, subject: Subject, start: int = 0, end: int = 0) -> None:
        if subject.scale != self.current.scale:
            self.before = self.current
        self.current = subject
        if subject.kind != "mode":
            self.base = subject
        if end:
            self._turns.append((start, end, subject))

    def _matched(self, match: re.Match[str], marked: Marked) -> None:
        """Return home, or turn to the mode on a note."""
        notes = marked.notes_in(*match.span())
        if not notes:
            self._turn_to(self.home, *match.span())
            return
        base = self.base.scale
        tone = (note_name_to_pitch_class(notes[0]) - base.root) % base.divisions
        if self.is_rooted and tone in base.tones:
            degree = base.tones.index(tone) + 1
            self._turn_to(self._mode_of(self.base, degree) if degree > 1 else self.base, *match.span())

    def _mode_of(self, base: Subject, degree: int) -> Subject:
        scale = base.scale.mode(degree)
        name = f"mode {degree} of {base.label}"
        return Subject(scale, name, "mode")

    def _subject_of(self, mention: ScaleMention) -> Subject | None:
        scale = mention.scale(root_name(self.home.scale) if self.home.scale.divisions == 12 else "C")
        if scale is None:
            return None
        if scale.mask == self.home.scale.mask and (not mention.root or scale.root == self.home.scale.root):
            return self.home
        return Subject(scale, mention.text.strip() if mention.root else scale_label(scale), "other")

    def _left_of(self, marked: Marked, start: int) -> tuple[Subject | None, int]:
        """Give what stands before a verb: a mode or scale just named, or what a pronoun means."""
        text = marked.signs[:start]
        begin = self.lexicon.clause_start(text, start)
        named = [(place, subject) for place, _, subject in self._turns if begin <= place < start]
        if named:
            return named[-1][1], named[-1][0]
        found = self.lexicon.words["subject_words"].search(text)
        return (self.current, found.start() + 1 if found.start() else 0) if found else (None, start)

    def _named(self, mention: ScaleMention | ModeMention, marked: Marked) -> Iterator[Identity]:
        raw, text = self.lexicon.raw, marked.signs
        if any(low <= mention.start < high for low, high, _ in self._turns):
            return
        is_predicate = re.search(rf"(?:^|[\W]){raw['identity']}", text[: mention.start], re.IGNORECASE)
        left, begin = self._left_of(marked, is_predicate.start() + 1) if is_predicate else (None, mention.start)
        beside = self._turns[-1] if self._turns else None
        is_scale_after_mode = beside is not None and isinstance(mention, ScaleMention) and beside[2].kind == "mode"
        if left is None and beside and is_scale_after_mode:
            between = text[beside[1] : mention.start]
            if re.fullmatch(raw["apposition"], between, re.IGNORECASE):
                left, begin = beside[2], beside[0]
        if isinstance(mention, ModeMention):
            yield from self._mode_named(mention, marked, left, begin)
        elif left is not None:
            yield from self._called(mention, left, begin)
        elif re.search(
            rf"(?<!\w){raw['than']}$",
            text[: mention.start],
            re.IGNORECASE,
        ):
            subject = self._subject_of(mention)
            if subject:
                self._references.append((mention.start, subject))
        else:
            subject = self._subject_of(mention)
            if subject:
                self._turn_to(subject, mention.start, mention.end)

    def _called(self, mention: ScaleMention, left: Subject, begin: int) -> Iterator[Identity]:
        scale = mention.scale(root_name(left.scale) if left.scale.divisions == 12 else "C")
        if scale is None:
            return
        is_true = scale.mask == left.scale.mask and (
            not mention.root or not self.is_rooted or scale.root == left.scale.root
        )
        kind = "mode" if left.kind == "mode" else "name"
        yield Identity(
            begin, mention.end, kind, left, is_true, mention.text, scale_label(left.scale), scale_label(left.scale)
        )

    def _mode_named(self, mention: ModeMention, marked: Marked, left: Subject | None, begin: int) -> Iterator[Identity]:
        of = next(
            (
                scale
                for scale in marked.scales
                if re.fullmatch(rf",? {self.lexicon.raw['mode_of']} ", marked.signs[mention.end : scale.start])
            ),
            None,
        )
        base = self.base
        if of is not None:
            base = self._subject_of(of) or base
            if base.kind == "other" and not of.root and left is None:
                base = Subject(base.scale, base.label, "other")
        end = of.end if of is not None else mention.end
        if left is not None and left.scale.divisions == base.scale.divisions:
            degrees = tuple(
                k
                for k in range(1, base.scale.cardinality + 1)
                if (mode := base.scale.mode(k)).mask == left.scale.mask
                and (of is None or not of.root or not self.is_rooted or mode.root == left.scale.root)
            )
            language = self.lexicon.language
            expected = " or ".join(ordinal_to_words(degree, language) for degree in degrees) or "no mode of it"
            said = marked.text[mention.start : end]
            yield Identity(begin, end, "mode", left, mention.number in degrees, said, expected, degrees)
            self._turns.append((mention.start, end, left))
        elif mention.number <= base.scale.cardinality:
            self._turn_to(self._mode_of(base, mention.number) if mention.number > 1 else base, mention.start, end)
        else:
            expected = f"there are {base.scale.cardinality}"
            said = marked.text[mention.start : end]
            yield Identity(mention.start, end, "mode", base, is_true=False, said=said, expected=expected, computed=())

    def _roots(self, marked: Marked) -> Iterator[Identity]:
        if not self.is_rooted:
            return
        for match in self.lexicon.words["root_claim"].finditer(marked.signs):
            notes = marked.notes_in(*match.span())
            subject = self.subject_at(marked, match.start(), match.end())
            if notes and subject.scale.divisions == 12 and subject.scale.is_rooted:
                due = tone_names(subject.scale)[0]
                is_true = note_name_to_pitch_class(notes[0]) == subject.scale.root
                yield Identity(*match.span(), "root", subject, is_true, notes[-1], due, due)
