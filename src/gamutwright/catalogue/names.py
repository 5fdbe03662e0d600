"""Traditional names as the catalogue shows them: those held, and a teacher's own file beside them.

A file of names is a table in CSV with a header. `name`, `pitch_classes`, `tradition` and `source` must be there;
`aliases`, `locator` and `evidence` may be, as in the table of the names held, and so may `divisions`. Nothing replaces
anything: where a file and the names held disagree, both are shown.

Conventions: pitch classes are separated by spaces and the first is the root; aliases by `|`. The teacher's file is the
one that the environment variable `GAMUTWRIGHT_NAMES` names, or `names.csv` in the user's configuration folder. Lines
and columns in errors are counted from 1, as editors do.
"""

from __future__ import annotations

import csv
import io
import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from platformdirs import user_config_path

from gamutwright.errors import DomainError, InputError
from gamutwright.theory.naming import all_names
from gamutwright.theory.scale import Scale

__all__ = ["NAMES_VARIABLE", "Names", "ScaleName", "default_names", "names_file", "read_names"]

NAMES_VARIABLE = "GAMUTWRIGHT_NAMES"
REQUIRED = ("name", "pitch_classes", "tradition", "source")
OPTIONAL = ("aliases", "locator", "evidence", "divisions")
MOST_ROWS = 100_000


@dataclass(frozen=True, slots=True)
class ScaleName:
    """A name that a source gives to a scale.

    Parameters
    ----------
    name : str
        The name.
    scale : Scale
        The tones above the root; the root is where the source has it, and does not belong to the name.
    tradition : str
        Where the name is at home.
    source : str
        Who gives it.
    aliases : tuple of str
        Other names for the same in the same tradition.
    locator : str
        Where in the source.
    evidence : str
        How far the source was checked.
    origin : str
        "" for a name held, otherwise the file and line it was read from.
    """

    name: str
    scale: Scale
    tradition: str
    source: str
    aliases: tuple[str, ...] = ()
    locator: str = ""
    evidence: str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Names:
    """Names of several origins, in order.

    Parameters
    ----------
    records : tuple of ScaleName
        The names held first, then those of files.
    """

    records: tuple[ScaleName, ...]

    def of(self, scale: Scale) -> tuple[ScaleName, ...]:
        """Give every name of a scale, whatever its root.

        Parameters
        ----------
        scale : Scale
            The scale.

        Returns
        -------
        tuple of ScaleName
            One for each source; empty where nobody names it.

        Examples
        --------
        >>> [record.name for record in Names(_held()).of(Scale.of(2, 4, 5, 7, 9, 11, 0))][:2]
        ['dorian', 'thaat kafi']
        """
        return tuple(
            record
            for record in self.records
            if record.scale.mask == scale.mask and record.scale.divisions == scale.divisions
        )

    def by_mask(self, divisions: int) -> Mapping[int, tuple[str, ...]]:
        """Give the names of every named scale of a division.

        Parameters
        ----------
        divisions : int
            Equal divisions of the octave.

        Returns
        -------
        mapping of int to tuple of str
            Mask above the root to names, each once.
        """
        found: dict[int, dict[str, None]] = {}
        for record in self.records:
            if record.scale.divisions == divisions:
                found.setdefault(record.scale.mask, {})[record.name] = None
        return {mask: tuple(called) for mask, called in found.items()}

    def joined(self, further: Iterable[ScaleName]) -> Names:
        """Put further names behind these.

        Parameters
        ----------
        further : iterable of ScaleName
            Such as those of a file.

        Returns
        -------
        Names
            All of them.
        """
        return Names((*self.records, *further))


@lru_cache(maxsize=1)
def _held() -> tuple[ScaleName, ...]:
    return tuple(
        ScaleName(r.name, r.scale, r.tradition, r.source, r.aliases, r.locator, r.evidence) for r in all_names()
    )


def names_file() -> Path:
    """Give the place of the teacher's own names.

    Returns
    -------
    Path
        It need not exist.
    """
    named = os.environ.get(NAMES_VARIABLE)
    return Path(named) if named else user_config_path("gamutwright", appauthor=False) / "names.csv"


def default_names() -> Names:
    """Give the names held and, where the teacher has a file, the names in it.

    Returns
    -------
    Names
        All of them.

    Raises
    ------
    InputError
        If the file cannot be read or holds a mistake, or the environment variable names one that is not there.
    """
    path = names_file()
    held = Names(_held())
    return held.joined(read_names(path)) if os.environ.get(NAMES_VARIABLE) or path.is_file() else held


def read_names(path: Path) -> tuple[ScaleName, ...]:
    """Read a file of names.

    Parameters
    ----------
    path : Path
        The file, CSV in UTF-8.

    Returns
    -------
    tuple of ScaleName
        One for each row, in order.

    Raises
    ------
    InputError
        If it cannot be read, or holds a mistake; line and column are given.
    """
    try:
        text = path.read_text(encoding="utf-8-sig")
    except OSError as error:
        raise InputError(str(path), f"the file cannot be read ({error.strerror})", "Check its place.") from error
    except UnicodeDecodeError as error:
        raise InputError(str(path), "the file is not written in UTF-8", "Save it as CSV in UTF-8.") from error
    reader = csv.reader(io.StringIO(text, newline=""), strict=True)
    try:
        header = [cell.strip().lower() for cell in next(reader, [])]
        _check_header(header, path)
        records: list[ScaleName] = []
        start = reader.line_num + 1
        for row in reader:
            if any(cell.strip() for cell in row):
                records.append(_record(dict(zip(header, row, strict=False)), header, len(row), f"{path}, line {start}"))
            start = reader.line_num + 1
            if len(records) > MOST_ROWS:
                raise InputError(str(path), f"a file of names has at most {MOST_ROWS:,} rows", "Split it.")
    except csv.Error as error:
        raise InputError(
            f"{path}, line {reader.line_num}", f"this is no CSV ({error})", "Check quotation marks and commas."
        ) from error
    return tuple(records)


def _check_header(header: list[str], path: Path) -> None:
    missing = [name for name in REQUIRED if name not in header]
    if missing:
        raise InputError(
            f"{path}, line 1",
            f"the header lacks {', '.join(missing)}",
            f"Begin the file with: {','.join(REQUIRED)}",
        )
    strange = [name for name in header if name not in {*REQUIRED, *OPTIONAL}]
    twice = [name for name in header if header.count(name) > 1]
    if strange or twice:
        name = (strange or twice)[0]
        raise InputError(
            f"{path}, line 1, column {header.index(name) + 1}",
            f"'{name}' is {'no column of a file of names' if strange else 'given twice'}",
            f"Columns are {', '.join((*REQUIRED, *OPTIONAL))}.",
        )


def _record(row: dict[str, str], header: list[str], cells: int, where: str) -> ScaleName:
    def place(column: str) -> str:
        return f"{where}, column {header.index(column) + 1} ({column})"

    if cells != len(header):
        raise InputError(
            where, f"the row has {cells} cells, the header {len(header)}", "Put text with commas in quotation marks."
        )
    row = {name: cell.strip() for name, cell in row.items()}
    for column in REQUIRED:
        if not row[column]:
            raise InputError(place(column), "the cell is empty", "Every name states its tones, tradition and source.")
    divisions = _number(row["divisions"], place("divisions")) if row.get("divisions") else 12
    tones = [_number(word, place("pitch_classes")) for word in row["pitch_classes"].split()]
    try:
        scale = Scale.of(*tones, divisions=divisions)
    except DomainError as error:
        column = "pitch_classes" if "pitch class" in error.value else "divisions"
        raise InputError(place(column), f"{error.value}: {error.rule}", error.next_step) from error
    return ScaleName(
        row["name"],
        scale,
        row["tradition"],
        row["source"],
        tuple(alias.strip() for alias in row.get("aliases", "").split("|") if alias.strip()),
        row.get("locator", ""),
        row.get("evidence", ""),
        where,
    )


def _number(word: str, place: str) -> int:
    if word.isascii() and word.isdigit() and len(word) < 4:
        return int(word)
    raise InputError(f"{place}: '{word}'", "this is no whole number", "Write pitch classes like: 0 2 4 5 7 9 11.")
