"""Plain data, canonical JSON and digests of frozen records.

One value, one text, one digest: keys sorted, no spaces, UTF-8, no NaN. A digest therefore says whether two records
are the same wherever they were made.

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

from gamutwright.errors import DomainError

__all__ = ["Plain", "canonical_json", "digest", "to_plain"]

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
