"""The catalogue on a screen: conditions, what may stand in them, and the scales that meet them, a page at a time.

Conventions: a condition is what `gamutwright find` takes (`catalogue.conditions`); results are told on the root that
the screen shows. The columns that merely number a set or a class are told to nobody. Pages are counted from 0.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Final, Literal

from fastapi import APIRouter, Query, Request

from gamutwright.codec import to_plain
from gamutwright.errors import InputError, told
from gamutwright.facts.model import Dtype, Fact, Value
from gamutwright.facts.registry import default_registry
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.printed import printed_value
from gamutwright.studio.cataloguing import catalogues_of
from gamutwright.studio.scalecards import card, from_bits
from gamutwright.studio.tongue import say, tongue
from gamutwright.theory.scale import Scale

if TYPE_CHECKING:
    from gamutwright.catalogue.query import Catalogue, Terms

__all__ = ["EXAMPLES", "columns_for", "router", "search"]

router = APIRouter()

A_PAGE: Final = 20
SHOWN_NAMES: Final = 3
UNTOLD: Final = frozenset({"distance", "bits", "class_bits", "name", "names"})
"""Columns that are told otherwise, or not at all."""
SORTED: Final = frozenset({Dtype.BOOL, Dtype.INT, Dtype.FLOAT, Dtype.FRACTION, Dtype.TEXT})
KINDS: Final = {
    Dtype.BOOL: "yes or no", Dtype.INT: "a number", Dtype.FLOAT: "a number", Dtype.FRACTION: "a number",
    Dtype.TEXT: "a word", Dtype.TEXTS: "a list of words", Dtype.INTS: "a list of numbers",
    Dtype.FLOATS: "a list of numbers", Dtype.FRACTIONS: "a list of numbers", Dtype.INT_ROWS: "a table of numbers",
}  # fmt: skip
EXAMPLES: Final = (
    ("Five tones and no semitone", "cardinality = 5 AND hemitonic_word = 'anhemitonic'"),
    ("Seven tones, never two semitones in a row", "cardinality = 7 AND semitone_runs = 0"),
    ("Balanced, with three tritones", "cardinality = 6 AND tritones = 3 AND is_balanced"),
    ("Two sizes of every interval", "is_myhill AND cardinality BETWEEN 5 AND 8"),
    ("More major triads than minor ones", "major_triads > minor_triads AND cardinality = 6"),
    ("Six tones and a name of its own", "cardinality = 6 AND len(names) > 0"),
    ("Repeats itself within the octave", "rotational_symmetry > 1 AND cardinality > 4"),
    ("Neither even nor lopsided", "is_balanced AND NOT is_maximally_even AND cardinality = 6"),
)
"""What it finds, and the condition."""

USUAL: Final = ("cardinality", "-class_bits")
"""By number of tones, the modes of a class one after another."""

Relation = Literal["", "contain", "within"]


@router.get("/api/search/columns")
def list_columns(bits: Annotated[str, Query(max_length=72, pattern="^[01]*$")], root: int = 0) -> dict[str, Any]:
    """List what may stand in a condition, each with the value of a scale."""
    return columns_for(from_bits(bits, root))


@router.get("/api/search")
def find(
    request: Request,
    bits: Annotated[str, Query(max_length=72, pattern="^[01]*$")],
    root: Annotated[int, Query(ge=0, lt=72)] = 0,
    condition: Annotated[str, Query(max_length=5_000)] = "",
    sort: Annotated[str, Query(max_length=64)] = "",
    page: Annotated[int, Query(ge=0, le=1_000_000)] = 0,
    relation: Relation = "",
) -> dict[str, Any]:
    """Find scales of the division of the one that is shown, a page at a time."""
    around = from_bits(bits, root)
    with catalogues_of(request).opened(around.divisions) as catalogue:
        return search(catalogue, condition, around, relation=relation, sort=sort, page=page)


def columns_for(scale: Scale) -> dict[str, Any]:
    """List what may stand in a condition about scales of a division.

    Parameters
    ----------
    scale : Scale
        A scale of the division; each column has a condition that it meets.

    Returns
    -------
    dict
        Plain data: the columns, each with title, meaning, kind and condition; and examples.

    Examples
    --------
    >>> found = columns_for(Scale.of(0, 2, 4, 5, 7, 9, 11))
    >>> [one["try"] for one in found["columns"] if one["id"] in {"tritones", "is_balanced"}]
    ['tritones = 1', 'NOT is_balanced']
    """
    from gamutwright.catalogue.fact_columns import fact_columns  # noqa: PLC0415 - large libraries, for those who search

    facts = fact_columns(default_registry(), scale.divisions)
    wording, plain = wording_for(tongue().tag), Scale(scale.mask, scale.divisions)
    ids = {fact.id for fact in facts}
    told = [
        {
            "id": fact.id, "title": wording.title(fact), "group": say(fact.group.value), "kind": say(KINDS[fact.dtype]),
            "means": wording.definition(fact, scale.divisions) or fact.definition,
            "try": _like(fact, fact.evaluate(plain)), "sorts": fact.dtype in SORTED,
        }
        for fact in facts if fact.id != "bit_string"
    ]  # fmt: skip
    return {
        "columns": told,
        "examples": [
            {"says": say(says), "condition": condition} for says, condition in EXAMPLES if _speaks_of(condition) <= ids
        ],
    }


def _speaks_of(condition: str) -> set[str]:
    """Take the columns out of one of our own examples."""
    words = condition.replace("len(names)", "").split()
    return {word for word in words if word.isidentifier() and word.islower()}


def _like(fact: Fact, value: Value | None) -> str:
    """Write a condition that a scale with a value meets."""
    match value:
        case None:
            return f"{fact.id} IS NULL"
        case bool():
            return fact.id if value else f"NOT {fact.id}"
        case str():
            quoted = value.replace("'", "''")
            return f"{fact.id} = '{quoted}'"
        case int():
            return f"{fact.id} = {value}"
        case tuple() if value and all(isinstance(item, str) for item in value):
            quoted = str(value[0]).replace("'", "''")
            return f"list_contains({fact.id}, '{quoted}')"
        case tuple() if all(isinstance(item, int) for item in value):
            return f"{fact.id} = {list(value)}"
        case tuple():
            return f"len({fact.id}) = {len(value)}"
        case _:
            low = int(float(value) * 100) / 100 - (0.01 if value < 0 else 0.0)
            return f"{fact.id} BETWEEN {low:.2f} AND {low + 0.01:.2f}"


def search(
    catalogue: Catalogue, condition: str, around: Scale, *, relation: Relation = "", sort: str = "", page: int = 0
) -> dict[str, Any]:
    """Find scales, a page at a time.

    Parameters
    ----------
    catalogue : Catalogue
        The catalogue of the division.
    condition : str
        A condition over its columns; "" for all scales.
    around : Scale
        The scale that the screen shows: its root is that of the results.
    relation : str
        `contain` for scales that contain its tones, `within` for those that lie within it, "" for all.
    sort : str
        A column, with a minus sign in front for the largest first; "" for `USUAL`.
    page : int >= 0
        Which page.

    Returns
    -------
    dict
        Plain data: how many there are, which page this is of how many, the columns that the condition and the sort
        speak of, and a card for each scale with its names and the values of these columns.

    Raises
    ------
    InputError
        If the condition or the column is not understood.
    CatalogueError
        If it takes too long.
    """
    terms = _terms(around, relation)
    total = catalogue.count(condition, terms)
    pages = max(1, -(-total // A_PAGE))
    if page >= pages:
        raise InputError(
            told("page {part}", part=page + 1), told("there are {pages}", pages=pages), told("Choose one of them.")
        )
    columns = list(catalogue.read(condition).columns) if condition.strip() else []
    columns += [catalogue.column(sort.removeprefix("-"))] if sort else []
    facts = {fact.id: fact for fact in catalogue.facts}
    shown = [column for column in dict.fromkeys(columns) if column not in UNTOLD and column in facts]
    found = catalogue.find(
        condition, sort=[sort] if sort else list(USUAL), limit=A_PAGE, offset=page * A_PAGE,
        columns=["bits", "names", *shown], terms=terms,
    )  # fmt: skip
    return {
        "total": total,
        "page": page,
        "pages": pages,
        "columns": [{"id": column, "title": wording_for(tongue().tag).title(facts[column])} for column in shown],
        "rows": [_row(row, around, [facts[column] for column in shown]) for row in found],
    }


def _terms(around: Scale, relation: Relation) -> Terms:
    from gamutwright.catalogue.near import containing, within  # noqa: PLC0415 - large libraries, for those who search
    from gamutwright.catalogue.query import Terms  # noqa: PLC0415 - as above

    ways = {"": lambda _scale: Terms(), "contain": containing, "within": within}
    return ways[relation](around)


def _row(row: dict[str, Any], around: Scale, facts: list[Fact]) -> dict[str, Any]:
    scale = from_bits(row["bits"], around.root)
    names, rest = row["names"][:SHOWN_NAMES], len(row["names"]) - SHOWN_NAMES
    cells = [
        "–" if row[fact.id] is None else printed_value(fact, _tupled(row[fact.id]), tongue().tag) for fact in facts
    ]
    told = ", ".join(names) + (say(" and {rest} more", rest=rest) if rest > 0 else "")
    return to_plain(card(scale) | {"names": told, "values": cells})  # type: ignore[return-value] # a dict stays one


def _tupled(value: Any) -> Any:  # noqa: ANN401 - a cell of any column
    return tuple(map(_tupled, value)) if isinstance(value, list) else value
