"""What was published of a course: the ledgers of its packages, and what reading its films back has found.

Conventions: a package whose ledger cannot be read counts as none. A film is read back once for each version of it; what
was found is kept under the digests of film and ledger.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from gamutwright.codec import digest, plain_from_json, to_plain, unlike
from gamutwright.errors import GamutwrightError
from gamutwright.jobs.filedigests import FileDigests
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.outfolder import published_on
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel
from gamutwright.jobs.telling import tell

__all__ = ["Package", "Reading", "films_read", "packages_of", "reading_jobs", "reading_of"]

_SECONDS_EACH_MEGABYTE = 0.4
_BOOK = {
    "scale": {"divisions": int, "root": int, "tones": [int]},
    "lesson": {"title": str, "facts": [{"id": str, "title": str, "text": str}]},
    "film": {
        "ticks": int,
        "picture": {"width": int, "height": int},
        "loudness": {"target_lufs": float},
        "colours": [{"role": str, "colour": str}],
    },
}
"""What is read of a ledger."""


@dataclass(frozen=True, slots=True, eq=False)
class Package:
    """A published lesson.

    Parameters
    ----------
    slug : str
        Its name.
    folder : Path
        Where it lies.
    book : mapping
        Its ledger.
    date : str
        The day of its publication.
    """

    slug: str
    folder: Path
    book: Mapping[str, Any]
    date: str

    @property
    def siblings(self) -> list[tuple[str, str]]:
        """The lessons that it points to, and what each is to it."""
        told = self.book["lesson"].get("siblings", [])
        return [(one["slug"], one["kind"]) for one in told] if not unlike(told, [{"slug": str, "kind": str}]) else []

    @property
    def scale(self) -> tuple[str, int]:
        """Bits and root of its scale."""
        scale = self.book["scale"]
        return "".join("1" if step in scale["tones"] else "0" for step in range(scale["divisions"])), scale["root"]


@dataclass(frozen=True, slots=True)
class Reading:
    """What reading a film back has found.

    Parameters
    ----------
    held : int
        How many checks held.
    broken : tuple of str
        What did not.
    at : str
        When it was read, ISO 8601 in UTC.
    report : mapping
        Every check, as plain data of `render.readback.report.Report`; {} where the film could not be read.
    """

    held: int
    broken: tuple[str, ...]
    at: str = ""
    report: Mapping[str, Any] = field(default_factory=dict)


def packages_of(out: Path, slugs: Iterable[str]) -> dict[str, Package]:
    """Read the ledgers of what was published.

    Parameters
    ----------
    out : Path
        The folder of the packages.
    slugs : iterable of str
        The lessons that are looked for.

    Returns
    -------
    dict of str to Package
        Those that are there.
    """
    found = {}
    for slug in slugs:
        folder = out / slug
        try:
            book: Any = plain_from_json((folder / "ledger.json").read_bytes())
        except (OSError, ValueError):
            continue
        day = published_on(folder)
        if day and not unlike(book, _BOOK) and _is_scale(book["scale"]):
            found[slug] = Package(slug, folder, book, day)
    return found


def _is_scale(told: Mapping[str, Any]) -> bool:
    divisions = told["divisions"]
    return 2 <= divisions <= 72 and all(0 <= tone < divisions for tone in (told["root"], *told["tones"]))


def films_read(
    packages: Mapping[str, Package],
    digests: FileDigests,
    pool: LocalPool,
    told: Callable[[int, int], None] | None = None,
) -> dict[str, Reading]:
    """Read films back that were not read yet.

    Parameters
    ----------
    packages : mapping of str to Package
        What was published.
    digests : FileDigests
        Remembers digests of files.
    pool : LocalPool
        Reads several at once, and keeps what was found.
    told : callable, optional
        Told the films read and those in all.

    Returns
    -------
    dict of str to Reading
        By slug.
    """
    jobs = reading_jobs(packages, digests)
    digests.save()
    pool.finish(jobs.values(), told)
    return {slug: reading_of(pool.result(job)) for slug, job in jobs.items()}


def reading_jobs(packages: Mapping[str, Package], digests: FileDigests) -> dict[str, Job]:
    """Say how films are read back, as jobs whose keys are those of film and ledger.

    Parameters
    ----------
    packages : mapping of str to Package
        What was published.
    digests : FileDigests
        Remembers digests of files.

    Returns
    -------
    dict of str to Job
        By slug; packages without a film are left out.
    """
    program = sources_digest("render", "ir", "codec.py", "series/published.py")
    jobs = {}
    for slug, package in packages.items():
        film, book = package.folder / "film.mp4", package.folder / "ledger.json"
        if film.is_file():
            key = digest(["read back", program, digests.of(film), digests.of(book)])
            jobs[slug] = Job(key, _read, (film, book), film.stat().st_size / 1e6 * _SECONDS_EACH_MEGABYTE)
    return jobs


def reading_of(parcel: Parcel) -> Reading:
    """Give what a job of `reading_jobs` has found.

    Parameters
    ----------
    parcel : Parcel
        Its result.

    Returns
    -------
    Reading
        What was found.
    """
    data: Any = parcel.data
    return Reading(int(data["held"]), tuple(data["broken"]), str(data["at"]), data["report"])


def _read(payload: tuple[Path, Path]) -> Parcel:

    from gamutwright.render.readback.film_report import Verdict  # noqa: PLC0415 - large libraries, for new films only
    from gamutwright.render.readback.verifying import verify  # noqa: PLC0415 - as above

    at = dt.datetime.now(tz=dt.UTC).isoformat(timespec="seconds")
    try:
        report = verify(*payload, tell)
    except GamutwrightError as error:
        return Parcel({"held": 0, "broken": [str(error)], "at": at, "report": {}})
    broken = [f"{check.name}: expected {check.expected}; found {check.found}" for check in report.broken]
    held = sum(check.verdict is Verdict.HELD for check in report.checks)
    return Parcel(to_plain({"held": held, "broken": broken, "at": at, "report": report}))
