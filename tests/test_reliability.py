"""What may happen to a film that is being made: killed, stopped, out of room, its store damaged, a recording gone.

Whatever happens, there is never a damaged film under the final name, and the next run mends everything.
"""

from __future__ import annotations

import os
import random
import resource
import signal
import subprocess
import sys
import time
from pathlib import Path

import av
import pytest

from cli import typed
from gamutwright.files import CACHE_VARIABLE
from gamutwright.jobs.outfolder import put_files

SCRIPT = """---
scale: D E F G A B C
---
# Hear it

Tonight it rises from the quay. {play=scale show=ladder}

# Steps

It has [seven]{fact=cardinality show=keyboard} tones.
There are [two]{fact=semitone_steps show=ladder} semitone steps: [E to F and B to C]{each=semitone_steps}.
"""
SEED = 20_260_101


def command(folder: Path, *words: str) -> list[str]:
    store = ["--store", str(folder / "store")]
    return [sys.executable, "-m", "gamutwright", "render", "script.md", "--size", "720p", "-o", "film", *store, *words]


def environment(folder: Path) -> dict[str, str]:
    return {**os.environ, "COLUMNS": "100", "PYTHONUTF8": "1", CACHE_VARIABLE: str(folder / "cache")}


def start(folder: Path, *words: str, **more: object) -> subprocess.Popen[str]:
    return subprocess.Popen(  # noqa: S603 - our own command with fixed words
        command(folder, *words), env=environment(folder), cwd=folder, text=True,
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, start_new_session=True, **more,
    )  # fmt: skip


def undisturbed(folder: Path) -> tuple[int, str, str]:
    """Run the command to its end: here, since nothing happens to it."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(CACHE_VARIABLE, str(folder / "cache"))
        done = typed.run(*command(folder, "--workers", "1")[3:], cwd=folder)
    return done.returncode, done.stdout, done.stderr


def finish(process: subprocess.Popen[str]) -> tuple[int, str, str]:
    out, err = process.communicate(timeout=120)
    assert "Traceback" not in err
    return process.returncode, out, err


def lesson(folder: Path) -> Path:
    folder.mkdir(exist_ok=True)
    (folder / "script.md").write_text(SCRIPT, encoding="utf-8")
    return folder


def is_whole(film: Path) -> bool:
    """Decode every frame of both tracks."""
    with av.open(str(film)) as file:
        frames = sum(1 for _ in file.decode(video=0))
    with av.open(str(film)) as file:
        ticks = sum(frame.samples for frame in file.decode(audio=0))
    return frames > 0 and abs(ticks - frames * 1600) < 1024


def running(group: int) -> list[int]:
    """List the processes of a session that are not just waiting to be buried."""
    found = []
    for stat in Path("/proc").glob("[0-9]*/stat"):
        try:
            fields = stat.read_text().rpartition(")")[2].split()
        except OSError:
            continue
        if int(fields[3]) == group and fields[0] != "Z":
            found.append(int(stat.parent.name))
    return found


def wait_until_none_runs(group: int) -> None:
    deadline = time.monotonic() + 20
    while running(group):
        assert time.monotonic() < deadline, "a worker goes on after its program"
        time.sleep(0.05)


@pytest.fixture(scope="module")
def reference(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, float]:
    """An undisturbed film, and how long it took."""
    folder = lesson(tmp_path_factory.mktemp("reference"))
    begun = time.monotonic()
    code, _, err = finish(start(folder, "--workers", "2"))
    assert code == 0, err
    assert is_whole(folder / "film" / "film.mp4")
    return (folder / "film" / "film.mp4").read_bytes(), time.monotonic() - begun


@pytest.mark.parametrize("moments", [3, pytest.param(20, marks=pytest.mark.long)])
def test_killed_at_any_moment_there_is_no_damaged_film_and_no_work_is_lost(
    tmp_path: Path, reference: tuple[bytes, float], moments: int
):
    content, seconds = reference
    folder, chance = lesson(tmp_path), random.Random(SEED)  # noqa: S311 - moments, not secrets
    film = folder / "film" / "film.mp4"
    for _ in range(moments):
        process = start(folder, "--workers", "2")
        try:
            process.wait(chance.uniform(0.05, seconds))
        except subprocess.TimeoutExpired:
            process.send_signal(signal.SIGKILL)
        process.communicate()
        wait_until_none_runs(process.pid)
        assert not film.exists() or film.read_bytes() == content
        if film.exists() and chance.random() < 0.7:
            film.unlink()
    code, _, err = undisturbed(folder)
    assert code == 0, err
    assert film.read_bytes() == content
    assert not [path.name for path in film.parent.iterdir() if path.name.startswith(".film")], "cleared away"


def test_an_interrupt_stops_and_the_next_run_goes_on(tmp_path: Path, reference: tuple[bytes, float]):
    folder = lesson(tmp_path)
    process = start(folder, "--workers", "2")
    deadline = time.monotonic() + 60
    while len(list((folder / "store").glob("??/*"))) < 4:
        assert process.poll() is None
        assert time.monotonic() < deadline
        time.sleep(0.01)
    os.killpg(process.pid, signal.SIGINT)
    code, _, err = finish(process)
    assert (code, "goes on from there" in err) == (130, True)
    wait_until_none_runs(process.pid)
    assert not (folder / "film" / "film.mp4").exists()
    kept = {path.name: path.stat().st_ino for path in (folder / "store").glob("??/[0-9a-f]*")}
    assert kept
    code, _, err = undisturbed(folder)
    assert code == 0, err
    assert (folder / "film" / "film.mp4").read_bytes() == reference[0]
    now = {path.name: path.stat().st_ino for path in (folder / "store").glob("??/[0-9a-f]*")}
    assert kept.items() <= now.items(), "what was finished was not made again"


def test_an_unchanged_film_is_left_alone_and_a_changed_line_is_made_again(
    tmp_path: Path, reference: tuple[bytes, float]
):
    folder = lesson(tmp_path)
    assert undisturbed(folder)[0] == 0
    film = folder / "film" / "film.mp4"
    before = film.stat().st_mtime_ns
    code, out, _ = undisturbed(folder)
    assert (code, "nothing has changed" in out, film.stat().st_mtime_ns) == (0, True, before)
    entries = {path.name for path in (folder / "store").glob("??/[0-9a-f]*")}
    (folder / "script.md").write_text(SCRIPT.replace("Tonight it", "Tonight the scale"), encoding="utf-8")
    assert undisturbed(folder)[0] == 0
    assert film.read_bytes() != reference[0]
    new = {path.name for path in (folder / "store").glob("??/[0-9a-f]*")} - entries
    # The words, the sound of their line, and the record of what was made; perhaps the sound before it, whose pause is
    # longer or shorter by a frame. No picture shows these words.
    assert 2 <= len(new) <= 4
    (folder / "script.md").write_text(SCRIPT, encoding="utf-8")
    assert undisturbed(folder)[0] == 0
    assert film.read_bytes() == reference[0], "the same script gives the same bytes"


def test_a_damaged_store_is_mended(tmp_path: Path, reference: tuple[bytes, float]):
    folder, chance = lesson(tmp_path), random.Random(SEED)  # noqa: S311 - which bytes, not secrets
    assert undisturbed(folder)[0] == 0
    for path in (folder / "store").glob("??/*"):
        content = bytearray(path.read_bytes())
        content[chance.randrange(len(content))] ^= 0xFF
        path.write_bytes(content if chance.random() < 0.7 else content[: len(content) // 2])
    (folder / "film" / "film.mp4").unlink()
    code, _, err = undisturbed(folder)
    assert code == 0, err
    assert (folder / "film" / "film.mp4").read_bytes() == reference[0]


@pytest.mark.parametrize(
    "limit_bytes", [60_000, *(pytest.param(limit, marks=pytest.mark.long) for limit in (2_000, 400_000))]
)
def test_without_room_there_is_an_error_and_the_old_film_stays(limit_bytes: int, tmp_path: Path):
    """A limit on the size of files stands in for a full disk: both refuse the write in the middle of a file."""
    folder = lesson(tmp_path)
    put_files(folder / "film", {"film.mp4": b"the film of last week"})

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit_bytes, limit_bytes))

    code, _, err = finish(start(folder, preexec_fn=limit))
    assert code == 2
    assert "error:" in err
    assert "Make room" in err
    assert (folder / "film" / "film.mp4").read_bytes() == b"the film of last week"
    code, _, err = undisturbed(folder)
    assert code == 0, err
    assert is_whole(folder / "film" / "film.mp4")


def test_a_place_that_cannot_be_written_is_said(tmp_path: Path):
    folder = lesson(tmp_path)
    (folder / "film").write_text("a file where the folder should be")
    code, _, err = undisturbed(folder)
    assert code == 2
    assert "it is no folder" in err
    if os.geteuid():
        (folder / "film").unlink()
        (folder / "film").mkdir(mode=0o500)
        code, _, err = undisturbed(folder)
        assert code == 2
        assert "cannot be written" in err


def test_a_recording_that_is_gone_is_named(tmp_path: Path):
    folder = lesson(tmp_path)
    assert typed.run("speak", "Tonight it rises from the quay.", "-o", "mine.wav", cwd=folder).returncode == 0
    assert typed.run("take", "script.md", "1", "mine.wav", cwd=folder).returncode == 0
    (recording,) = (folder / "takes").glob("*/01.flac")
    recording.unlink()
    code, _, err = undisturbed(folder)
    assert code == 2
    assert "01.flac" in err
    assert "remove 01.json" in err
    recording.with_suffix(".json").unlink()
    assert undisturbed(folder)[0] == 0
