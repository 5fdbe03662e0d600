"""Names that Windows keeps for devices: no folder is called so, whatever system a course was begun on."""

from __future__ import annotations

from pathlib import Path

import pytest

from gamutwright.errors import DomainError, FileError, InputError
from gamutwright.files import is_device
from gamutwright.jobs.run import LocalPool
from gamutwright.render.takefile import line_folder
from gamutwright.series.contents import members_of
from gamutwright.series.course import is_slug, read_course
from gamutwright.series.workshop import store_of
from series.courses import HEAD, course_in, script

# Microsoft, "Naming Files, Paths, and Namespaces", from memory.
DEVICES = ["con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10))]


@pytest.mark.parametrize("name", DEVICES)
def test_no_lesson_and_no_line_has_the_name_of_a_device(name: str, tmp_path: Path):
    assert is_device(name)
    assert is_device(f"{name.upper()}.md")
    assert not is_slug(name)
    assert is_slug(f"{name}-lesson")
    with pytest.raises(DomainError, match="another id"):
        line_folder(tmp_path, name)


@pytest.mark.parametrize("name", ["concert", "con-brio", "common", "lpt", "auxiliary", "com12", "null"])
def test_other_names_are_free(name: str):
    assert not is_device(name)


def test_a_course_is_told(tmp_path: Path):
    course = read_course(course_in(tmp_path / "one", {"con": script()}))
    with LocalPool(store_of(course), 1) as pool, pytest.raises(FileError, match="not like a device of Windows"):
        members_of(course, pool)
    wish = '\n[[lesson]]\nscale = "D dorian"\nslug = "nul"\n'
    with pytest.raises(InputError, match="a name that Windows keeps for a device"):
        read_course(course_in(tmp_path / "two", {}, HEAD + wish))
