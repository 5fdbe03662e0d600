"""Output that cannot be written: a full device, a reader that has heard enough, none at all."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from cli import typed

FULL = Path("/dev/full")
only_with_a_full_device = pytest.mark.skipif(not FULL.exists(), reason="only Linux has a device that is always full")
SCRIPT = "---\nscale: C major\n---\n# Steps\n\nIt has [seven]{fact=cardinality} tones.\n"


def to(place: Path, *words: str, cwd: Path) -> tuple[int, str]:
    command = [sys.executable, "-m", "gamutwright", *words]
    with place.open("w", encoding="utf-8") as out:
        done = subprocess.run(command, stdout=out, stderr=subprocess.PIPE, text=True, cwd=cwd, check=False)  # noqa: S603
    return done.returncode, done.stderr


@only_with_a_full_device
@pytest.mark.parametrize(
    "words",
    [("facts",), ("facts", "--json"), ("--help",), ("describe", "D", "dorian"), ("doctor",), ("check", "script.md")],
    ids=" ".join,
)
def test_a_full_device_is_told(words: tuple[str, ...], tmp_path: Path):
    (tmp_path / "script.md").write_text("---\nscale: C major\n---\n# Steps\n\nIt rises.\n", encoding="utf-8")
    code, err = to(FULL, *words, cwd=tmp_path)
    assert (code, "Traceback" in err) == (1, False), err
    assert err.endswith("No space left on device).\nnext:  Make room, or send it to another place.\n")


@only_with_a_full_device
def test_an_error_keeps_its_code_where_nothing_was_printed(tmp_path: Path):
    assert to(FULL, "describe", "H", "nonsense", cwd=tmp_path)[0] == 2


@only_with_a_full_device
@pytest.mark.parametrize("unbuffered", ["", "1"])
@pytest.mark.parametrize(("words", "code"), [(("facts",), 1), (("describe", "H", "nonsense"), 2)], ids=str)
def test_nothing_is_told_where_nothing_can_be(words: tuple[str, ...], code: int, unbuffered: str, tmp_path: Path):
    command = [sys.executable, "-m", "gamutwright", *words]
    env = {**os.environ, "PYTHONUNBUFFERED": unbuffered}
    with FULL.open("w") as full:
        done = subprocess.run(command, stdout=full, stderr=full, cwd=tmp_path, env=env, check=False)  # noqa: S603
    assert done.returncode == code


def test_a_reader_who_has_heard_enough_ends_it_quietly(tmp_path: Path):
    command = [sys.executable, "-m", "gamutwright", "facts", "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=tmp_path) as process:  # noqa: S603
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(120) in {0, 1}


@pytest.mark.parametrize(
    ("words", "begins"),
    [
        (("draft", "G", "acoustic", "--minutes", "2"), "---\n"),
        (("audit", "script.md", "--scale", "C major"), "# "),
        (("picture", "D", "dorian"), "<svg"),
    ],
    ids=lambda words: words[0],
)
def test_text_goes_to_standard_output_where_the_usual_sign_is_given(
    words: tuple[str, ...], begins: str, tmp_path: Path
):
    (tmp_path / "script.md").write_text(SCRIPT, encoding="utf-8")
    without, given = typed.run(*words, cwd=tmp_path), typed.run(*words, "-o", "-", cwd=tmp_path)
    assert given.stdout.startswith(begins)
    assert (given.returncode, given.stdout) == (without.returncode, without.stdout)
    assert [path.name for path in tmp_path.iterdir()] == ["script.md"]


@pytest.mark.parametrize(
    "words",
    [
        ("package", "script.md", "-o", "-"),
        ("render", "script.md", "-o", "-"),
        ("sound", "D", "dorian", "-o", "-"),
        ("sound", "D", "dorian", "-o", "a.wav", "--stems", "-"),
        ("speak", "Two tones.", "-o", "-"),
        ("check", "script.md", "--ledger", "-"),
        ("find", "tritones = 0", "--csv", "-"),
        ("find", "tritones = 0", "--parquet", "-"),
        ("series", "report", ".", "-o", "-"),
    ],
    ids=" ".join,
)
def test_what_is_no_text_is_refused_at_standard_output(words: tuple[str, ...], tmp_path: Path):
    (tmp_path / "script.md").write_text(SCRIPT, encoding="utf-8")
    done = typed.run(*words, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "cannot go to standard output" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["script.md"]
