"""The part of a ledger that a package adds: what is spoken when, what was told, and every number that is printed.

Conventions: times are milliseconds; digests are SHA-256; the digest of the ledger is made anew over the whole.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping

from gamutwright.codec import Plain, digest, to_plain
from gamutwright.facts.model import Fact
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.publish.told_lesson import Lesson

__all__ = ["definition_digest", "with_lesson"]

Printed = Iterable[tuple[str, str]]


def definition_digest(fact: Fact) -> str:
    """Digest what a fact means and where that is published.

    Parameters
    ----------
    fact : Fact
        The fact.

    Returns
    -------
    str
        64 hexadecimal digits.
    """
    cited = [[citation.source.key, citation.locator] for citation in fact.sources]
    return hashlib.sha256(f"{fact.definition}{cited}".encode()).hexdigest()


def with_lesson(ledger: Mapping[str, Plain], lesson: Lesson, printed: Printed) -> dict[str, Plain]:
    """Add a lesson and everything that is printed of it to a ledger.

    Parameters
    ----------
    ledger : mapping
        The ledger of its film.
    lesson : Lesson
        The lesson.
    printed : iterable of (str, str)
        Origins and texts of everything with a number in it, on page, handout and quiz.

    Returns
    -------
    dict
        The ledger with `lesson`, under a new digest.
    """
    told: dict[str, Plain] = {
        "slug": lesson.slug,
        "title": lesson.title,
        "lines": [
            {
                "id": line.id,
                "start_ms": line.start_tick * 1000 // TICKS_PER_SECOND,
                "end_ms": line.end_tick * 1000 // TICKS_PER_SECOND,
                "text": line.text,
            }
            for line in lesson.timeline.lines
        ],
        "facts": [
            {
                "id": telling.fact.id,
                "title": telling.title,
                "text": telling.text,
                "value": to_plain(telling.value),
                "definition": definition_digest(telling.fact),
            }
            for telling in lesson.tellings
        ],
        "siblings": [
            {"slug": sibling.slug, "kind": sibling.kind, "title": sibling.title} for sibling in lesson.siblings
        ],
        "printed": to_plain(sorted({(origin, text) for origin, text in printed})),
    }
    body = {key: value for key, value in ledger.items() if key != "digest"} | {"lesson": told}
    return {**body, "digest": digest(body)}
