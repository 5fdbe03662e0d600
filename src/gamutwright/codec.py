"""Plain data, canonical JSON and digests of frozen records.

One value, one text, one digest: keys sorted, no spaces, UTF-8, no NaN. A digest therefore says whether two records
are the same wherever they were made.

JSON that comes back from a file may have been changed by anybody; `plain_from_json` reads what can be worked with.

Conventions: a fraction becomes its nearest float in plain data (readers of JSON expect a number); a digest is
SHA-256, in hexadecimal.
"""

from __future__ import annotations

import dataclasses
import enum
import hashlib
import json
import math
from fractions import Fraction
from typing import Any

from gamutwright.errors import DomainError

__all__ = ["DEEPEST", "Plain", "canonical_json", "digest", "plain_from_json", "to_plain", "unlike"]

DEEPEST = 64
"""Lists and dictionaries within one another; what we write has a dozen."""

Plain = None | bool | int | float | str | list["Plain"] | dict[str, "Plain"]


def to_plain(record: object) -> Plain:
    """Turn a frozen record into lists, dictionaries, numbers and text.

    Parameters
    ----------
    record : object
        None, bool, int, finite float, Fraction, str, Enum, tuple, list, dict with str keys, or a dataclass of these;
        a class with `as_plain` says itself what is told of it.

    Returns
    -------
    Plain
        What `json.dumps` takes.

    Raises
    ------
    DomainError
        For a float that is not finite, or a type that has no plain form.

    Examples
    --------
    >>> to_plain({"quotient": Fraction(1, 4), "steps": (2, 1)})
    {'quotient': 0.25, 'steps': [2, 1]}
    """
    match record:
        case enum.Enum():
            return to_plain(record.value)
        case None | bool() | int() | str():
            return record
        case float() if math.isfinite(record):
            return record
        case Fraction():
            return float(record)
        case tuple() | list():
            return [to_plain(item) for item in record]
        case dict():
            return {str(key): to_plain(item) for key, item in record.items()}
        case _ if hasattr(type(record), "as_plain"):
            return to_plain(record.as_plain())  # type: ignore[attr-defined] # just asked
        case _ if dataclasses.is_dataclass(record) and not isinstance(record, type):
            return {field.name: to_plain(getattr(record, field.name)) for field in dataclasses.fields(record)}
        case _:
            raise DomainError(
                repr(record), "has no plain form", "Use finite numbers, text, tuples, dictionaries or dataclasses."
            )


def canonical_json(record: object) -> str:
    """Write a record as the one JSON text it has.

    Parameters
    ----------
    record : object
        Anything `to_plain` takes.

    Returns
    -------
    str
        JSON with sorted keys and no spaces.

    Examples
    --------
    >>> canonical_json({"b": (1, 2), "a": "♭"})
    '{"a":"♭","b":[1,2]}'
    """
    return json.dumps(to_plain(record), sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False)


def digest(record: object) -> str:
    """Digest a record.

    Parameters
    ----------
    record : object
        Anything `to_plain` takes.

    Returns
    -------
    str
        SHA-256 of the canonical JSON, 64 hexadecimal digits.

    Examples
    --------
    >>> digest((2, 1)) == digest([2, 1])
    True
    >>> digest((2, 1)) == digest((1, 2))
    False
    """
    return hashlib.sha256(canonical_json(record).encode()).hexdigest()


def plain_from_json(text: str | bytes, deepest: int = DEEPEST) -> Plain:
    """Read JSON that may have been written or changed by anybody.

    Parameters
    ----------
    text : str or bytes
        JSON; bytes are UTF-8.
    deepest : int
        How many levels there may be.

    Returns
    -------
    Plain
        Its content, with finite numbers.

    Raises
    ------
    ValueError
        If it is no JSON, holds a number that is none, or is nested more deeply than anything we write.

    Examples
    --------
    >>> plain_from_json('{"take": 2}')
    {'take': 2}
    >>> plain_from_json("1e999")
    Traceback (most recent call last):
    ...
    ValueError: 1e999 is no finite number
    """
    try:
        read: Plain = json.loads(text, parse_constant=_finite, parse_float=_finite)
    except RecursionError:
        read = None
        is_deep = True
    else:
        is_deep = _is_deep(read, deepest)
    if is_deep:
        raise ValueError(f"it is nested more than {deepest} levels deep")
    return read


def _finite(written: str) -> float:
    number = float(written)
    if not math.isfinite(number):
        raise ValueError(f"{written} is no finite number")
    return number


def _is_deep(read: Plain, deepest: int) -> bool:
    level = [read]
    for _ in range(deepest + 1):
        within = [item for item in level if isinstance(item, dict | list)]
        level = [item for one in within for item in (one.values() if isinstance(one, dict) else one)]
        if not level:
            return False
    return True


def unlike(plain: object, shape: object, place: str = "") -> str:
    """Say where plain data is not of the shape that a reader needs.

    Parameters
    ----------
    plain : object
        What JSON gave.
    shape : object
        A type; a list with the shape of all its items; a dictionary with the shapes of the entries that must be there.
    place : str
        Where it stands.

    Returns
    -------
    str
        The first place, and what belongs there; "" where all of it fits.

    Examples
    --------
    >>> unlike({"lines": [{"id": "a"}, {"id": 7}]}, {"lines": [{"id": str}]})
    'lines[1].id is no str'
    >>> unlike({"take": True}, {"take": int})
    'take is no int'
    """
    if isinstance(shape, dict):
        if not isinstance(plain, dict):
            return f"{place or 'it'} is no dictionary"
        for key in shape:
            if key not in plain:
                return f"{place}.{key} is missing".lstrip(".")
        inner = ((plain[key], wanted, f"{place}.{key}".lstrip(".")) for key, wanted in shape.items())
    elif isinstance(shape, list):
        if not isinstance(plain, list):
            return f"{place or 'it'} is no list"
        inner = ((item, shape[0], f"{place}[{index}]") for index, item in enumerate(plain))
    else:
        allowed: tuple[Any, ...] = (int, float) if shape is float else (shape,)
        is_right = isinstance(plain, allowed) and (shape in {bool, object} or not isinstance(plain, bool))
        return "" if is_right else f"{place or 'it'} is no {getattr(shape, '__name__', shape)}"
    return next((found for one in inner if (found := unlike(*one))), "")
