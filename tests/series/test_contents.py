"""Which lessons a course has."""

from __future__ import annotations

from pathlib import Path

import pytest

from gamutwright.errors import FileError, InputError
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from gamutwright.series.contents import Member, members_of, slug_of
from gamutwright.series.course import read_course
from gamutwright.theory.scale import Scale
from series.courses import HEAD, course_in, script


def members(folder: Path) -> dict[str, Member]:
    with LocalPool(Store(folder / "store"), 1) as pool:
        return {member.slug: member for member in members_of(read_course(folder), pool)}


def test_the_list_the_catalogue_and_the_folders_all_count_once(tmp_path: Path):
    head = (
        HEAD
        + """
[scales]
query = "is_maximally_even and cardinality = 6"
root = "D"
[[lesson]]
scale = "D dorian"
[[lesson]]
scale = "D E F# G# A# C"
slug = "whole-tones"
[[lesson]]
scale = "C major"
language = "de"
"""
    )
    course_in(tmp_path, {"by-hand": script("G A B C D E F", "By hand", 3), "d-dorian": script()}, head)
    found = members(tmp_path)
    # Six tones of twelve spread as evenly as can be are the whole-tone scale alone (Clough & Douthett 1991, from
    # memory); it is written down already, so that the question adds nothing.
    assert list(found) == ["d-dorian", "whole-tones", "c-major", "by-hand"]
    assert found["whole-tones"].scale is not None
    assert found["whole-tones"].scale.pitch_classes == (2, 4, 6, 8, 10, 0)
    assert (found["c-major"].language, found["c-major"].title) == ("de", "C-Dur")
    assert (found["by-hand"].number, found["by-hand"].title, found["by-hand"].is_sound) == (3, "By hand", True)
    assert (found["d-dorian"].number, found["whole-tones"].source, found["whole-tones"].is_sound) == (1, "", False)


def test_the_catalogue_alone_gives_all_that_are_asked_for(tmp_path: Path):
    course_in(tmp_path, {}, HEAD + '[scales]\nquery = "cardinality = 11"\n')
    found = members(tmp_path)
    assert len(found) == 11
    assert {member.scale.cardinality for member in found.values() if member.scale} == {11}
    assert len({member.slug for member in found.values()}) == 11


def test_a_script_has_the_last_word(tmp_path: Path):
    head = HEAD + '[[lesson]]\nscale = "C major"\nslug = "first"\n'
    course_in(tmp_path, {"first": script("E F G A B C D", "Phrygian on E", count="seven")}, head)
    found = members(tmp_path)["first"]
    assert found.scale == Scale.of(4, 5, 7, 9, 11, 0, 2)
    assert found.title == "Phrygian on E"


def test_a_script_that_cannot_be_read_stops_nobody_else(tmp_path: Path):
    head = HEAD + '[[lesson]]\nscale = "C major"\nslug = "broken"\n'
    course_in(tmp_path, {"broken": "no front matter", "whole": script()}, head)
    found = members(tmp_path)
    assert found["whole"].is_sound
    assert found["broken"].summary is not None
    assert found["broken"].summary.problem
    assert found["broken"].scale == Scale.of(0, 2, 4, 5, 7, 9, 11)


@pytest.mark.parametrize(
    ("head", "met"),
    [
        (HEAD + '[[lesson]]\nscale = "X"\n', "lesson 1"),
        (HEAD + '[[lesson]]\nscale = "pcs: 1 2 3 on C"\n', "root"),
        (HEAD + '[[lesson]]\nscale = "C major"\nslug = "a"\n[[lesson]]\nscale = "D dorian"\nslug = "a"\n', "slug 'a'"),
        (HEAD + '[scales]\nquery = "DROP TABLE scales"\n', "condition"),
        (HEAD + '[scales]\nquery = "cardinality = 7"\nroot = "X"\n', "X"),
    ],
)
def test_what_is_no_scale_is_told(tmp_path: Path, head: str, met: str):
    course_in(tmp_path, {}, head)
    with pytest.raises(InputError) as caught:
        members(tmp_path)
    assert met in str(caught.value)


@pytest.mark.parametrize("name", ["Upper", "with space", "ümlaut", "a--b", "a" * 65])
def test_a_folder_that_cannot_be_an_address_is_told(tmp_path: Path, name: str):
    course_in(tmp_path, {name: script()})
    with pytest.raises(FileError, match="Rename"):
        members(tmp_path)


@pytest.mark.parametrize(
    ("scale", "slug"),
    [
        (Scale.of(7, 9, 11, 1, 2, 4, 5), "g-acoustic"),
        (Scale.of(10, 0, 2, 3, 5, 7, 9), "b-flat-major"),
        (Scale.of(0, 3, 5, divisions=31), "31-divisions-0-3-5"),
    ],
)
def test_folders_are_called_after_their_scales(scale: Scale, slug: str):
    assert slug_of(scale) == slug
