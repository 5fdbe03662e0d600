"""Sounding, speaking, recording, auditing and rendering as a teacher types it."""

from __future__ import annotations

import json
import subprocess
import wave
from pathlib import Path

import av
import mido
import pypdf
import pytest

from cli.typed import run

SCRIPT = """---
scale: C D E F G A B
---
# Climbing it

Tonight we climb the harbour stairs.

It has [two]{fact=semitone_steps} semitone steps. {play=scale show=ladder}
"""


def is_plain_error(done: subprocess.CompletedProcess[str], *words: str) -> bool:
    return done.returncode == 2 and "Traceback" not in done.stderr and all(word in done.stderr for word in words)


def test_a_scale_is_sounded(tmp_path: Path):
    done = run("sound", "D", "dorian", "-o", "dorian.wav", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "-16.0 LUFS" in done.stdout
    with wave.open(str(tmp_path / "dorian.wav")) as file:
        assert file.getframerate() == 48_000
    done = run("sound", "D", "dorian", "--phrase", "up", "-o", "dorian.mid", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    notes = [m.note % 12 for m in mido.MidiFile(tmp_path / "dorian.mid") if m.type == "note_on" and m.velocity]
    assert notes == [2, 4, 5, 7, 9, 11, 0, 2]
    assert is_plain_error(run("sound", "D", "dorian", "-o", "dorian.txt", cwd=tmp_path), ".txt")
    assert is_plain_error(run("sound", "D", "dorian", "--tuning", "sour", "-o", "a.wav", cwd=tmp_path), "sour")
    assert is_plain_error(run("sound", "D", "dorian", "--phrase", "shout", "-o", "a.wav", cwd=tmp_path), "shout")


def test_a_line_is_spoken_with_the_times_of_its_words(tmp_path: Path):
    done = run("speak", "From E flat to A.", "-o", "line.wav", "--json", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    told = json.loads(done.stdout)
    assert [word["text"].rstrip(".") for word in told["words"]] == ["From", "E", "flat", "to", "A"]
    assert is_plain_error(run("speak", "Again.", "-o", "line.wav", cwd=tmp_path), "line.wav", "--force")
    assert is_plain_error(run("speak", "...", "-o", "other.wav", cwd=tmp_path), "words")


def test_a_script_becomes_a_film_with_the_teachers_own_voice(tmp_path: Path):
    script = tmp_path / "script.md"
    script.write_text(SCRIPT, encoding="utf-8")
    assert (
        run("speak", "Tonight we climb the harbour stairs.", "--pitch", "80", "-o", "mine.wav", cwd=tmp_path).returncode
        == 0
    )
    assert is_plain_error(run("take", "script.md", "9", "mine.wav", cwd=tmp_path), "'9'")
    assert is_plain_error(run("take", "script.md", "1", cwd=tmp_path), "--choose")
    done = run("take", "script.md", "1", "mine.wav", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    lines = json.loads(run("takes", "script.md", "--json", cwd=tmp_path).stdout)["lines"]
    assert [line["state"] for line in lines] == ["recorded", "none"]
    done = run("render", "script.md", "--size", "720p", "-o", "film", cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert "moderate level" in done.stdout
    with av.open(str(tmp_path / "film" / "film.mp4")) as film:
        assert (film.streams.video[0].width, film.streams.video[0].height) == (1280, 720)
        assert len(film.chapters()) == 1
    script.write_text(script.read_text("utf-8").replace("Tonight", "Today"), encoding="utf-8")
    done = run("takes", "script.md", cwd=tmp_path)
    assert done.returncode == 1
    assert "stale" in done.stdout


def test_what_a_teacher_has_in_a_folder_is_refused_or_stays(tmp_path: Path):
    lesson = tmp_path / "stairs"
    lesson.mkdir()
    (lesson / "script.md").write_text(SCRIPT, encoding="utf-8")
    small = ("--size", "720p")
    for command in ("package", "render"):
        refused = run(command, "script.md", "-o", ".", *small, cwd=lesson)
        assert is_plain_error(refused, "it holds script.md", "--into"), refused.stderr
    assert is_plain_error(run("package", "script.md", "-o", ".", "--into", cwd=lesson), "script.md", "not made by")
    assert [path.name for path in lesson.iterdir()] == ["script.md"]
    done = run("render", "script.md", "-o", ".", "--into", *small, cwd=lesson)
    assert done.returncode == 0, done.stderr
    assert (lesson / "script.md").read_text(encoding="utf-8") == SCRIPT
    (lesson / "captions.vtt").write_text("my own captions")
    (lesson / "script.md").write_text(SCRIPT.replace("Tonight", "Today"), encoding="utf-8")
    done = run("render", "script.md", "-o", ".", *small, cwd=lesson)
    assert done.returncode == 0, done.stderr
    assert "What was replaced is in" in done.stdout
    assert (tmp_path / ".stairs.replaced" / "1" / "captions.vtt").read_text() == "my own captions"


def test_a_handout_is_written_for_the_instruments_asked_for(tmp_path: Path):
    """What is asked for decides whether there is anything to make again."""
    (tmp_path / "script.md").write_text(SCRIPT, encoding="utf-8")
    refused = run("package", "script.md", "--for", "D", cwd=tmp_path)
    assert refused.returncode == 2
    assert "Traceback" not in refused.stderr
    for asked, keys in (((), []), (("--for", "eb", "--for", "Bb", "--for", "Eb"), ["E♭", "B♭"])):
        done = run("package", "script.md", "--size", "720p", "-o", "out", *asked, cwd=tmp_path)
        assert done.returncode == 0, done.stderr
        pages = [page.extract_text() for page in pypdf.PdfReader(tmp_path / "out" / "handout.pdf").pages]
        assert len(pages) == 3 + len(keys)
        assert "in concert pitch" in pages[2]
        assert all(f"for instruments in {key}" in page for key, page in zip(keys, pages[3:], strict=True))


def test_an_unproved_script_is_not_rendered(tmp_path: Path):
    (tmp_path / "script.md").write_text(SCRIPT.replace("[two]", "[three]"), encoding="utf-8")
    done = run("render", "script.md", "-o", "film", cwd=tmp_path)
    assert is_plain_error(done, "'three'", "gamutwright check script.md", "--draft")
    assert not (tmp_path / "film").exists()


@pytest.mark.parametrize(
    ("name", "text", "found"),
    [
        ("notes.txt", "D dorian has seven notes. It has three semitone steps.", "three"),
        ("notes.srt", "1\n00:00:01,000 --> 00:00:04,000\nIt has three semitone steps.\n", "0:01"),
    ],
)
def test_an_old_lesson_is_audited(name: str, text: str, found: str, tmp_path: Path):
    (tmp_path / name).write_text(text, encoding="utf-8")
    done = run("audit", name, "--scale", "D dorian", cwd=tmp_path)
    assert done.returncode == 1, done.stderr
    assert found in done.stdout
    assert is_plain_error(run("audit", "missing.txt", cwd=tmp_path), "missing.txt")
