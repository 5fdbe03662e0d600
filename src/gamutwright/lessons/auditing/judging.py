"""What a match says, held against what is computed for the scale under discussion.

Numbers, rounding, comparisons and ordinals are read and judged by `lesson.readings`, as the claims of scripts are;
lists of notes, chords and steps, which free speech orders more loosely, are judged here by pitch class.

**Conventions.** A list of notes may begin with any tone and may end with the first again; rising and falling lists are
both right. Another spelling of the same tone agrees, and is said in `said`.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from gamutwright.facts.model import Fact, Value, Witness
from gamutwright.facts.profile import Finding
from gamutwright.facts.roles import Basic
from gamutwright.lessons.auditing.heard_lexicon import Entry, Lexicon
from gamutwright.lessons.claims import Checker
from gamutwright.lessons.readings import read_comparison, read_ordinal, read_value
from gamutwright.phrasing.engine import Wording
from gamutwright.phrasing.numbers import Quantity, find_quantities
from gamutwright.phrasing.spoken_names import find_degrees, spoken_note
from gamutwright.phrasing.spoken_numbers import list_in_words
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import note_name_to_pitch_class, tone_names

__all__ = ["Judge", "Judged"]


@dataclass(frozen=True, slots=True)
class Judged:
    """What became of one match.

    Parameters
    ----------
    is_true : bool or None
        Whether it is so; None where the fact says nothing of the scale.
    said : str
        What was understood.
    computed : Value or None
        What is so.
    expected : str
        Words that would agree.
    reason : str
        Why nothing can be said.
    witnesses : tuple of Witness
        The places.
    """

    is_true: bool | None
    said: str
    computed: Value | None
    expected: str
    reason: str = ""
    witnesses: tuple[Witness, ...] = ()


@dataclass(slots=True)
class Judge:
    """Judges matches; findings are computed once for each scale.

    Parameters
    ----------
    checker : Checker
        Keeps the findings.
    lexicon : Lexicon
        The patterns of the language.
    """

    checker: Checker
    lexicon: Lexicon

    @property
    def wording(self) -> Wording:
        """The wording of the language."""
        return self.checker.wording

    @property
    def language(self) -> str:
        """The language."""
        return self.checker.wording.language

    def finding(self, fact_id: str, scale: Scale) -> Finding:
        """Give what a fact says of a scale."""
        return self.checker.finding(self.checker.registry.fact(fact_id), scale)

    def basic(self, kind: Basic, scale: Scale) -> Finding:
        """Find the basic fact of a kind."""
        return self.checker.finding(self.checker.registry.basic(kind), scale)

    def _silent(self, finding: Finding) -> Judged:
        return Judged(None, "", None, "", finding.reason)

    def value(self, entry: Entry, scale: Scale) -> tuple[Fact, Value | None, Finding]:
        """Give the value an entry is about: a fact's, one entry of its list, or how often a step occurs."""
        finding = self.finding(entry.fact_id, scale)
        value = finding.value
        if isinstance(value, tuple) and entry.entry:
            value = value[entry.entry - 1] if entry.entry <= len(value) else None
        elif isinstance(value, tuple) and entry.size:
            value = value.count(entry.size) if scale.divisions == 12 else None
        return finding.fact, value, finding

    def number(self, entry: Entry, words: str, bound: str, scale: Scale, *, is_denied: bool) -> Judged:
        """Judge a number that was counted or measured."""
        fact, value, finding = self.value(entry, scale)
        if value is None or isinstance(value, str | tuple):
            return self._silent(finding)
        if isinstance(value, bool):
            return Judged(None, words, value, "", f"{fact.title} is no number")
        said = find_quantities(words, self.language, is_bound=True)
        if bound and said:
            is_true = self._within(bound, Fraction(value), said[0].value)
        elif entry.entry or entry.size:
            is_true = len(said) == 1 and said[0].value == value
        else:
            is_true = read_value(words, fact, value, scale, self.wording).is_true
        expected = self.wording.value_in_words(fact, value, scale)
        phrase = f"{'not ' if is_denied else ''}{bound + ' ' if bound else ''}{words}"
        return Judged(is_true is not is_denied, phrase, value, expected, witnesses=finding.witnesses)

    def _within(self, bound: str, value: Fraction, said: Fraction) -> bool:
        words = self.lexicon.words
        if words["at_least"].fullmatch(bound):
            return value >= said
        if words["at_most"].fullmatch(bound):
            return value <= said
        return value > said if words["more_than"].fullmatch(bound) else value < said

    def share(self, entry: Entry, said: Quantity, scale: Scale) -> Judged:
        """Judge a share in two numbers: "twenty out of twenty-one"."""
        fact, value, finding = self.value(entry, scale)
        if value is None or isinstance(value, str | tuple):
            return self._silent(finding)
        expected = self.wording.value_in_words(fact, value, scale)
        return Judged(abs(Fraction(value) - said.value) < Fraction(1, 10**6), said.text, value, expected)

    def none_of(self, entry: Entry, scale: Scale) -> Judged:
        """Judge that there is none."""
        fact, value, finding = self.value(entry, scale)
        if value is None or isinstance(value, str | tuple):
            return self._silent(finding)
        expected = self.wording.value_in_words(fact, value, scale)
        return Judged(not value, "none", value, expected, witnesses=finding.witnesses)

    def some_of(self, entry: Entry, scale: Scale, *, is_denied: bool) -> Judged:
        """Judge that there is at least one."""
        fact, value, finding = self.value(entry, scale)
        if value is None or isinstance(value, str | tuple):
            return self._silent(finding)
        expected = self.wording.value_in_words(fact, value, scale)
        is_true = bool(value) is not is_denied
        return Judged(is_true, "none" if is_denied else "at least one", value, expected, witnesses=finding.witnesses)

    def comparison(self, entry: Entry, words: str, scale: Scale, other: Scale, *, is_denied: bool) -> Judged | None:
        """Judge more, fewer or as many; None where the words compare nothing."""
        fact, one, finding = self.value(entry, scale)
        _, two, other_finding = self.value(entry, other)
        if not isinstance(one, int | float | Fraction) or not isinstance(two, int | float | Fraction):
            return self._silent(other_finding if one is not None else finding)
        reading = read_comparison(words, one, two, self.wording)
        if not reading.said:
            return None
        said = [self.wording.value_in_words(fact, value, scale) for value in (one, two)]
        return Judged(
            reading.is_true is not is_denied, words, one, f"{said[0]} here and {said[1]} there",
            witnesses=finding.witnesses,
        )  # fmt: skip

    def truth(self, entry: Entry, scale: Scale, *, said: bool) -> Judged:
        """Judge yes or no; a number counts as yes where it exceeds what the entry says."""
        fact, value, finding = self.value(entry, scale)
        if value is None or isinstance(value, str | tuple):
            return self._silent(finding)
        actual = value if isinstance(value, bool) else value > entry.over
        expected = self.wording.value_in_words(fact, value, scale)
        return Judged(actual is said, "yes" if said else "no", value, expected, witnesses=finding.witnesses)

    def choice(self, fact_id: str, accepts: Sequence[str], scale: Scale, *, is_denied: bool) -> Judged:
        """Judge one of a few words."""
        finding = self.finding(fact_id, scale)
        if finding.value is None:
            return self._silent(finding)
        expected = self.wording.value_in_words(finding.fact, finding.value, scale)
        is_true = (finding.value in accepts) is not is_denied
        said = f"{'not ' if is_denied else ''}{accepts[0]}"
        return Judged(is_true, said, finding.value, expected, witnesses=finding.witnesses)

    def label(self, fact_id: str, words: str, scale: Scale, *, is_denied: bool) -> Judged:
        """Judge a name that is written one way only."""
        finding = self.finding(fact_id, scale)
        if not isinstance(finding.value, str):
            return self._silent(finding)
        is_true = (words.casefold() == finding.value.casefold()) is not is_denied
        return Judged(is_true, words, finding.value, finding.value)

    def numbers(self, fact_id: str, words: str, scale: Scale) -> Judged:
        """Judge a list of numbers."""
        finding = self.finding(fact_id, scale)
        if finding.value is None:
            return self._silent(finding)
        reading = read_value(words, finding.fact, finding.value, scale, self.wording)
        return Judged(reading.is_true, reading.said or words, finding.value, reading.expected)

    def degrees(self, words: str, scale: Scale) -> Judged:
        """Judge a list of degrees such as 1 2 b3."""
        finding = self.basic(Basic.DEGREES, scale)
        if not isinstance(finding.value, tuple):
            return self._silent(finding)
        said = [found.name for found in find_degrees(words, self.language)]
        expected = self.wording.value_in_words(finding.fact, finding.value, scale)
        return Judged(said == list(finding.value), ", ".join(said), finding.value, expected)

    def steps(self, words: str, scale: Scale, *, is_beginning: bool) -> Judged | None:
        """Judge a list of steps; None where it can be no list of all steps."""
        said = self._sizes(words)
        pattern = scale.step_pattern
        finding = self.basic(Basic.STEPS, scale)
        if not said:
            return None
        due = pattern[: len(said)] if is_beginning else pattern
        falling = tuple(reversed(pattern))
        is_true = tuple(said) == due or (tuple(said) == falling and falling == pattern)
        if len(said) < len(pattern) - 1 and sum(said) < scale.divisions - 2 and not is_beginning:
            return None
        expected = self.wording.value_in_words(finding.fact, pattern, scale)
        return Judged(is_true, ", ".join(map(str, said)), pattern, expected, witnesses=finding.witnesses)

    def one_step(self, number: int, words: str, scale: Scale, *, is_denied: bool) -> Judged | None:
        """Judge the size of one step."""
        said, pattern = self._sizes(words), scale.step_pattern
        if len(said) != 1 or not 1 <= number <= len(pattern):
            return None
        finding = self.basic(Basic.STEPS, scale)
        expected = self.wording.value_in_words(finding.fact, pattern[number - 1 : number], scale)
        return Judged((pattern[number - 1] == said[0]) is not is_denied, words, pattern, expected)

    def _sizes(self, words: str) -> list[int]:
        found = []
        parts = re.split(rf",? {self.lexicon.raw['step_gap']} |, ?|[|/–—]| - |(?<=\w)-(?=\w\b)| ", words)
        rest = " ".join(part for part in parts if part).strip()
        while rest:
            for pattern, size in self.lexicon.steps:
                match = pattern.match(rest)
                if match and (match.end() == len(rest) or not rest[match.end()].isalnum()):
                    found.append(size)
                    break
            else:
                word = rest.split(" ")[0]
                quantity = find_quantities(word, self.language, is_bound=True)
                if len(quantity) != 1:
                    return []
                found.append(int(quantity[0].value))
                rest = rest[len(word) :].strip()
                continue
            rest = rest[match.end() :].strip(" -")
        return found

    def notes(self, names: Sequence[str], scale: Scale) -> Judged:
        """Judge a list of all notes in order, rising or falling."""
        finding = self.basic(Basic.TONES, scale)
        said = [note_name_to_pitch_class(name) for name in names]
        if len(said) > 1 and said[0] == said[-1]:
            said.pop()
        due = list(scale.pitch_classes)
        rounds = [due[k:] + due[:k] for k in range(len(due))]
        is_true = said in rounds or said[::-1] in rounds
        expected = self._note_list(tone_names(scale))
        return Judged(is_true, self._note_list(names), finding.value, expected)

    def _note_list(self, names: Iterable[str]) -> str:
        return list_in_words((spoken_note(name, self.language) for name in names), self.language)

    def degree_note(self, number: int, name: str, scale: Scale, *, is_denied: bool) -> Judged:
        """Judge that a degree is a note."""
        names, finding = tone_names(scale), self.basic(Basic.TONES, scale)
        if not 1 <= number <= len(names) + 1:
            return Judged(is_denied, name, len(names), f"there are {len(names)} tones")
        due = (names + names[:1])[number - 1]
        is_true = note_name_to_pitch_class(name) == note_name_to_pitch_class(due)
        spoken = [spoken_note(note, self.language) for note in (name, due)]
        return Judged(is_true is not is_denied, ("not " if is_denied else "") + spoken[0], finding.value, spoken[1])

    def contains(self, name: str, scale: Scale, *, is_denied: bool) -> Judged:
        """Judge that a note belongs to the scale."""
        finding = self.basic(Basic.TONES, scale)
        is_in = note_name_to_pitch_class(name) in scale.pitch_classes
        said = f"{'no ' if is_denied else ''}{spoken_note(name, self.language)}"
        return Judged(is_in is not is_denied, said, finding.value, self._note_list(tone_names(scale)))

    def altered(self, entry: Entry, quality: str, degree: str, scale: Scale, *, is_denied: bool) -> Judged | None:
        """Judge "a raised fourth": the degree and its sign."""
        tables = entry.tables or {}
        number = tables["degree_words"].get(degree.lower())
        sign = tables["quality_words"].get(quality.lower())
        finding = self.basic(Basic.DEGREES, scale)
        if number is None or sign is None or not isinstance(finding.value, tuple):
            return None
        here = [str(value) for value in finding.value if str(value).lstrip("#b") == str(number)]
        if number in {4, 5} and quality.lower() in {"major", "minor"}:
            return None
        # In minor keys the natural sixth and seventh are called raised.
        is_raised = sign == "#" and number in {6, 7} and str(number) in here and "b3" in finding.value
        is_true = f"{sign}{number}" in here or is_raised
        expected = self.wording.value_in_words(finding.fact, finding.value, scale)
        return Judged(is_true is not is_denied, f"{sign}{number}", finding.value, expected)

    def roots(self, fact_id: str, names: Sequence[str], scale: Scale, *, is_all: bool) -> Judged:
        """Judge on which notes triads of one kind stand."""
        finding = self.finding(fact_id, scale)
        if finding.value is None:
            return self._silent(finding)
        due = {(witness.parts[0][0] + scale.root) % 12 for witness in finding.witnesses}
        said = {note_name_to_pitch_class(name) for name in names}
        expected = self.wording.places_in_words(finding.witnesses, scale) or "none"
        is_true = said == due if is_all else said <= due
        return Judged(is_true, self._note_list(names), finding.value, expected, witnesses=finding.witnesses)

    def pair(self, fact_id: str, names: Sequence[str], scale: Scale, *, is_denied: bool) -> Judged:
        """Judge that two notes are one of the places of a fact."""
        finding = self.finding(fact_id, scale)
        if finding.value is None:
            return self._silent(finding)
        said = frozenset(note_name_to_pitch_class(name) for name in names)
        due = {frozenset((tone + scale.root) % 12 for tone in witness.parts[0]) for witness in finding.witnesses}
        expected = self.wording.places_in_words(finding.witnesses, scale) or "none"
        is_true = (said in due) is not is_denied
        return Judged(is_true, self._note_list(names), finding.value, expected, witnesses=finding.witnesses)

    def chords(self, names: Sequence[str], scale: Scale, *, is_denied: bool) -> Judged:
        """Judge that the scale has chords."""
        held: set[tuple[int, str]] = set()
        for kind in (Basic.TRIADS, Basic.SEVENTHS):
            value = self.basic(kind, scale).value
            held |= {_chord(str(name)) for name in value} if isinstance(value, tuple) else set()
        finding = self.basic(Basic.TRIADS, scale)
        is_true = all(_chord(name) in held for name in names)
        expected = self.wording.value_in_words(finding.fact, finding.value, scale) if finding.value else "none"
        return Judged(is_true is not is_denied, ", ".join(names), finding.value, expected)

    def chord_on(self, number: int, kind: str, scale: Scale, *, is_denied: bool) -> Judged:
        """Judge the kind of the triad on a degree, stacked by taking every second tone."""
        finding = self.basic(Basic.NUMERALS, scale)
        if not isinstance(finding.value, tuple) or not 1 <= number <= len(finding.value):
            return self._silent(finding)
        numeral = str(finding.value[number - 1])
        actual = _kind(numeral)
        return Judged((actual == kind) is not is_denied, kind, finding.value, f"{actual} ({numeral})")

    def mode(self, numbers: Sequence[int], ordinal: str, scale_name: str) -> Judged:
        """Judge which mode of a scale another is."""
        reading = read_ordinal(ordinal, numbers, self.wording)
        return Judged(reading.is_true, reading.said or ordinal, tuple(numbers), f"{reading.expected} of {scale_name}")


def _chord(name: str) -> tuple[int, str]:
    root = re.match(r"[A-G](?:bb|b|##|#)?", name)
    letters = root[0] if root else "C"
    return note_name_to_pitch_class(letters), name[len(letters) :]


def _kind(numeral: str) -> str:
    if "[" in numeral:
        return "none of the usual kinds"
    if "°" in numeral:
        return "diminished"
    if "+" in numeral:
        return "augmented"
    return "minor" if numeral[0].islower() else "major"
