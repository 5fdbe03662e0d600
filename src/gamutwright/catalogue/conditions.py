"""Conditions as teachers write them, read by the database's own parser and checked before anything runs.

A condition is one expression that is true or false of a scale, such as `cardinality = 7 AND NOT is_balanced`. What may
stand in it is listed here: columns, constants, comparisons, AND, OR, NOT, arithmetic and a few functions of numbers,
texts and lists. Everything else is refused: subqueries, tables, files, settings, aggregates, further statements.

Conventions: text stands in single quotation marks; entries of lists are counted from 1; a fact that does not apply to a
scale is neither true nor false of it, so that scale is not found.
"""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from gamutwright.codec import plain_from_json
from gamutwright.errors import InputError

__all__ = ["FUNCTIONS", "LONGEST", "Condition", "Serializer", "parse_condition", "place_of", "unknown_column"]

LONGEST = 5_000
"""Characters."""
DEEPEST = 400
"""Levels of its syntax tree; each operation is three."""

Serializer = Callable[[str], str]
"""Gives the syntax tree of a statement as JSON, as DuckDB's `json_serialize_sql` does."""

_ALLOWED = """
+ - * / // % ** ^ ~~ !~~ ~~* !~~* ~~~ abs ceil ceiling floor round sqrt ln log2 log10 sign greatest least
lower upper length len contains starts_with ends_with prefix suffix regexp_matches regexp_full_match
list_value list_contains list_has list_has_any list_has_all list_position list_sum list_min list_max list_avg
list_distinct list_unique
"""
FUNCTIONS = frozenset(_ALLOWED.split())
_CLASSES = frozenset({"COLUMN_REF", "CONSTANT", "COMPARISON", "CONJUNCTION", "OPERATOR", "BETWEEN", "FUNCTION", "CAST"})
_TYPES = frozenset({"BOOLEAN", "INTEGER", "BIGINT", "DOUBLE", "FLOAT", "VARCHAR", "HUGEINT", "UBIGINT"})
_WHY_NOT = {
    "SUBQUERY": "a condition asks about one scale at a time, so a query inside it is refused",
    "WINDOW": "a condition asks about one scale at a time, so sums over many are refused",
    "PARAMETER": "a condition has no parameters",
    "STAR": "a condition names its columns",
    "LAMBDA": "functions cannot be made inside a condition",
}
_HEAD = "SELECT 1 WHERE "
_PARTS = {"modifiers": "ORDER BY or LIMIT", "group_expressions": "GROUP BY", "group_sets": "GROUP BY"}
_PARTS |= {"having": "HAVING", "qualify": "QUALIFY", "sample": "USING SAMPLE"}
_NEXT = "Write one condition like: cardinality = 6 AND tritones = 3 AND is_balanced."

Node = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Condition:
    """A condition that has been read.

    Parameters
    ----------
    text : str
        As written; it has been checked that it is one expression, also between brackets.
    columns : tuple of str
        The columns it names, in order, each once.
    """

    text: str
    columns: tuple[str, ...]


def parse_condition(
    text: str, serialize: Serializer, kinds: Mapping[str, str], why_missing: Callable[[str], str]
) -> Condition:
    """Read a condition and check everything that stands in it.

    Parameters
    ----------
    text : str
        The condition.
    serialize : callable
        Gives the syntax tree of a statement.
    kinds : mapping of str to str
        The type of each column, as the database calls it.
    why_missing : callable
        Says why a name is no column here, or "" for a name that is none anywhere.

    Returns
    -------
    Condition
        The condition and its columns.

    Raises
    ------
    InputError
        If it is not one condition, or names something that is not allowed.
    """
    if len(text) > LONGEST:
        raise InputError(
            f"a condition of {len(text):,} characters", f"it has at most {LONGEST:,}", "Ask in several steps."
        )
    if not text.strip():
        raise InputError("an empty condition", "there is nothing to look for", _NEXT)
    alone = _only_expression(text, serialize, _HEAD, "")
    bracketed = _only_expression(text, serialize, f"{_HEAD}(\n", "\n)")
    if _without_places(alone) != _without_places(bracketed):
        raise InputError(f"'{text}'", "it is not one whole expression", _NEXT)
    columns: dict[str, None] = {}
    for node in _nodes(alone):
        _check(node, text)
        if node["class"] == "COLUMN_REF":
            columns[_column(node, text, kinds, why_missing)] = None
    for node in _truths(alone):
        _check_truth(node, text, kinds)
    return Condition(text, tuple(columns))


def _only_expression(text: str, serialize: Serializer, head: str, tail: str) -> Node:
    """Take the one expression out of the tree of a statement that has nothing else."""
    try:
        read: Any = plain_from_json(serialize(head + text + tail), DEEPEST)
    except ValueError as error:
        raise InputError("this condition", "it is nested too deeply", "Write it with fewer brackets.") from error
    if read["error"]:
        if read["error_type"] != "parser":
            raise InputError(f"'{text}'", "only a condition belongs here, no other statement", _NEXT)
        message = str(read["error_message"])
        if "max expression depth" in message.lower():
            raise InputError("this condition", "it is nested too deeply", "Write it with fewer brackets.")
        where = place_of(text, int(read.get("position") or 0) - len(head))
        raise InputError(where, f"the condition cannot be read here ({message})", _NEXT)
    if len(read["statements"]) != 1:
        raise InputError(f"'{text}'", "only one condition belongs here", _NEXT)
    node = read["statements"][0]["node"]
    if node["type"] != "SELECT_NODE" or node["cte_map"]["map"]:
        raise InputError(f"'{text}'", "only a condition belongs here, no query", _NEXT)
    for part, name in _PARTS.items():
        if node.get(part):
            raise InputError(f"'{text}'", f"no {name} belongs in a condition", "Use --sort and --limit.")
    if node["from_table"]["type"] != "EMPTY" or len(node["select_list"]) != 1 or not node["where_clause"]:
        raise InputError(f"'{text}'", "only a condition belongs here, no query", _NEXT)
    return dict(node["where_clause"])


def _without_places(tree: Node) -> list[tuple[str, object]]:
    """List all that stands in a tree, but where in the text it stands."""
    found: list[tuple[str, object]] = []
    waiting: list[tuple[str, Any]] = [("", tree)]
    while waiting:
        key, value = waiting.pop()
        if key.startswith("query_location"):
            continue
        if isinstance(value, dict):
            waiting += value.items()
        elif isinstance(value, list):
            waiting += [("", item) for item in value]
        found.append((key, len(value) if isinstance(value, dict | list) else value))
    return found


def _nodes(tree: Node) -> Iterator[Node]:
    """Walk every expression in a tree, from left to right."""
    waiting: list[Any] = [tree]
    while waiting:
        value = waiting.pop()
        if isinstance(value, dict):
            if "class" in value and value["class"] != "TYPE":
                yield value
            waiting += reversed(value.values())
        elif isinstance(value, list):
            waiting += reversed(value)


def place_of(text: str, position: int) -> str:
    """Point at a place in a condition.

    Parameters
    ----------
    text : str
        The condition.
    position : int
        The place, in bytes of UTF-8 from its start.

    Returns
    -------
    str
        What stands there, and the number of its character, counted from 1.

    Examples
    --------
    >>> place_of("cardinality = = 7", 14)
    "'= 7' at character 15 of the condition"
    """
    before = text.encode()[: max(position, 0)].decode(errors="ignore")
    rest = text[len(before) :].strip()
    shown = rest if len(rest) <= 24 else f"{rest[:23]}…"
    return f"'{shown}' at character {len(before) + 1} of the condition" if rest else "the end of the condition"


def _place(node: Node, text: str) -> str:
    return place_of(text, int(node.get("query_location", len(_HEAD))) - len(_HEAD))


def _check(node: Node, text: str) -> None:
    kind = str(node["class"])
    if kind not in _CLASSES:
        rule = _WHY_NOT.get(kind, "this does not belong in a condition")
        raise InputError(_place(node, text), rule, _NEXT)
    if kind == "FUNCTION" and str(node["function_name"]).lower() not in FUNCTIONS:
        words = sorted(name for name in FUNCTIONS if name.isidentifier())
        near = difflib.get_close_matches(str(node["function_name"]).lower(), words, n=3, cutoff=0.75)
        hint = f"Did you mean {' or '.join(near)}?" if near else f"These may: {', '.join(words)}."
        raise InputError(
            _place(node, text), f"the function {node['function_name']} cannot be used in a condition", hint
        )
    if kind == "CAST" and not _is_plain_type(node):
        raise InputError(_place(node, text), f"types are {', '.join(sorted(_TYPES))}", _NEXT)


def _is_plain_type(node: Node) -> bool:
    told = node.get("type_expr") or node.get("cast_type") or {}
    return str(told.get("type_name") or told.get("id") or "").upper() in _TYPES


def _column(node: Node, text: str, kinds: Mapping[str, str], why_missing: Callable[[str], str]) -> str:
    names = [str(name) for name in node["column_names"]]
    if len(names) == 1 and names[0].lower() in kinds:
        return names[0].lower()
    name = ".".join(names)
    where = _place(node, text)
    if where.startswith("'\""):
        raise InputError(where, "a text stands in single quotation marks", f"Write it as '{name}'.")
    raise unknown_column(name, kinds, why_missing, where)


def unknown_column(
    name: str, kinds: Mapping[str, str], why_missing: Callable[[str], str], where: str = ""
) -> InputError:
    """Make the error for a name that is no column.

    Parameters
    ----------
    name : str
        The name.
    kinds : mapping of str to str
        The columns there are.
    why_missing : callable
        Says why a name is no column here, or "".
    where : str
        The place it was met at.

    Returns
    -------
    InputError
        With the nearest names.
    """
    value = where or f"column '{name}'"
    why = why_missing(name.lower())
    if why:
        return InputError(value, why, "Ask for another column, or in another division.")
    plain = re.sub(r"\W+", "_", name.lower())
    parts = [column for column in kinds if plain in column] if len(plain) > 2 else []
    near = list(dict.fromkeys([*difflib.get_close_matches(plain, kinds, n=3, cutoff=0.55), *parts]))[:3]
    hint = f"Did you mean {' or '.join(near)}?" if near else "See the columns with: gamutwright facts"
    return InputError(value, f"there is no column {name}", hint)


def _truths(node: Node) -> Iterator[Node]:
    """Walk what has to be true or false: the whole, and what stands beside AND, OR and NOT."""
    waiting = [node]
    while waiting:
        one = waiting.pop()
        yield one
        if one["class"] == "CONJUNCTION" or one["type"] == "OPERATOR_NOT":
            waiting += reversed(one["children"])


def _check_truth(node: Node, text: str, kinds: Mapping[str, str]) -> None:
    if node["class"] == "COLUMN_REF":
        name = str(node["column_names"][0]).lower()
        if kinds[name] != "BOOLEAN":
            rule = f"{name} is neither true nor false, so it must be compared with something"
            raise InputError(_place(node, text), rule, f"Write it like: {name} = ... or {name} IS NOT NULL.")
    elif node["class"] == "CONSTANT" and node.get("literal", {"kind": "BOOLEAN"}).get("kind") != "BOOLEAN":
        raise InputError(_place(node, text), "a constant alone is no condition", _NEXT)
