"""A package from script to zip, read back with other people's readers.

Readers: music21 (MusicXML), mido (MIDI), pypdf (PDF), webvtt-py (captions), zipfile, lxml; checksums are recomputed.
"""

from __future__ import annotations

import hashlib
import html
import json
import re
import shutil
import zipfile
from dataclasses import replace
from pathlib import Path

import av
import jsonschema
import mido
import music21
import pypdf
import pytest
import webvtt
from lxml import etree

from gamutwright.codec import digest
from gamutwright.errors import FileError, UnprovedError
from gamutwright.jobs.outfolder import LIST
from gamutwright.lessons.parse import parse
from gamutwright.packaging import Package, make_package
from gamutwright.render.pictures import FilmStyle
from gamutwright.stages import Choices, make_film
from thinning import usually

SCRIPT = """---
scale: G A B C# D E F
title: The acoustic scale
course: Harbour Music School
lesson: 7
date: 2026-03-01
---
# Hear it

Listen to it rise from the harbour wall. {play=scale show=ladder}
And then home again. {play=cadence metre=3/4 tempo=120 show=staff}

# Steps

It has [seven]{fact=cardinality show=keyboard} tones.
It goes [G, A, B, C sharp, D, E and F]{fact=spelling show=staff}.
There are [two]{fact=semitone_steps show=ladder} semitone steps: [C sharp to D and E to F]{each=semitone_steps}.

# Chords

It has [two]{fact=major_triads} major triads.
"""
SMALL = Choices(FilmStyle(640, 360))


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Package:
    return make_package(parse(SCRIPT), tmp_path_factory.mktemp("course") / "acoustic", SMALL)


def test_everything_is_there_and_listed_with_its_digest(made: Package):
    there = {path.relative_to(made.folder).as_posix() for path in made.folder.rglob("*") if path.is_file()}
    assert there == {*made.files, LIST}
    assert {
        "film.mp4", "poster.png", "captions.vtt", "captions.srt", "chapters.vtt", "index.html", "handout.pdf",
        "answers.pdf", "score.musicxml", "quiz.imscc", "publish.md", "metadata.jsonld", "ledger.json", "script.md",
        "ro-crate-metadata.json",
    } <= there  # fmt: skip
    graph = json.loads((made.folder / "ro-crate-metadata.json").read_text("utf-8"))["@graph"]
    listed = {entry["@id"]: entry for entry in graph if entry["@type"] == "File"}
    assert set(listed) == there - {"ro-crate-metadata.json", LIST}
    for name, entry in listed.items():
        content = (made.folder / name).read_bytes()
        assert (entry["sha256"], entry["contentSize"]) == (hashlib.sha256(content).hexdigest(), str(len(content))), name


def test_the_zip_holds_the_folder(made: Package):
    with zipfile.ZipFile(made.bundle) as bundle:
        assert bundle.testzip() is None
        assert {name.removeprefix("acoustic/") for name in bundle.namelist()} == set(made.files)
        for name in made.files:
            assert bundle.read(f"acoustic/{name}") == (made.folder / name).read_bytes()


def test_equal_content_gives_equal_bytes(made: Package, tmp_path: Path):
    again = make_package(parse(SCRIPT), tmp_path / "acoustic", SMALL)
    for name in made.files:
        assert (again.folder / name).read_bytes() == (made.folder / name).read_bytes(), name
    assert again.bundle.read_bytes() == made.bundle.read_bytes()


def test_the_ledger_holds_every_number_that_is_printed(made: Package):
    book = json.loads((made.folder / "ledger.json").read_text("utf-8"))
    assert book["digest"] == digest({key: value for key, value in book.items() if key != "digest"})
    schema = Path(__file__).parents[1] / "src/gamutwright/schemas/ledger.schema.json"
    jsonschema.validate(book, json.loads(schema.read_text("utf-8")))
    known = {number for _, text in book["lesson"]["printed"] for number in numbers(text)}
    page = (made.folder / "index.html").read_text("utf-8")
    seen = re.sub(r"<(script|style)\b.*?</\1>", " ", page, flags=re.DOTALL)
    for name, text in (
        ("page", html.unescape(re.sub(r"<[^>]*>", " ", seen))),
        *((sheet, pdf_text(made.folder / sheet)) for sheet in ("handout.pdf", "answers.pdf")),
    ):
        assert set(numbers(text)) <= known, (name, sorted(set(numbers(text)) - known))
    assert len(known) > 10


def numbers(text: str) -> list[str]:
    return re.findall(r"\d+(?:[.,:/]\d+)*", text)


def pdf_text(path: Path) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(path).pages)


def test_the_handout_says_every_fact(made: Package):
    text = " ".join(pdf_text(made.folder / "handout.pdf").split())
    for telling in made.lesson.tellings:
        assert telling.text in text, telling.title


def test_the_score_is_read_by_music21(made: Package):
    score = music21.converter.parse(made.folder / "score.musicxml")
    first = [note.pitch.name for note in score.recurse().notes if note.isNote][:7]
    assert first == ["G", "A", "B", "C#", "D", "E", "F"]


def test_sounds_are_read_by_mido_and_ffmpeg(made: Package):
    events = sorted(made.folder.glob("sounds/*.mid"))
    assert events
    for path in events:
        pressed = [m.note % 12 for m in mido.MidiFile(path) if m.type == "note_on" and m.velocity]
        assert set(pressed) <= {7, 9, 11, 1, 2, 4, 5}
        with av.open(str(path.with_suffix(".flac"))) as file:
            assert file.streams.audio[0].rate == 48_000


def test_music_has_a_score_of_its_own(made: Package):
    """Home, the chord of colour, home, in three bars of three quarters, chords over a bass."""
    folder = made.folder
    (path,) = (folder / "sounds").glob("*.musicxml")
    assert path.name == "cadence-tempo-120-metre-3-4.musicxml"
    score = music21.converter.parse(path)
    assert [len(part.getElementsByClass("Measure")) for part in score.parts] == [3, 3]
    symbols = [one.figure for one in score.recurse().getElementsByClass(music21.harmony.ChordSymbol)]
    assert symbols[0] == symbols[-1] == "G"
    assert next(iter(score.recurse().getElementsByClass(music21.tempo.MetronomeMark))).number == 120


def test_there_is_a_minute_or_two_to_play_along_with(made: Package, tmp_path: Path):
    """Decoded and read by ffmpeg, mido and pypdf; G and D minor are the chords of the acoustic scale on G."""
    with av.open(made.folder / "play-along.m4a") as file:
        assert 60 < file.duration / av.time_base < 120
    events = mido.MidiFile(made.folder / "play-along.mid")
    assert 60 < events.length < 120
    (page,) = pypdf.PdfReader(made.folder / "play-along.pdf").pages
    assert {"G", "Dm"} <= set(page.extract_text().split())
    written = (made.folder / "index.html").read_text("utf-8")
    assert all(re.search(rf'href="[^"]*play-along\.{ending}"?[ >]', written) for ending in ("m4a", "mid", "pdf"))
    without = make_package(parse(SCRIPT), tmp_path / "acoustic", replace(SMALL, play_along=False))
    assert set(made.files) - set(without.files) == {"play-along.m4a", "play-along.mid", "play-along.pdf"}


def test_captions_are_read_by_another_reader(made: Package):
    read = webvtt.read(str(made.folder / "captions.vtt"))
    assert " ".join(caption.text.replace("\n", " ") for caption in read.captions).startswith("Listen to it rise")
    assert len(webvtt.from_srt(str(made.folder / "captions.srt")).captions) == len(read.captions)


def test_quiz_files_are_well_formed(made: Package):
    with zipfile.ZipFile(made.folder / "quiz.imscc") as cartridge:
        assert "imsmanifest.xml" in cartridge.namelist()
        for name in cartridge.namelist():
            if name.endswith(".xml"):
                etree.fromstring(cartridge.read(name))
    with zipfile.ZipFile(made.folder / "quiz-qti3.zip") as package:
        names = [name for name in package.namelist() if name.endswith(".xml")]
        assert "imsmanifest.xml" in names
        for name in names:
            etree.fromstring(package.read(name))


def test_what_a_teacher_put_there_stays(made: Package, tmp_path: Path):
    folder = tmp_path / "acoustic"
    shutil.copytree(made.folder, folder)
    (folder / "notes").mkdir()
    (folder / "notes" / "mine.txt").write_text("ask the choir")
    (folder / "index.html").write_text("my own page")
    again = make_package(
        parse(SCRIPT.replace("[two]{fact=major_triads}", "just [two]{fact=major_triads}")), folder, SMALL
    )
    assert (folder / "notes" / "mine.txt").read_text() == "ask the choir"
    assert "just two" in (folder / "captions.vtt").read_text("utf-8")
    changed, as_made = again.kept
    assert (changed / "index.html").read_text() == "my own page"
    assert (as_made / "captions.vtt").read_bytes() == (made.folder / "captions.vtt").read_bytes()
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith(".")] == [".acoustic.replaced"]


def test_a_failure_leaves_the_old_package(made: Package, tmp_path: Path):
    folder = tmp_path / "acoustic"
    shutil.copytree(made.folder, folder)
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    with pytest.raises(UnprovedError):
        make_package(parse(SCRIPT.replace("[seven]", "[nine]")), folder, SMALL)
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before
    assert [path.name for path in tmp_path.iterdir()] == ["acoustic"]


@pytest.mark.parametrize("there", ["index.html", "../acoustic.zip"])
def test_what_somebody_else_made_is_not_replaced(there: str, tmp_path: Path):
    folder = tmp_path / "acoustic"
    folder.mkdir()
    (folder / there).write_text("mine")
    for choices in (SMALL, replace(SMALL, adds=True)):
        with pytest.raises(FileError, match=r"Give a folder of its own|Move it away"):
            make_package(parse(SCRIPT), folder, choices)
    assert (folder / there).read_text() == "mine"
    assert len(list(tmp_path.iterdir())) <= 2


def test_a_film_and_a_package_share_a_folder(made: Package, tmp_path: Path):
    folder = tmp_path / "acoustic"
    make_film(parse(SCRIPT), folder, SMALL)
    make_package(parse(SCRIPT), folder, SMALL)
    assert {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()} == {*made.files, LIST}


def test_what_another_machine_is_making_is_left_alone(tmp_path: Path):
    folder = tmp_path / "acoustic"
    there = tmp_path / f".acoustic-{2**22 + 1}.lighthouse-new"
    there.mkdir()
    make_package(parse(SCRIPT), folder, SMALL)
    assert there.is_dir()


def test_a_place_that_cannot_be_made_is_said(tmp_path: Path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(FileError, match="another place"):
        make_package(parse(SCRIPT), tmp_path / "file" / "acoustic", SMALL)


HOSTILE = ("<script>alert(1)</script>", "\"quotes\" & 'ticks' `code`", "שיר \u202e!\u202c", "🎻 fiddles", "x" * 300)


@pytest.mark.parametrize("title", usually(HOSTILE, HOSTILE[0]))
def test_hostile_titles_are_harmless_everywhere(title: str, tmp_path: Path):
    script = SCRIPT.replace("title: The acoustic scale", f"title: {title}").replace("Harbour Music School", title)
    try:
        made = make_package(parse(script), tmp_path / "acoustic", SMALL)
    except (FileError, UnprovedError):
        pytest.fail("a title must not stop a lesson")
    page = (made.folder / "index.html").read_text("utf-8")
    assert "<script>alert(1)" not in page
    etree.parse(made.folder / "score.musicxml")
    json.loads((made.folder / "metadata.jsonld").read_text("utf-8"))
    assert len(pypdf.PdfReader(made.folder / "handout.pdf").pages) >= 1
    with av.open(str(made.folder / "film.mp4")) as film:
        assert film.metadata["title"]
