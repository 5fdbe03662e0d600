"""`gamutwright find`: scales by condition, by nearness, by what they contain, and chains from one to another.

Conventions: rows have the same columns in every form of output; `--columns` names them, otherwise they are the bits,
the names, and whatever the condition and the sort speak of. The table for people shows the tones instead of the bits,
on the root of the scale that was given, if any. Files are written beside their place and then moved there.
"""

from __future__ import annotations

import contextlib
import json
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn, TimeRemainingColumn
from rich.table import Table
from rich.text import Text

from gamutwright.catalogue.chains import Chain, between
from gamutwright.catalogue.fact_columns import coverage
from gamutwright.catalogue.names import default_names, read_names
from gamutwright.catalogue.near import Distance, containing, like, within
from gamutwright.catalogue.query import BITS, NAME, NAMES, Catalogue, Terms
from gamutwright.catalogue.rows import Record, Rows
from gamutwright.cli.row_files import write_rows
from gamutwright.errors import InputError
from gamutwright.inputs.text import read_scale
from gamutwright.phrasing.terminal import plain_words, scale_in_words
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_name_map
from gamutwright.theory.systematic import systematic_name

if TYPE_CHECKING:
    from gamutwright.catalogue.names import Names
    from gamutwright.cli.options import NoteNames

__all__ = ["FindOptions", "open_catalogue", "run", "run_between"]

LIMIT = 20
CHAINS = 3
SHOWN_NAMES = 2
CHAIN_KINDS = {
    "chain": "INTEGER",
    "place": "INTEGER",
    "moved": "INTEGER",
    "by": "INTEGER",
    "root": "INTEGER",
    "pitch_classes": "INTEGER[]",
    BITS: "VARCHAR",
    NAME: "VARCHAR",
    NAMES: "VARCHAR[]",
}


@contextlib.contextmanager
def open_catalogue(divisions: int, own_names: str | None = None) -> Iterator[Catalogue]:
    """Open a catalogue, with a progress bar on standard error where it has to be built.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    own_names : str, optional
        A file of names beside those held and the teacher's own.

    Yields
    ------
    Catalogue
        The catalogue.
    """
    names = default_names()
    if own_names:
        names = names.joined(read_names(Path(own_names)))
    bar = Progress(
        TextColumn(f"building the catalogue of {divisions} divisions"),
        BarColumn(),
        TextColumn("{task.percentage:>3.0f}%"),
        TimeRemainingColumn(),
        console=Console(stderr=True),
        transient=True,
    )
    task = bar.add_task("build", total=None)

    def tell(done: int, total: int) -> None:
        bar.start()
        bar.update(task, completed=done, total=total)

    try:
        catalogue = Catalogue(divisions, progress=tell, names=names)
    finally:
        if bar.live.is_started:
            bar.stop()
    with catalogue:
        yield catalogue


@dataclass(frozen=True, slots=True, kw_only=True)
class FindOptions:
    """What is asked for besides the condition.

    Parameters
    ----------
    divisions : int in [2, 36]
        Equal divisions of the octave.
    names : str
        Language of note names.
    nearest_to, contains, within_scale : str or None
        Scales as typed: the nearest to it, those that contain it, those that lie within it.
    by : str
        The distance, with hyphens or spaces.
    any_root : bool
        Whether any transposition may be contained or lie around.
    sort : sequence of str
        Columns, with a minus sign in front for the largest first; several may be joined by commas.
    limit : int or None
        The most rows, 0 for all; without it 20, and all in files.
    columns : str or None
        Columns joined by commas; `all` for every one.
    own_names : str or None
        A file of names.
    as_json : bool
        A list of rows on standard output.
    csv_file, parquet_file : str or None
        Where to write the rows.
    """

    divisions: int = 12
    names: str = "english"
    nearest_to: str | None = None
    by: str = "voice-leading"
    contains: str | None = None
    within_scale: str | None = None
    any_root: bool = False
    sort: Sequence[str] = ()
    limit: int | None = None
    columns: str | None = None
    own_names: str | None = None
    as_json: bool = False
    csv_file: str | None = None
    parquet_file: str | None = None


def run(condition: str, options: FindOptions) -> None:
    """Find scales and print or write them.

    Parameters
    ----------
    condition : str
        A condition over the columns; "" for all scales.
    options : FindOptions
        What is asked for besides.

    Raises
    ------
    InputError
        If options contradict each other, or a scale, column or condition is not understood.
    """
    _one_output(options.as_json, options.csv_file, options.parquet_file)
    keys = [key.strip() for part in options.sort for key in part.split(",") if key.strip()]
    if options.nearest_to and keys:
        raise InputError("--like and --sort", "the nearest are sorted by their distance", "Leave out --sort.")
    most = _most(options.limit, is_file=bool(options.csv_file or options.parquet_file))
    given = [
        read_scale(text, divisions=options.divisions, names=options.names).scale if text else None
        for text in (options.nearest_to, options.contains, options.within_scale)
    ]
    root = next((scale.root for scale in given if scale), 0)
    if (
        (options.contains or options.within_scale)
        and not options.any_root
        and not coverage(options.divisions).is_rooted
    ):
        raise InputError(
            f"--contains and --within in {options.divisions} divisions",
            "so large a catalogue holds one row for each class, without a root",
            "Add --any-root.",
        )
    terms = _terms(given[1], given[2], any_root=options.any_root)
    with open_catalogue(options.divisions, options.own_names) as catalogue:
        shown = _columns(catalogue, condition, keys, options.columns)
        asked = list(dict.fromkeys([BITS, *shown, *([NAME] if options.divisions == 12 else []), NAMES]))
        if given[0]:
            terms = Terms((*terms.where, f"{BITS} <> '{given[0].bits}'"))
        total = catalogue.count(condition, terms)
        if given[0]:
            most = most or max(total, 1)
            table = like(
                catalogue, given[0], _distance(options.by), condition=condition, columns=asked, limit=most, terms=terms
            )
            shown = ["distance", *shown]
        else:
            table = catalogue.find(condition, sort=keys, limit=most, columns=asked, terms=terms)
    if options.csv_file or options.parquet_file or options.as_json:
        _give(table.chosen(shown), total, options.csv_file, options.parquet_file)
        return
    if options.columns is None:
        shown = [column for column in shown if column not in {BITS, NAME, NAMES}]
    _print_table(list(table), shown, total, Reference(root, has_names=options.columns is None))


def _one_output(as_json: bool, csv_file: str | None, parquet_file: str | None) -> None:
    if sum(map(bool, (as_json, csv_file, parquet_file))) > 1:
        raise InputError("--json, --csv and --parquet", "one form of output is written at a time", "Choose one.")


def _most(limit: int | None, *, is_file: bool) -> int | None:
    if limit is None:
        return None if is_file else LIMIT
    if limit < 0:
        raise InputError(f"--limit {limit}", "a limit is 0, for all, or more", "Choose a positive number.")
    return limit or None


def _terms(contains: Scale | None, inside: Scale | None, *, any_root: bool) -> Terms:
    where: tuple[str, ...] = ()
    if contains:
        where += containing(contains, any_root=any_root).where
    if inside:
        where += within(inside, any_root=any_root).where
    return Terms(where)


def _distance(by: str) -> Distance:
    def plain(text: str) -> str:
        return text.strip().lower().replace("-", " ").replace("_", " ")

    found = [distance for distance in Distance if plain(distance) == plain(by)]
    if not found:
        told = ", ".join(distance.replace(" ", "-") for distance in Distance)
        raise InputError(f"--by {by}", "there is no such distance", f"Choose from: {told}.")
    return found[0]


def _columns(catalogue: Catalogue, condition: str, keys: Sequence[str], columns: str | None) -> list[str]:
    """Choose the columns of a row."""
    if columns and columns.strip().lower() == "all":
        return list(catalogue.kinds)
    if columns:
        return list(dict.fromkeys(catalogue.column(name) for name in columns.split(",") if name.strip()))
    spoken_of = list(catalogue.read(condition).columns) if condition.strip() else []
    spoken_of += [catalogue.column(key.removeprefix("-")) for key in keys]
    named = [NAME, NAMES] if catalogue.divisions == 12 else [NAMES]
    return list(dict.fromkeys([BITS, *named, *spoken_of]))


def _give(rows: Rows, total: int, csv_file: str | None, parquet_file: str | None) -> None:
    """Write rows as JSON, CSV or Parquet, and say on standard error where some are left out."""
    target = csv_file or parquet_file
    if target is None:
        print(json.dumps(list(rows), ensure_ascii=False, indent=1))
    else:
        write_rows(rows, Path(target), "csv" if csv_file else "parquet")
        print(f"{len(rows):,} rows written to {target}", file=sys.stderr)
    if len(rows) < total:
        print(f"{len(rows):,} of {total:,} scales; --limit 0 gives all", file=sys.stderr)


def _tupled(value: Any) -> Any:  # noqa: ANN401 - as above
    return tuple(_tupled(item) for item in value) if isinstance(value, list) else value


def _named(row: Record) -> str:
    """Give the traditional names of a row, or its systematic name."""
    called = row.get(NAMES) or []
    if not called:
        return to_symbols(row.get(NAME) or "")
    rest = len(called) - SHOWN_NAMES
    return ", ".join(called[:SHOWN_NAMES]) + (f" and {rest} more" if rest > 0 else "")


@dataclass(frozen=True, slots=True)
class Reference:
    """How a table for people writes its rows.

    Parameters
    ----------
    root : int
        The root the tones are counted from.
    has_names : bool
        Whether the names stand beside the tones.
    """

    root: int
    has_names: bool


def _print_table(rows: list[Record], shown: list[str], total: int, reference: Reference) -> None:
    console = Console(highlight=False)
    if not rows:
        console.print("No scale meets this.")
        return
    many = "scale" if total == 1 else "scales"
    console.print(f"{total:,} {many}" + (f"; {len(rows):,} shown" if len(rows) < total else ""))
    has_names = reference.has_names and any(_named(row) for row in rows)
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="bold")
    table.add_column("tones", overflow="fold")
    if has_names:
        table.add_column("name", overflow="fold")
    for column in shown:
        is_number = all(isinstance(row[column], (int, float)) and not isinstance(row[column], bool) for row in rows)
        table.add_column(column, justify="right" if is_number else "left", overflow="fold")
    for row in rows:
        cells = [Text(scale_in_words(Scale.from_bits(row[BITS], reference.root)))]
        cells += [Text(_named(row))] if has_names else []
        cells += [Text("–" if row[column] is None else plain_words(_tupled(row[column]))) for column in shown]
        table.add_row(*cells)
    console.print(table)
    if len(rows) < total:
        console.print(Text("All of them: --limit 0. Other columns: --columns ID,ID.", style="dim"))


def run_between(
    start: str,
    end: str,
    *,
    divisions: int,
    names: NoteNames,
    limit: int | None,
    own_names: str | None,
    as_json: bool,
    csv_file: str | None,
    parquet_file: str | None,
) -> None:
    """Find shortest chains of one-step changes between two scales and print or write them.

    Parameters
    ----------
    start, end : str
        The scales as typed.
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : NoteNames
        Language of note names.
    limit : int or None
        The most chains; 3 without it.
    own_names : str or None
        A file of names.
    as_json : bool
        A list of rows, one for each scale of each chain.
    csv_file, parquet_file : str or None
        Where to write the rows.
    """
    _one_output(as_json, csv_file, parquet_file)
    ends = [read_scale(text, divisions=divisions, names=names.value).scale for text in (start, end)]
    known = default_names()
    if own_names:
        known = known.joined(read_names(Path(own_names)))
    chains = between(*ends, limit=CHAINS if limit is None else limit, names=known)
    if not (as_json or csv_file or parquet_file):
        _print_chains(chains, known)
        return
    records = [record for number, chain in enumerate(chains, 1) for record in _rows(number, chain, known)]
    _give(Rows.of(records, CHAIN_KINDS), len(records), csv_file, parquet_file)


def _rows(number: int, chain: Chain, known: Names) -> Iterator[Record]:
    moves: list[tuple[int | None, int | None]] = [(None, None), *chain.moves]
    for place, (scale, (moved, by)) in enumerate(zip(chain.scales, moves, strict=True)):
        yield {
            "chain": number,
            "place": place,
            "moved": moved,
            "by": by,
            "root": scale.root,
            "pitch_classes": list(scale.pitch_classes),
            BITS: scale.bits,
            NAME: systematic_name(scale) if scale.divisions == 12 else None,
            NAMES: [record.name for record in known.of(scale)],
        }


def _print_chains(chains: tuple[Chain, ...], known: Names) -> None:
    console = Console(highlight=False)
    steps = len(chains[0].moves)
    if not steps:
        console.print("Both have the same tones: nothing has to change.")
        return
    console.print(f"{steps} one-step change{'s' if steps != 1 else ''}, in each of these chains")
    for number, chain in enumerate(chains, 1):
        console.print(Text(f"\nChain {number}", style="bold"))
        table = Table(box=None, padding=(0, 2, 0, 0), show_header=False)
        for row, scale, before in zip(
            _rows(number, chain, known), chain.scales, (None, *chain.scales[:-1]), strict=True
        ):
            change = _change(before, scale, row["moved"], row["by"]) if before else ""
            table.add_row(Text(change), Text(scale_in_words(scale)), Text(_named(row)))
        console.print(table)


def _change(before: Scale, after: Scale, moved: int, by: int) -> str:
    """Write a change as `F → F♯`."""

    def name(scale: Scale, pitch_class: int) -> str:
        if scale.divisions != 12:
            return str(pitch_class)
        return to_symbols(tone_name_map(scale)[(pitch_class - scale.root) % 12])

    return f"{name(before, moved)} → {name(after, (moved + by) % after.divisions)}"
