"""What the rest of a course needs to know of a script, found out once for each version of its text.

Reading and checking a script takes some hundredths of a second, which adds up over hundreds of lessons; so it is a job
whose key is the text and the program, and its result a summary: the scale, what is explained and told in which line,
what is said of other scales, and what is not proved.

Conventions: lines count from 1 as in an editor. A script that cannot be read has a summary too, with the problem in it
and nothing else. A fact counts as told where a statement about the lesson's own scale is bound to it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from gamutwright.codec import canonical_json, digest, to_plain
from gamutwright.errors import GamutwrightError, InputError, ScriptError
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.store import Parcel
from gamutwright.lessons.claims import Claim, Report, Verdict, check
from gamutwright.lessons.parse import parse
from gamutwright.lessons.script import Script
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.engine import wording_for
from gamutwright.theory.scale import Scale

__all__ = [
    "Fault",
    "Said",
    "ScaleRecord",
    "Summary",
    "examination_job",
    "lesson_title",
    "parcel_to_summary",
    "scale_of",
    "scale_record",
    "summary_of",
]

_SOURCES: Final = ("languages", "lessons", "phrasing", "facts", "theory", "inputs", "catalogue", "series/examining.py")
COST_S = 0.03

ScaleRecord = tuple[()] | tuple[str, int]
"""Bits and root of a scale; () for none."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A statement that is not proved.

    Parameters
    ----------
    line, column : int
        Its place, from 1.
    words, reason, mend : str
        What is written, why it is not proved, and what to do.
    """

    line: int
    column: int
    words: str
    reason: str
    mend: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """A proved statement.

    Parameters
    ----------
    fact_id : str
        The fact.
    line : int
        Where, from 1.
    value : str
        Its value as canonical JSON; "" for a definition.
    of : tuple of (str, int)
        Bits and root of the scale it is about; () for the lesson's own.
    """

    fact_id: str
    line: int
    value: str = ""
    of: ScaleRecord = ()


@dataclass(frozen=True, slots=True)
class Summary:
    """What a script amounts to.

    Parameters
    ----------
    problem : str
        Why it cannot be read; "" where it can.
    scale : tuple of (str, int)
        Bits and root; () where the script cannot be read.
    names : tuple of str
        The spelling that the script fixes; () where it fixes none.
    language, level : str
        As its front matter says.
    minutes : float
        Length aimed at.
    title : str
        What the lesson is called.
    others : tuple of (str, str)
        Further lines of the front matter.
    lines : int
        How many lines are spoken.
    faults : tuple of Fault
        What is not proved.
    defined, told, named : tuple of Said
        What is explained, what is told, and what is told by its term, in the order of the script; each fact once.
    about_others : tuple of Said
        What is said of other scales.
    """

    problem: str = ""
    scale: ScaleRecord = ()
    names: tuple[str, ...] = ()
    language: str = "en"
    level: str = "further"
    minutes: float = 6.0
    title: str = ""
    others: tuple[tuple[str, str], ...] = ()
    lines: int = 0
    faults: tuple[Fault, ...] = ()
    defined: tuple[Said, ...] = ()
    told: tuple[Said, ...] = ()
    named: tuple[Said, ...] = ()
    about_others: tuple[Said, ...] = ()

    @property
    def number(self) -> int | None:
        """The lesson's number, where its front matter gives one that is a whole number above 0."""
        written = dict(self.others).get("lesson", "").strip()
        return int(written) if re.fullmatch(r"[1-9][0-9]{0,5}", written) else None

    @property
    def as_scale(self) -> Scale:
        """The scale; only where the script can be read."""
        return scale_of(self.scale, self.names)


def scale_of(record: ScaleRecord, names: tuple[str, ...] = ()) -> Scale:
    """Build a scale from bits and root, and a spelling where one is fixed."""
    assert record  # noqa: S101 - asked only where there is a scale
    return Scale.from_bits(*record, names)


def scale_record(scale: Scale) -> tuple[str, int]:
    """Give what makes a scale the same however its tones are spelled: bits and root."""
    return scale.bits, scale.root


def lesson_title(scale: Scale, language: str) -> str:
    """Call a lesson after its scale, where its script gives no title.

    Parameters
    ----------
    scale : Scale
        The scale.
    language : str
        Language tag of the lesson.

    Returns
    -------
    str
        Its name with a capital letter.

    Examples
    --------
    >>> lesson_title(Scale.of(3, 5, 6, 8, 10, 0, 1), "de")
    'Es dorisch'
    """
    name = spoken_name(scale, wording_for(language))
    return name[:1].upper() + name[1:]


def examination_job(name: str, source: str) -> Job:
    """Say how a script is examined.

    Parameters
    ----------
    name : str
        File name, for messages.
    source : str
        The script.

    Returns
    -------
    Job
        Its parcel is read by `parcel_to_summary`.
    """
    return Job(
        digest(["examine", sources_digest(*_SOURCES), installed_packs(), source]), _examined, (name, source), COST_S
    )


def parcel_to_summary(parcel: Parcel) -> Summary:
    """Read what an examination found.

    Parameters
    ----------
    parcel : Parcel
        The result of an `examination_job`.

    Returns
    -------
    Summary
        The summary.
    """
    assert isinstance(parcel.data, dict)  # noqa: S101 - it was written by `_examined`
    data: dict[str, Any] = dict(parcel.data)
    for key, kind in (
        ("faults", Fault),
        ("defined", Said),
        ("told", Said),
        ("named", Said),
        ("about_others", Said),
    ):
        data[key] = tuple(kind(**_tupled(record)) for record in data[key])
    return Summary(**_tupled(data))


def _tupled(record: Mapping[str, Any]) -> dict[str, Any]:
    return {
        key: tuple(tuple(item) if isinstance(item, list) else item for item in value)
        if isinstance(value, list)
        else value
        for key, value in record.items()
    }


def _examined(payload: tuple[str, str]) -> Parcel:
    name, source = payload
    return Parcel(to_plain(summary_of(name, source)))


def summary_of(name: str, source: str) -> Summary:
    r"""Read and check a script.

    Parameters
    ----------
    name : str
        File name, for messages.
    source : str
        The script.

    Returns
    -------
    Summary
        What it amounts to.

    Examples
    --------
    >>> text = "---\nscale: C D E F G A B\nlesson: 3\n---\nIt has [seven]{fact=cardinality} tones.\n"
    >>> found = summary_of("script.md", text)
    >>> found.title, found.number, [said.fact_id for said in found.told], found.faults
    ('C major', 3, ['cardinality'], ())
    """
    try:
        script = parse(source, name)
        report = check(script, default_registry())
    except ScriptError as error:
        faults = tuple(Fault(found.line, found.column, "", found.message) for found in error.problems)
        return Summary(problem=f"{error.value}: {error.rule}", faults=faults)
    except (GamutwrightError, ValueError) as error:
        return Summary(problem=str(error))
    front, scale = script.front, report.scale
    others = dict(front.others)
    confirmed = [claim for claim in report.claims if claim.verdict is Verdict.CONFIRMED]
    told = [claim for claim in confirmed if claim.kind in {"fact", "each"} and not claim.of]
    return Summary(
        scale=scale_record(scale),
        names=scale.names,
        language=front.language,
        level=front.level,
        minutes=front.minutes,
        title=others.get("title") or lesson_title(scale, front.language),
        others=front.others,
        lines=sum(bool(line.text) for line in script.lines),
        faults=tuple(_fault(script, claim) for claim in report.faults),
        defined=_each_once(script, scale, (claim for claim in report.claims if _explains(claim))),
        told=_each_once(script, scale, told),
        named=_each_once(script, scale, (claim for claim in told if _is_named(report, claim))),
        about_others=_about_others(report, confirmed),
    )


def _explains(claim: Claim) -> bool:
    is_held = claim.kind == "definition" and claim.verdict is Verdict.CONFIRMED
    return is_held or (claim.kind == "explanation" and claim.verdict is Verdict.RELEASED)


def _is_named(report: Report, claim: Claim) -> bool:
    """Whether the sentence of a claim uses a term of its fact, and not only the thing itself."""
    wording = wording_for(report.script.front.language)
    text = next(line.text for line in report.script.lines if line.id == claim.line_id).casefold()
    terms = wording.terms(report.registry.fact(claim.fact_id))
    return any(re.search(rf"(?<!\w){re.escape(term.casefold())}", text) for term in terms)


def _fault(script: Script, claim: Claim) -> Fault:
    return Fault(*script.locate(claim.span[0]), claim.words, claim.reason, claim.mend)


def _each_once(script: Script, scale: Scale, claims: Iterable[Claim]) -> tuple[Said, ...]:
    found: dict[str, Said] = {}
    for claim in claims:
        if claim.fact_id not in found:
            line, _ = script.locate(claim.span[0])
            is_definition = claim.kind in {"definition", "explanation"}
            found[claim.fact_id] = Said(claim.fact_id, line, "" if is_definition else _value(claim.fact_id, scale))
    return tuple(found.values())


def _other(report: Report, text: str) -> ScaleRecord:
    try:
        scale = read_scale(text, divisions=report.scale.divisions).scale
    except InputError:
        return ()
    return scale_record(scale)


def _value(fact_id: str, scale: Scale) -> str:
    """Give the whole value of a fact; a statement may have told a part of it."""
    return canonical_json(default_registry().fact(fact_id).evaluate(scale))


def _about_others(report: Report, confirmed: Iterable[Claim]) -> tuple[Said, ...]:
    found = []
    for claim in confirmed:
        of = _other(report, claim.of) if claim.kind == "fact" and claim.of else ()
        if of:
            line, _ = report.script.locate(claim.span[0])
            found.append(Said(claim.fact_id, line, _value(claim.fact_id, scale_of(of)), of))
    return tuple(found)
