"""The printed sheets, read back by pypdf: every fact is there, nothing else speaks, and the file is tagged."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import cache

import pypdf
import pytest
from PIL import Image
from pypdf.generic import DictionaryObject

from gamutwright.errors import DomainError
from gamutwright.publish.handout import sheets as module
from gamutwright.publish.handout.exercises import exercises
from gamutwright.publish.handout.sheets import Handout, handout
from gamutwright.publish.handout.typesetting import typeset
from gamutwright.publish.quiz.question import Choice, Question
from gamutwright.publish.told_lesson import Lesson
from gamutwright.theory.naming import all_names, names_of
from publish.lessons import lesson, lesson_from, source_of
from thinning import usually

LESSONS = {
    "acoustic": ("G acoustic", "en", 4.0, 12),
    "pentatonic": ("A minor pentatonic", "de", 4.0, 12),
    "chromatic": ("C chromatic", "en", 4.0, 12),
    "thirty-one": ("0 5 10 13 18 23 28", "en", 4.0, 31),
    "twenty facts": ("C# harmonic minor", "de", 8.0, 12),
}
USUAL = usually(LESSONS, "pentatonic", "thirty-one", "twenty facts")
FONTS = {"SourceSansPro-Regular", "SourceSansPro-Semibold", "SourceSerifPro-Semibold", "GamutwrightSigns-Regular"}
HOSTILE = [
    '#import "@preview/x:1.0.0": *',
    '#read("/etc/passwd") #eval("1+1") $x^2$',
    "\\ \\u{41} @ref <label> *b* _i_ `raw` // no comment /* none */",
    "<script>alert('x')</script> & \"quoted\"",
]


def questions(of: Lesson) -> tuple[Question, ...]:
    """Ask for the first facts of a lesson, and for one by ear."""
    asked = tuple(
        Question(
            f"ask-{telling.fact.id.replace('_', '-')}",
            f"Which is right for {telling.title}?",
            (
                Choice(telling.text, is_right=True, why=f"That is {telling.title}."),
                Choice("§", is_right=False, why=""),
                Choice("¶", is_right=False, why=""),
            ),
            telling.fact.id,
        )
        for telling in of.tellings[:4]
    )
    heard = Question(
        "by-ear",
        "Which do you hear?",
        (Choice("this", is_right=True, why=""), Choice("that", is_right=False, why="")),
        "",
        "sound",
    )
    return (*asked, heard)


@cache
def printed(name: str) -> Handout:
    return handout(lesson(*LESSONS[name]), questions(lesson(*LESSONS[name])))


def reader(file: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(file))


def plain(text: str) -> str:
    """Without blanks and invisible breaks: lines end anywhere."""
    return re.sub(r"[\s\u200b\u00ad]+", "", text)


def pages_of(told: Lesson) -> int:
    """Facts, exercises, and music where there is a staff."""
    return 3 if told.scale.divisions == 12 else 2


def text_of(file: bytes) -> str:
    return plain("".join(page.extract_text() for page in reader(file).pages))


@pytest.mark.parametrize("name", USUAL)
def test_every_fact_is_on_the_first_page(name: str):
    told = lesson(*LESSONS[name])
    pages = [plain(page.extract_text()) for page in reader(printed(name).sheet).pages]
    assert len(pages) == pages_of(told)
    assert told.tellings
    for telling in told.tellings:
        assert plain(telling.title) in pages[0]
        assert plain(telling.text) in pages[0]
        for citation in telling.sources:
            assert plain(citation.source.author) in pages[0]


def test_definitions_and_places_are_there_where_there_is_room():
    told = lesson(*LESSONS["acoustic"])
    first = plain(reader(printed("acoustic").sheet).pages[0].extract_text())
    assert all(plain(telling.definition) in first for telling in told.tellings)
    assert plain("C sharp to D and E to F") in first


@pytest.mark.parametrize("name", USUAL)
def test_every_number_comes_from_the_list_of_what_is_printed(name: str):
    """The PDF is searched for figures apart from the code that made it."""
    told = lesson(*LESSONS[name])
    listed = printed(name).printed
    known = {number for _, text in listed for number in re.findall(r"\d+", text)}
    for file in (printed(name).sheet, printed(name).answers):
        for page in reader(file).pages:
            found = set(re.findall(r"\d+", page.extract_text()))
            assert found
            assert found <= known
    origins = {origin.partition(":")[0] for origin, _ in listed}
    music = {"music"} if told.scale.divisions == 12 else set()
    assert origins == {"fact", "source", "quiz", "exercise", "lesson", "scale", "sheet"} | music
    assert {f"fact:{telling.fact.id}" for telling in told.tellings} <= {origin for origin, _ in listed}


@pytest.mark.parametrize("name", USUAL)
def test_answers_solve_what_the_sheet_asks(name: str):
    told = lesson(*LESSONS[name])
    sheet, answers = text_of(printed(name).sheet), text_of(printed(name).answers)
    for exercise in exercises(told.scale, told.language):
        assert plain(exercise.prompt) in sheet
        assert plain(exercise.prompt) in answers
        assert plain(exercise.why) in answers
        assert plain(exercise.why) not in sheet
        for row in exercise.rows:
            assert plain(row.label + (":" if row.label else "") + "".join(row.answers)) in answers
    *written, heard = questions(told)
    for question in written:
        assert all(plain(text) in sheet for text in (question.prompt, *(choice.text for choice in question.choices)))
        assert plain(question.right.why) in answers
        assert plain(question.right.why) not in sheet
    assert plain(heard.prompt) not in sheet + answers


def figures(node: object) -> list[DictionaryObject]:
    """Walk the tree of tags."""
    found: list[DictionaryObject] = []
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for child in node:
            found += figures(child)
    elif isinstance(node, dict):
        if node.get("/S") == "/Figure":
            found.append(DictionaryObject(node))
        found += figures(node.get("/K"))
    return found


@pytest.mark.parametrize(("name", "language"), [("acoustic", "en"), ("pentatonic", "de"), ("thirty-one", "en")])
def test_the_file_is_tagged_and_its_figures_have_words(name: str, language: str):
    """PDF/UA-1 asks for tags, a shown title, a language and words for figures (ISO 14289-1, clause 7, from memory)."""
    for file in (printed(name).sheet, printed(name).answers):
        root = reader(file).trailer["/Root"]
        assert root["/MarkInfo"]["/Marked"]
        assert root["/Lang"] == language
        assert root["/ViewerPreferences"]["/DisplayDocTitle"]
        assert "<pdfuaid:part>1" in root["/Metadata"].get_object().get_data().decode()
        assert lesson(*LESSONS[name]).title in (reader(file).metadata.title or "")
        shown = figures(root["/StructTreeRoot"])
        assert len(shown) >= (1 if file == printed(name).answers else 3)
        assert all(len(str(figure["/Alt"])) > 20 for figure in shown)


@pytest.mark.parametrize("name", USUAL)
def test_only_our_typefaces_speak(name: str):
    for file in (printed(name).sheet, printed(name).answers):
        found = set()
        for page in reader(file).pages:
            for font in page["/Resources"].get("/Font", {}).values():
                found.add(str(font.get_object()["/BaseFont"])[1:].partition("+")[2].removesuffix("-Identity-H"))
        assert found
        assert found <= FONTS


def test_a_character_without_a_glyph_is_refused():
    data, _ = module._data(lesson(), (), "a4")
    with pytest.raises(DomainError, match="could not be displayed"):
        typeset("sheet.typ", {**data, "footer": "中"})


def test_accidentals_can_be_copied():
    told = replace(lesson(), title="F𝄪 and B𝄫, C♯, E♭, A♮")
    assert "F𝄪 and B𝄫, C♯, E♭, A♮" in reader(handout(told, ()).sheet).pages[0].extract_text()


@pytest.mark.parametrize("text", HOSTILE)
def test_texts_are_never_read_as_code(text: str):
    told = lesson_from(source_of("C major").replace("---\n", f"---\ncourse: {text}\nlesson: {text}\n", 1))
    told = replace(told, title=text)
    asked = (
        Question("q", text, (Choice(text, is_right=True, why=text), Choice("other", is_right=False, why=text)), ""),
    )
    made = handout(told, asked)
    assert text_of(made.sheet).count(plain(text)) >= 4
    assert text_of(made.answers).count(plain(text)) >= 4
    assert reader(made.sheet).metadata.title == text
    assert "root:" not in text_of(made.sheet)


@pytest.mark.parametrize(
    ("title", "shown"),
    [
        ("a\0b\x07\x1b[31mc\u202ed", "a b [31mcd"),
        ("Tide 🎵 tables 👩‍👩‍👧", "Tide tables"),
        ("عربي", "····"),
        ("Ελληνικά Кириллица Nguyễn", "Ελληνικά Кириллица Nguyễn"),
        ("harbour " * 38, "harbour " * 38),
        ("W" * 300, "W" * 300),
        ("🎵", "Tones:"),
    ],
)
def test_odd_titles_are_harmless_and_legible(title: str, shown: str):
    made = handout(replace(lesson(), title=title), ())
    assert plain(shown) in plain(reader(made.sheet).pages[0].extract_text())
    assert len(reader(made.sheet).pages) == 3
    assert all(ord(letter) >= 32 or letter.isspace() for letter in reader(made.sheet).pages[0].extract_text())


def test_a_word_without_an_end_stays_on_the_page():
    """Nothing is printed in the margin of 16 mm."""
    data, _ = module._data(replace(lesson(), title="W" * 300), (), "a4")
    for page in typeset("sheet.typ", data, "png"):
        picture = Image.open(io.BytesIO(page)).convert("L")
        margin = round(picture.width * 15 / 210)
        assert picture.crop((picture.width - margin, 0, picture.width, picture.height)).getextrema() == (255, 255)


def test_the_sheet_needs_no_colour():
    for name in ("acoustic", "thirty-one"):
        data, _ = module._data(lesson(*LESSONS[name]), questions(lesson(*LESSONS[name])), "a4")
        for solved in ({}, {**data["solved"], "is-answers": True}):
            for page in typeset("sheet.typ", {**data, **solved}, "png"):
                red, green, blue = Image.open(io.BytesIO(page)).convert("RGB").split()
                assert red.tobytes() == green.tobytes() == blue.tobytes()
                assert red.getextrema()[0] < 20


def test_sizes_of_paper():
    """A4 is 210 x 297 mm (ISO 216); letter is 8.5 x 11 inches (ANSI/ASME Y14.1, from memory)."""
    a4 = reader(printed("acoustic").sheet).pages[0].mediabox
    assert (float(a4.width), float(a4.height)) == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.01)
    made = handout(lesson(*LESSONS["acoustic"]), questions(lesson(*LESSONS["acoustic"])), paper="letter")
    assert len(reader(made.sheet).pages) == 3
    letter = reader(made.sheet).pages[0].mediabox
    assert (float(letter.width), float(letter.height)) == pytest.approx((612, 792), abs=0.01)
    with pytest.raises(DomainError, match="a4, letter"):
        handout(lesson(), (), paper="a5")


def test_the_same_lesson_gives_the_same_bytes():
    told = lesson(*LESSONS["acoustic"])
    assert handout(told, questions(told)) == printed("acoustic")
    assert b"/CreationDate" not in printed("acoustic").sheet


def test_more_facts_than_a_page_holds_go_on():
    """Nothing is left out: a lesson four times as long has a further page, and exercises still begin on a page."""
    told = lesson("G acoustic", minutes=12.0, story="portrait")
    assert len(told.tellings) > 30
    assert len(reader(handout(told, questions(told)).sheet).pages) >= 3
    long = replace(told, tellings=told.tellings * 4)
    pages = [plain(page.extract_text()) for page in reader(handout(long, questions(told)).sheet).pages]
    assert len(pages) > 3
    together = "".join(pages[:-2])
    assert all(together.count(plain(telling.title)) >= 4 for telling in told.tellings)
    assert plain(exercises(told.scale, "en")[0].prompt) in pages[-2]


def test_a_name_from_a_tradition_of_another_tuning_says_so():
    """Japanese scales are not tuned in twelve equal steps (common practice, no source)."""
    record = next(record for record in all_names() if record.tradition == "Japanese scales"
                  and names_of(record.scale)[0] is record)  # fmt: skip
    text = text_of(handout(lesson(" ".join(map(str, record.scale.tones))), ()).sheet)
    assert plain(f"The name {record.name} comes from: Japanese scales. Source: {record.source}.") in text
    assert plain("They are not its tuning.") in text


def test_own_tradition_is_named():
    told = lesson_from(source_of("C major").replace("---\n", "---\ntradition: songs of the quay\n", 1))
    text = text_of(handout(told, ()).sheet)
    assert plain("Tradition: songs of the quay.") in text
    assert plain("They are not its tuning.") in text
    assert plain("They are not its tuning.") not in text_of(printed("acoustic").sheet)


@pytest.mark.parametrize(
    ("lines", "author"),
    [
        ("", "Gamutwright"),
        ("course: Harbour Music School\n", "Harbour Music School"),
        ("course: Harbour Music School\nspeaker: the built-in voice\n", "the built-in voice"),
        ("speaker: A voice\nauthor: Evening class\n", "Evening class"),
    ],
)
def test_both_sheets_name_an_author(lines: str, author: str):
    source = re.sub(r"^course: .*\n", "", source_of("C E G"), flags=re.MULTILINE).replace("---\n", f"---\n{lines}", 1)
    made = handout(lesson_from(source), ())
    for sheet in (made.sheet, made.answers):
        assert pypdf.PdfReader(io.BytesIO(sheet)).metadata.author == author
