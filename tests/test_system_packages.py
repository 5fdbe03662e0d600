"""What the system lacks is installed for root, and asked for from anybody else before any work.

The system is a stand-in: a folder of commands, the only one that is searched.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
REAL = ("sh", "basename", "grep", "dirname", "touch", "mkdir", "test", "make", "cat", "tr")
NAMES = ("libatomic.so.1", "libGL.so.1", "libEGL.so.1", "libfluidsynth.so.3")
LIBRARIES = "".join(f"\t{name} (libc6,x86-64) => /lib/{name}\n" for name in NAMES)


class Machine:
    """A machine with some of what is needed, and a copy of the Makefile and the script."""

    def __init__(self, place: Path) -> None:
        self.commands, self.tree = place / "bin", place / "tree"
        self.commands.mkdir()
        for name in REAL:
            found = shutil.which(name)
            assert found, name
            (self.commands / name).symlink_to(found)
        self.has("python3", f'exec {sys.executable} "$@"')
        self.has("uname", "echo Linux")
        self.has("ldconfig", "true")
        self.has("id", "echo 1000")
        self.has("apt-get", f'echo "$@" >> {place / "apt"}')
        self.asked = place / "apt"
        (self.tree / "tools").mkdir(parents=True)
        for name in ("Makefile", "tools/system-packages.sh", "pyproject.toml", "constraints.txt"):
            shutil.copy(ROOT / name, self.tree / name)

    def has(self, name: str, does: str = "true") -> None:
        """Give it a command."""
        path = self.commands / name
        path.unlink(missing_ok=True)
        path.write_text(f"#!{self.commands / 'sh'}\n{does}\n", encoding="utf-8")
        path.chmod(0o755)

    def has_libraries(self) -> None:
        self.has("ldconfig", f"printf '%s' '{LIBRARIES}'")

    def has_font(self) -> None:
        font = self.tree / "share" / "sounds" / "sf2" / "TimGM6mb.sf2"
        font.parent.mkdir(parents=True)
        font.touch()

    def make(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(  # noqa: S603 - our own Makefile
            [str(self.commands / "make"), *words],
            cwd=self.tree,
            env={"PATH": str(self.commands), "XDG_DATA_DIRS": f"{self.tree / 'elsewhere'}:{self.tree / 'share'}"},
            capture_output=True,
            text=True,
            check=False,
        )


@pytest.fixture(name="machine")
def _machine(tmp_path: Path) -> Machine:
    return Machine(tmp_path)


LINE = "sudo apt-get update && sudo apt-get install -y --no-install-recommends"


@pytest.mark.parametrize(
    ("goal", "packages"),
    [
        ("test", "libgl1 libegl1 chromium libatomic1 libfluidsynth3 timgm6mb-soundfont"),
        ("demo", "libgl1 libegl1"),
        ("test-long", "libgl1 libegl1 chromium libatomic1 libfluidsynth3 timgm6mb-soundfont"),
    ],
)
@pytest.mark.parametrize("jobs", ["-j1", "-j8"])
def test_anybody_else_is_stopped_before_any_work_with_one_line(machine: Machine, goal: str, packages: str, jobs: str):
    done = machine.make(goal, jobs)
    assert done.returncode
    assert f"{LINE} {packages}\n" in done.stderr
    assert not machine.asked.exists()
    assert not (machine.tree / ".venv").exists()
    assert not (machine.tree / "out").exists()


def test_only_what_is_missing_is_asked_for(machine: Machine):
    machine.has_libraries()
    assert f"{LINE} chromium timgm6mb-soundfont\n" in machine.make("test").stderr
    machine.has_font()
    assert f"{LINE} chromium\n" in machine.make("test").stderr
    machine.has("google-chrome-stable")
    assert machine.make("system-test").returncode == 0
    assert machine.make("system-demo").returncode == 0


def test_root_has_it_installed_and_is_told(machine: Machine):
    machine.has("id", "echo 0")
    machine.has(
        "apt-get", f'echo "$@" >> {machine.asked}; cp {machine.commands / "more"} {machine.commands / "ldconfig"}'
    )
    machine.has("more", f"printf '%s' '{LIBRARIES}'")
    machine.has("cp", f'exec {shutil.which("cp")} "$@"')
    done = machine.make("system-demo")
    assert done.returncode == 0, done.stderr
    assert "Installing with apt-get: libgl1 libegl1\n" in done.stdout
    assert machine.asked.read_text(encoding="utf-8").splitlines() == [
        "update -qq",
        "install -y -qq --no-install-recommends libgl1 libegl1",
    ]


def test_what_was_installed_in_vain_is_said(machine: Machine):
    machine.has("id", "echo 0")
    done = machine.make("system-demo")
    assert done.returncode
    assert "still this machine lacks: OpenGL (libGL.so.1)" in done.stderr


def test_another_package_manager_is_the_users(machine: Machine):
    (machine.commands / "apt-get").unlink()
    done = machine.make("test")
    assert done.returncode
    assert "a browser (chromium)" in done.stderr
    assert "its package manager" in done.stderr


def test_a_python_without_virtual_environments_is_noticed(machine: Machine):
    machine.has_libraries()
    machine.has("python3", f'case "$2" in *ensurepip*) exit 1 ;; esac; exec {sys.executable} "$@"')
    assert f"{LINE} python3-venv\n" in machine.make("demo").stderr
    (machine.commands / "python3").unlink()
    assert f"{LINE} python3 python3-venv\n" in machine.make("demo").stderr


def test_a_python_that_is_too_old_or_new_stops_at_once(machine: Machine):
    machine.has("python3", 'case "$2" in *version_info*) exit 1 ;; esac; echo Python 3.9.2')
    done = machine.make("demo")
    assert "Gamutwright needs Python 3.11, 3.12 or 3.13, and python3 is Python 3.9.2." in done.stderr
    assert not machine.asked.exists()


def test_desktops_other_than_linux_are_asked_for_no_opengl(machine: Machine):
    machine.has("uname", "echo Darwin")
    assert machine.make("system-demo").returncode == 0
