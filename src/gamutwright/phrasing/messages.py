"""The wording files: Fluent messages, one for each fact, in its pack, and one for each connecting phrase.

A message's id is the fact's id with hyphens. Its attributes are

- `.title`: what a heading prints, in languages other than that of the facts,
- `.a`, `.b`, `.c` ...: statements; at least two, so that a lesson need not repeat a sentence's shape,
- `.long`, `.long-b`: statements for a list too long to read out; `.none`: for an empty list,
- `.define`: the definition for the ear; `.define-other`: the one outside twelve divisions of the octave, where the
  common one speaks of the keyboard; `.ask` and `.answer`: question and answer of the recap,
- `.yes`, `.no`: the predicate of a yes-or-no fact; `.word-<value>`: words for a value out of a fixed few,
- `.noun`: what a counting fact counts, in the plural, for comparisons; `.more`, `.fewer`, `.same`: whole comparisons
  with `{ $other }`, for what is not counted.

Words that state the value stand between ‹ and ›; the engine turns them into a bound claim. `{ $value }` is such a claim
ready made, `{ $places }` is empty or a colon and the places, `{ $names }` the places alone. A sentence may depend on
`$label`, the label of the first place with hyphens for blanks, and on `$many`, the number of places.

The files are in the syntax of Fluent 1.0 (Project Fluent), read by its own parser; of it they use variables and the
choice between variants, by a word, a number, or the plural category that the language gives a number.

Conventions: nothing but these marks binds; braces and brackets of the script's own markup never stand in these files.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any, NoReturn

from gamutwright.errors import DomainError, MissingPartError
from gamutwright.languages import language_of
from gamutwright.phrasing.packwords import pack_messages

__all__ = ["Messages", "load_messages"]

_LINE = re.compile(r"(?:[a-zA-Z][\w-]* *=| |#|$)")
"""How a line of a wording file begins; there are no terms in these files, and no message refers to another."""
_MESSAGE = re.compile(r"^([a-zA-Z][\w-]*) *=.*(?:\n(?: .*|$))*", re.MULTILINE)
_ATTRIBUTE = re.compile(r"^ +\.([a-zA-Z][\w-]*) *=", re.MULTILINE)


class Messages:
    """The messages of one language.

    Parameters
    ----------
    language : str
        Language tag.
    source : str
        Text of its Fluent file.
    own : str
        Text of a further file, whose attributes stand before those of the same names.

    Raises
    ------
    MissingPartError
        If Fluent is not installed.
    DomainError
        If the file does not parse.

    Examples
    --------
    >>> source = chr(10).join(["greeting =", "    .a = Hello { $name }"])
    >>> Messages("en", source).format("greeting", "a", {"name": "there"})
    'Hello there'
    """

    def __init__(self, language: str, source: str, own: str = "") -> None:
        try:
            from fluent.syntax import FluentParser  # noqa: PLC0415 - only a lesson needs it
        except ImportError as error:  # pragma: no cover - the test environment has it
            raise MissingPartError(
                "the wording of lessons", "it is kept in Fluent files", "Install it with: pip install fluent.syntax"
            ) from error
        self.language = language
        self._plural = language_of(language).numerals.plural
        self._parser = FluentParser(with_spans=False)
        self._patterns: dict[str, dict[str, Any]] = {}
        stray = next((line for text in (source, own) for line in text.splitlines() if not _LINE.match(line)), None)
        if stray is not None:
            self._refuse(stray)
        # Reading a whole file takes longer than making a short film again, so each message is read when it is needed.
        self._written = {match[1]: match[0].rstrip() for match in _MESSAGE.finditer(source)}
        laid = {match[1]: match[0] for match in _MESSAGE.finditer(own)}
        self.own = frozenset((key, name) for key, text in laid.items() for name in _ATTRIBUTE.findall(text))
        self._written |= {key: _laid_over(key, self._written.get(key, ""), text) for key, text in laid.items()}
        self._attributes = {key: frozenset(_ATTRIBUTE.findall(text)) for key, text in self._written.items()}

    def _refuse(self, text: str) -> NoReturn:
        raise DomainError(f"'{text[:80]}'", f"the wording file of '{self.language}' does not parse here", "Mend it.")

    def read(self, message: str) -> None:
        """Read a message into memory, unless it is there.

        Parameters
        ----------
        message : str
            Its id, which is in the file.

        Raises
        ------
        DomainError
            If it does not parse.
        """
        if message not in self._patterns:
            parsed: list[Any] = self._parser.parse(self._written[message]).body
            if [type(entry).__name__ for entry in parsed] != ["Message"]:
                self._refuse(self._written[message])
            self._patterns[message] = {attribute.id.name: attribute.value for attribute in parsed[0].attributes}

    @property
    def ids(self) -> tuple[str, ...]:
        """Ids of all messages, in the order of the file."""
        return tuple(self._attributes)

    def written(self, message: str) -> str:
        """Give a message as the file has it, "" where there is no such message."""
        return self._written.get(message, "")

    def attributes(self, message: str) -> frozenset[str]:
        """Give the attributes of a message, none where there is no such message."""
        return self._attributes.get(message, frozenset())

    def shapes(self, message: str) -> tuple[str, ...]:
        """Give the attributes that hold statements: those of one letter, in order."""
        return tuple(sorted(name for name in self.attributes(message) if len(name) == 1))

    def slots(self, message: str, attribute: str) -> tuple[frozenset[str], frozenset[str]]:
        """Give the variables of an attribute that are spoken, and those that choose between variants.

        Parameters
        ----------
        message, attribute : str
            Which.

        Returns
        -------
        (frozenset of str, frozenset of str)
            Spoken in some variant or other; deciding.
        """
        self.read(message)
        spoken: set[str] = set()
        deciding: set[str] = set()

        def walk(pattern: Any) -> None:  # noqa: ANN401 - a node of Fluent's tree
            for element in pattern.elements:
                expression: Any = getattr(element, "expression", None)
                if hasattr(expression, "variants"):
                    deciding.add(expression.selector.id.name)
                    for variant in expression.variants:
                        walk(variant.value)
                elif expression is not None and hasattr(expression, "id"):
                    spoken.add(expression.id.name)

        walk(self._patterns[message][attribute])
        return frozenset(spoken), frozenset(deciding)

    def format(self, message: str, attribute: str, slots: Mapping[str, Any]) -> str:
        """Fill in an attribute of a message.

        Parameters
        ----------
        message, attribute : str
            Which.
        slots : mapping of str to object
            Values of its variables.

        Returns
        -------
        str
            The text.

        Raises
        ------
        DomainError
            If there is no such text, or a variable is missing.
        """
        if attribute not in self.attributes(message):
            raise DomainError(
                f"message '{message}.{attribute}'", f"the wording of '{self.language}' has none", "Add it to the file."
            )
        self.read(message)
        try:
            return self._filled(self._patterns[message][attribute], slots)
        except LookupError as error:
            raise DomainError(
                f"message '{message}.{attribute}'", f"it has no {error.args[0]}", "Give the variable, or mend the file."
            ) from error

    def _filled(self, pattern: Any, slots: Mapping[str, Any]) -> str:  # noqa: ANN401 - a node of Fluent's tree
        return "".join(
            self._placed(element.expression, slots) if hasattr(element, "expression") else element.value
            for element in pattern.elements
        )

    def _placed(self, expression: Any, slots: Mapping[str, Any]) -> str:  # noqa: ANN401 - as above
        if not hasattr(expression, "variants"):
            is_literal = hasattr(expression, "parse")
            return str(expression.parse()["value"] if is_literal else _variable(expression, slots))
        value = _variable(expression.selector, slots)
        usual = next(variant for variant in expression.variants if variant.default)
        chosen = next((variant for variant in expression.variants if self._is_meant(variant.key, value)), usual)
        return self._filled(chosen.value, slots)

    def _is_meant(self, key: Any, value: object) -> bool:  # noqa: ANN401 - as above
        """Whether a variant is that of a value: a word by itself, a number by itself or by its plural category."""
        if not isinstance(value, int):
            return bool(getattr(key, "name", None) == value)
        return bool(float(key.value) == value if hasattr(key, "value") else key.name == self._plural(value))


def _variable(expression: Any, slots: Mapping[str, Any]) -> object:  # noqa: ANN401 - a node of Fluent's tree
    if type(expression).__name__ != "VariableReference":
        raise LookupError(f"way to fill in a {type(expression).__name__}")
    if expression.id.name not in slots:
        raise LookupError(f"value for {expression.id.name}")
    return slots[expression.id.name]


def _laid_over(key: str, message: str, own: str) -> str:
    """Give a message with the attributes of another; shapes of statements all go where another has any."""
    theirs, ours = dict(_parts(message)), dict(_parts(own))
    if any(len(name) == 1 for name in ours):
        theirs = {name: text for name, text in theirs.items() if len(name) > 1}
    return "\n".join([f"{key} =", *(theirs | ours).values()])


def _parts(message: str) -> Iterator[tuple[str, str]]:
    """Cut a message into its attributes, each with its name and all its lines."""
    found = list(_ATTRIBUTE.finditer(message))
    ends = [one.start() for one in found[1:]] + [len(message)]
    for one, end in zip(found, ends, strict=False):
        yield one[1], message[one.start() : end].rstrip()


@lru_cache(maxsize=8)
def load_messages(language: str, own: str = "") -> Messages:
    """Load the wording of a language once.

    Parameters
    ----------
    language : str
        Language tag of two letters.
    own : str
        Text of a further wording file, such as a course's.

    Returns
    -------
    Messages
        Its messages.

    Raises
    ------
    DomainError
        If there is no file for the language.

    Examples
    --------
    >>> "semitone-steps" in load_messages("en").ids
    True
    """
    words = language_of(language)
    texts = [*(words.text(f"{name}.ftl") for name in ("lesson", "stories", "scales")), *pack_messages(words)]
    return Messages(words.tag, "\n".join(texts), own)
