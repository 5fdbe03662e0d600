"""Tasks about one lesson: its package is made as the build of the course makes it, and its film is read back.

A package counts as done when its film was read back and every check held: what was written is looked at from outside
before it is told as made. What reading back has found is kept in the course's store by the digests of film and ledger.

Conventions: durations are seconds, lengths of films minutes.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from gamutwright.errors import FileError, GamutwrightError, JobError, told
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event
from gamutwright.jobs.run import LocalPool, cores
from gamutwright.series.building import Condition, State, build, due, states_of
from gamutwright.series.course import Course
from gamutwright.series.published import Reading, packages_of, reading_jobs, reading_of
from gamutwright.series.workshop import Workshop, open_course
from gamutwright.studio.tongue import say

if TYPE_CHECKING:
    from gamutwright.studio.taskrun import Tell

__all__ = ["PACES", "expected_s", "make", "opening", "read_back", "site_of", "verified"]

MAKING: Final = ("voice", "making", "film", "package")
READING: Final = ("hearing", "seeing")
OPENING_S: Final = 1.5
USUAL_MINUTES: Final = 3.0
PACES: Final[Mapping[str, float]] = {
    "voice": 0.35, "making": 2.0, "film": 0.35, "package": 0.45, "hearing": 0.9, "seeing": 0.7,
}  # fmt: skip
"""Seconds of a stage for each minute of film, as measured on two cores; what a machine needs itself is soon known."""
FIXED_S: Final[Mapping[str, float]] = {"making": 1.0, "package": 0.8, "hearing": 0.3}
"""Seconds that a stage takes for the shortest film."""

Payload = Mapping[str, Any]


def make(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Make the package of a lesson, as `gamutwright series build --only` does, and read its film back.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.

    Returns
    -------
    dict
        A message, the length of the film, and how many checks held.

    Raises
    ------
    GamutwrightError
        If it cannot be made, or a check of the film is broken.
    """
    slug = str(payload["lesson"])
    workshop, state = _opened(payload, tell, (*MAKING, *READING))
    stages = [*(MAKING if state.condition is not Condition.BUILT else ()), *READING]
    tell.expect(expected_s(stages, state.member.minutes, payload["paces"]), state.member.minutes)
    todo = due([state], [slug])
    if not todo and state.condition is not Condition.BUILT:
        raise JobError(
            told("lesson '{slug}'", slug=slug),
            told("it cannot be made yet: {detail}", detail=state.detail),
            told("Mend its script first."),
        )

    if todo:
        hear = _telling(tell)
        with LocalPool(workshop.store, 1) as runner:
            (built,) = build(workshop.course, todo, runner, cores=cores(), told=lambda _slug, event: hear(event))
        if built.condition is Condition.FAILED:
            error = JobError(
                told("lesson '{slug}'", slug=slug),
                told("it was not made ({detail})", detail=built.detail),
                told("Mend it, and make it again."),
            )
            if built.trace:
                error.add_note(built.trace)
            raise error
    site_of(workshop)
    found = _read(workshop, slug, tell, is_again=False)
    return {
        "message": (
            say("Made, and all {count} checks of the film hold.", count=found["held"])
            if todo
            else say("Nothing had changed, and all {count} checks of the film hold.", count=found["held"])
        ),
        "is_new": bool(todo),
        **found,
    }


def read_back(payload: Payload, tell: Tell) -> dict[str, Any]:
    """Read the film of a lesson back, whatever has become of its script meanwhile.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.

    Returns
    -------
    dict
        A message, the length of the film, and how many checks held.

    Raises
    ------
    GamutwrightError
        If there is no film, or a check of it is broken.
    """
    workshop, state = _opened(payload, tell, READING)
    tell.expect(expected_s(READING, state.member.minutes, payload["paces"]), state.member.minutes)
    found = _read(workshop, state.member.slug, tell, is_again=True)
    return {"message": say("All {count} checks of the film hold.", count=found["held"]), **found}


def expected_s(stages: Sequence[str], minutes: float, paces: Mapping[str, float]) -> dict[str, float]:
    """Reckon how long stages are going to take.

    Parameters
    ----------
    stages : sequence of str
        Their names, in order.
    minutes : float
        Length of the film.
    paces : mapping of str to float
        Seconds that they took for each minute, where that was measured.

    Returns
    -------
    dict of str to float
        Seconds, in the same order.

    Examples
    --------
    >>> expected_s(["voice", "making"], 2.0, {"voice": 0.5})
    {'voice': 1.0, 'making': 5.0}
    """
    return {
        stage: paces[stage] * minutes if stage in paces else PACES[stage] * minutes + FIXED_S.get(stage, 0.0)
        for stage in stages
    }


def site_of(workshop: Workshop) -> tuple[State, ...]:
    """Write the pages of the course, where something has changed.

    Parameters
    ----------
    workshop : Workshop
        The course.

    Returns
    -------
    tuple of State
        The state of its lessons.
    """
    from gamutwright.series.website import write_site  # noqa: PLC0415 - large libraries

    states = states_of(workshop.course, workshop.members, workshop.store)
    write_site(workshop.course, states, workshop.store)
    return states


def verified(workshop: Workshop, slug: str) -> Reading | None:
    """Give what reading the film of a lesson back has found, where it is still that film.

    Parameters
    ----------
    workshop : Workshop
        The course.
    slug : str
        The lesson.

    Returns
    -------
    Reading or None
        None where it was not read back yet, or is another one now.
    """
    job = _reading(workshop.course, slug)
    parcel = workshop.store.get(job.key) if job is not None else None
    return None if parcel is None else reading_of(parcel)


def opening(payload: Payload, tell: Tell, later: Mapping[str, float]) -> Workshop:
    """Open the course of a task.

    Parameters
    ----------
    payload : mapping
        What is asked for.
    tell : Tell
        Told how far it is.
    later : mapping of str to float
        What comes after it, and how many seconds it is likely to take.

    Returns
    -------
    Workshop
        The course.
    """
    tell.expect({"reading the course": OPENING_S, **later})
    tell("reading the course", 0, 1)
    reading: Callable[[str, int, int], None] = lambda _stage, done, total: tell("reading the course", done, total)  # noqa: E731 - it is one
    return open_course(Path(payload["course"]), None, reading)


def _opened(payload: Payload, tell: Tell, stages: Sequence[str]) -> tuple[Workshop, State]:
    workshop = opening(payload, tell, expected_s(stages, USUAL_MINUTES, payload["paces"]))
    states = states_of(workshop.course, workshop.members, workshop.store)
    for state in states:
        if state.member.slug == payload["lesson"]:
            return workshop, state
    raise FileError(
        told("lesson '{payload}'", payload=payload["lesson"]),
        told("the course has no such lesson"),
        told("Open one of the list."),
    )


def _reading(course: Course, slug: str) -> Job | None:
    digests = FileDigests(course.kept / "digests.json")
    job = reading_jobs(packages_of(course.out, [slug]), digests).get(slug)
    digests.save()
    return job


def _read(workshop: Workshop, slug: str, tell: Tell, *, is_again: bool) -> dict[str, Any]:
    """Read a film back where it was not read yet, or in any case, and refuse it where a check is broken."""
    job = _reading(workshop.course, slug)
    if job is None:
        raise FileError(
            told("the film of '{slug}'", slug=slug),
            told("there is none, or no ledger beside it"),
            told("Make the package first."),
        )
    parcel = None if is_again else workshop.store.get(job.key)
    if parcel is None:
        with LocalPool(workshop.store, 1) as pool:
            (outcome,) = pool.outcomes([job], _telling(tell))
        if outcome.parcel is None:
            raise outcome.error or JobError(
                told("the film of '{slug}'", slug=slug), told("it was not read"), told("Try it again.")
            )
        parcel = outcome.parcel
    reading = reading_of(parcel)
    if reading.broken:
        raise GamutwrightError(
            told("the film of '{slug}'", slug=slug),
            told(
                "{broken} of the checks are broken, the first: {broken2}",
                broken=len(reading.broken),
                broken2=reading.broken[0],
            ),
            told("Look at the report, and make the package again."),
        )
    return {"held": reading.held, "film_s": round(reading.report["ticks"] / 48_000, 3)}


def _telling(tell: Tell) -> Callable[[Event], None]:
    return lambda event: tell(event.detail, event.done, event.total) if event.kind == "stage" else None
