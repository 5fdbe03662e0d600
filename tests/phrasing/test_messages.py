"""Messages are filled in as Fluent's own runtime fills them in, and numbers have the plural categories of the CLDR.

References: `fluent.runtime` of Project Fluent, and babel, which carries the plural rules of the Unicode CLDR.
"""

from __future__ import annotations

import random

import pytest
from babel import Locale
from fluent.runtime import FluentBundle, FluentResource
from fluent.syntax import FluentParser, ast, visitor

from gamutwright.errors import DomainError
from gamutwright.languages import known_languages, language_of
from gamutwright.phrasing.messages import Messages, load_messages

NUMBERS = (0, 1, 2, 3, 7, 11, 12, 19, 21, 101, 462)
WORDS = ("yes", "no", "", "‹seven›", "improper", "degenerate", "anhemitonic")


class Variables(visitor.Visitor):
    """The variables of a pattern, and those that a choice is made by."""

    def __init__(self) -> None:
        self.all: set[str] = set()
        self.chosen_by: set[str] = set()

    def visit_VariableReference(self, node: ast.VariableReference) -> None:  # noqa: N802 - the visitor's names
        self.all.add(node.id.name)

    def visit_SelectExpression(self, node: ast.SelectExpression) -> None:  # noqa: N802 - as above
        self.chosen_by.add(node.selector.id.name)
        self.generic_visit(node)


@pytest.mark.parametrize("language", known_languages())
def test_every_text_is_filled_in_as_the_reference_does(language: str):
    ours, draw = load_messages(language), random.Random(language)  # noqa: S311 - repeatable samples
    source = "\n".join(ours.written(message) for message in ours.ids)
    reference = FluentBundle([language], use_isolating=False)
    reference.add_resource(FluentResource(source))
    compared = 0
    for message in FluentParser().parse(source).body:
        for attribute in getattr(message, "attributes", ()):
            found = Variables()
            found.visit(attribute)
            for _ in range(1 + 6 * len(found.chosen_by)):
                slots = {
                    name: draw.choice((*NUMBERS, *WORDS) if name in found.chosen_by else WORDS) for name in found.all
                }
                pattern = reference.get_message(message.id.name).attributes[attribute.id.name]
                expected, errors = reference.format_pattern(pattern, slots)
                assert not errors
                assert ours.format(message.id.name, attribute.id.name, slots) == expected, (message.id.name, slots)
                compared += 1
    assert compared > 1000


@pytest.mark.parametrize("language", known_languages())
def test_plural_categories_are_those_of_the_cldr(language: str):
    plural = language_of(language).numerals.plural
    reference = Locale.parse(language).plural_form
    assert [plural(number) for number in range(1001)] == [reference(number) for number in range(1001)]


def test_variants_by_number_word_and_category():
    source = """x =
    .a = { $n ->
        [0] none
        [one] one
       *[other] { $n } { "[all]" }
    }
    .b = { $w ->
        [yes] it is
       *[no] it is not
    }
"""
    messages = Messages("en", source)
    assert [messages.format("x", "a", {"n": n}) for n in (0, 1, 2)] == ["none", "one", "2 [all]"]
    assert [messages.format("x", "b", {"w": w}) for w in ("yes", "no", "?")] == ["it is", "it is not", "it is not"]


@pytest.mark.parametrize(("text", "told"), [("{ $gone }", "no value for gone"), ("{ NUMBER(1) }", "no way to fill in")])
def test_what_cannot_be_filled_in_is_told(text: str, told: str):
    with pytest.raises(DomainError, match=told):
        Messages("en", f"x =\n    .a = {text}\n").format("x", "a", {})
