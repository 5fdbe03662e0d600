"""The wording files: Fluent messages, one for each fact, in its pack, and one for each connecting phrase.

A message's id is the fact's id with hyphens. Its attributes are

- `.title`: what a heading prints, in languages other than that of the facts,
- `.a`, `.b`, `.c` ...: statements; at least two, so that a lesson need not repeat a sentence's shape,
- `.long`, `.long-b`: statements for a list too long to read out; `.none`: for an empty list,
- `.define`: the definition for the ear; `.define-other`: the one outside twelve divisions of the octave, where the
  common one speaks of the keyboard; `.ask` and `.answer`: question and answer of the recap,
- `.yes`, `.no`: the predicate of a yes-or-no fact; `.word-<value>`: words for a value out of a fixed few,
- `.noun`: what a counting fact counts, in the plural, for comparisons.

Words that state the value stand between ‹ and ›; the engine turns them into a bound claim. `{ $value }` is such a claim
ready made, `{ $places }` is empty or a colon and the places, `{ $names }` the places alone.

Conventions: nothing but these marks binds; braces and brackets of the script's own markup never stand in these files.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
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

    def __init__(self, language: str, source: str) -> None:
        try:
            from fluent.runtime import FluentBundle, FluentResource  # noqa: PLC0415 - only a lesson needs it
        except ImportError as error:  # pragma: no cover - the test environment has it
            raise MissingPartError(
                "the wording of lessons", "it is kept in Fluent files", "Install it with: pip install fluent.runtime"
            ) from error
        self.language = language
        self._bundle = FluentBundle([language], use_isolating=False)
        self._resource = FluentResource
        stray = next((line for line in source.splitlines() if not _LINE.match(line)), None)
        if stray is not None:
            self._refuse(stray)
        # Reading a whole file takes longer than making a short film again, so each message is read when it is needed.
        self._written = {match[1]: match[0].rstrip() for match in _MESSAGE.finditer(source)}
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
        if not self._bundle.has_message(message):
            parsed = self._resource(self._written[message])
            if any(type(entry).__name__ == "Junk" for entry in parsed.body):
                self._refuse(self._written[message])
            self._bundle.add_resource(parsed)

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
        pattern = self._bundle.get_message(message).attributes[attribute]
        text, errors = self._bundle.format_pattern(pattern, dict(slots))
        if errors:
            raise DomainError(
                f"message '{message}.{attribute}'", f"{errors[0]}", "Give the variable, or mend the file."
            )
        return str(text)


@lru_cache(maxsize=8)
def load_messages(language: str) -> Messages:
    """Load the wording of a language once.

    Parameters
    ----------
    language : str
        Language tag of two letters.

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
    texts = [words.text("lesson.ftl"), words.text("scales.ftl"), *pack_messages(words)]
    return Messages(words.tag, "\n".join(texts))
