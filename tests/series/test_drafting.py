"""Drafting what a course lacks: the same scripts as one after another, with a memory for each language."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from pathlib import Path

import pytest

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.forms import to_text
from gamutwright.jobs.run import LocalPool
from gamutwright.lessons.draft import draft
from gamutwright.lessons.plan import Wish
from gamutwright.series.course_drafts import draft_missing
from gamutwright.series.planning import Place
from gamutwright.series.workshop import open_course, plan_of
from gamutwright.theory.naming import all_names
from gamutwright.theory.scale import Scale
from series.courses import HEAD, course_in, script

HARBOUR = (
    HEAD.replace("minutes = 1", "minutes = 2")
    + """
[[lesson]]
scale = "C major"
[[lesson]]
scale = "A harmonic minor"
[[lesson]]
scale = "G acoustic"
[[lesson]]
scale = "C D E F# G# A#"
[[lesson]]
scale = "D dorian"
language = "de"
[[lesson]]
scale = "0 3 6 8 11 14 17"
divisions = 19
"""
)


@dataclass
class Drafted:
    places: tuple[Place, ...]
    written: tuple[str, ...]
    sources: dict[str, str]


def drafted(folder: Path, workers: int, places: tuple[Place, ...] | None = None) -> Drafted:
    workshop = open_course(folder, 1)
    planned = places or plan_of(workshop, default_registry()).places
    members = {member.slug: member for member in workshop.members}
    with LocalPool(workshop.store, workers) as pool:
        written = draft_missing(workshop.course, members, planned, pool)
    return Drafted(planned, written, {slug: workshop.course.script_of(slug).read_text("utf-8") for slug in members})


def explained_in(source: str) -> set[str]:
    return set(re.findall(r"\{(?:define|explain)=(\w+)\}", source))


def one_after_another(folder: Path, places: tuple[Place, ...]) -> dict[str, str]:
    """Draft the slow way, with what each draft really explains known to the next of its language."""
    known: dict[str, set[str]] = {}
    found = {}
    members = {member.slug: member for member in open_course(folder, 1).members}
    for place in places:
        candidate = place.candidate
        told = known.setdefault(candidate.language, set())
        member = members[candidate.slug]
        if member.summary is not None:
            told |= {said.fact_id for said in member.summary.defined}
            continue
        wish = Wish(Level(place.level), member.minutes, frozenset(told), place.number, place.story)
        others = (("course", "Harbour Music School, evening course"), ("lesson", str(place.number)))
        made = draft(
            candidate.scale, wish, candidate.language, shares=shares_of(candidate.scale.divisions), others=others
        )
        found[candidate.slug] = made.source
        told |= explained_in(made.source)
    return found


@pytest.fixture(scope="module")
def harbour(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Drafted, dict[str, str]]:
    folder = course_in(tmp_path_factory.mktemp("course"), {"by-hand": script()}, HARBOUR)
    places = plan_of(open_course(folder, 1), default_registry()).places
    expected = one_after_another(folder, places)
    return folder, drafted(folder, 1, places), expected


def test_drafts_are_those_of_writing_one_after_another(harbour: tuple[Path, Drafted, dict[str, str]]):
    _, made, expected = harbour
    assert set(made.written) == set(expected)
    assert len(expected) == 6
    assert {slug: made.sources[slug] for slug in expected} == expected
    # What one lesson explains the next of its language does not explain again.
    english = [explained_in(text) for text in expected.values() if "language: en" in text]
    assert sum(map(len, english)) == len(set().union(*english)) > 0


def test_a_wrong_forecast_costs_time_and_changes_nothing(tmp_path: Path, harbour: tuple[Path, Drafted, dict[str, str]]):
    _, made, expected = harbour
    folder = course_in(tmp_path, {"by-hand": script()}, HARBOUR)
    wrong = tuple(replace(place, explains=("tritones", "is_myhill")) for place in made.places)
    assert {slug: drafted(folder, 1, wrong).sources[slug] for slug in expected} == expected


def test_what_is_there_is_left_alone(harbour: tuple[Path, Drafted, dict[str, str]]):
    folder, made, _ = harbour
    assert made.sources["by-hand"] == script()
    path = folder / "lessons" / "g-acoustic" / "script.md"
    mine = path.read_text("utf-8").replace("# Listening", "# Mine")
    path.write_text(mine, encoding="utf-8")
    assert drafted(folder, 1).written == ()
    assert path.read_text("utf-8") == mine


def test_drafts_check_clean_and_are_numbered_in_order(harbour: tuple[Path, Drafted, dict[str, str]]):
    folder, made, _ = harbour
    members = {member.slug: member for member in open_course(folder, 1).members}
    assert all(member.is_sound for member in members.values())
    for place in made.places:
        assert members[place.candidate.slug].number == place.number


def test_a_spelling_that_was_asked_for_is_kept(tmp_path: Path):
    folder = course_in(tmp_path, {}, HEAD + '[[lesson]]\nscale = "C D Eb F Gb Ab Bb Cb"\nslug = "eight"\n')
    assert "scale: C D Eb F Gb Ab Bb Cb" in drafted(folder, 1).sources["eight"]


def test_scales_that_tradition_calls_alike_get_titles_of_their_own(tmp_path: Path):
    # The table of names has several tunings called hirajoshi, each with its source.
    alike = sorted({name.mask for name in all_names() if name.name == "hirajoshi"})
    assert len(alike) > 1
    lessons = "".join(f'[[lesson]]\nscale = "{to_text(Scale(mask), "notes")}"\n' for mask in alike)
    folder = course_in(tmp_path, {}, HEAD + lessons)
    drafted(folder, 1)
    members = open_course(folder, 1).members
    assert len({member.title for member in members}) == len(alike)
    assert all(member.title.startswith("C hirajoshi, ") for member in members)
