"""Building a course: every lesson that changed becomes its package, the others are left alone.

A lesson is a job. Its key is the digest of everything that settles its package: script, recordings and files beside it,
look and voice, the titles of the lessons it points to, and the program. The stages within (lines, pictures, sounds) are
jobs with keys of their own, so that a lesson that was stopped goes on where it was. A lesson that cannot be built does
not stop the others; what became of it is remembered with its key, so that nothing is forgotten until something changes.

Conventions: packages lie in `out/<slug>`, zips beside them. A package counts as built when the files that were made are
there unchanged; what a teacher puts beside them is left alone.
"""

from __future__ import annotations

import contextlib
from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from functools import reduce
from pathlib import Path
from typing import Any

from gamutwright.codec import Plain, digest, to_plain, unlike
from gamutwright.errors import GamutwrightError, told
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.outcome import Event, Outcome, Runner
from gamutwright.jobs.outfolder import recover
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.store import Parcel, Store
from gamutwright.series.contents import Member
from gamutwright.series.course import Course
from gamutwright.series.orders import Order, input_name, make_lesson, packed_inputs
from gamutwright.series.siblings import siblings_of
from gamutwright.series.turns import Turn
from gamutwright.settings import Settings, takes_folder

__all__ = ["Built", "Condition", "State", "build", "due", "settings_of", "states_of", "tally", "tally_of"]

_PROGRAM = (
    "catalogue", "diagrams", "facts", "inputs", "ir", "jobs", "kernels", "languages", "lessons", "phrasing", "publish",
    "render", "theory",
    "codec.py", "packaging.py", "settings.py", "stages.py", "series/orders.py",
)  # fmt: skip
_COST_EACH_MINUTE_S = 4.0
INPUTS = (
    "script", "recordings", "files beside it", "look", "voice", "instruments", "music", "lessons it points to",
    "program",
)  # fmt: skip
"""What a package is made from, as `_parts` names it."""
_EVENT = {"kind": str, "key": str, "worker": str, "detail": str, "done": int, "total": int}
_BUILT = {"slug": str, "condition": str, "detail": str, "seconds": float, "worker": str, "trace": str}


class Condition(StrEnum):
    """What state a lesson is in."""

    NO_SCRIPT = "missing script"
    FAULTS = "faults"
    TO_BUILD = "to build"
    BUILT = "built"
    FAILED = "failed"


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """The state of a lesson.

    Parameters
    ----------
    member : Member
        The lesson.
    condition : Condition
        Its state.
    key : str
        Key of its package; "" where it has no script that can be built.
    detail : str
        Why, where it is not built.
    made : mapping of str to Plain
        What was told when it was built last, even where something has changed since; {} where it never was.
    order : Order or None
        How it is made; None where it cannot be.
    """

    member: Member
    condition: Condition
    key: str = ""
    detail: str = ""
    made: Mapping[str, Plain] = field(default_factory=dict)
    order: Order | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Built:
    """What became of a lesson in a build.

    Parameters
    ----------
    slug : str
        The lesson.
    condition : Condition
        Its state afterwards.
    detail : str
        Why it is not built.
    seconds : float
        How long it took.
    worker : str
        Who made it.
    trace : str
        The traceback of a fault of the program; "" otherwise.
    """

    slug: str
    condition: Condition
    detail: str = ""
    seconds: float = 0.0
    worker: str = ""
    trace: str = ""


def settings_of(course: Course) -> Settings:
    """Give look, voice and instruments of a course's films.

    Parameters
    ----------
    course : Course
        The course.

    Returns
    -------
    Settings
        With files where the course has them.
    """
    voice, sound = course.voice, course.sound
    names = (voice.piper, voice.lexicon, sound.soundfont)
    piper, lexicon, soundfont = (course.folder / name if name else None for name in names)
    return Settings(
        course.film.size, course.film.theme, voice.rate, voice.pitch, piper, lexicon, soundfont, sound.instruments,
        course.music.written_for, course.music.play_along,
    )  # fmt: skip


def states_of(course: Course, members: Sequence[Member], store: Store) -> tuple[State, ...]:
    """Find out which lessons have to be built.

    Parameters
    ----------
    course : Course
        The course.
    members : sequence of Member
        Its lessons, in order.
    store : Store
        Where what was built is remembered.

    Returns
    -------
    tuple of State
        One for each lesson.
    """
    digests = FileDigests(course.kept / "digests.json")
    settings, siblings = settings_of(course), siblings_of(members, course.address)
    program = digest([sources_digest(*_PROGRAM), installed_packs()])
    found = []
    for member in members:
        order = Order(
            member.slug, course.script_of(member.slug), course.out / member.slug, store.folder, settings,
            siblings[member.slug], aside=course.replaced(f"lessons/{member.slug}"),
            address=f"{course.address.rstrip('/')}/{member.slug}/" if course.address else "",
        )  # fmt: skip
        found.append(_state(member, order, program, store, digests))
    digests.save()
    return tuple(found)


def tally(states: Sequence[State]) -> str:
    """Count lessons by their conditions.

    Parameters
    ----------
    states : sequence of State
        The lessons.

    Returns
    -------
    str
        Such as "1 faults, 5 built"; "" for none.
    """
    return ", ".join(f"{count} {condition.value}" for condition, count in tally_of(states).items())


def tally_of(states: Sequence[State]) -> dict[Condition, int]:
    """Count lessons by their conditions.

    Parameters
    ----------
    states : sequence of State
        The lessons.

    Returns
    -------
    dict of Condition to int
        Those that there are, in the order of conditions.
    """
    counts = Counter(state.condition for state in states)
    return {condition: counts[condition] for condition in Condition if counts[condition]}


def _state(member: Member, order: Order, program: str, store: Store, digests: FileDigests) -> State:
    summary = member.summary
    latest = store.get(_latest_key(member.slug))
    made = latest.data if latest is not None and isinstance(latest.data, dict) else {}
    if summary is None:
        return State(
            member, Condition.NO_SCRIPT, detail=told("write it, or draft it with: gamutwright series plan --draft")
        )
    if summary.problem:
        return State(member, Condition.FAULTS, detail=summary.problem, made=made)
    if summary.faults:
        first = summary.faults[0]
        slots = {"line": first.line, "words": first.words, "reason": first.reason}
        one = told("not proved in line {line}: '{words}', {reason}", **slots)
        many = told(
            "{count} statements are not proved, the first in line {line}: '{words}', {reason}",
            count=len(summary.faults), **slots,
        )  # fmt: skip
        detail = many if summary.faults[1:] else one
        return State(member, Condition.FAULTS, detail=detail, made=made)
    parts = _parts(order, program, digests)
    order = replace(order, parts=parts)
    key = _key(member.slug, parts)
    parcel = store.get(key)
    if parcel is not None and isinstance(parcel.data, dict) and _is_there(order.folder, parcel.data, digests):
        return State(member, Condition.BUILT, key, made=parcel.data, order=order)
    failure = store.get(_failure_key(key))
    if failure is not None:
        return State(member, Condition.FAILED, key, str(failure.data), made, order)
    return State(member, Condition.TO_BUILD, key, _changes(made, parts), made, order)


def _changes(made: Mapping[str, Plain], parts: Mapping[str, str]) -> str:
    """Say what is no longer as it was when a package was built."""
    before = made.get("parts")
    if not isinstance(before, dict):
        return told("it was not built yet")
    changed = [name for name, digest_ in parts.items() if before.get(name) != digest_]
    if not changed:
        return told("its package is not as it was made")
    listed = reduce(
        lambda said, name: told("{these}, {that}", these=said, that=told(name)), changed[1:], told(changed[0])
    )
    return told("changed since it was built: {list}", list=listed)


def _parts(order: Order, program: str, digests: FileDigests) -> dict[str, str]:
    """Digest all that settles a package; paths are those within the course, so that it may be moved."""
    settings, home = order.settings, order.script.parent
    names = {path: input_name(path, home, settings) for path in settings.inputs(order.script)}
    files = {path: [name, digests.of(path)] for path, name in names.items()}
    apart = {order.script, takes_folder(order.script), *settings.voice_files, *settings.instrument_files}
    voice = [settings.rate, settings.pitch, *(files[path] for path in settings.voice_files)]
    return {
        "script": digest(files[order.script]),
        "recordings": digest(files[takes_folder(order.script)]),
        "files beside it": digest([file for path, file in files.items() if path not in apart]),
        "look": digest([settings.size, settings.theme]),
        "voice": digest(voice),
        "instruments": digest([*settings.instruments, *(files[path] for path in settings.instrument_files)]),
        "music": digest([*settings.written_for, settings.play_along]),
        "lessons it points to": digest([order.siblings, order.address]),
        "program": program,
    }


def _key(slug: str, parts: Mapping[str, str]) -> str:
    return digest(["package", slug, dict(parts)])


def _latest_key(slug: str) -> str:
    """Give the key of what is known of the package that was built last, whatever has changed since."""
    return digest(["latest", slug])


def _failure_key(key: str) -> str:
    return digest(["failed", key])


def _is_there(folder: Path, made: Mapping[str, Plain], digests: FileDigests) -> bool:
    files = made.get("files")
    if not isinstance(files, dict) or not folder.with_name(f"{folder.name}.zip").is_file():
        return False
    return all(digests.of(folder / name) == digest_ for name, digest_ in files.items())


def due(states: Sequence[State], only: Collection[str] = (), *, is_again: bool = False) -> tuple[State, ...]:
    """Choose the lessons that are built.

    Parameters
    ----------
    states : sequence of State
        The state of all lessons.
    only : collection of str, optional
        Slugs of the lessons that may be built; all without it.
    is_again : bool
        Whether those that are built already are made again.

    Returns
    -------
    tuple of State
        Those that are sound and not built, in the order of the course; what failed before is tried again.
    """
    wanted = {Condition.TO_BUILD, Condition.FAILED} | ({Condition.BUILT} if is_again else set())
    return tuple(
        state
        for state in states
        if state.condition in wanted and (not only or state.member.slug in only) and state.order
    )


def build(
    course: Course,
    todo: Sequence[State],
    runner: Runner,
    *,
    cores: int = 1,
    told: Callable[[str, Event], None] | None = None,
    ended: Callable[[Built], None] | None = None,
) -> tuple[Built, ...]:
    """Build lessons.

    Parameters
    ----------
    course : Course
        The course.
    todo : sequence of State
        The lessons, as `due` gives them.
    runner : Runner
        Builds several at once, here or elsewhere.
    cores : int
        How many processes there are for all of them together; a lesson that is built alone may use them all.
    told : callable, optional
        Told the slug and what happens to it, "" for what concerns none.
    ended : callable, optional
        Told what became of each lesson as it ends.

    Returns
    -------
    tuple of Built
        What became of each, in the order given. Where another program is building the course, what it makes of these
        lessons counts; the rest is built when it has ended.
    """
    by_key = {state.key: state for state in todo}
    found: dict[str, Built] = {}

    def take(key: str, one: Built) -> None:
        found[key] = one
        if ended:
            ended(one)

    def tell_of(event: Event) -> None:
        if told:
            told(by_key[event.key].member.slug if event.key in by_key else "", event)

    with Turn(course.kept) as turn:
        hear = _take_over(by_key, found, tell_of, take)
        is_second = turn.follow(hear, lambda: len(found) == len(by_key))
        digests = FileDigests(course.kept / "digests.json")
        for state in todo:
            if state.key not in found and _is_made_meanwhile(state, runner.store, digests):
                take(state.key, Built(state.member.slug, Condition.BUILT))
        rest = [state for state in todo if state.key not in found]
        workers = max(1, cores // max(1, len(rest)))
        jobs = [_job(state, runner, workers) for state in rest]

        def say_of(event: Event) -> None:
            turn.say({"event": to_plain(event)})
            tell_of(event)

        for outcome in runner.outcomes(jobs, say_of) if jobs else ():
            one = _settled(course, by_key[outcome.job.key], outcome, runner)
            turn.say({"built": to_plain(one), "key": outcome.job.key})
            take(outcome.job.key, one)
    for state in todo if is_second else ():
        # The workers of a builder that was killed may have lived on for a moment.
        with contextlib.suppress(OSError):
            recover(course.out / state.member.slug, course.replaced(f"lessons/{state.member.slug}"))
    return tuple(found[state.key] for state in todo)


def _take_over(
    by_key: Mapping[str, State],
    found: Mapping[str, Built],
    told: Callable[[Event], None],
    take: Callable[[str, Built], None],
) -> Callable[[dict[str, Any]], None]:
    """Show and take over what another builder tells of these lessons."""

    def hear(line: dict[str, Any]) -> None:
        event, built, key = line.get("event"), line.get("built"), line.get("key")
        if "builder" in line:
            detail = f"{line['builder']} is building this course; what it makes is shown here and taken over"
            told(Event("waiting", "", "", detail, 0, len(by_key)))
        elif isinstance(event, dict) and not unlike(event, _EVENT) and event["key"] in by_key:
            told(Event(**{name: event[name] for name in _EVENT}))
        elif isinstance(built, dict) and not unlike(built, _BUILT) and key in by_key and key not in found:
            given = {name: built[name] for name in _BUILT}
            take(str(key), Built(**given | {"condition": Condition(given["condition"])}))

    return hear


def _is_made_meanwhile(state: State, store: Store, digests: FileDigests) -> bool:
    """Whether somebody else has made what was not made when it was looked for."""
    parcel = store.get(state.key) if state.condition is not Condition.BUILT and state.order else None
    is_told = parcel is not None and isinstance(parcel.data, dict)
    return is_told and _is_there(state.order.folder, parcel.data, digests)  # type: ignore[union-attr,arg-type] # both are there


def _job(state: State, runner: Runner, workers: int | None) -> Job:
    order = state.order
    assert order is not None  # noqa: S101 - only lessons with an order are built
    packed = replace(order, workers=workers, files=() if runner.is_shared else packed_inputs(order))
    return Job(state.key, make_lesson, packed, state.member.minutes * _COST_EACH_MINUTE_S)


def _settled(course: Course, state: State, outcome: Outcome, runner: Runner) -> Built:
    """Take in what a worker made, or remember why it did not."""
    slug, error = state.member.slug, outcome.error
    try:
        if outcome.parcel is not None and outcome.parcel.blobs:
            from gamutwright.packaging import unpack_package  # noqa: PLC0415 - large libraries, and only for a cluster

            unpack_package(outcome.parcel.blobs[0], course.out / slug, course.replaced(f"lessons/{slug}"))
            runner.store.put(state.key, Parcel(outcome.parcel.data))
    except GamutwrightError as failed:
        error = failed
    if error is not None:
        runner.store.put(_failure_key(state.key), Parcel(str(error)))
    if outcome.parcel is not None and error is None:
        runner.store.put(_latest_key(slug), Parcel(outcome.parcel.data))
    condition = Condition.FAILED if error else Condition.BUILT
    detail = str(error) if error else ""
    return Built(slug, condition, detail, outcome.seconds, outcome.worker, outcome.trace)
