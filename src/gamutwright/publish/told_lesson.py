"""A lesson as everything around the film sees it: what was told, in which order, when, and on whose authority.

Page, handout, quiz and description are made from this record alone, so that they say the same, and nothing that the
ledger does not hold. Whatever prints a number says where it comes from: `Lesson.numbers` lists every text with a number
in it that a publication may print, by its origin.

Conventions: times are ticks of 1/48,000 s in the film; texts are in the language of the lesson; printed values have
figures and signs (2, ♯) where spoken ones have words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from gamutwright.facts.model import Citation, Fact, Value, Witness
from gamutwright.facts.profile import find
from gamutwright.facts.registry import Registry
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import TICKS_PER_SECOND, Timeline
from gamutwright.lessons.claims import Report, Verdict
from gamutwright.lessons.credits import Credits
from gamutwright.lessons.script import Script
from gamutwright.phrasing.card_words import CardWords, card_words
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.phrasing.printed import printed_value
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_names

__all__ = ["Lesson", "Sibling", "Telling", "clock_time", "lesson_of"]


@dataclass(frozen=True, slots=True)
class Telling:
    """A fact that the lesson tells.

    Parameters
    ----------
    fact : Fact
        The fact.
    title : str
        What a heading prints, in the language of the lesson.
    value : Value
        Its exact value.
    text : str
        The value in print.
    words : str
        The value as it is spoken.
    definition : str
        What the notion means, as a sentence for the ear.
    places : str
        The places that make it true, in words; "" where there are none, or too many.
    witnesses : tuple of Witness
        These places.
    sources : tuple of Citation
        Where the notion is published.
    line_id : str
        The first line that tells it.
    start_tick : int
        When that line begins in the film.
    """

    fact: Fact
    title: str
    value: Value
    text: str
    words: str
    definition: str
    places: str
    witnesses: tuple[Witness, ...]
    sources: tuple[Citation, ...]
    line_id: str
    start_tick: int


@dataclass(frozen=True, slots=True)
class Sibling:
    """Another lesson of the same course.

    Parameters
    ----------
    slug : str
        Its folder, beside this lesson's.
    title : str
        What it is called.
    kind : str
        What it is to this one: previous, next, translation, or how their scales are related: mode, inversion,
        transposition.
    language : str
        Its language tag.
    address : str
        Where it is published; "" where that is not known.
    """

    slug: str
    title: str
    kind: str
    language: str = "en"
    address: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Lesson:
    """Everything a publication is made from.

    Parameters
    ----------
    slug : str
        Name of its folder: small letters, figures and hyphens.
    title : str
        What the lesson is called.
    script : Script
        The script.
    report : Report
        Its claims; all are proved.
    scale : Scale
        The scale.
    registry : Registry
        The facts on offer.
    timeline : Timeline
        The film.
    sounds : mapping of str to Sound
        The examples it plays, by the keys of its clips.
    tellings : tuple of Telling
        The facts it tells, in their order in the film.
    credits : Credits
        Who made it.
    siblings : tuple of Sibling
        Other lessons of its course that it points to.
    """

    slug: str
    title: str
    script: Script
    report: Report
    scale: Scale
    registry: Registry
    timeline: Timeline
    sounds: Mapping[str, Sound]
    tellings: tuple[Telling, ...]
    credits: Credits = field(default_factory=Credits)
    siblings: tuple[Sibling, ...] = ()

    @property
    def language(self) -> str:
        """Language tag of the lesson."""
        return self.script.front.language

    @property
    def others(self) -> dict[str, str]:
        """Further lines of the front matter: course, lesson, next, tradition and whatever a teacher adds."""
        return dict(self.script.front.others)

    @property
    def wording(self) -> Wording:
        """The sentences of its language."""
        return wording_for(self.language)

    @property
    def card_words(self) -> CardWords:
        """The headings of its language."""
        return card_words(self.language)

    @property
    def note_names(self) -> tuple[str, ...]:
        """The tones of a scale of twelve divisions as its language prints them."""
        return tuple(self.card_words.note(to_symbols(name)) for name in tone_names(self.scale))

    @property
    def cited(self) -> tuple[str, ...]:
        """The first publication of each fact told, with author, year and title, each once."""
        sources = [citation.source for telling in self.tellings for citation in telling.sources[:1]]
        return tuple(dict.fromkeys(f"{s.author} ({s.year}), {s.title}" for s in sources if s.author))

    @property
    def seconds(self) -> float:
        """Length of the film."""
        return self.timeline.ticks / TICKS_PER_SECOND


def clock_time(tick: int) -> str:
    """Write a time in the film as players show it.

    Parameters
    ----------
    tick : int
        The time.

    Returns
    -------
    str
        Minutes and seconds, hours before them where there are any.

    Examples
    --------
    >>> clock_time(75 * 48_000), clock_time(3_675 * 48_000)
    ('1:15', '1:01:15')
    """
    seconds = tick // TICKS_PER_SECOND
    hours, minutes, rest = seconds // 3600, seconds // 60 % 60, seconds % 60
    return f"{hours}:{minutes:02d}:{rest:02d}" if hours else f"{minutes}:{rest:02d}"


def lesson_of(
    slug: str,
    title: str,
    report: Report,
    registry: Registry,
    timeline: Timeline,
    sounds: Mapping[str, Sound],
    made_by: Credits | None = None,
) -> Lesson:
    """Gather a lesson for publication.

    Parameters
    ----------
    slug, title : str
        Name of its folder, and what it is called.
    report : Report
        The checked script.
    registry : Registry
        The facts on offer.
    timeline : Timeline
        The film.
    sounds : mapping of str to Sound
        The examples it plays, by the keys of its clips.
    made_by : Credits, optional
        Who made it.

    Returns
    -------
    Lesson
        With every fact that is told of its own scale, once.
    """
    starts = {line.id: line.start_tick for line in timeline.lines}
    wording, words = wording_for(report.script.front.language), card_words(report.script.front.language)
    tellings: dict[str, Telling] = {}
    for claim in report.claims:
        fact = registry.facts.get(claim.fact_id)
        told = claim.kind in {"fact", "each"} and claim.verdict is Verdict.CONFIRMED and not claim.of
        if fact is None or not told or fact.id in tellings or claim.line_id not in starts:
            continue
        found = find(fact, report.scale)
        if found.value is not None:
            tellings[fact.id] = Telling(
                fact,
                words.title(fact),
                found.value,
                printed_value(fact, found.value, wording.language),
                wording.value_in_words(fact, found.value, report.scale),
                wording.definition(fact, report.scale.divisions),
                wording.places_in_words(found.witnesses, report.scale),
                found.witnesses,
                fact.sources,
                claim.line_id,
                starts[claim.line_id],
            )
    return Lesson(
        slug, title, report.script, report, report.scale, registry, timeline, sounds, tuple(tellings.values()),
        made_by or Credits(),
    )  # fmt: skip
