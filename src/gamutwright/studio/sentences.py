"""What can be put into a script: every fact of its scale as bound sentences, and the cues by name.

Conventions: sentences are markup in the script's language; titles of facts are those of the registry.
"""

from __future__ import annotations

from typing import Any

from gamutwright.diagrams.atlas import DIAGRAMS
from gamutwright.diagrams.phrases import PHRASES
from gamutwright.facts.profile import profile
from gamutwright.facts.registry import Registry
from gamutwright.lessons.claims import check
from gamutwright.lessons.insertion import bound_definition, bound_statement
from gamutwright.lessons.parse import parse
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.printed import printed_value

__all__ = ["sentences_for"]


def sentences_for(text: str, registry: Registry) -> dict[str, Any]:
    r"""Give what can be put into a script.

    Parameters
    ----------
    text : str
        The script.
    registry : Registry
        The facts on offer.

    Returns
    -------
    dict
        Plain data: facts with their sentences, and the names of diagrams and phrases.

    Raises
    ------
    GamutwrightError
        If the script, or its scale, cannot be read.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> found = sentences_for("---\nscale: C D E\n---\nListen.\n", default_registry())
    >>> next(one["says"] for one in found["facts"] if one["id"] == "cardinality")
    'It has [three]{fact=cardinality show=ladder} tones: ...
    """
    script = parse(text)
    scale = check(script, registry).scale
    wording = wording_for(script.front.language)
    told = {mark.get("fact") or mark.get("each") for line in script.lines for mark in line.marks}
    defined = {mark.explained for line in script.lines for mark in line.marks}
    facts = []
    for finding in profile(scale, None, registry).findings:
        says = bound_statement(finding, scale, wording)
        fact = finding.fact
        # A value that no voice would read out has a sentence that states nothing.
        if finding.value is None or f"={fact.id}" not in says:
            continue
        facts.append(
            {
                "id": fact.id,
                "title": fact.title,
                "level": fact.level.value,
                "value": printed_value(fact, finding.value, script.front.language),
                "says": says,
                "explains": bound_definition(fact, wording, scale.divisions),
                "is_told": fact.id in told,
                "is_explained": fact.id in defined,
            }
        )
    return {"facts": facts, "shows": sorted(DIAGRAMS), "plays": sorted(PHRASES)}
