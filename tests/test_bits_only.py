"""No number of a set leaves or enters the program: what is told of a scale has its bits, root first."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator

import pytest
from typer.testing import CliRunner

from gamutwright.cli.app import app
from gamutwright.codec import canonical_json
from gamutwright.errors import DomainError
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.forms import FORMS, to_text
from gamutwright.inputs.text import PREFIXES
from gamutwright.series.examining import scale_record, summary_of
from gamutwright.studio.relating import comparison_data, relatives
from gamutwright.studio.scalecards import card
from gamutwright.theory.scale import Scale

ACOUSTIC = Scale.of(7, 9, 11, 1, 2, 4, 5)
MINOR = Scale.of(0, 2, 3, 5, 7, 8, 10)


def numbers_of(scale: Scale) -> set[str]:
    """Give what a row of bits amounts to, read from either end, about the root and about pitch class 0."""
    rows = [scale.bits, format(scale.pitch_class_mask, f"0{scale.divisions}b")]
    values = {int(row[::way], 2) for row in rows for way in (1, -1)}
    return {text for value in values for text in (str(value), hex(value), bin(value))}


def told(text: str, *scales: Scale) -> Iterator[str]:
    """Find such numbers in a text, bits themselves left out."""
    for number in set.union(*map(numbers_of, scales)):
        if re.search(rf"(?<![0-9a-z.]){number}(?![0-9])", text):
            yield number


def test_the_numbers_are_found_where_they_stand() -> None:
    assert list(told('{"mask": 1709}', Scale.of(2, 4, 5, 7, 9, 11, 0))) == ["1709"]


@pytest.mark.parametrize(
    "words",
    [
        ["describe", "G acoustic"],
        ["describe", "G acoustic", "--json"],
        ["describe", "G acoustic", "--fact", "bit_string"],
        ["compare", "G acoustic", "C minor"],
        ["compare", "G acoustic", "C minor", "--json"],
        ["draft", "G acoustic", "--level", "research"],
    ],
    ids=" ".join,
)
def test_commands_tell_no_number_of_a_set(words: list[str]) -> None:
    shown = CliRunner().invoke(app, words)
    assert shown.exit_code == 0, shown.output
    assert not list(told(shown.output, ACOUSTIC, MINOR))
    assert "mask" not in shown.output.lower()
    if "--json" in words:
        assert ACOUSTIC.bits in shown.output
        json.loads(shown.output)


def test_nor_do_records_and_screens() -> None:
    script = "---\nscale: G acoustic\n---\nIt has [seven]{fact=cardinality} tones.\n"
    everything = [
        ACOUSTIC,
        scale_record(ACOUSTIC),
        summary_of("script.md", script),
        card(ACOUSTIC),
        relatives(ACOUSTIC),
        comparison_data(ACOUSTIC, Scale.of(0, 2, 3, 5, 7, 8, 10)),
    ]
    for record in everything:
        assert not list(told(canonical_json(record), ACOUSTIC, MINOR))
    assert not list(told(repr(ACOUSTIC), ACOUSTIC))
    assert eval(repr(ACOUSTIC)) == ACOUSTIC  # noqa: S307 - our own words
    with pytest.raises(DomainError) as caught:
        Scale(5000)
    assert "5000" not in str(caught.value)


def test_no_form_and_no_fact_is_such_a_number() -> None:
    assert not {"mask", "decimal", "number"} & {*FORMS, *PREFIXES}
    for form in FORMS:
        assert not list(told(to_text(MINOR, form), MINOR))
    for fact in default_registry().facts.values():
        assert "mask" not in f"{fact.id} {fact.title} {' '.join(fact.terms)}".lower()
        value = canonical_json(fact.evaluate(ACOUSTIC))
        assert not list(told(value, ACOUSTIC)), fact.id
