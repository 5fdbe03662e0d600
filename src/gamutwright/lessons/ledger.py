"""The ledger: every claim of a script with its fact, value, witnesses and source, as data that can be checked again.

Conventions: places are lines and columns counted from 1; values are unrounded; digests are SHA-256. The schema is
`schemas/ledger.schema.json`.
"""

from __future__ import annotations

import hashlib
from fractions import Fraction
from pathlib import PurePath

from gamutwright import __version__
from gamutwright.codec import Plain, digest, to_plain
from gamutwright.facts.model import Citation, Value
from gamutwright.facts.registry import Registry
from gamutwright.lessons.claims import Claim, Report, Verdict

__all__ = ["FORMAT", "ledger"]

FORMAT = "gamutwright.ledger/1"


def ledger(report: Report, registry: Registry) -> dict[str, Plain]:
    """Write down everything a check found.

    Parameters
    ----------
    report : Report
        The check.
    registry : Registry
        The packs whose facts were used.

    Returns
    -------
    dict
        Plain data, as the schema describes it, with a digest over all the rest.
    """
    script, scale = report.script, report.scale
    body: dict[str, Plain] = {
        "format": FORMAT,
        "tool": {"name": "gamutwright", "version": __version__},
        "packs": [
            {"name": pack.name, "distribution": pack.distribution, "version": pack.version} for pack in registry.packs
        ],
        "script": {
            "name": PurePath(script.name).name,
            "sha256": hashlib.sha256(script.source.encode("utf-8", "surrogatepass")).hexdigest(),
            "language": script.front.language,
            "lines": len(script.lines),
        },
        "scale": {"divisions": scale.divisions, "root": scale.root, "tones": list(scale.tones)},
        "counts": {verdict.value: report.count(verdict) for verdict in Verdict},
        "claims": [_claim_to_plain(report, claim) for claim in report.claims],
    }
    return {**body, "digest": digest(body)}


def _claim_to_plain(report: Report, claim: Claim) -> Plain:
    line, column = report.script.locate(claim.span[0])
    plain: dict[str, Plain] = {
        "line_id": claim.line_id,
        "line": line,
        "column": column,
        "words": claim.words,
        "kind": claim.kind,
        "verdict": claim.verdict.value,
        "fact": claim.fact_id or None,
        "of": claim.of or None,
        "said": claim.said,
        "value": to_plain(claim.computed),
        "exact": _exact(claim.computed),
        "expected": claim.expected,
        "reason": claim.reason,
        "mend": claim.mend,
        "witnesses": to_plain(claim.witnesses),
        "sources": [_citation_to_plain(citation) for citation in claim.sources],
    }
    return plain


def _exact(value: Value | None) -> str | None:
    return str(value) if isinstance(value, Fraction) else None


def _citation_to_plain(citation: Citation) -> Plain:
    return {"key": citation.source.key, "locator": citation.locator, "evidence": citation.evidence.value}
