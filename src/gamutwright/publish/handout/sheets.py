"""A lesson on paper: pages of facts, exercises and music, and a sheet of answers, as tagged PDF.

The first page shows the scale as ladder, staff, keyboard and fretboard and lists every fact that the lesson told, with
value, places and source. The second has exercises computed from the scale and the written questions of the quiz. The
answers are the same exercises, solved, with a line of why. The last is of music, once in concert pitch and once more
for each key of instruments that is asked for.

The sheets are set by typst from one file of data: texts of a lesson arrive as JSON strings and are never read as code.
Type and pictures shrink in steps until a page holds its part; what the smallest cannot hold goes on on a further
page, and nothing is left out but definitions. Only four typefaces are there, so a character that none has is refused.

Conventions: PDF/UA-1 (ISO 14289-1), without dates, so that the same lesson gives the same bytes. Texts pass through
`legible`, as on the cards of the film. Long words may break anywhere.

References: typst 0.15, reference of `pdf.standards` and `image.alt`; ISO 14289-1 from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from gamutwright.errors import DomainError
from gamutwright.facts.model import Citation, WitnessKind
from gamutwright.lessons.prose import sentence_spans
from gamutwright.music.transposing import KEYS
from gamutwright.phrasing.values import pointing_words
from gamutwright.publish.handout.exercises import Exercise, exercises
from gamutwright.publish.handout.music_page import has_music, music_page
from gamutwright.publish.handout.printed_figures import Plate, blank_plate, plate, plates_of
from gamutwright.publish.handout.sheet_words import SheetWords, sheet_words
from gamutwright.publish.handout.typefaces import FAMILIES
from gamutwright.publish.handout.typesetting import BREAK, Texts, author_of, typeset
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.told_lesson import Lesson, Telling
from gamutwright.theory.naming import names_of
from gamutwright.theory.spelling import tone_name_map

__all__ = ["PAPERS", "Handout", "handout"]

PAPERS = {"a4": "a4", "letter": "us-letter"}
"""Sizes of paper, and what typst calls them."""

"""A zero-width space, where a word without an end may break."""
_MOST_PAGES = 9


@dataclass(frozen=True, slots=True)
class Handout:
    """The printed sheets of a lesson.

    Parameters
    ----------
    sheet : bytes
        Facts, exercises and music, a PDF.
    answers : bytes
        The exercises solved, a PDF.
    printed : tuple of (str, str)
        What they print: origin and text. Origins are `scale`, `lesson`, `sheet` (fixed words and numbering), `fact:`,
        `source:`, `exercise:`, `quiz:` with their ids, and `music`. Page numbers are listed up to the largest a
        sheet may have.
    """

    sheet: bytes
    answers: bytes
    printed: tuple[tuple[str, str], ...]


def handout(
    lesson: Lesson, questions: tuple[Question, ...], *, paper: str = "a4", written_for: tuple[str, ...] = ()
) -> Handout:
    """Print a lesson.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    questions : tuple of Question
        Its quiz; questions to listen to are left out, since paper is silent.
    paper : str
        a4 or letter.
    written_for : tuple of str
        Keys of transposing instruments, each of which gets a page of music: Bb, Eb, F.

    Returns
    -------
    Handout
        Two PDF files, and what they print.

    Raises
    ------
    DomainError
        If there is no such paper or key, or no words in the lesson's language.
    MissingPartError
        If typst or a font is not installed.
    """
    data, texts = _data(lesson, questions, paper, written_for)
    answers = {**data, **data["solved"], "is-answers": True}
    return Handout(typeset("sheet.typ", data)[0], typeset("sheet.typ", answers)[0], tuple(dict.fromkeys(texts.printed)))


def _data(
    lesson: Lesson, questions: tuple[Question, ...], paper: str, written_for: tuple[str, ...] = ()
) -> tuple[dict[str, Any], Texts]:
    if paper not in PAPERS:
        raise DomainError(f"paper '{paper}'", "there is no such paper", f"Choose one of {', '.join(PAPERS)}.")
    unknown = [key for key in written_for if key not in KEYS]
    if unknown:
        raise DomainError(f"instruments in '{unknown[0]}'", "there are none", f"Choose one of {', '.join(KEYS)}.")
    texts, words = Texts(), sheet_words(lesson.language)
    language = words.language
    tones = _tones(lesson)
    title = texts.put("lesson", lesson.title) or texts.put("scale", " ".join(tones))
    tasks = exercises(lesson.scale, language)
    written = tuple(question for question in questions if not question.sound)
    data: dict[str, Any] = {
        "language": language,
        "paper": PAPERS[paper],
        "families": FAMILIES,
        "is-answers": False,
        "title": title,
        "document": title.replace(BREAK, ""),
        "author": author_of(lesson),
        "subtitle": _subtitle(lesson, tones, texts, words),
        "footer": texts.put("sheet", words.say("made-with")),
        "pages": [texts.put("sheet", words.say("page", page=page)) for page in range(1, _MOST_PAGES + 1)],
        "plates": [_plate_data(shown) for shown in plates_of(lesson.scale, language, tones)],
        "caption": texts.put("sheet", words.say("ladder-caption")),
        "facts": _facts(lesson, texts, words),
        "sources": _sources(lesson, texts, words),
        "cautions": _cautions(lesson, texts, words),
        "blanks": [texts.put("sheet", words.say(key)) for key in ("name-line", "date-line")],
        "exercises": [_task(lesson, number, task, texts) for number, task in enumerate(tasks, 1)],
        "questions": [_question(number, question, texts) for number, question in enumerate(written, len(tasks) + 1)],
        "music": [
            _music(lesson, key, texts, words) for key in dict.fromkeys(("", *written_for)) if has_music(lesson.scale)
        ],
    }
    for key in ("sources", "exercises", "questions", "notes"):
        data[f"{key}-heading"] = texts.put("sheet", words.say(key))
    data["tick-one"] = texts.put("sheet", words.say("tick-one"))
    solved = [_task(lesson, number, task, texts, is_solved=True) for number, task in enumerate(tasks, 1)]
    heading = texts.put("lesson", f"{words.say('answers')}: {lesson.title}")
    data["solved"] = {"exercises": solved, "title": heading, "document": heading.replace(BREAK, "")}
    return data, texts


def _tones(lesson: Lesson) -> tuple[str, ...]:
    scale = lesson.scale
    if scale.divisions != 12:
        return tuple(str(pitch_class) for pitch_class in scale.pitch_classes)
    return lesson.note_names


def _subtitle(lesson: Lesson, tones: tuple[str, ...], texts: Texts, words: SheetWords) -> list[str]:
    """Say which course and lesson it is, and what the tones are."""
    others = lesson.others
    number = others.get("lesson", "")
    parts = [others.get("course", ""), words.say("lesson-number", number=number) if number else ""]
    rows = [texts.put("lesson", " · ".join(part for part in parts if part))] if any(parts) else []
    key = "tones-line" if lesson.scale.divisions == 12 else "steps-line"
    rows.append(texts.put("scale", words.say(key, tones=" ".join(tones), all=lesson.scale.divisions)))
    return rows


def _facts(lesson: Lesson, texts: Texts, words: SheetWords) -> dict[str, Any]:
    numbers = _source_numbers(lesson)
    rows = []
    for telling in lesson.tellings:
        origin = f"fact:{telling.fact.id}"
        cited = sorted({numbers[citation.source.key] for citation in telling.sources})
        rows.append(
            {
                "title": texts.put(origin, telling.title),
                "value": texts.put(origin, telling.text),
                "places": texts.put(origin, _places(lesson, telling)),
                "definition": texts.put(origin, telling.definition),
                "short": texts.put(origin, _first_sentence(telling.definition, lesson.language)),
                "refs": texts.put(origin, "".join(f"[{number}]" for number in cited)),
            }
        )
    columns = [
        texts.put("sheet", words.say("fact")),
        texts.put("sheet", f"{words.say('value')} · {words.say('places')}"),
    ]
    return {"heading": texts.put("sheet", words.say("facts")), "columns": columns, "rows": rows}


def _places(lesson: Lesson, telling: Telling) -> str:
    """Give the places, but not where a voice can only point at them, or where the value names them already."""
    if not telling.witnesses or telling.places == pointing_words(len(telling.witnesses), lesson.language):
        return ""
    if lesson.scale.divisions == 12:
        spelled = tone_name_map(lesson.scale)
        singles = [witness.parts[0] for witness in telling.witnesses if witness.kind is WitnessKind.TONE]
        if telling.value == tuple(spelled.get(part[0], "") for part in singles):
            return ""
    return telling.places


def _first_sentence(definition: str, language: str) -> str:
    (start, end), *_ = sentence_spans(definition, language)
    return definition[start:end]


def _citations(lesson: Lesson) -> dict[str, list[Citation]]:
    found: dict[str, list[Citation]] = {}
    for telling in lesson.tellings:
        for citation in telling.sources:
            found.setdefault(citation.source.key, []).append(citation)
    return found


def _source_numbers(lesson: Lesson) -> dict[str, int]:
    return {key: number for number, key in enumerate(_citations(lesson), 1)}


def _sources(lesson: Lesson, texts: Texts, words: SheetWords) -> list[dict[str, str]]:
    rows = []
    for number, (key, citations) in enumerate(_citations(lesson).items(), 1):
        source = citations[0].source
        if source.author:
            line = words.say("source-line", author=source.author, title=source.title, year=source.year)
            locators = "; ".join(dict.fromkeys(citation.locator for citation in citations if citation.locator))
            where = words.say("source-where", where=source.where, locator=locators) if locators else source.where
            text = f"{line}. {where}" if where else line
        else:
            text = words.say("practice") if key == "practice" else source.title
        rows.append({"number": texts.put(f"source:{key}", f"[{number}]"), "text": texts.put(f"source:{key}", text)})
    return rows


def _cautions(lesson: Lesson, texts: Texts, words: SheetWords) -> list[str]:
    """Say so where a name comes from a tradition that tunes otherwise."""
    own = lesson.others.get("tradition", "")
    first = next(iter(names_of(lesson.scale)), None)
    said = [words.say("tradition-own", tradition=own)] if own else []
    if not own and first is not None and not first.is_tempered:
        tradition = words.say(f"tradition-{first.tradition.replace(' ', '-').casefold()}")
        said.append(words.say("tradition-line", name=first.name, tradition=tradition, source=first.source))
    if said:
        said.append(words.say("tradition-caution"))
    return [texts.put("scale", line) for line in said]


def _music(lesson: Lesson, key: str, texts: Texts, words: SheetWords) -> dict[str, Any]:
    made = music_page(lesson.scale, words.language, key)
    rows = {name: texts.put("music", getattr(made, name)) for name in ("heading", "remark", "tones", "chords")}
    empty = blank_plate("staff", lesson.scale, words.language, "")
    return rows | {
        "lines": [
            {"title": texts.put("music", line.title), "plate": _plate_data(line.plate), "share": line.share}
            for line in made.lines
        ],
        "chart-title": texts.put("music", words.say("music-chart")),
        "chart": [
            {"symbol": texts.put("music", bar.symbol), "tones": texts.put("music", bar.tones)} for bar in made.chart
        ],
        "own": texts.put("music", words.say("music-own")),
        "empty": _plate_data(empty),
    }


def _plate_data(shown: Plate) -> dict[str, Any]:
    return {"id": shown.id, "svg": shown.svg, "alt": shown.alt, "ratio": shown.ratio}


def _task(lesson: Lesson, number: int, task: Exercise, texts: Texts, *, is_solved: bool = False) -> dict[str, Any]:
    origin = f"exercise:{task.id}"
    tones = _tones(lesson)
    shown: Plate | None = None
    if task.id in {"staff", "ring"}:
        language = sheet_words(lesson.language).language
        diagram = "staff" if task.id == "staff" else "clock"
        shown = (
            plate(diagram, lesson.scale, language, tones)
            if is_solved
            else blank_plate(task.id, lesson.scale, language, tones[0])
        )
    return {
        "id": task.id,
        "number": texts.put(origin, f"{number}."),
        "prompt": texts.put(origin, task.prompt),
        "why": texts.put(origin, task.why),
        "plate": _plate_data(shown) if shown else None,
        "rows": [
            {
                "label": texts.put(origin, row.label),
                "answers": [texts.put(origin, answer) for answer in row.answers],
                "given": row.given,
            }
            for row in task.rows
        ],
        "ticks": [{"text": texts.put(origin, tick.text), "right": tick.is_right} for tick in task.ticks],
    }


def _question(number: int, question: Question, texts: Texts) -> dict[str, Any]:
    origin = f"quiz:{question.id}"
    return {
        "number": texts.put(origin, f"{number}."),
        "prompt": texts.put(origin, question.prompt),
        "choices": [texts.put(origin, choice.text) for choice in question.choices],
        "right": texts.put(origin, question.right.text),
        "why": texts.put(origin, question.right.why),
    }
