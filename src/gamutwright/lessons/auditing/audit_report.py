"""An audit as a page for a teacher (Markdown) and as plain data (JSON).

The idea: what is wrong stands first, with the place to go to and what to say instead; then what could not be
understood, because silence about it would be a claim; then what was found to be right.

**Conventions.** The data's format is `gamutwright.audit/1`; keys are those of the records. Words of the text are quoted
as they stand, with Markdown's marks escaped.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from gamutwright import __version__
from gamutwright.codec import Plain, to_plain
from gamutwright.facts.model import Citation, Evidence, Witness
from gamutwright.languages import language_of
from gamutwright.lessons.auditing.records import Statement, Unheard
from gamutwright.lessons.claims import Verdict
from gamutwright.phrasing.engine import wording_for
from gamutwright.theory.spelling import to_symbols, tone_names

if TYPE_CHECKING:
    from gamutwright.lessons.audit import Audit

__all__ = ["FORMAT", "audit_to_markdown", "audit_to_plain"]

FORMAT = "gamutwright.audit/1"
_VERDICTS = (Verdict.CONTRADICTED, Verdict.CONFIRMED, Verdict.INAPPLICABLE)
_REASONS = {
    "question": "a question states nothing",
    "general": "it speaks of scales in general",
    "supposed": "it supposes, or reports what others think",
    "partly": "the rest of the sentence was judged",
    "nothing recognised": "nothing in it was recognised as a statement of a fact",
}


def _escaped(text: str) -> str:
    return re.sub(r"([\\`*_|<>\[\]#])", r"\\\1", text)


def _citation(citation: Citation) -> str:
    if citation.evidence is Evidence.PRACTICE:
        return f"{citation.evidence.value}: {citation.locator}"
    year = f" ({citation.source.year})" if citation.source.year else ""
    return f"{citation.source.author}{year}, {citation.locator}"


def audit_to_markdown(found: Audit) -> str:
    """Write an audit as a page.

    Parameters
    ----------
    found : Audit
        The audit.

    Returns
    -------
    str
        Markdown.

    Examples
    --------
    >>> from gamutwright.lessons.audit import audit
    >>> page = audit_to_markdown(audit("The C major scale has eight notes.", name="talk.txt"))
    >>> page.splitlines()[0], "## What is wrong" in page
    ('# Audit of talk.txt', True)
    """
    return (
        "\n".join([*_head(found), *_wrong(found), *_not_understood(found), *_right(found), *_plain(found)]).rstrip()
        + "\n"
    )


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def _head(found: Audit) -> Iterator[str]:
    wrong, right, silent = (len(found.of(verdict)) for verdict in _VERDICTS)
    judged, technical = found.coverage
    tones = ", ".join(tone_names(found.scale)) if found.scale.divisions == 12 else str(found.scale.pitch_classes)
    yield f"# Audit of {_escaped(found.name)}"
    yield ""
    yield f"Held against: **{_escaped(found.scale_name)}** ({to_symbols(tones)})."
    yield ""
    yield f"- {_count(wrong, 'statement')} contradicted, {right} confirmed, {silent} that do not apply"
    yield (
        f"- {_count(len(found.transcript.sentences), 'sentence')}: {technical} with numbers, names or terms, of which "
        f"{judged} had something judged in them; {len(found.plain)} of plain prose"
    )
    yield f"- {_count(len(found.unheard), 'sentence')} not understood, or only in part"
    yield f"- {_count(len(found.misheard), 'likely mishearing')}"
    for remark in found.remarks:
        yield f"- {f'line {remark.line}: ' if remark.line else ''}{_escaped(remark.message)}"
    yield ""


def _quote(found: Audit, statement: Statement) -> str:
    text = found.transcript.sentences[statement.sentence].text
    before, words, after = text[: statement.start], text[statement.start : statement.end], text[statement.end :]
    lead = words[: len(words) - len(words.lstrip(" ,:"))]
    words = words[len(lead) :].rstrip()
    return f"{_escaped(before + lead)}**{_escaped(words)}**{_escaped(after)}"


def _places(witnesses: tuple[Witness, ...], found: Audit, statement: Statement) -> str:
    if not witnesses or statement.about != found.scale_name or found.scale.divisions != 12:
        return ""
    said = wording_for(found.language).places_in_words(witnesses, found.scale)
    return f" Places: {_escaped(to_symbols(said))}." if said and said != statement.expected else ""


def _wrong(found: Audit) -> Iterator[str]:
    yield "## What is wrong"
    yield ""
    wrong = found.of(Verdict.CONTRADICTED)
    if not wrong:
        yield "Nothing that was understood is wrong."
        yield ""
    for statement in wrong:
        about = "" if statement.about == found.scale_name else f" (said of {_escaped(statement.about)})"
        yield f"### {statement.place}: {_escaped(statement.title)}{about}"
        yield ""
        yield f"> {_quote(found, statement)}"
        yield ""
        expected = _escaped(to_symbols(statement.expected)) or "the opposite"
        if isinstance(statement.computed, bool) and language_of(found.language).is_source:
            expected = f"it {expected}"
        places = _places(statement.witnesses, found, statement)
        yield f"It says: {_escaped(statement.said)}. What is so: {expected}.{places}"
        if statement.sources:
            yield ""
            yield f"Defined in: {_escaped(_citation(statement.sources[0]))}."
        yield ""
    silent = found.of(Verdict.INAPPLICABLE)
    if silent:
        yield "### Does not apply to this scale"
        yield ""
        yield from (f"- {s.place}: {_escaped(s.words)}: {_escaped(s.reason)}" for s in silent)
        yield ""
    if found.misheard:
        yield "## Words that sound like a term"
        yield ""
        yield "| Where | Written | Perhaps | Distance of the sounds |"
        yield "| --- | --- | --- | --- |"
        yield from (
            f"| {m.place} | {_escaped(m.words)} | {_escaped(m.term)} | {m.distance:.2f} |" for m in found.misheard
        )
        yield ""


def _not_understood(found: Audit) -> Iterator[str]:
    yield "## Not understood"
    yield ""
    if not found.unheard:
        yield "Every sentence with a number, a name or a term was judged."
        yield ""
        return
    order = sorted(_REASONS, key=lambda reason: reason in {"question", "general", "supposed", "partly"})
    for reason in order:
        items = [item for item in found.unheard if item.reason == reason]
        if items:
            yield f"{_REASONS[reason].capitalize()}:"
            yield ""
            yield from (_unheard(item) for item in items)
            yield ""


def _unheard(item: Unheard) -> str:
    return f"- {item.place}: {_escaped(item.words)} (not judged: {_escaped(', '.join(item.left))})"


def _right(found: Audit) -> Iterator[str]:
    right = found.of(Verdict.CONFIRMED)
    if right:
        yield "## Confirmed"
        yield ""
        yield "| Where | Words | About |"
        yield "| --- | --- | --- |"
        for s in right:
            about = s.title if s.about == found.scale_name else f"{s.title}, {s.about}"
            yield f"| {s.place} | {_escaped(s.words.strip(' ,:'))} | {_escaped(about)} |"
        yield ""


def _plain(found: Audit) -> Iterator[str]:
    if found.plain:
        yield "## Plain prose"
        yield ""
        yield "No number, name or term was found in these, so nothing in them was judged."
        yield ""
        yield from (f"- {sentence.place_at(0)}: {_escaped(sentence.text)}" for sentence in found.plain)
        yield ""


def audit_to_plain(found: Audit) -> dict[str, Plain]:
    """Turn an audit into plain data.

    Parameters
    ----------
    found : Audit
        The audit.

    Returns
    -------
    dict
        What `json.dumps` takes.

    Examples
    --------
    >>> from gamutwright.lessons.audit import audit
    >>> data = audit_to_plain(audit("The C major scale has eight notes."))
    >>> data["counts"]["contradicted"], data["statements"][0]["fact"]
    (1, 'cardinality')
    """
    judged, technical = found.coverage
    counts = {verdict.value: len(found.of(verdict)) for verdict in _VERDICTS}
    counts |= {
        "sentences": len(found.transcript.sentences),
        "technical": technical,
        "judged": judged,
        "not_understood": len(found.unheard),
        "plain": len(found.plain),
        "misheard": len(found.misheard),
    }
    return {
        "format": FORMAT,
        "version": __version__,
        "name": found.name,
        "language": found.language,
        "form": found.transcript.form,
        "scale": {
            "name": found.scale_name,
            "divisions": found.scale.divisions,
            "root": found.scale.root,
            "pitch_classes": list(found.scale.pitch_classes),
        },
        "counts": to_plain(counts),
        "remarks": [{"line": remark.line, "message": remark.message} for remark in found.remarks],
        "statements": [_statement(found, statement) for statement in found.statements],
        "not_understood": [
            {
                "place": item.place, "line": item.line, "time_s": item.time_s, "words": item.words,
                "reason": item.reason, "left": list(item.left),
            }
            for item in found.unheard
        ],
        "misheard": [
            {
                "place": item.place, "line": item.line, "time_s": item.time_s, "words": item.words,
                "term": item.term, "distance": item.distance,
            }
            for item in found.misheard
        ],
        "plain": [
            {"place": sentence.place_at(0), "line": sentence.line_at(0), "words": sentence.text}
            for sentence in found.plain
        ],
    }  # fmt: skip


def _statement(found: Audit, statement: Statement) -> dict[str, Plain]:
    return {
        "place": statement.place,
        "line": statement.line,
        "time_s": statement.time_s,
        "sentence": found.transcript.sentences[statement.sentence].text,
        "words": statement.words,
        "fact": statement.fact_id,
        "about": statement.about,
        "verdict": statement.verdict.value,
        "said": statement.said,
        "computed": to_plain(statement.computed),
        "expected": statement.expected,
        "reason": statement.reason,
        "witnesses": to_plain(statement.witnesses),
        "sources": [_citation(citation) for citation in statement.sources],
    }
