"""The facts reference: a Markdown page for each fact and an index, written from the registry and nothing else.

Authors of packs can print pages of their own facts the same way. Page names are the ids of the facts.
"""

from __future__ import annotations

from gamutwright.codec import to_plain
from gamutwright.facts.model import Citation, Evidence, Fact, Scope, Worked, is_negative
from gamutwright.facts.registry import Registry

__all__ = ["fact_page", "index_page", "pages"]

SCOPES = {
    Scope.SPELLED: "depends on the pitch class of the root and on spelling",
    Scope.ROOTED: "the same on every root; changes from mode to mode",
    Scope.TN: "the same for every mode and every transposition",
    Scope.TNI: "the same for every mode, every transposition and the inversion",
}


def _citation(citation: Citation) -> str:
    source = citation.source
    if citation.evidence is Evidence.PRACTICE:
        return f"{citation.evidence.value}: {citation.locator}"
    head = f"{source.author} ({source.year})" if source.author else ""
    parts = [head, f"*{source.title}*", source.where, citation.locator]
    return f"{', '.join(part for part in parts if part)} — {citation.evidence.value}"


def _example(example: Worked) -> str:
    scale = example.scale
    tones = f"{{{' '.join(str(pc) for pc in scale.pitch_classes)}}}"
    where = tones if scale.divisions == 12 else f"{tones} in {scale.divisions}"
    if example.value is None:
        value = "silent"
    elif isinstance(example.value, tuple):
        value = f"`{to_plain(example.value)}`"
    else:
        value = f"`{example.value}`"
    kind = "not " if example.refutes else ""
    within = f" ± {example.tolerance:g}" if example.tolerance else ""
    remark = "negative" if is_negative(example) else ""
    return f"| {where} | {kind}{value}{within} | {remark} | {_citation(example.citation)} |"


def fact_page(fact: Fact) -> str:
    """Write the page of one fact.

    Parameters
    ----------
    fact : Fact
        The fact.

    Returns
    -------
    str
        Markdown, ending with a newline.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> fact_page(default_registry().fact("step_pattern")).splitlines()[0]
    '# Step pattern'
    """
    lines = [
        f"# {fact.title}",
        "",
        fact.definition,
        "",
        *([fact.notes, ""] if fact.notes else []),
        "| | |",
        "|---|---|",
        f"| id | `{fact.id}` |",
        f"| heading | {fact.group.value} |",
        f"| level | {fact.level.value} |",
        f"| type | {fact.dtype.value}{f', in {fact.unit}' if fact.unit else ''} |",
        f"| scope | {SCOPES[fact.scope]} |",
        f"| witnesses | {'as many as the value says' if fact.counts else 'the places shown with the value, if any'} |",
    ]
    if fact.domain.rule or fact.none_when:
        lines.append(f"| silent | {'; '.join(part for part in (fact.domain.rule, fact.none_when) if part)} |")
    if fact.needs:
        lines.append(f"| explain first | {', '.join(f'[{need}]({need}.md)' for need in fact.needs)} |")
    if fact.terms:
        lines.append(f"| terms bound to it | {', '.join(fact.terms)} |")
    lines += ["", "## Sources", "", *(f"- {_citation(citation)}" for citation in fact.sources)]
    lines += ["", "## Worked examples", "", "| pitch classes | value | | who says so |", "|---|---|---|---|"]
    lines += [_example(example) for example in fact.worked]
    return "\n".join(lines) + "\n"


def index_page(registry: Registry) -> str:
    """Write the index of all facts and the bibliography.

    Parameters
    ----------
    registry : Registry
        The facts.

    Returns
    -------
    str
        Markdown, ending with a newline.
    """
    lines = ["# Facts", "", f"{len(registry.facts)} facts, written from the registry by `make docs`.", ""]
    group = None
    for fact in registry.facts.values():
        if fact.group is not group:
            group = fact.group
            lines += ["", f"## {group.value}", ""]
        lines.append(f"- [{fact.title}]({fact.id}.md) (`{fact.id}`, {fact.level.value}): {fact.definition}")
    lines += ["", "## Bibliography", ""]
    for source in registry.sources().values():
        if source.author:
            lines.append(
                f"- {source.author} ({source.year}), *{source.title}*{f', {source.where}' if source.where else ''}"
            )
    return "\n".join(lines).replace("\n\n\n", "\n\n") + "\n"


def pages(registry: Registry) -> dict[str, str]:
    """Write all pages.

    Parameters
    ----------
    registry : Registry
        The facts.

    Returns
    -------
    dict of str to str
        File name to Markdown text.
    """
    return {"README.md": index_page(registry), **{f"{fact.id}.md": fact_page(fact) for fact in registry.facts.values()}}
