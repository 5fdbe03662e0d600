"""`gamutwright facts`: the facts on offer, and what each means."""

from __future__ import annotations

import json
from itertools import groupby

from rich.console import Console
from rich.table import Table
from rich.text import Text

from gamutwright.codec import Plain
from gamutwright.facts.model import Fact, Worked
from gamutwright.facts.registry import default_registry
from gamutwright.phrasing.terminal import citation_in_full, value_in_words

__all__ = ["fact_to_plain", "run"]

ID_WIDTH = 36


def run(ids: list[str], *, as_json: bool) -> None:
    """List all facts, or explain the ones named.

    Parameters
    ----------
    ids : list of str
        Ids of facts; all are listed where it is empty.
    as_json : bool
        JSON instead of text.
    """
    registry = default_registry()
    chosen = [registry.fact(fact_id) for fact_id in ids] or list(registry.facts.values())
    if as_json:
        print(json.dumps({"facts": {fact.id: fact_to_plain(fact) for fact in chosen}}, ensure_ascii=False, indent=1))
        return
    console = Console(highlight=False)
    if ids:
        for fact in chosen:
            _print_fact(console, fact)
        return
    for group, members in groupby(chosen, key=lambda fact: fact.group):
        console.print(Text(f"\n{group.value}", style="bold underline"))
        table = Table.grid(padding=(0, 2))
        table.add_column(width=ID_WIDTH, no_wrap=True)
        table.add_column(ratio=1)
        for fact in members:
            table.add_row(fact.id, fact.title)
        console.print(table)
    packs = ", ".join(f"{pack.name} ({len(pack.facts)})" for pack in registry.packs)
    console.print(f"\n{len(chosen)} facts from {packs}. Explain one: gamutwright facts ID", style="dim")


def _print_fact(console: Console, fact: Fact) -> None:
    console.print(Text(f"\n{fact.title}", style="bold underline"))
    console.print(Text(f"{fact.id}, {fact.level.value}, {fact.dtype.value}", style="dim"))
    console.print(Text(fact.definition))
    if fact.notes:
        console.print(Text(f"\n{fact.notes}"))
    if fact.needs:
        console.print(Text(f"\nexplain first: {', '.join(fact.needs)}"))
    console.print(Text("\nworked examples"))
    for example in fact.worked:
        console.print(Text(f"  {_example_in_words(fact, example)}"))
    console.print(Text("sources"))
    for citation in fact.sources:
        console.print(Text(f"  {citation_in_full(citation)}"))


def _example_in_words(fact: Fact, example: Worked) -> str:
    tones = " ".join(str(pitch_class) for pitch_class in example.scale.pitch_classes) or "the empty set"
    where = "" if example.scale.divisions == 12 else f" in {example.scale.divisions} divisions"
    verb = "is not" if example.refutes else "is"
    value = "silent" if example.value is None else value_in_words(fact, example.value)
    return f"{{{tones}}}{where} {verb} {value}: {citation_in_full(example.citation)}"


def fact_to_plain(fact: Fact) -> Plain:
    """Turn a fact's description into plain data.

    Parameters
    ----------
    fact : Fact
        The fact.

    Returns
    -------
    dict
        Title, definition, notes, type, unit, group, level, scope, needs, terms and citations.
    """
    return {
        "title": fact.title,
        "definition": fact.definition,
        "notes": fact.notes,
        "dtype": fact.dtype.value,
        "unit": fact.unit,
        "group": fact.group.value,
        "level": fact.level.value,
        "scope": fact.scope.value,
        "needs": list(fact.needs),
        "terms": list(fact.terms),
        "sources": [citation_in_full(citation) for citation in fact.sources],
    }
