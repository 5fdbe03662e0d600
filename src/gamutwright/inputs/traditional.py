"""Traditional names: `D dorian`, `dorian on D`, `mela 29`, `Messiaen 3`, `thaat kafi`, `C hirajoshi (Sachs)`.

Conventions: names are those of `gamutwright.theory.naming`. Where sources give different scales under one name, each is
an option of its own, written plainly with its source in brackets.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterator
from functools import lru_cache

from gamutwright.errors import told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, Root, placed, shortened
from gamutwright.theory.naming import TraditionalName, all_names, scales_called
from gamutwright.theory.notenames import note_name_to_pitch_class

__all__ = ["read_traditional_name", "roots_and_rests"]

_LONGEST = 120
_NUMBERED = re.compile(r"(?:mela|melakarta|messiaen)(?: mode)? [0-9]{1,4}", re.IGNORECASE)
_EXAMPLE = told("Write a name like: D dorian, mela 29 or dorian #4.")


def roots_and_rests(text: str, request: Request) -> Iterator[tuple[Request, str]]:
    """Split a root off the front of a name, in every way that works; the text without a root comes first.

    Parameters
    ----------
    text : str
        The name, perhaps with a root such as `E flat` in front.
    request : Request
        Language, and a root stated otherwise, which goes before one in front.

    Yields
    ------
    tuple of (Request, str)
        The request with its root, and the rest of the text.

    Examples
    --------
    >>> from gamutwright.theory.notenames import names_in
    >>> [rest for _, rest in roots_and_rests("E flat dorian", Request(12, names_in("english")))]
    ['E flat dorian', 'flat dorian', 'dorian']
    """
    yield request, text
    words = text.split()
    for count in (1, 2, 3):
        if count < len(words):
            name = request.names.read(" ".join(words[:count]))
            if name:
                root = request.root or Root(note_name_to_pitch_class(name), name)
                yield Request(request.divisions, request.names, root, request.is_explicit), " ".join(words[count:])


def read_traditional_name(text: str, request: Request) -> tuple[Option, ...]:
    """Read a traditional name.

    Parameters
    ----------
    text : str
        The name, perhaps with its root in front.
    request : Request
        Divisions, language and root.

    Returns
    -------
    tuple of Option
        One for each scale that bears the name.

    Raises
    ------
    NotThisFormError
        If no source held knows the name.
    """
    text = " ".join(text.split())
    if len(text) > _LONGEST:
        raise NotThisFormError(shortened(text), told("no scale we know is called so"), _EXAMPLE)
    fit, word = 0.0, text
    for placing, rest in roots_and_rests(text, request):
        records = scales_called(rest) or scales_called(re.sub(r"\s+(scale|mode)$", "", rest, flags=re.IGNORECASE))
        if records and request.divisions == 12:
            return tuple(_options(records, placing))
        if records:
            rule = told(
                "named scales are those of 12 divisions, and these are {divisions}", divisions=request.divisions
            )
            raise NotThisFormError(shortened(text), rule, told("Give pitch classes or steps instead."), 0.9)
        is_word = placing is not request and bool(re.search(r"[A-Za-z]{4}", rest))
        closeness = 0.85 if _near(rest) or _NUMBERED.fullmatch(rest) else 0.6 * is_word
        if closeness > fit:
            fit, word = closeness, rest
    if _NUMBERED.fullmatch(word):
        rule = told("the melakartas are numbered 1 to 72, Messiaen's modes 1 to 7")
        raise NotThisFormError(shortened(word), rule, _EXAMPLE, fit)
    near = _near(word)
    hint = told("Did you mean {list}?", list=" / ".join(near)) if near else _EXAMPLE
    if not fit and re.search(r"[A-Za-z]{3}", text):
        fit = 0.1
    raise NotThisFormError(shortened(word), told("no scale we know is called so"), hint, fit)


def _near(name: str) -> list[str]:
    first = re.split(r" [#b]", name, maxsplit=1)[0]
    # A row of notes or numbers resembles no name, and comparing it with all of them takes longer than reading it.
    if not re.search(r"[^\W\d_]{3}", first):
        return []
    known = _known()
    return [known[n] for n in difflib.get_close_matches(first.lower(), known, n=2, cutoff=0.7)]


@lru_cache(maxsize=1)
def _known() -> dict[str, str]:
    return {n.lower(): n for record in all_names() for n in (*record.aliases, record.name)}


def _options(records: tuple[TraditionalName, ...], request: Request) -> Iterator[Option]:
    by_mask: dict[int, list[TraditionalName]] = {}
    for record in records:
        by_mask.setdefault(record.mask, []).append(record)
    names = {record.name for record in records}
    for mask, group in by_mask.items():
        record = group[0]
        scale, remarks = placed(mask, request)
        sources = "; ".join(f"{r.source}, {r.locator} ({r.evidence})" for r in group)
        remark = f"{record.name}, {record.tradition}: {sources}"
        author = re.split(r"[\s,]", record.source)[0]
        is_disputed = len(names) < len(by_mask)
        root = f" on {request.root.name or request.root.pitch_class}" if request.root else ""
        plainly = f"name: {record.name}{f' ({author})' if is_disputed else ''}{root}"
        yield Option(Reading(scale, "traditional name", (remark, *remarks)), plainly)
