"""How fast and how plain a script is, chapter by chapter, beside the figures that are asked for.

The idea: a listener cannot turn back a page. What makes a lesson hard to follow can be counted before it is recorded:
words a minute, words a sentence, new terms a minute, and reading ease. Each measure stands beside the figure it is held
against, with that figure's source.

**Conventions.** Speaking time is that of the quick voice, or words at a stated rate, or the length of the recorded take
where one is given; a pause follows each sentence, passage and chapter, and each sounded example; sounds add the lengths
given for them. Words a minute are words per minute of speaking, without pauses and sounds, because that is what a
caption has to keep up with. A fact's terms are new once, at the first of them that appears; facts that earlier lessons
explained are not new. In chapters under a minute new terms are counted for a whole minute. Reading ease is R. Flesch's
for English and T. Amstad's for German, over the sentences that have words.

Figures. 160 to 180 words a minute: BBC Subtitle Guidelines 1.2.3 (June 2024), section 4.1. 130 to 150 for teaching:
common practice, no source. 25 words a sentence: GOV.UK, "Sentence length: why 25 words is our limit" (4 August 2014).
Three new terms a minute, and the reading ease asked of each level: our own; the bands are those of Flesch, How to Write
Plain English (1979), chapter 2 (60 to 70 plain English, 50 to 60 fairly difficult, 30 to 50 difficult).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from gamutwright.errors import DomainError
from gamutwright.lessons.prose import prose, syllables, word_spans
from gamutwright.lessons.script import Line, Mark, Script

__all__ = [
    "TEACHING_RATE",
    "ChapterPace",
    "Measure",
    "Pace",
    "Rhythm",
    "Verdict",
    "measure_pace",
    "reading_ease",
    "speech_seconds",
]

TEACHING_RATE = 140.0
WARN_RATE, FAIL_RATE = 160.0, 180.0
LEAST_SECONDS = 0.3
"""No word is spoken faster."""
LONG_SENTENCE = 25
MOST_NEW_TERMS = 3.0
EASE_ASKED = {"foundation": 60.0, "further": 50.0, "research": 30.0}

_RATE_SOURCE = "BBC Subtitle Guidelines 1.2.3, section 4.1: 160 to 180 words a minute"
_LENGTH_SOURCE = "GOV.UK, Sentence length: why 25 words is our limit (2014)"
_TERMS_SOURCE = "own figure: at most 3 new terms a minute"


class Verdict(StrEnum):
    """What a measure says beside its figure."""

    FINE = "fine"
    WARNING = "warning"
    FAILURE = "failure"


@dataclass(frozen=True, slots=True)
class Rhythm:
    """The speech that is reckoned with.

    Parameters
    ----------
    words_per_minute : float, optional
        Rate of speaking, above 0; that of the quick voice without it.
    sentence_pause, passage_pause, chapter_pause : float
        Seconds after each sentence, or after the last one of a passage or of a chapter.
    sound_pause : float
        Seconds after each sounded example.
    """

    words_per_minute: float | None = None
    sentence_pause: float = 0.4
    passage_pause: float = 0.8
    chapter_pause: float = 1.5
    sound_pause: float = 1.0


@dataclass(frozen=True, slots=True)
class Measure:
    """One measure of a chapter or of the whole script.

    Parameters
    ----------
    name : str
        What is measured.
    value : float
        The value found.
    unit : str
        Its unit; "" for a bare number.
    figure : float
        The figure it is held against.
    source : str
        Whose figure that is.
    verdict : Verdict
        How it stands.
    message : str
        What to do, where it does not stand well; else "".
    """

    name: str
    value: float
    unit: str
    figure: float
    source: str
    verdict: Verdict
    message: str = ""


@dataclass(frozen=True, slots=True)
class ChapterPace:
    """The measures of a chapter, or of the whole script.

    Parameters
    ----------
    title : str
        The chapter's title; "" for the whole.
    words, sentences : int
        How many are spoken.
    speaking_seconds, minutes : float
        Time of the voice alone, and of everything.
    words_per_minute : float
        Words per minute of speaking; 0.0 where nothing is spoken.
    mean_sentence : float
        Words.
    longest_sentence : Line or None
        The line of most words.
    new_terms : tuple of (str, str, str)
        Term, fact id and line id of each first appearance.
    new_terms_per_minute : float
        In a chapter under a minute, for a whole minute.
    reading_ease : float or None
        None where nothing is spoken.
    measures : tuple of Measure
        The same beside the figures asked for.
    """

    title: str
    words: int
    sentences: int
    speaking_seconds: float
    minutes: float
    words_per_minute: float
    mean_sentence: float
    longest_sentence: Line | None
    new_terms: tuple[tuple[str, str, str], ...]
    new_terms_per_minute: float
    reading_ease: float | None
    measures: tuple[Measure, ...]

    @property
    def warnings(self) -> tuple[Measure, ...]:
        """The measures that do not stand well."""
        return tuple(measure for measure in self.measures if measure.verdict is not Verdict.FINE)


@dataclass(frozen=True, slots=True)
class Pace:
    """The pace of a script: each of its chapters, and the whole in one."""

    chapters: tuple[ChapterPace, ...]
    whole: ChapterPace


def reading_ease(words: int, sentences: int, syllable_count: int, language: str) -> float:
    """Give the reading ease of a text.

    Parameters
    ----------
    words, sentences, syllable_count : int
        Counts, each at least 1.
    language : str
        en: R. Flesch's formula; de: T. Amstad's.

    Returns
    -------
    float
        About 0 (very hard) to 100 (very easy); short words and sentences go beyond.

    Raises
    ------
    DomainError
        For counts below 1.

    Examples
    --------
    >>> round(reading_ease(6, 1, 6, "en"), 1)  # "The cat sat on the mat."
    116.1
    """
    if min(words, sentences, syllable_count) < 1:
        raise DomainError("a text without words", "reading ease is a mean over words", "Measure a text that has some.")
    table = prose(language).reading
    per_sentence, per_word = float(table["per_words_in_sentence"]), float(table["per_syllables_in_word"])
    return float(table["constant"]) - per_sentence * words / sentences - per_word * syllable_count / words


def speech_seconds(text: str, language: str) -> float:
    """Estimate how long the quick voice takes for a sentence.

    Parameters
    ----------
    text : str
        The sentence, without markup.
    language : str
        Language tag.

    Returns
    -------
    float
        Seconds: a mean over many sentences is within a few hundredths (`benchmarks/speech_model.py`), a single one may
        be off by half a second; at the teaching rate where a language has no figures.

    Examples
    --------
    >>> round(speech_seconds("It falls down, into home.", "en"), 1)
    2.3
    """
    words, table = len(word_spans(text)), prose(language).speaking
    if not words:
        return 0.0
    if not table:
        return 60 * words / TEACHING_RATE
    seconds = (
        words * table["word"]
        + len(text) * table["character"]
        + len(re.findall("[,;:–]", text)) * table["pause"]
        + table["sentence"]
    )
    return max(seconds, LEAST_SECONDS)


def measure_pace(
    script: Script,
    terms: Mapping[str, str] | None = None,
    *,
    rhythm: Rhythm | None = None,
    sound_seconds: Callable[[Mark], float] | None = None,
    take_seconds: Mapping[str, float] | None = None,
    around_seconds: float = 0.0,
    known: Iterable[str] = (),
) -> Pace:
    r"""Measure the pace of a script.

    Parameters
    ----------
    script : Script
        The script.
    terms : mapping of str to str
        Terms in the script's language, each with the id of its fact.
    rhythm : Rhythm
        Rate of speaking and pauses.
    sound_seconds : callable
        A mark that plays, to the seconds that its sound lasts.
    take_seconds : mapping of str to float
        Seconds that a recorded take lasts, by line id.
    around_seconds : float
        Seconds of the film before the first line and after the last, counted with the whole.
    known : iterable of str
        Ids of the facts that earlier lessons explained.

    Returns
    -------
    Pace
        Measures for each chapter and the whole.

    Raises
    ------
    DomainError
        For a rate or a take that is not above 0, or a length below 0.

    Examples
    --------
    >>> from gamutwright.lessons.parse import parse
    >>> script = parse("---\nscale: C major\n---\n# Steps\nTwo of the steps are semitones. {play=scale}\n")
    >>> pace = measure_pace(script, {"semitones": "semitone_steps"}, sound_seconds=lambda mark: 6.0)
    >>> pace.whole.words, round(60 * pace.whole.minutes, 2), pace.whole.new_terms[0][:2]
    (6, 10.87, ('semitones', 'semitone_steps'))
    """
    rhythm = rhythm or Rhythm()
    takes = dict(take_seconds or {})
    for length in (rhythm.sentence_pause, rhythm.passage_pause, rhythm.chapter_pause, rhythm.sound_pause):
        if not 0 <= length < float("inf"):
            raise DomainError(f"{length:g} s", "a pause does not last so long", "Give seconds from 0 up.")
    for above_zero in (1 if rhythm.words_per_minute is None else rhythm.words_per_minute, *takes.values()):
        if not 0 < above_zero < float("inf"):
            raise DomainError(f"{above_zero:g}", "a rate or a take is above 0", "Give words a minute, and seconds.")
    clock = _Clock(script.front.language, rhythm, sound_seconds or _silent, takes)
    first = _first_appearances(script, terms or {}, frozenset(known))
    level = script.front.level
    gaps = [clock.gaps(len(chapter.passages)) for chapter in script.chapters]
    chapters = tuple(
        clock.measured(chapter.title, chapter.lines, first, level, gap)
        for chapter, gap in zip(script.chapters, gaps, strict=True)
    )
    return Pace(
        chapters, clock.measured("", script.lines, first, level, around_seconds + sum(gaps), aimed=script.front.minutes)
    )


def _silent(_mark: Mark) -> float:
    return 0.0


def _first_appearances(
    script: Script, terms: Mapping[str, str], known: frozenset[str]
) -> dict[str, list[tuple[str, str]]]:
    """Give, by line id, the terms whose fact appears there first, with the fact."""
    facts = {term.lower(): fact for term, fact in terms.items() if term.strip()}
    if not facts:
        return {}
    longest_first = sorted(facts, key=lambda term: (-len(term), term))
    pattern = re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, longest_first))})(?!\w)", re.IGNORECASE)
    seen = set(known)
    first: dict[str, list[tuple[str, str]]] = {}
    for line in script.lines:
        for match in pattern.finditer(line.text):
            fact = facts.get(match[0].lower())
            if fact is not None and fact not in seen:
                seen.add(fact)
                first.setdefault(line.id, []).append((match[0], fact))
    return first


@dataclass(frozen=True, slots=True)
class _Clock:
    """Counts words and seconds of lines."""

    language: str
    rhythm: Rhythm
    sounds: Callable[[Mark], float]
    takes: Mapping[str, float]

    def gaps(self, passages: int) -> float:
        """Give the seconds that a chapter's passages add to the pauses after its lines."""
        pace = self.rhythm
        return passages * (pace.passage_pause - pace.sentence_pause) + pace.chapter_pause - pace.passage_pause

    def _spoken(self, text: str, words: int) -> float:
        """Give the seconds that a sentence takes."""
        rate = self.rhythm.words_per_minute
        return speech_seconds(text, self.language) if rate is None else 60 * words / rate

    def _silence(self, line: Line, words: int) -> float:
        """Give the seconds of a line in which nobody speaks."""
        seconds = self.rhythm.sentence_pause if words else 0.0
        for mark in line.marks:
            pause = mark.get("pause")
            seconds += float(pause) if pause else 0.0
            if mark.get("play") is not None:
                seconds += self.sounds(mark) + self.rhythm.sound_pause
        return seconds

    def measured(
        self,
        title: str,
        lines: Sequence[Line],
        first: Mapping[str, list[tuple[str, str]]],
        level: str,
        gaps: float,
        aimed: float | None = None,
    ) -> ChapterPace:
        counts, spoken, speaking, silence, sounds = [], [], 0.0, gaps, 0
        for line in lines:
            spans = word_spans(line.text)
            if spans:
                counts.append(len(spans))
                spoken.append(line)
                speaking += self.takes.get(line.id, self._spoken(line.text, len(spans)))
                sounds += sum(syllables(line.text[start:end], self.language) for start, end in spans)
            silence += self._silence(line, len(spans))
        words, minutes = sum(counts), (speaking + silence) / 60
        terms = tuple((term, fact, line.id) for line in lines for term, fact in first.get(line.id, ()))
        pace = ChapterPace(
            title,
            words,
            len(counts),
            speaking,
            minutes,
            60 * words / speaking if speaking else 0.0,
            words / len(counts) if counts else 0.0,
            spoken[counts.index(max(counts))] if counts else None,
            terms,
            len(terms) / max(minutes, 1.0),
            reading_ease(words, len(counts), sounds, self.language) if counts else None,
            (),
        )
        measures = _measures(pace, counts, level, self.language)
        if aimed is not None and words:
            measures += (_aimed(words, silence, minutes, aimed),)
        return replace(pace, measures=measures)


def _rate_verdict(rate: float) -> Verdict:
    # A hair's breadth of rounding in 60 * words / seconds is not faster than the figure.
    if rate > FAIL_RATE + 1e-6:
        return Verdict.FAILURE
    return Verdict.WARNING if rate > WARN_RATE + 1e-6 else Verdict.FINE


def _measures(pace: ChapterPace, counts: Sequence[int], level: str, language: str) -> tuple[Measure, ...]:
    if pace.longest_sentence is None or pace.reading_ease is None:
        return ()
    table = prose(language).reading
    asked = EASE_ASKED.get(level, EASE_ASKED["further"])
    long = sum(count > LONG_SENTENCE for count in counts)
    terms = ", ".join(term for term, _, _ in pace.new_terms)
    opening = " ".join(pace.longest_sentence.text.split()[:5])
    rate = pace.words_per_minute
    return (
        _held(
            ("words a minute", rate, "words/min"), WARN_RATE, _RATE_SOURCE, _rate_verdict(rate), "Speak more slowly."
        ),
        _held(
            ("longest sentence", max(counts), "words"),
            LONG_SENTENCE,
            _LENGTH_SOURCE,
            _warning_if(long > 0),
            f"Cut {long} of {len(counts)} sentences; the longest begins '{opening} …'.",
        ),
        _held(
            ("new terms a minute", pace.new_terms_per_minute, "terms/min"),
            MOST_NEW_TERMS,
            _TERMS_SOURCE,
            _warning_if(pace.new_terms_per_minute > MOST_NEW_TERMS),
            f"Spread these out, or leave some for another lesson: {terms}.",
        ),
        _held(
            (str(table["formula"]), pace.reading_ease, ""),
            asked,
            f"{table['source']}; own figure for the level {level}: at least {asked:g}",
            _warning_if(pace.reading_ease < asked),
            "Shorter sentences and shorter words make it plainer.",
        ),
    )


def _held(found: tuple[str, float, str], figure: float, source: str, verdict: Verdict, advice: str) -> Measure:
    """Set a measure (name, value, unit) beside its figure; the advice is given where it is needed."""
    return Measure(*found, figure, source, verdict, "" if verdict is Verdict.FINE else advice)


def _warning_if(condition: bool) -> Verdict:  # noqa: FBT001 - the one thing it is about
    return Verdict.WARNING if condition else Verdict.FINE


def _aimed(words: int, silence: float, minutes: float, aimed: float) -> Measure:
    """Hold the words against the length that the front matter aims at."""
    left = 60 * aimed - silence
    needed = 60 * words / left if left > 0 else float("inf")
    advice = f"It lasts {minutes:.1f} minutes: shorten it, or aim at more than {aimed:g}."
    found = ("rate for the length aimed at", needed, "words/min")
    return _held(found, WARN_RATE, _RATE_SOURCE, _rate_verdict(needed), advice)
