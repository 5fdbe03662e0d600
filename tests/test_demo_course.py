"""The demo course: six lessons that are proved, agree with each other, and show what a course can do.

That G lydian is G A B C♯ D E F♯, that D melodic minor rising and G acoustic have the same tones, and that the octatonic
scale alternates tones and semitones is common practice, no source. That the major scale of nineteen equal divisions has
the steps 3 3 2 3 3 3 2 is from memory of Joel Mandelbaum, Multiple Division of the Octave and the Tonal Resources of
19-Tone Temperament (1961); here it is worked out again from chains of fifths.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

from gamutwright.facts.registry import default_registry
from gamutwright.lessons.parse import load
from gamutwright.render.recording import decode
from gamutwright.render.takes import chosen_take, line_folders
from gamutwright.series.contents import Member
from gamutwright.series.course_checks import Rule, Standing, check_course
from gamutwright.series.siblings import siblings_of
from gamutwright.series.workshop import Workshop, open_course, plan_of
from gamutwright.theory.scale import Scale

COURSE = Path(__file__).parents[1] / "examples" / "harbour"
LESSONS = {
    "en": ("lydian", "melodic-minor", "acoustic", "octatonic"),
    "de": ("lydisch", "neunzehn"),
}
RECORDED = "lydian"
MOST_BYTES = 1_500_000
TUTORIAL = (Path(__file__).parents[1] / "docs" / "course.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Workshop:
    """The course, read where nothing can be written beside it."""
    folder = tmp_path_factory.mktemp("harbour")
    (folder / "series.toml").write_bytes((COURSE / "series.toml").read_bytes())
    (folder / "lessons").symlink_to(COURSE / "lessons")
    return open_course(folder, workers=1)


@pytest.fixture(scope="module")
def members(workshop: Workshop) -> dict[str, Member]:
    return {member.slug: member for member in workshop.members}


def test_there_are_four_lessons_in_english_and_two_in_german(members: dict[str, Member]):
    by_language = {
        language: tuple(slug for slug, member in members.items() if member.language == language) for language in LESSONS
    }
    assert by_language == LESSONS


@pytest.mark.parametrize("language", LESSONS)
def test_numbers_run_from_one_in_each_language(members: dict[str, Member], language: str):
    assert [members[slug].number for slug in LESSONS[language]] == list(range(1, len(LESSONS[language]) + 1))


def test_every_statement_is_proved_and_every_rule_between_lessons_holds(workshop: Workshop):
    found = check_course(workshop.members, {}, default_registry())
    broken = [one for one in found if one.standing is Standing.BROKEN]
    assert not broken
    about_packages = {Rule.LINKS, Rule.LOOK, Rule.FILMS}
    assert {one.rule for one in found if one.standing is Standing.HOLDS} == set(Rule) - about_packages


def test_scripts_agree_with_the_plan(workshop: Workshop):
    """What `series.toml` lists is what the scripts are about, and the path of levels goes up."""
    wished = {wish.slug: wish for wish in workshop.course.wishes}
    assert set(wished) == {member.slug for member in workshop.members}
    for member in workshop.members:
        assert member.level == wished[member.slug].level
    for language, slugs in LESSONS.items():
        places = [place for place in plan_of(workshop, default_registry()).places if place.candidate.slug in slugs]
        assert [place.level for place in places] == sorted(place.level for place in places), language


def test_the_scales_are_those_of_the_titles(members: dict[str, Member]):
    """Letters by common practice: C 0, D 2, E 4, F 5, G 7, A 9, B 11."""
    lydian, minor = {7, 9, 11, 1, 2, 4, 6}, {2, 4, 5, 7, 9, 11, 1}
    expected = {
        "lydian": (7, lydian),
        "lydisch": (7, lydian),
        "melodic-minor": (2, minor),
        "acoustic": (7, minor),
        "octatonic": (7, {(7 + 3 * turn + step) % 12 for turn in range(4) for step in (0, 2)}),
    }
    for slug, (root, tones) in expected.items():
        scale = members[slug].scale
        assert scale is not None
        assert (scale.divisions, scale.root, set(scale.pitch_classes)) == (12, root, tones)


def test_the_other_tuning_is_the_major_scale_as_a_chain_of_fifths(members: dict[str, Member]):
    """One fifth below the root to five above; the fifth of nineteen steps is the one nearest to 3:2, eleven steps."""
    scale = members["neunzehn"].scale
    assert scale is not None
    fifth = min(range(19), key=lambda steps: abs(2 ** (steps / 19) - 3 / 2))
    assert fifth == 11
    assert set(scale.tones) == {fifth * link % 19 for link in range(-1, 6)}
    assert scale == Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)


def test_lessons_point_to_modes_and_translations(workshop: Workshop):
    pointed = {
        (slug, sibling.slug): sibling.kind
        for slug, siblings in siblings_of(workshop.members).items()
        for sibling in siblings
        if sibling.kind not in {"previous", "next"}
    }
    assert pointed == {
        ("melodic-minor", "acoustic"): "mode",
        ("acoustic", "melodic-minor"): "mode",
        ("lydian", "lydisch"): "translation",
        ("lydisch", "lydian"): "translation",
    }


@pytest.mark.parametrize("slugs", LESSONS.values(), ids=LESSONS)
def test_each_lesson_announces_the_one_after_and_the_last_none(members: dict[str, Member], slugs: tuple[str, ...]):
    said = [dict(load(COURSE / "lessons" / slug / "script.md").front.others).get("next") for slug in slugs]
    assert said == [*(members[slug].title for slug in slugs[1:]), None]


@pytest.mark.parametrize("slug", [slug for slugs in LESSONS.values() for slug in slugs])
def test_lines_have_lasting_ids_and_the_end_asks(slug: str):
    script = load(COURSE / "lessons" / slug / "script.md")
    assert all(line.has_own_id for line in script.lines)
    last = [line.text for chapter in script.chapters[-2:] for line in chapter.lines]
    assert sum(text.endswith("?") for text in last) >= 2


def test_openings_and_closings_are_not_alike():
    ends = []
    for language, slugs in LESSONS.items():
        for slug in slugs:
            lines = [line.text for line in load(COURSE / "lessons" / slug / "script.md").lines if line.text]
            ends += [(language, lines[0]), (language, lines[-1])]
    assert len(set(ends)) == len(ends)


def test_a_chapter_is_recorded_and_its_takes_are_sound():
    script = load(COURSE / "lessons" / RECORDED / "script.md")
    takes = COURSE / "lessons" / RECORDED / "takes"
    lines = [line for passage in script.chapters[0].passages for line in passage.lines]
    assert len(lines) >= 6
    assert set(line_folders(takes)) == {line.id for line in lines}
    for line in lines:
        take = chosen_take(takes, line.id)
        assert take is not None
        assert not take.is_stale(line.text)
        assert not take.faults
        assert len(decode(take.path).samples) / 48_000 == pytest.approx(take.seconds, abs=0.001)


def test_recordings_stay_small_and_lie_in_one_lesson():
    files = list(COURSE.glob("lessons/*/takes/*/*.flac"))
    assert {path.parts[-4] for path in files} == {RECORDED}
    assert 0 < sum(path.stat().st_size for path in files) <= MOST_BYTES


@pytest.mark.parametrize("place", ["README.md", f"lessons/{RECORDED}/takes/README.md"])
def test_it_is_said_whose_voice_the_recordings_are(place: str):
    text = " ".join((COURSE / place).read_text(encoding="utf-8").split()).lower()
    assert "made by the built-in voice at another pitch and rate, standing in for a teacher's own voice" in text
    assert "no person was recorded" in text


def test_no_card_takes_the_stand_in_for_a_teacher():
    """The words are those of the course's README."""
    speaker = dict(load(COURSE / "lessons" / RECORDED / "script.md").front.others)["speaker"]
    assert speaker == "the built-in voice at another pitch, standing in for a teacher"


def printed(folder: Path, *words: str) -> str:
    """What a command of a course prints, without the blanks at the ends of lines."""
    done = subprocess.run(  # noqa: S603 - the tutorial's own commands
        [sys.executable, "-m", "gamutwright", "series", *words],
        env={**os.environ, "COLUMNS": "80", "PYTHONUTF8": "1"},
        cwd=folder,
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    return "\n".join(line.rstrip() for line in done.stdout.strip("\n").splitlines())


def test_the_tutorial_prints_what_the_commands_print(tmp_path: Path):
    """All that it shows before anything is built; films take minutes, and lie elsewhere."""
    printed(tmp_path, "init", "evening-course", "--title", "Scales by the harbour", "--level", "foundation")
    folder = tmp_path / "evening-course"
    planned = printed(folder, "plan")
    assert f"$ gamutwright series plan\n{planned}\n```" in TUTORIAL
    printed(folder, "plan", "--draft")
    checked = printed(folder, "check")
    assert f"$ gamutwright series check\n{checked}\n```" in TUTORIAL
    sentence = re.search(r"^    (The other tones .*)$", TUTORIAL, re.MULTILINE)
    assert sentence is not None
    assert sentence[1] in (folder / "lessons" / "d-dorian" / "script.md").read_text(encoding="utf-8")


def test_a_source_distribution_holds_what_the_demo_targets_read():
    """The build backend takes the paths that `include` lists (hatchling's documentation, from memory)."""
    root = COURSE.parent.parent
    project = tomllib.loads((root / "pyproject.toml").read_text(encoding="utf-8"))
    included = project["tool"]["hatch"]["build"]["targets"]["sdist"]["include"]
    makefile = (root / "Makefile").read_text(encoding="utf-8")
    read = re.findall(r"^(?:LESSON|COURSE) := (\S+)|(\S+\.(?:py|txt|toml))\b", makefile, re.MULTILINE)
    paths = {variable or file for variable, file in read}
    assert {"examples/harbour", "constraints.txt", "docs/generate.py"} <= paths
    for path in paths - {"pyproject.toml"}:  # always part of it
        assert path.split("/")[0] in included, path
