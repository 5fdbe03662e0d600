"""What has to agree between the lessons of a course, each rule checked by itself.

A lesson can be right and the course wrong: a number used twice, a term that nobody explained, one scale under two
names, a lesson that points to a mode that does not point back, a film louder than the others.

Conventions: a rule holds, is broken, or was not checked, since what it is about is not there yet. Scripts are checked
as they are today, packages as they were published.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from gamutwright.codec import canonical_json
from gamutwright.facts.registry import Registry
from gamutwright.lessons.plan import plain_ideas
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.values import spoken_scale_name
from gamutwright.series.contents import Member
from gamutwright.series.examining import ScaleRecord, Summary, scale_of
from gamutwright.series.published import Package, Reading
from gamutwright.theory.naming import names_of

__all__ = ["Found", "Rule", "Standing", "check_course"]


class Standing(StrEnum):
    """How a rule stands."""

    HOLDS = "holds"
    BROKEN = "broken"
    NOT_CHECKED = "not checked"


class Rule(StrEnum):
    """The rules, by what they ask for."""

    PROVED = "every statement is proved"
    NUMBERS = "numbers run from 1 without a gap"
    TITLES = "titles are unique"
    NEXT = "the next lesson is called by its title"
    TERMS = "every term is explained before it is used"
    NAMES = "a scale has one name"
    VALUES = "a fact of a scale has one value"
    LINKS = "links between lessons point both ways"
    LOOK = "films have one size, one theme and one loudness"
    FILMS = "films hold what their ledgers promise"


@dataclass(frozen=True, slots=True)
class Found:
    """What a rule found.

    Parameters
    ----------
    rule : Rule
        The rule.
    standing : Standing
        How it stands.
    detail : str
        What is wrong, or why it was not checked; "" where it holds.
    lessons : tuple of str
        Slugs of the lessons it is about.
    next_step : str
        What to do, where it is broken.
    """

    rule: Rule
    standing: Standing
    detail: str = ""
    lessons: tuple[str, ...] = ()
    next_step: str = ""


@dataclass(frozen=True, slots=True)
class _Broken:
    detail: str
    lessons: tuple[str, ...]
    next_step: str


def check_course(
    members: Sequence[Member],
    packages: Mapping[str, Package],
    registry: Registry,
    readings: Mapping[str, Reading] | None = None,
) -> tuple[Found, ...]:
    """Check what has to agree between lessons.

    Parameters
    ----------
    members : sequence of Member
        The lessons in the order of the course.
    packages : mapping of str to Package
        What was published.
    registry : Registry
        The facts on offer.
    readings : mapping of str to Reading, optional
        What reading the films back has found; that rule is not checked without it.

    Returns
    -------
    tuple of Found
        One for each thing that is wrong, and one for each rule that holds or was not checked, in the rules' order.
    """
    scripts = [(member, member.summary) for member in members if member.summary and not member.summary.problem]
    found: list[Found] = []
    for rule, broken in (
        (Rule.PROVED, _unproved(members)),
        (Rule.NUMBERS, _numbers(scripts)),
        (Rule.TITLES, _titles(scripts)),
        (Rule.NEXT, _next(scripts)),
        (Rule.TERMS, _terms(scripts, registry)),
        (Rule.NAMES, _names(scripts)),
        (Rule.VALUES, _values(scripts, packages)),
    ):
        found += _told(rule, broken, "no lesson has a script yet" if not scripts else "")
    nothing = "" if packages else "no lesson is built yet"
    found += _told(Rule.LINKS, _links(packages), nothing)
    found += _told(Rule.LOOK, _look(packages), nothing)
    unread = "" if readings is not None else "films were not read back"
    return (*found, *_told(Rule.FILMS, _films(readings or {}), nothing or unread))


def _told(rule: Rule, broken: Iterator[_Broken], why_not: str) -> Iterator[Found]:
    if why_not:
        yield Found(rule, Standing.NOT_CHECKED, why_not)
        return
    wrong = [Found(rule, Standing.BROKEN, one.detail, one.lessons, one.next_step) for one in broken]
    yield from wrong or [Found(rule, Standing.HOLDS)]


Scripts = Sequence[tuple[Member, Summary]]


def _strands(scripts: Scripts) -> Iterator[Scripts]:
    """Give the lessons of each language."""
    for language in dict.fromkeys(member.language for member, _ in scripts):
        yield [(member, summary) for member, summary in scripts if member.language == language]


def _unproved(members: Sequence[Member]) -> Iterator[_Broken]:
    for member in members:
        summary = member.summary
        if summary is None or member.is_sound:
            continue
        if summary.problem:
            yield _Broken(summary.problem, (member.slug,), f"See: gamutwright check lessons/{member.slug}/script.md")
            continue
        first = summary.faults[0]
        more = f" and {len(summary.faults) - 1} more" if summary.faults[1:] else ""
        yield _Broken(
            f"line {first.line}: '{first.words}': {first.reason}{more}",
            (member.slug,),
            first.mend or f"See: gamutwright check lessons/{member.slug}/script.md",
        )


def _numbers(scripts: Scripts) -> Iterator[_Broken]:
    for strand in _strands(scripts):
        numbers = [(summary.number, member.slug) for member, summary in strand]
        missing = tuple(slug for number, slug in numbers if number is None)
        if missing:
            yield _Broken(
                f"{len(missing)} of {len(strand)} lessons have no number",
                missing,
                "Write a line such as lesson: 3 into the front matter.",
            )
        counted = Counter(number for number, _ in numbers if number is not None)
        for number, times in sorted(counted.items()):
            if times > 1:
                slugs = tuple(slug for other, slug in numbers if other == number)
                yield _Broken(f"{times} lessons have the number {number}", slugs, "Give one of them another.")
        gaps = sorted(set(range(1, max(counted, default=0) + 1)) - set(counted))
        if gaps and not missing:
            after = tuple(slug for number, slug in numbers if number is not None and number > gaps[0])[:1]
            yield _Broken(
                f"there is no lesson {', '.join(map(str, gaps[:5]))}", after, "Write it, or number the others anew."
            )


def _titles(scripts: Scripts) -> Iterator[_Broken]:
    for strand in _strands(scripts):
        by_title = defaultdict(list)
        for member, summary in strand:
            by_title[" ".join(summary.title.casefold().split())].append((member.slug, summary.title))
        for same in by_title.values():
            if len(same) > 1:
                slugs = tuple(slug for slug, _ in same)
                yield _Broken(f"{len(same)} lessons are called '{same[0][1]}'", slugs, "Write title: into one of them.")


def _next(scripts: Scripts) -> Iterator[_Broken]:
    for strand in _strands(scripts):
        for (member, summary), (_, following) in zip(strand, [*strand[1:], (None, None)], strict=True):
            said = dict(summary.others).get("next", "")
            if not said:
                continue
            if following is None:
                yield _Broken(f"it announces '{said}', and no lesson follows", (member.slug,), "Take next: out.")
            elif " ".join(said.casefold().split()) != " ".join(following.title.casefold().split()):
                yield _Broken(
                    f"it announces '{said}', and '{following.title}' follows",
                    (member.slug,),
                    f"Write next: {following.title}",
                )


def _terms(scripts: Scripts, registry: Registry) -> Iterator[_Broken]:
    for strand in _strands(scripts):
        wording = wording_for(strand[0][0].language)
        explained = set(plain_ideas(registry))
        for member, summary in strand:
            defined = {said.fact_id: said.line for said in summary.defined}
            for said in summary.named:
                fact = registry.facts.get(said.fact_id)
                late = said.fact_id not in explained and defined.get(said.fact_id, said.line + 1) > said.line
                divisions = summary.as_scale.divisions
                words = wording.definition(fact, divisions) if fact is not None and late else ""
                if fact is not None and words:
                    yield _Broken(
                        f"line {said.line} tells {fact.title}, which no line before it explains",
                        (member.slug,),
                        f"Explain it first, each sentence with {{define={fact.id}}}: {words}",
                    )
            explained |= set(defined)


def _names(scripts: Scripts) -> Iterator[_Broken]:
    """Where titles call scales of the same steps by different traditional names."""
    for strand in _strands(scripts):
        called: dict[tuple[int, ...], dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
        for member, summary in strand:
            scale = summary.as_scale
            names = names_of(scale) if scale.divisions == 12 else ()
            title = summary.title.casefold()
            spoken = (spoken_scale_name(name.name, member.language).casefold() for name in names)
            held = [name for name in spoken if name in title]
            if held:
                called[(scale.mask, scale.divisions)][max(held, key=len)].append(member.slug)
        for by_name in called.values():
            if len(by_name) > 1:
                said = " and ".join(f"'{name}' in {', '.join(slugs)}" for name, slugs in sorted(by_name.items()))
                slugs = tuple(slug for slugs in by_name.values() for slug in slugs)
                yield _Broken(f"the same steps are called {said}", slugs, "Choose one name for the whole course.")


def _values(scripts: Scripts, packages: Mapping[str, Package]) -> Iterator[_Broken]:
    """Where two lessons, or a script and what was published, give one fact of one scale different values."""
    said: dict[tuple[str, ScaleRecord], dict[str, list[str]]] = defaultdict(lambda: defaultdict(list))
    for member, summary in scripts:
        for one in summary.told:
            said[one.fact_id, summary.scale][one.value].append(member.slug)
        for one in summary.about_others:
            if one.of:
                said[one.fact_id, one.of][one.value].append(member.slug)
    for slug, package in packages.items():
        for fact in package.book["lesson"]["facts"]:
            said[fact["id"], package.scale][canonical_json(fact.get("value"))].append(f"{slug} as published")
    for (fact_id, scale), by_value in said.items():
        if len(by_value) > 1:
            told = "; ".join(f"{value} in {', '.join(dict.fromkeys(where))}" for value, where in by_value.items())
            slugs = dict.fromkeys(slug.removesuffix(" as published") for where in by_value.values() for slug in where)
            tones = " ".join(map(str, scale_of(scale).pitch_classes))
            yield _Broken(
                f"{fact_id} of {tones}: {told}", tuple(slugs), "Build the lessons that were published before."
            )


_BACK = {"previous": "next", "next": "previous"}


def _links(packages: Mapping[str, Package]) -> Iterator[_Broken]:
    pointed = {(slug, other, kind) for slug, package in packages.items() for other, kind in package.siblings}
    for slug, other, kind in sorted(pointed):
        if other in packages and (other, slug, _BACK.get(kind, kind)) not in pointed:
            yield _Broken(
                f"it points to '{other}' ({kind}), which does not point back", (slug, other), "Build the course again."
            )


def _look(packages: Mapping[str, Package]) -> Iterator[_Broken]:
    looks: dict[tuple[str, ...], list[str]] = defaultdict(list)
    for slug, package in packages.items():
        film = package.book["film"]
        picture, loudness = film["picture"], film["loudness"]
        ground = next((colour["colour"] for colour in film["colours"] if colour["role"] == "ground"), "")
        target = f"{loudness['target_lufs']:g} LUFS"
        looks[f"{picture['width']}x{picture['height']}", f"ground {ground}", target].append(slug)
    if len(looks) > 1:
        usual = max(looks, key=lambda look: len(looks[look]))
        for look, slugs in looks.items():
            if look != usual:
                differs = ", ".join(
                    f"{mine} instead of {theirs}" for mine, theirs in zip(look, usual, strict=True) if mine != theirs
                )
                yield _Broken(differs, tuple(slugs), "Build these lessons again with the settings of the course.")


def _films(readings: Mapping[str, Reading]) -> Iterator[_Broken]:
    for slug, reading in readings.items():
        for broken in reading.broken:
            yield _Broken(broken, (slug,), f"Build it again: gamutwright series build --only {slug} --again")
