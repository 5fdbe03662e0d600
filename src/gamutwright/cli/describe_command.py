"""`gamutwright describe`: the profile of a scale as text or JSON."""

from __future__ import annotations

import json
from collections.abc import Iterable
from fractions import Fraction
from itertools import groupby
from typing import TYPE_CHECKING

from rich.console import Console
from rich.table import Table
from rich.text import Text

from gamutwright import __version__
from gamutwright.codec import Plain, digest, to_plain
from gamutwright.facts.model import Level, Value
from gamutwright.facts.profile import Finding, Profile, profile
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.inputs.reading import Reading
from gamutwright.inputs.text import read_scale
from gamutwright.phrasing.terminal import (
    citation_in_full,
    scale_in_words,
    scale_to_plain,
    source_in_short,
    value_in_words,
    witnesses_in_words,
)
from gamutwright.theory.scale import Scale

if TYPE_CHECKING:
    from gamutwright.cli.options import LevelName, NoteNames

__all__ = ["FORMAT", "profile_to_plain", "run"]

FORMAT = "gamutwright.describe/1"
TITLE_WIDTH = 26


def run(
    text: str,
    *,
    divisions: int,
    names: NoteNames,
    root: str | None,
    fact_ids: list[str] | None,
    level: LevelName,
    as_json: bool,
) -> None:
    """Read a scale, compute its facts and print them.

    Parameters
    ----------
    text : str
        The scale as typed.
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : NoteNames
        Language of note names.
    root : str or None
        A root stated apart from the text.
    fact_ids : list of str or None
        Only these facts, in full.
    level : LevelName
        The highest level shown.
    as_json : bool
        JSON instead of text.
    """
    registry = default_registry()
    wanted = _wanted(registry, fact_ids, level)
    reading = read_scale(text, divisions=divisions, names=names.value, root=root)
    found = profile(reading.scale, wanted, registry)
    if as_json:
        print(json.dumps(profile_to_plain(reading, found, registry), ensure_ascii=False, indent=1))
        return
    console = Console(highlight=False, soft_wrap=False)
    _print_head(console, reading)
    if fact_ids:
        for finding in found.findings:
            _print_card(console, reading.scale, finding)
    else:
        _print_groups(console, found)


def _wanted(registry: Registry, fact_ids: Iterable[str] | None, level: str) -> list[str]:
    if fact_ids:
        return [registry.fact(fact_id).id for fact_id in fact_ids]
    levels = list(Level)
    shown = levels[: levels.index(Level(level)) + 1]
    return [fact.id for fact in registry.facts.values() if fact.level in shown]


def _print_head(console: Console, reading: Reading) -> None:
    scale = reading.scale
    console.print(Text(scale_in_words(scale), style="bold"))
    tones = "1 tone" if scale.cardinality == 1 else f"{scale.cardinality} tones"
    console.print(f"read as {reading.form}; {tones} in {scale.divisions} divisions of the octave")
    for remark in reading.remarks:
        console.print(Text(remark, style="italic"))


def _print_groups(console: Console, found: Profile) -> None:
    applicable = [finding for finding in found.findings if finding.value is not None]
    for group, members in groupby(applicable, key=lambda finding: finding.fact.group):
        console.print()
        console.print(Text(group.value, style="bold underline"))
        table = Table.grid(padding=(0, 2))
        table.add_column(width=TITLE_WIDTH)
        table.add_column(ratio=1)
        for finding in members:
            table.add_row(finding.fact.title, _row_text(found.scale, finding))
        console.print(table)
    silent = [finding for finding in found.findings if finding.value is None]
    if silent:
        console.print()
        console.print(Text("Silent here", style="bold underline"))
        for finding in silent:
            console.print(Text(f"{finding.fact.title}: {finding.reason}", style="dim"))
    console.print()
    console.print(
        Text("Definition, all places and sources of one fact: gamutwright describe SCALE --fact ID", style="dim")
    )


def _row_text(scale: Scale, finding: Finding) -> Text:
    fact, value = finding.fact, finding.value
    text = Text(value_in_words(fact, value) if value is not None else "", style="bold")
    if fact.counts and finding.witnesses:
        text.append(f": {witnesses_in_words(scale, finding.witnesses)}", style="not bold")
    source = "each by its own source" if fact.witnesses_name_sources else source_in_short(fact.sources[0])
    text.append(f"  [{source}]", style="not bold dim")
    return text


def _print_card(console: Console, scale: Scale, finding: Finding) -> None:
    fact = finding.fact
    console.print()
    console.print(Text(fact.title, style="bold underline"))
    console.print(Text(fact.definition))
    console.print()
    if finding.value is None:
        console.print(Text(f"Silent here: {finding.reason}."))
    else:
        console.print(Text(f"value    {value_in_words(fact, finding.value)}", style="bold"))
        if finding.witnesses:
            places = witnesses_in_words(scale, finding.witnesses, most=len(finding.witnesses))
            console.print(Text(f"places   {places}"))
    if fact.notes:
        console.print(Text(fact.notes, style="dim"))
    for citation in fact.sources:
        console.print(Text(f"source   {citation_in_full(citation)}", style="dim"))


def profile_to_plain(reading: Reading, found: Profile, registry: Registry) -> dict[str, Plain]:
    """Turn a profile into the data that `schemas/describe.schema.json` describes.

    Parameters
    ----------
    reading : Reading
        The scale and how it was read.
    found : Profile
        Its facts.
    registry : Registry
        The packs they come from.

    Returns
    -------
    dict
        Plain data; values are unrounded, and `exact` gives a fraction in full.
    """
    facts = {finding.fact.id: _finding_to_plain(finding) for finding in found.findings if finding.value is not None}
    body: dict[str, Plain] = {
        "format": FORMAT,
        "tool": {"name": "gamutwright", "version": __version__},
        "packs": [
            {"name": pack.name, "distribution": pack.distribution, "version": pack.version} for pack in registry.packs
        ],
        "scale": scale_to_plain(found.scale),
        "read": {"form": reading.form, "remarks": list(reading.remarks)},
        "facts": facts,
        "silent": {finding.fact.id: finding.reason for finding in found.findings if finding.value is None},
    }
    return {**body, "digest": digest(body)}


def _finding_to_plain(finding: Finding) -> Plain:
    fact = finding.fact
    plain: dict[str, Plain] = {
        "title": fact.title,
        "value": to_plain(finding.value),
        "unit": fact.unit,
        "group": fact.group.value,
        "level": fact.level.value,
        "witnesses": to_plain(finding.witnesses),
        "sources": [
            {
                "key": citation.source.key,
                "author": citation.source.author,
                "year": citation.source.year,
                "title": citation.source.title,
                "where": citation.source.where,
                "locator": citation.locator,
                "evidence": citation.evidence.value,
            }
            for citation in fact.sources
        ],
    }
    exact = _exact(finding.value)
    return plain if exact is None else {**plain, "exact": exact}


def _exact(value: Value | None) -> Plain:
    if isinstance(value, Fraction):
        return str(value)
    if isinstance(value, tuple) and any(isinstance(item, Fraction) for item in value):
        return [str(item) for item in value]
    return None
