"""The parts of a page as plain records for its template: transcript, facts, quiz, sources, credits.

**Conventions.** Texts are `Traced`, so that they stand in the page with their origin; times are seconds for players and
minutes and seconds for readers.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape

from gamutwright.facts.model import Citation, Source
from gamutwright.facts.roles import Basic
from gamutwright.facts.vocabulary import Evidence
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.lessons.script import Line
from gamutwright.phrasing.values import pointing_words
from gamutwright.publish.page.page_words import PageWords, Printer, Raw, Traced, tidy
from gamutwright.publish.page.plates import Drawn
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.told_lesson import Lesson, Telling, clock_time
from gamutwright.theory.naming import names_of

__all__ = [
    "AskedQuestion",
    "TimedChapter",
    "ToldFact",
    "asked_questions",
    "citation_text",
    "cited_sources",
    "names_told",
    "timed_chapters",
    "told_facts",
]


@dataclass(frozen=True, slots=True)
class TimedText:
    """A sentence and when it is spoken.

    Parameters
    ----------
    id : str
        Id of the line.
    seconds : str
        When it begins, for players.
    end_seconds : str
        When it ends.
    time : Traced
        When it begins, for readers.
    markup : Raw
        Its words, with links to facts.
    """

    id: str
    seconds: str
    end_seconds: str
    time: Traced
    markup: Raw


@dataclass(frozen=True, slots=True)
class TimedChapter:
    """A chapter with its sentences.

    Parameters
    ----------
    title : Traced
        Its title.
    time : Traced
        When it begins, for readers.
    seconds : str
        When it begins, for players.
    lines : tuple of TimedText
        What is said.
    """

    title: Traced
    time: Traced
    seconds: str
    lines: tuple[TimedText, ...]


@dataclass(frozen=True, slots=True)
class ToldFact:
    """A fact with its definition, places and sources.

    Parameters
    ----------
    id : str
        The fact's id.
    title, value, words, definition, places : Traced
        As in `Telling`.
    time : Traced
        When it is told.
    seconds : str
        The same for players.
    sources : tuple of Traced
        Where it is published.
    picture : Drawn or None
        Its picture.
    caption : Traced or None
        What to see in it.
    """

    id: str
    title: Traced
    value: Traced
    words: Traced
    definition: Traced
    places: Traced
    time: Traced
    seconds: str
    sources: tuple[Traced, ...]
    picture: Drawn | None
    caption: Traced | None


@dataclass(frozen=True, slots=True)
class AskedQuestion:
    """A question as it stands on the page.

    Parameters
    ----------
    id : str
        Its id.
    number : Traced
        Which of how many.
    prompt : Traced
        What is asked.
    choices : tuple of (Traced, Traced, bool)
        Each answer, why it is right or wrong, and whether it is right.
    sound : str
        Key of what is heard; "" for nothing.
    """

    id: str
    number: Traced
    prompt: Traced
    choices: tuple[tuple[Traced, Traced, bool], ...]
    sound: str


def _seconds(tick: int) -> str:
    return f"{tick / TICKS_PER_SECOND:.3f}".rstrip("0").rstrip(".")


def _linked(line: Line, text: str, told: frozenset[str]) -> Raw:
    """Give the words of a line as markup, with the outermost claims of facts linked to these."""
    links: list[tuple[int, int, str]] = []
    for mark in line.marks:
        fact_id = mark.get("fact") or mark.get("each") or mark.get("define") or ""
        start, end = mark.words
        if fact_id in told and not mark.get("of") and start < end and (not links or links[-1][1] <= start):
            links.append((start, end, fact_id))
    parts, at = [], 0
    for start, end, fact_id in links:
        parts += [escape(text[at:start]), f'<a href="#fact-{fact_id}">{escape(text[start:end])}</a>']
        at = end
    return Raw("".join([*parts, escape(text[at:])]))


def timed_chapters(lesson: Lesson, words: PageWords, printer: Printer) -> tuple[TimedChapter, ...]:
    """Write down what is said, by chapters, each sentence with its time.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    printer : Printer
        Told of everything that is printed.

    Returns
    -------
    tuple of TimedChapter
        In order; chapters in which nothing is said are left out.
    """
    timed = {line.id: line for line in lesson.timeline.lines}
    told = frozenset(telling.fact.id for telling in lesson.tellings)
    marks = iter(lesson.timeline.chapters)
    chapters = []
    for number, chapter in enumerate(lesson.script.chapters, 1):
        mark = next(marks, None) if chapter.title else None
        lines = []
        for line in chapter.lines:
            when = timed.get(line.id)
            if when is None or not line.text:
                continue
            origin = f"line:{line.id}"
            shown = tidy(line.text)
            printer.note(origin, shown)
            markup = _linked(line, line.text, told) if shown == line.text else Raw(escape(shown))
            lines.append(
                TimedText(
                    line.id,
                    _seconds(when.start_tick),
                    _seconds(when.end_tick),
                    printer.text(f"time:line {line.id}", clock_time(when.start_tick)),
                    Raw(f'<span data-from="{escape(origin)}">{markup}</span>'),
                )
            )
        if not lines and mark is None:
            continue
        start = mark.start_tick if mark else timed[lines[0].id].start_tick
        chapters.append(
            TimedChapter(
                printer.text(f"chapter:{number}", chapter.title or words.say("opening"), is_name=bool(chapter.title)),
                printer.text(f"time:chapter {number}", clock_time(start)),
                _seconds(start),
                tuple(lines),
            )
        )
    return tuple(chapters)


def citation_text(citation: Citation, words: PageWords, *, is_short: bool = False) -> str:
    """Write a citation with its place and how far it was checked.

    Parameters
    ----------
    citation : Citation
        The citation.
    words : PageWords
        The words of the page.
    is_short : bool
        Whether the publication is named by author and year alone.

    Returns
    -------
    str
        Without a full stop.

    Examples
    --------
    >>> from gamutwright.facts.model import Source
    >>> from gamutwright.publish.page.page_words import page_words
    >>> where = Citation(Source("x", "A. Author", "1990", "A Book", "A Press"), "p. 5")
    >>> citation_text(where, page_words("en"), is_short=True)
    'A. Author (1990), p. 5 (from memory)'
    """
    source = citation.source
    who = f"{source.author} ({source.year})" if source.author and source.year else source.author
    parts = [who, source.title if not is_short or not who else "", "" if is_short else source.where, citation.locator]
    said = ", ".join(part for part in parts if part)
    checked = words.evidence.get(citation.evidence.value, citation.evidence.value)
    return f"{said} ({checked})"


def told_facts(lesson: Lesson, pictures: dict[str, Drawn], words: PageWords, printer: Printer) -> tuple[ToldFact, ...]:
    """Gather the facts that are told.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    pictures : dict of str to Drawn
        Pictures by the ids of facts.
    words : PageWords
        The words of the page.
    printer : Printer
        Told of everything that is printed.

    Returns
    -------
    tuple of ToldFact
        In their order in the film.
    """
    return tuple(_told(telling, pictures.get(telling.fact.id), words, printer) for telling in lesson.tellings)


def _told(telling: Telling, picture: Drawn | None, words: PageWords, printer: Printer) -> ToldFact:
    origin = f"fact:{telling.fact.id}"
    spoken = telling.words if telling.words != telling.text else ""
    # "Here and here" means something beside a film that points, and nothing on a page.
    is_named = telling.places != pointing_words(len(telling.witnesses), words.language)
    return ToldFact(
        telling.fact.id,
        printer.text(origin, telling.title),
        printer.text(origin, telling.text),
        printer.text(origin, spoken),
        printer.text(origin, telling.definition),
        printer.text(origin, telling.places if is_named and telling.places not in {telling.text, spoken} else ""),
        printer.text(f"time:fact {telling.fact.id}", clock_time(telling.start_tick)),
        _seconds(telling.start_tick),
        tuple(
            printer.text(f"source:{citation.source.key}", citation_text(citation, words, is_short=True))
            for citation in telling.sources
        ),
        picture,
        printer.text(origin, picture.caption) if picture else None,
    )


def asked_questions(questions: Iterable[Question], words: PageWords, printer: Printer) -> tuple[AskedQuestion, ...]:
    """Set out the questions of a quiz.

    Parameters
    ----------
    questions : iterable of Question
        The questions.
    words : PageWords
        The words of the page.
    printer : Printer
        Told of everything that is printed.

    Returns
    -------
    tuple of AskedQuestion
        In order.
    """
    asked = tuple(questions)
    found = []
    for number, question in enumerate(asked, 1):
        origin = f"quiz:{question.id}"
        found.append(
            AskedQuestion(
                question.id,
                printer.text(origin, words.say("quiz-question", number=number, total=len(asked))),
                printer.text(origin, question.prompt),
                tuple(
                    (printer.text(origin, choice.text), printer.text(origin, choice.why), choice.is_right)
                    for choice in question.choices
                ),
                question.sound,
            )
        )
    return tuple(found)


def cited_sources(lesson: Lesson, words: PageWords, printer: Printer) -> tuple[Traced, ...]:
    """List the publications of all facts told, each once with all its places.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    printer : Printer
        Told of everything that is printed.

    Returns
    -------
    tuple of Traced
        By author and year.
    """
    cited = dict.fromkeys(citation for telling in lesson.tellings for citation in telling.sources)
    ordered = sorted(cited, key=lambda c: (not c.source.author, c.source.author, c.source.year, c.locator))
    places: dict[tuple[Source, Evidence], list[str]] = {}
    for citation in ordered:
        places.setdefault((citation.source, citation.evidence), []).append(citation.locator)
    return tuple(
        printer.text(f"source:{source.key}", citation_text(Citation(source, "; ".join(at), evidence), words))
        for (source, evidence), at in places.items()
    )


def names_told(lesson: Lesson, words: PageWords, printer: Printer) -> tuple[tuple[Traced, ...], bool]:
    """List the traditional names of the scale with tradition and source, where the lesson tells them.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    printer : Printer
        Told of everything that is printed.

    Returns
    -------
    tuple of (tuple of Traced, bool)
        The names, and whether one comes from a tradition that is tuned otherwise.
    """
    origin = next((f"fact:{told.fact.id}" for told in lesson.tellings if told.fact.roles.basic is Basic.NAMES), "")
    if not origin:
        return (), False
    records = names_of(lesson.scale)
    listed = tuple(
        printer.text(
            origin,
            words.say(
                "name-of",
                name=record.name,
                tradition=record.tradition,
                source=record.source,
                locator=record.locator,
                evidence=words.evidence.get(record.evidence, record.evidence),
            ),
        )
        for record in records
    )
    return listed, not all(record.is_tempered for record in records)
