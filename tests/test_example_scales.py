"""Which scales serve as examples: the collection of thaat bhairav (mela 15) stands in tables and is no example."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from gamutwright.facts.checks import sample_scales
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.theory.notenames import note_name_to_pitch_class
from gamutwright.theory.scale import Scale

PROJECT = Path(__file__).parents[1]
# Mela 15: shuddha ri, antara ga, shuddha ma, shuddha dha, kakali ni, by the rule of the melakarta numbers (in any
# textbook of Carnatic music, from memory).
BHAIRAV = Scale.of(0, 1, 4, 5, 7, 8, 11)
TABLES = {"forte.csv", "names.csv", "published-values.csv"}
NUMBERS = re.compile(r"\d{1,2}(?:[\s,·–-]{1,3}\d{1,2}){6,7}(?!\d)")
NAME = r"[A-G](?:[#b♯♭]| sharp| flat)?(?![a-z])"
NAMES = re.compile(rf"{NAME}(?:(?:, and |, | and | - | |-){NAME}){{6,7}}")


def is_of_the_collection(scale: Scale) -> bool:
    """Whether a scale is a rotation, transposition or inversion of it."""
    if scale.divisions != 12 or scale.cardinality != 7:
        return False
    turned = {BHAIRAV.mode(degree).step_pattern for degree in range(1, 8)}
    return scale.step_pattern in turned or scale.step_pattern[::-1] in turned


def scales_in(text: str) -> Iterator[Scale]:
    """Read every row of seven pitch classes, steps or notes, one that repeats the first at the octave too."""
    for found in NUMBERS.finditer(text):
        row = [int(number) for number in re.findall(r"\d+", found[0])]
        for tones in (row[:7], row[-7:]):
            if max(tones) < 12 and len(set(tones)) == 7:
                yield Scale.of(*tones)
            if sum(tones) == 12 and all(tones):
                yield Scale.of(*(sum(tones[:count]) for count in range(7)))
    for found in NAMES.finditer(text):
        names = re.findall(NAME, found[0])[:7]
        signs = [
            name.replace(" sharp", "#").replace(" flat", "b").replace("♯", "#").replace("♭", "b") for name in names
        ]
        classes = [note_name_to_pitch_class(name) for name in signs]
        if len(set(classes)) == 7:
            yield Scale.of(*classes)


def test_the_reader_finds_the_collection_in_every_writing():
    for text in (
        "0 1 4 5 7 8 11",
        "1-3-1-2-1-3-1",
        "C D flat E F G A flat B",
        "0, 1, 2, 5, 6, 8, 9",
        "C Db E F G Ab B C",
    ):
        assert any(map(is_of_the_collection, scales_in(text))), text
    assert not any(map(is_of_the_collection, scales_in("C D E F G A B, steps 2 2 1 2 2 2 1")))
    assert is_of_the_collection(read_scale("mela 15 on D").scale)


def test_no_worked_example_and_no_sample_is_of_the_collection():
    for fact in default_registry().facts.values():
        assert not any(is_of_the_collection(worked.scale) for worked in fact.worked), fact.id
    assert not any(map(is_of_the_collection, sample_scales()))


@pytest.mark.parametrize("lot", sorted((PROJECT / "tests" / "data" / "audit").iterdir()), ids=lambda lot: lot.name)
def test_no_text_of_the_corpus_is_about_the_collection(lot: Path):
    passages = tomllib.loads((lot / "expected.toml").read_text(encoding="utf-8"))["passage"]
    for passage in passages:
        if passage["scale"]:
            assert not is_of_the_collection(read_scale(passage["scale"]).scale), passage["file"]


def test_no_source_page_or_test_gives_the_collection_as_an_example():
    read = 0
    for folder in ("src", "tests", "docs", "examples", "changelog.d"):
        for path in (PROJECT / folder).rglob("*"):
            if path.suffix in {".py", ".md", ".toml", ".txt", ".ftl", ".vtt", ".srt", ".js", ".csv"}:
                if path.name in TABLES or path == Path(__file__):
                    continue
                read += 1
                text = path.read_text(encoding="utf-8")
                for line in text.splitlines():
                    assert not any(map(is_of_the_collection, scales_in(line[:2000]))), (str(path), line)
    assert read > 300
