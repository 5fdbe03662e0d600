"""A course opened for work: lessons in order, read once."""

from __future__ import annotations

from pathlib import Path

from gamutwright.facts.registry import default_registry
from gamutwright.series.workshop import open_course, plan_of
from series.courses import HEAD, course_in, script


def german(title: str, number: int) -> str:
    return script(title=title, number=number).replace("language: en", "language: de")


def test_lessons_stand_by_language_number_and_list(tmp_path: Path):
    head = HEAD + '[[lesson]]\nscale = "E phrygian"\n[[lesson]]\nscale = "C major"\n'
    scripts = {"third": script(number=3), "first": script(number=1), "erste": german("Erste", 1)}
    workshop = open_course(course_in(tmp_path, scripts, head), 1)
    assert [member.slug for member in workshop.members] == ["first", "third", "e-phrygian", "c-major", "erste"]
    planned = plan_of(workshop, default_registry())
    order = [(place.candidate.language, place.candidate.slug, place.number) for place in planned.places]
    assert order[:2] == [("en", "first", 1), ("en", "third", 3)]
    assert order[-1] == ("de", "erste", 1)
    # What comes after the last number is ordered by what is familiar: the major scale before the phrygian mode.
    assert [slug for _, slug, _ in order[2:4]] == ["c-major", "e-phrygian"]


def test_the_language_of_the_course_comes_first(tmp_path: Path):
    course_in(tmp_path, {"first": script(), "erste": german("Erste", 1)}, HEAD + "")
    (tmp_path / "series.toml").write_text(HEAD.replace("minutes = 1", 'minutes = 1\nlanguage = "de"'), encoding="utf-8")
    assert [member.slug for member in open_course(tmp_path, 1).members] == ["erste", "first"]


def test_a_listed_order_is_kept(tmp_path: Path):
    head = HEAD.replace("minutes = 1", 'minutes = 1\norder = "listed"')
    head += '[[lesson]]\nscale = "E phrygian"\n[[lesson]]\nscale = "C major"\n'
    planned = plan_of(open_course(course_in(tmp_path, {}, head), 1), default_registry())
    assert [place.candidate.slug for place in planned.places] == ["e-phrygian", "c-major"]
