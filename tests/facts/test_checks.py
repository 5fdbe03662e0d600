"""The kit for authors must find what is wrong: each fault planted here must be named."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

import pytest

from gamutwright.facts.checks import complaints, is_close
from gamutwright.facts.model import Citation, Dtype, Fact, Scope, Source, Witness, WitnessKind, Worked, is_negative
from gamutwright.facts.reference import pages
from gamutwright.facts.registry import default_registry
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
HERE = Citation(Source("tide", "A. Keeper", "1900", "Tides"), "p. 1")


def semitones() -> Fact:
    return default_registry().fact("semitone_steps")


FAULTS: dict[str, tuple[Callable[[Fact], Fact], str]] = {
    "no definition": (lambda fact: replace(fact, doc=None), "definition"),
    "no source": (lambda fact: replace(fact, sources=()), "source is missing"),
    "no locator": (lambda fact: replace(fact, sources=(replace(HERE, locator=""),)), "no locator"),
    "few examples": (lambda fact: replace(fact, worked=fact.worked[:1]), "at least 3"),
    "no negative": (lambda fact: replace(fact, worked=(fact.worked[0],) * 3), "no worked example is negative"),
    "wrong example": (lambda fact: replace(fact, worked=(*fact.worked, Worked(MAJOR, 3, HERE))), "says 3"),
    "refuted": (lambda fact: replace(fact, worked=(*fact.worked, Worked(MAJOR, 2, HERE, refutes=True))), "mistake"),
    "wrong type": (lambda fact: replace(fact, dtype=Dtype.TEXT), "is no text"),
    "lost witness": (lambda fact: replace(fact, witnesses=lambda scale: ()), "0 witnesses"),
    "outside": (
        lambda fact: replace(fact, witnesses=lambda scale: (Witness(WitnessKind.TONE, ((99,),)),)),
        "leaves the octave",
    ),
    "not TnI": (lambda fact: replace(fact, counts=False, value=lambda scale: scale.mask), "inversion"),
    "not Tn": (lambda fact: replace(fact, counts=False, scope=Scope.TN, value=lambda scale: scale.mask), "rooted"),
    "not rooted": (
        lambda fact: replace(fact, counts=False, scope=Scope.ROOTED, value=lambda scale: scale.root),
        "spelled",
    ),
    "no reason": (lambda fact: replace(fact, value=lambda scale: None, worked=()), "no reason"),
}


def test_the_fact_is_well_before_a_fault_is_planted() -> None:
    assert not complaints(semitones())


@pytest.mark.parametrize(("plant", "said"), FAULTS.values(), ids=FAULTS)
def test_a_planted_fault_is_named(plant: Callable[[Fact], Fact], said: str) -> None:
    found = complaints(plant(semitones()))
    assert any(said in complaint for complaint in found), found


@pytest.mark.parametrize(
    ("value", "negative"), [(False, True), (0, True), (None, True), ((), True), (True, False), (2, False)]
)
def test_what_counts_as_negative(value: bool | int | tuple[int, ...] | None, negative: bool) -> None:
    assert is_negative(Worked(MAJOR, value, HERE)) is negative


def test_yes_is_not_one() -> None:
    assert not is_close(True, 1, 0.5)  # noqa: FBT003 - the value under test
    assert not is_close((1, 2), (1, 2, 3), 9)


def test_no_source_is_cited_without_a_name():
    """Common practice has no author: neither brackets nor a comma stand for one."""
    for name, page in pages(default_registry()).items():
        assert "()" not in page, name
        assert not re.search(r"\| *, |^- *,", page, re.MULTILINE), name
