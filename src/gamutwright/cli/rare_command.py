"""`gamutwright rare`: what is special about a scale, as text or JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from rich.console import Console
from rich.table import Table
from rich.text import Text

from gamutwright.catalogue.family import family_of
from gamutwright.catalogue.rarity import Rarity, rarity
from gamutwright.cli.find_command import open_catalogue
from gamutwright.codec import Plain, to_plain
from gamutwright.inputs.text import read_scale
from gamutwright.phrasing.terminal import scale_in_words, value_in_words

if TYPE_CHECKING:
    from gamutwright.cli.options import NoteNames

__all__ = ["rarity_to_plain", "run"]

LONGEST_VALUE = 18


def run(text: str, *, divisions: int, names: NoteNames, root: str | None, as_json: bool) -> None:
    """Read a scale, count who shares its facts, and print it.

    Parameters
    ----------
    text : str
        The scale as typed.
    divisions : int in [2, 36]
        Equal divisions of the octave.
    names : NoteNames
        Language of note names.
    root : str or None
        A root stated apart from the text.
    as_json : bool
        A list of rows instead of text.
    """
    scale = read_scale(text, divisions=divisions, names=names.value, root=root).scale
    with open_catalogue(divisions) as catalogue:
        found = rarity(catalogue, scale)
    if as_json:
        print(json.dumps([rarity_to_plain(entry) for entry in found], ensure_ascii=False, indent=1))
        return
    console = Console(highlight=False)
    family = family_of(scale)
    console.print(Text(scale_in_words(scale), style="bold"))
    console.print(f"counted among {family.scales_in_words}")
    console.print(f"and among {family.classes_in_words}; a class counts where one of its modes is alike")
    console.print()
    _print_table(console, [entry for entry in found if not entry.identifies and entry.share_of_scales < 1])
    shared = [entry.fact.title for entry in found if not entry.identifies and entry.share_of_scales == 1]
    _print_titles(console, "Shared by all of them", shared)
    _print_titles(
        console, "Set apart, since they merely identify a scale", [e.fact.title for e in found if e.identifies]
    )


def _print_table(console: Console, found: list[Rarity]) -> None:
    table = Table(box=None, padding=(0, 2, 0, 0), header_style="bold")
    table.add_column("fact", overflow="fold")
    table.add_column("value", overflow="fold", max_width=LONGEST_VALUE)
    for title in ("scales", "share", "bits", "classes", "bits"):
        table.add_column(title, justify="right", no_wrap=True)
    for entry in found:
        value = value_in_words(entry.fact, entry.value)
        table.add_row(
            Text(entry.fact.title),
            Text(value if len(value) <= LONGEST_VALUE else f"{value[: LONGEST_VALUE - 1]}…"),
            f"{entry.scales_alike:,}",
            _per_cent(float(entry.share_of_scales)),
            f"{entry.bits_among_scales:.1f}",
            f"{entry.classes_alike:,}",
            f"{entry.bits_among_classes:.1f}",
        )
    console.print(table)


def _per_cent(share: float) -> str:
    return "< 0.1 %" if share < 0.001 else f"{100 * share:.1f} %"


def _print_titles(console: Console, heading: str, titles: list[str]) -> None:
    if titles:
        console.print(Text(f"\n{heading}", style="bold"))
        console.print(Text(", ".join(titles)))


def rarity_to_plain(entry: Rarity) -> dict[str, Plain]:
    """Turn the rarity of a fact into a row of plain data.

    Parameters
    ----------
    entry : Rarity
        The rarity.

    Returns
    -------
    dict
        Counts, shares and surprises, unrounded.
    """
    return {
        "fact": entry.fact.id,
        "title": entry.fact.title,
        "value": to_plain(entry.value),
        "scales_alike": entry.scales_alike,
        "scales": entry.family.scales,
        "share_of_scales": float(entry.share_of_scales),
        "bits_among_scales": entry.bits_among_scales,
        "classes_alike": entry.classes_alike,
        "classes": entry.family.classes,
        "share_of_classes": float(entry.share_of_classes),
        "bits_among_classes": entry.bits_among_classes,
        "identifies": entry.identifies,
    }
