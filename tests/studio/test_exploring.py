"""What a screen is told of a scale: known scales of the trade, and the ways in which an address can be wrong."""

from __future__ import annotations

import itertools
import json
import math
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.catalogue.family import family_of
from gamutwright.catalogue.shares import Share, shares_of
from gamutwright.codec import canonical_json
from gamutwright.errors import InputError
from gamutwright.facts.registry import default_registry
from gamutwright.phrasing.printed import printed_value
from gamutwright.studio.exploring import scale_data
from gamutwright.studio.scalecards import MOST_DIVISIONS, from_bits, scale_asked, share_in_words
from gamutwright.theory.scale import Scale
from series.courses import course_in, script
from studio.serving import Studio, running


def fact(data: dict, fact_id: str) -> dict:
    return next(one for one in data["facts"] if one["id"] == fact_id)


def test_a_scale_of_the_trade():
    found = scale_data(scale_asked("G acoustic", "", 0, 12), shares_of(12))
    # The fourth mode of melodic minor (Lendvai 1971, from memory): G A B C sharp D E F.
    assert found["text"] == "G A B C# D E F"
    assert [found["steps"][step]["name"] for step in found["tones"]] == ["G", "A", "B", "C♯", "D", "E", "F"]
    assert any("acoustic" in name for name in found["names"])
    semitones = fact(found, "semitone_steps")
    assert (semitones["value"], semitones["parts"]) == ("2", [[[6, 7]], [[9, 10]]])
    # Counted by going through all rooted scales of seven tones.
    every = [tones for tones in itertools.combinations(range(12), 7) if tones[0] == 0]
    steps = [[high - low for low, high in zip(tones, (*tones[1:], 12), strict=True)] for tones in every]
    alike = sum(pattern.count(1) == 2 for pattern in steps)
    assert (alike, len(every)) == (21, 462)
    assert semitones["count"] == "21 of 462"
    assert semitones["rare"] == "one in twenty-two of the scales with seven tones"
    # A4 is 440 Hz (ISO 16), and the root the G above middle C.
    assert math.isclose(found["steps"][2]["hz"], 440.0)
    assert math.isclose(found["steps"][12]["hz"], 2 * found["steps"][0]["hz"], rel_tol=1e-5)


def test_nothing_is_said_of_rarity_before_it_is_counted():
    assert {one["rare"] for one in scale_data(Scale.of(0, 4, 7))["facts"]} == {""}


WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
NUMBERS = {word: number for number, word in enumerate(WORDS, 1)}


@given(st.integers(2, 9).flatmap(lambda tones: st.tuples(st.just(tones), st.integers(1, math.comb(11, tones - 1)))))
def test_the_words_for_a_share_are_near_to_it(drawn: tuple[int, int]):
    tones, alike = drawn
    family = family_of(Scale((1 << tones) - 1))
    words, share = share_in_words(Share(family, alike, 1)), Fraction(alike, family.scales)
    size = next(word for word, number in NUMBERS.items() if number == tones)
    assert words.endswith(f"scales with {size} tones") or alike == 1
    said = re.fullmatch(r"(about )?(\S+) in (\S+) of the scales .*", words)
    if said is None:
        assert share == 1 or alike == 1 or (words.startswith("nearly all") and share > Fraction(9, 10))
    elif said[2] in NUMBERS and said[3] in NUMBERS:
        told = Fraction(NUMBERS[said[2]], NUMBERS[said[3]])
        assert abs(told - share) <= Fraction(1, 20)
        assert bool(said[1]) == (told != share)


def test_bits_and_words_are_the_same_scale():
    assert from_bits("101101010110", 2) == scale_asked("D dorian", "", 0, 12)


@settings(max_examples=30, deadline=None)  # the largest scales of sixteen divisions take a third of a second
@given(
    st.integers(2, 16).flatmap(lambda n: st.tuples(st.just(n), st.integers(0, 2 ** (n - 1) - 1), st.integers(0, n - 1)))
)
def test_every_scale_has_plain_data_and_the_values_of_its_facts(drawn: tuple[int, int, int]):
    n, upper, root = drawn
    scale = Scale(upper << 1 | 1, n, root)
    found = scale_data(scale)
    assert from_bits(scale.bits, root) == scale
    assert json.loads(canonical_json(found)) == found
    registry = default_registry()
    for one in found["facts"]:
        assert one["value"] == printed_value(registry.fact(one["id"]), registry.fact(one["id"]).evaluate(scale), "en")
        tones = {tone % n for parts in one["parts"] for part in parts for tone in part}
        # The complement is made of the tones that the scale has not; a familiar scale may have some of those, too.
        outside = set(range(n)) - set(scale.tones)
        allowed = {"complement": outside, "nearest_relative": set(range(n))}.get(one["id"], set(scale.tones))
        assert tones <= allowed, one["id"]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"text": "X"}, "X"),
        ({"text": ""}, "no scale"),
        ({"text": "pcs: 1 2 3 on C"}, "root"),
        ({"bits": "0110"}, "root"),
        ({"bits": "1"}, "root"),
        ({"bits": "1x1"}, "root"),
        ({"bits": "101", "root": 3}, "root"),
        ({"bits": "101", "root": -1}, "root"),
        ({"bits": "1" * (MOST_DIVISIONS + 1)}, "root"),
    ],
)
def test_what_is_no_scale_is_told(asked: dict, said: str):
    with pytest.raises(InputError, match=said):
        scale_asked(**({"text": "", "bits": "", "root": 0, "divisions": 12} | asked))


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory):
    folder = tmp_path_factory.mktemp("explored")
    course_in(folder, {"dorian": script()})
    with running(folder) as studio:
        yield studio


@pytest.mark.parametrize(
    "path",
    [
        f"/explore?scale={'x' * 201}",
        "/explore?divisions=25",
        f"/api/scale?bits={'1' * 73}",
        "/api/scale?bits=10a",
        "/api/scale?text=C&divisions=25",
        f"/api/scale?text={'C' * 201}",
        "/api/relatives?bits=0",
        "/api/relatives?bits=11&root=2",
        "/api/comparison?bits=101&other_bits=1001",
        "/api/comparison/picture?bits=101&other_bits=1001",
        "/api/comparison/picture?bits=101&other_bits=101&shade=blue",
        "/api/search/columns?bits=2",
        "/api/search?bits=1000&page=-1",
        "/api/search?bits=1000&relation=near",
        f"/api/search?bits=1000&condition={'x' * 5001}",
        "/api/catalogue/1",
        "/api/catalogue/25",
        "/api/catalogue/twelve",
    ],
)
def test_an_address_that_is_wrong_is_refused_in_words(served: Studio, path: str):
    answer = served.ask("GET", path)
    assert answer.status == 422
    assert set(json.loads(answer.body)) >= {"value", "rule", "next_step"}


def test_what_is_in_an_address_stays_text(served: Studio):
    page = served.ask("GET", "/explore?scale=%22%3E%3Cscript%3E&beside=%3Cimg%20src%3Dx%3E").body.decode()
    assert "<script>" not in page.replace('<script type="module"', "")
    assert "<img src" not in page
    assert "&lt;img src=x&gt;" in page


def test_readings_of_words_with_several_meanings_are_told(served: Studio):
    # Two books give the name to different tones (Burrows, and Sachs; see the table of names).
    answer = served.ask("GET", "/api/scale?text=hirajoshi+on+C")
    told = json.loads(answer.body)
    assert answer.status == 422
    assert len(told["readings"]) >= 2


def test_no_course_folder_is_left_changed(served: Studio):
    assert {path.name for path in Path(served.place.course).iterdir()} <= {"lessons", "series.toml", ".gamutwright"}
