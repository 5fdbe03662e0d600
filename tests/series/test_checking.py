"""What has to agree between lessons, each rule broken on purpose.

The facts of the scales used here (dorian and ionian have seven tones, two semitone steps) are common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from gamutwright.facts.registry import default_registry
from gamutwright.series.contents import Member
from gamutwright.series.course_checks import Found, Rule, Standing, check_course
from gamutwright.series.published import Package, Reading
from series.courses import member, script

DORIAN = member("dorian", script())
IONIAN = member("ionian", script("C D E F G A B", "Ionian on C", 2))
DEFINITION = (
    "[We count the tones of a scale from the root up to the last tone below the octave]{define=cardinality}. {#count}\n"
)


def package(slug: str, siblings: Mapping[str, str] | None = None, **film: float | str) -> Package:
    picture = {"width": film.get("width", 1280), "height": 720}
    ground = [{"role": "ground", "colour": film.get("ground", "#10151F")}]
    book = {
        "scale": {"divisions": 12, "root": 2, "tones": [0, 2, 3, 5, 7, 9, 10]},
        "lesson": {
            "title": slug,
            "facts": [{"id": "cardinality", "value": film.get("value", 7)}],
            "siblings": [{"slug": other, "kind": kind, "title": other} for other, kind in (siblings or {}).items()],
        },
        "film": {"picture": picture, "colours": ground, "loudness": {"target_lufs": film.get("lufs", -16.0)}},
    }
    return Package(slug, Path(slug), book, "2026-03-04")


def broken(
    members: list[Member],
    packages: Mapping[str, Package] | None = None,
    readings: Mapping[str, Reading] | None = None,
) -> dict[Rule, list[Found]]:
    found = check_course(members, packages or {}, default_registry(), readings)
    assert {one.rule for one in found} == set(Rule), "every rule says how it stands"
    wrong: dict[Rule, list[Found]] = {}
    for one in found:
        if one.standing is Standing.BROKEN:
            assert one.detail
            assert one.next_step
            wrong.setdefault(one.rule, []).append(one)
    return wrong


def test_a_course_in_which_all_agrees():
    packages = {
        "dorian": package("dorian", {"ionian": "next"}),
        "ionian": package("ionian", {"dorian": "previous"}),
    }
    readings = {"dorian": Reading(24, ()), "ionian": Reading(24, ())}
    found = check_course([DORIAN, IONIAN], packages, default_registry(), readings)
    assert [one.standing for one in found] == [Standing.HOLDS] * len(Rule)


def test_what_is_not_there_yet_is_not_checked():
    found = {one.rule: one.standing for one in check_course([], {}, default_registry())}
    assert set(found.values()) == {Standing.NOT_CHECKED}
    found = {
        one.rule: one.standing for one in check_course([DORIAN], {"dorian": package("dorian")}, default_registry())
    }
    assert found[Rule.FILMS] is Standing.NOT_CHECKED
    assert found[Rule.LOOK] is Standing.HOLDS


def test_a_statement_that_is_not_proved_and_a_script_that_cannot_be_read():
    wrong = broken([member("six", script(count="six")), member("none", "Listen.\n")])
    first, second = wrong[Rule.PROVED]
    assert (first.lessons, "six" in first.detail, "seven" in first.next_step) == (("six",), True, True)
    assert second.lessons == ("none",)


@pytest.mark.parametrize(
    ("numbers", "said"),
    [((1, 1), "2 lessons have the number 1"), ((1, 3), "no lesson 2"), ((2, 3), "no lesson 1")],
)
def test_numbers_run_without_a_gap(numbers: tuple[int, int], said: str):
    course = [
        member("dorian", script(number=numbers[0])),
        member("ionian", script("C D E F G A B", "Ionian on C", numbers[1])),
    ]
    (one,) = broken(course)[Rule.NUMBERS]
    assert said in one.detail


def test_a_lesson_without_a_number():
    (one,) = broken([DORIAN, member("ionian", IONIAN.source.replace("lesson: 2\n", ""))])[Rule.NUMBERS]
    assert one.lessons == ("ionian",)


def test_each_language_has_numbers_and_titles_of_its_own():
    wrong = broken([DORIAN, IONIAN, member("dorisch", script().replace("language: en", "language: de"))])
    assert Rule.NUMBERS not in wrong
    assert Rule.TITLES not in wrong


def test_titles_are_unique_whatever_their_capitals():
    (one,) = broken([DORIAN, member("ionian", IONIAN.source.replace("Ionian on C", "dorian  ON d"))])[Rule.TITLES]
    assert one.lessons == ("dorian", "ionian")


def test_the_next_lesson_is_announced_by_its_title():
    def announcing(title: str) -> Member:
        return member("dorian", script().replace("lesson: 1\n", f"lesson: 1\nnext: {title}\n"))

    assert Rule.NEXT not in broken([announcing("ionian on c"), IONIAN])
    (one,) = broken([announcing("Lydian on F"), IONIAN])[Rule.NEXT]
    assert "'Ionian on C' follows" in one.detail
    (one,) = broken([IONIAN, announcing("Lydian on F")])[Rule.NEXT]
    assert "no lesson follows" in one.detail


def test_a_term_is_explained_before_it_is_used():
    held = "[A tritone is the interval that cuts the octave into equal halves]{define=tritones}."
    own = "[A tritone splits the octave in the middle]{explain=tritones}."
    told = "It has [one]{fact=tritones} tritone."
    again = member("ionian", f"{IONIAN.source}\n\n{told}\n")
    for explained in (held, own):
        assert Rule.TERMS not in broken([member("dorian", f"{script()}\n\n{explained}\n{told}\n"), again])
    (one,) = broken([member("dorian", f"{script()}\n\n{told}\n"), IONIAN])[Rule.TERMS]
    assert (one.lessons, "Tritones" in one.detail, "define=tritones" in one.next_step) == (("dorian",), True, True)
    late = f"{script()}\n\n{told}\n\n{held}\n"
    assert broken([member("dorian", late)])[Rule.TERMS][0].lessons == ("dorian",)
    # What a sentence only points at needs no term: F and B are a tritone apart whatever that is called.
    assert Rule.TERMS not in broken([member("dorian", f"{script()}\n\nHere they are: [F to B]{{each=tritones}}.\n")])
    # The other language has explained nothing yet.
    german = again.source.replace("language: en", "language: de").replace(
        told, "Sie hat [einen]{fact=tritones} Tritonus."
    )
    assert Rule.TERMS in broken([member("dorian", f"{script()}\n\n{held}\n"), member("ionisch", german)])


def test_the_same_steps_have_one_name():
    # The thaat bilawal has the steps of the ionian mode (the table of names gives the source of each).
    thaat = member("again", script("D E F# G A B C#", "Thaat Bilawal on D", 3))
    ionian = member("ionian", script("C D E F G A B", "Ionian on C", 2))
    (one,) = broken([DORIAN, ionian, thaat])[Rule.NAMES]
    assert set(one.lessons) == {"ionian", "again"}
    assert "'ionian' in ionian" in one.detail
    assert Rule.NAMES not in broken([DORIAN, ionian, member("again", script("D E F# G A B C#", "Ionian on D", 3))])
    german = [
        member(slug, script(tones, title, number).replace("language: en", "language: de"))
        for slug, tones, title, number in (
            ("ionisch", "C D E F G A B", "C ionisch", 1),
            ("bilawal", "D E F# G A B C#", "Thaat Bilawal auf D", 2),
        )
    ]
    assert Rule.NAMES in broken(german)


def test_a_value_that_was_published_otherwise():
    (one,) = broken([DORIAN], {"dorian": package("dorian", value=8)})[Rule.VALUES]
    assert one.lessons == ("dorian",)
    assert "7 in dorian" in one.detail
    assert "8 in dorian as published" in one.detail


@pytest.mark.parametrize("kind", ["mode", "inversion", "transposition", "translation", "next", "previous"])
def test_links_point_both_ways(kind: str):
    back = {"next": "previous", "previous": "next"}.get(kind, kind)
    there, here = package("ionian", {"dorian": back}), package("dorian", {"ionian": kind})
    assert Rule.LINKS not in broken([DORIAN, IONIAN], {"dorian": here, "ionian": there})
    (one,) = broken([DORIAN, IONIAN], {"dorian": here, "ionian": package("ionian")})[Rule.LINKS]
    assert one.lessons == ("dorian", "ionian")
    # What is not built yet cannot point back.
    assert Rule.LINKS not in broken([DORIAN, IONIAN], {"dorian": here})


@pytest.mark.parametrize("change", [{"width": 1920}, {"ground": "#FFFFFF"}, {"lufs": -14.0}])
def test_films_look_and_sound_alike(change: dict[str, float | str]):
    packages = {slug: package(slug) for slug in ("a", "b")} | {"odd": package("odd", **change)}
    (one,) = broken([DORIAN], packages)[Rule.LOOK]
    assert one.lessons == ("odd",)


def test_a_film_that_breaks_its_promise():
    readings = {"dorian": Reading(23, ("loudness: expected -16 LUFS; found -12 LUFS",))}
    (one,) = broken([DORIAN], {"dorian": package("dorian")}, readings)[Rule.FILMS]
    assert (one.lessons, "-12 LUFS" in one.detail) == (("dorian",), True)
