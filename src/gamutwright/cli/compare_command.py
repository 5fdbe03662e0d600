"""`gamutwright compare`: two scales side by side, as text or JSON."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from rich.console import Console
from rich.table import Table
from rich.text import Text

from gamutwright.codec import Plain, to_plain
from gamutwright.facts.scale_comparison import Comparison, compare
from gamutwright.inputs.text import read_scale
from gamutwright.phrasing.terminal import (
    citation_in_full,
    plain_words,
    scale_in_words,
    scale_to_plain,
    source_in_short,
    value_in_words,
)
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_name_map

if TYPE_CHECKING:
    from gamutwright.cli.options import NoteNames

__all__ = ["comparison_to_plain", "run"]

TITLE_WIDTH = 28


def run(one: str, other: str, *, divisions: int, names: NoteNames, as_json: bool) -> None:
    """Read two scales, compare them and print what was found.

    Parameters
    ----------
    one, other : str
        The scales as typed.
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : NoteNames
        Language of note names.
    as_json : bool
        JSON instead of text.
    """
    first, second = (read_scale(text, divisions=divisions, names=names.value).scale for text in (one, other))
    found = compare(first, second)
    if as_json:
        print(json.dumps(comparison_to_plain(found), ensure_ascii=False, indent=1))
        return
    console = Console(highlight=False)
    console.print(Text(f"A  {scale_in_words(found.one)}", style="bold"))
    console.print(Text(f"B  {scale_in_words(found.other)}", style="bold"))
    for relation in found.relations:
        console.print(Text(f"B is {relation}" if "other" not in relation else f"A is {relation}"))
    _print_tones(console, found)
    _print_measures(console, found)
    _print_differences(console, found)


def _names(scale: Scale, pitch_classes: tuple[int, ...]) -> str:
    if not pitch_classes:
        return "none"
    if scale.divisions != 12:
        return " ".join(str(pitch_class) for pitch_class in pitch_classes)
    names = {(tone + scale.root) % 12: name for tone, name in tone_name_map(scale).items()}
    return to_symbols(" ".join(names[pitch_class] for pitch_class in pitch_classes))


def _grid(console: Console, title: str, rows: list[tuple[str, ...]]) -> None:
    console.print(Text(f"\n{title}", style="bold underline"))
    table = Table.grid(padding=(0, 2))
    table.add_column(width=TITLE_WIDTH)
    for _ in rows[0][1:]:
        table.add_column(ratio=1)
    for row in rows:
        table.add_row(*row)
    console.print(table)


def _print_tones(console: Console, found: Comparison) -> None:
    rows: list[tuple[str, ...]] = [
        ("shared", _names(found.one, found.common)),
        ("only in A", _names(found.one, found.only_one)),
        ("only in B", _names(found.other, found.only_other)),
    ]
    if found.voice_leading:
        moves = [(start, (start + by) % found.one.divisions, by) for start, by in found.voice_leading.moves if by]
        told = [f"{_names(found.one, (start,))} → {_names(found.other, (end,))} ({by:+d})" for start, end, by in moves]
        rows.append(("smallest voice leading", ", ".join(told) or "nothing moves"))
    _grid(console, "Tones", rows)


def _print_measures(console: Console, found: Comparison) -> None:
    rows: list[tuple[str, ...]] = [
        (
            measure.title,
            f"{plain_words(measure.value)}  [{source_in_short(measure.citation)}]"
            if measure.value is not None
            else f"not defined: {measure.reason}",
        )
        for measure in found.measures
    ]
    _grid(console, "Distances and similarity", rows)


def _print_differences(console: Console, found: Comparison) -> None:
    if not found.differences:
        console.print("\nNo fact tells them apart.")
        return
    rows: list[tuple[str, ...]] = [("", "A", "B")]
    for difference in found.differences:
        values = [
            "–" if value is None else value_in_words(difference.fact, value)
            for value in (difference.one, difference.other)
        ]
        rows.append((difference.fact.title, *values))
    _grid(console, "Facts that differ", rows)


def comparison_to_plain(found: Comparison) -> dict[str, Plain]:
    """Turn a comparison into plain data.

    Parameters
    ----------
    found : Comparison
        The comparison.

    Returns
    -------
    dict
        Scales, relations, tones, voice leading, measures and differing facts, values unrounded.
    """
    return {
        "format": "gamutwright.compare/1",
        "one": scale_to_plain(found.one),
        "other": scale_to_plain(found.other),
        "relations": list(found.relations),
        "common": list(found.common),
        "only_one": list(found.only_one),
        "only_other": list(found.only_other),
        "voice_leading": to_plain(found.voice_leading),
        "measures": {
            measure.id: {
                "title": measure.title,
                "value": to_plain(measure.value),
                "reason": measure.reason,
                "source": citation_in_full(measure.citation),
            }
            for measure in found.measures
        },
        "differences": {
            difference.fact.id: {"one": to_plain(difference.one), "other": to_plain(difference.other)}
            for difference in found.differences
        },
    }
