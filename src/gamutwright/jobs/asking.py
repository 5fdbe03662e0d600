"""A job on its way to the process that does it, and what that process answers.

It travels pickled by who asks for it, so that what cannot be read at the other end is that job's own failure, told by
name, and so that whoever stands between need not read it.

Conventions: an environment is what `environment.snapshot` lists. It is compared by the process that does the work,
whose libraries settle the result.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from gamutwright.jobs.environment import differences, snapshot
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Report, report_of, work_name, worked
from gamutwright.jobs.store import Store

__all__ = ["Asked", "Refusal", "answered", "asked_of"]


@dataclass(frozen=True, slots=True, eq=False)
class Asked:
    """A job that is asked for.

    Parameters
    ----------
    pickled : bytes
        The job.
    name : str
        The name of its work.
    folder : str
        That of the store into which the result is put; "" where it is sent.
    expected : mapping of str to str
        The environment it must be done in; without it nothing is compared.
    """

    pickled: bytes
    name: str
    folder: str
    expected: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Refusal:
    """The answer to a job that cannot be done there, whoever's it is."""

    why: tuple[str, ...]


def asked_of(job: Job, folder: Path | None, expected: Mapping[str, str] | None = None) -> Asked:
    """Make a job ready to travel.

    Parameters
    ----------
    job : Job
        The job.
    folder : Path, optional
        That of the store into which the result is put; without it the result is sent.
    expected : mapping of str to str, optional
        The environment it must be done in.

    Returns
    -------
    Asked
        What can be pickled.

    Raises
    ------
    Exception
        Whatever is raised where the payload cannot be pickled.
    """
    return Asked(pickle.dumps(job), work_name(job), str(folder) if folder else "", dict(expected or {}))


def answered(asked: Asked, told: Callable[[str, int, int], None]) -> Report | Refusal:
    """Do the work of a job, in the process that is to do it.

    Parameters
    ----------
    asked : Asked
        The job.
    told : callable
        Told stage, done and total while it works.

    Returns
    -------
    Report or Refusal
        How it ended, or why it was not begun.

    Examples
    --------
    >>> answered(Asked(b"no job", "course.film", "", {"av": "0.1"}), print).why[0]
    'Python ... there, none here'
    """
    if asked.expected:
        differing = differences(asked.expected, snapshot())
        if differing:
            return Refusal(tuple(differing))
    try:
        job = pickle.loads(asked.pickled)  # noqa: S301 - whoever may ask this process may run anything in it
    except Exception as error:  # noqa: BLE001 - unpickling raises whatever the payload's own methods raise
        return report_of(asked.name, error)
    return worked(job, told, Store(Path(asked.folder)) if asked.folder else None)
