"""What a course's site is made from: the course, and one card for each lesson.

**Conventions.** Lessons stand in the order of the course. A lesson's page is `<slug>/index.html` below the site, so
that one address leads to it from a disk and from a server. Dates are days, ISO 8601; lengths are seconds.

References: RFC 3986 (addresses), RFC 5890 (names of hosts in other letters), both from memory.
"""

from __future__ import annotations

import datetime as dt
import re
import unicodedata
from dataclasses import dataclass
from urllib.parse import quote, urlsplit

from gamutwright.errors import DomainError
from gamutwright.theory.scale import MAX_DIVISIONS

__all__ = ["Card", "Site", "lesson_path"]

_LANGUAGE = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*")


@dataclass(frozen=True, slots=True)
class Card:
    """A lesson on the site.

    Parameters
    ----------
    slug : str
        Its folder below the site.
    number : int or None
        Its number in the course; None where it has none.
    title : str
        Its title.
    language : str
        Language tag of everything told in it.
    level : str
        `foundation`, `further` or `research`.
    seconds : float
        Length of the film; 0 for none.
    date : str
        Day of publication, ISO 8601.
    tones : tuple of str
        The tones as printed.
    divisions : int
        Steps of the octave.
    steps_up : tuple of int
        The tones as steps above the root.
    names : tuple of str
        Traditional names.
    facts : tuple of (str, str)
        Title and value of what is told.
    summary : str
        One or two sentences.

    Raises
    ------
    DomainError
        If the slug is no name of a folder, the date no day, the length negative, or a tone outside the octave.
    """

    slug: str
    number: int | None
    title: str
    language: str
    level: str
    seconds: float
    date: str
    tones: tuple[str, ...]
    divisions: int
    steps_up: tuple[int, ...]
    names: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    summary: str

    def __post_init__(self) -> None:
        is_hidden = not self.slug.strip() or self.slug.startswith(".")
        if is_hidden or any(c in "/\\:" or unicodedata.category(c)[0] == "C" for c in self.slug):
            raise DomainError(
                f"the folder {self.slug!r} of a lesson", "it names no folder of the site", "Use letters and hyphens."
            )
        if not _is_day(self.date):
            raise DomainError(
                f"the date {self.date!r} of '{self.slug}'", "feeds need a day", "Write it like 2026-03-04."
            )
        if not 0 <= self.seconds < float("inf"):
            raise DomainError(f"{self.seconds} seconds", "a film is no shorter than nothing", "Measure it again.")
        if not 1 <= self.divisions <= MAX_DIVISIONS or any(not 0 <= tone < self.divisions for tone in self.steps_up):
            raise DomainError(
                f"tones {self.steps_up} of {self.divisions} steps",
                "tones are counted in steps above the root, inside one octave",
                "Give them as the scale does.",
            )
        _check_language(self.language)


@dataclass(frozen=True, slots=True)
class Site:
    """A course as it is published.

    Parameters
    ----------
    title : str
        Title of the course.
    language : str
        Language tag of the site itself.
    imprint : str
        Who offers it.
    address : str
        Where it will be, such as `https://music.example/course/`; "" where that is not known.
    cards : tuple of Card
        The lessons, in order.

    Raises
    ------
    DomainError
        If the address is none of the web, or two lessons share a folder.

    Examples
    --------
    >>> Site("Scales", "en", "Harbour Music School", "https://music.example/course", ()).root
    'https://music.example/course/'
    """

    title: str
    language: str
    imprint: str
    address: str
    cards: tuple[Card, ...]

    def __post_init__(self) -> None:
        _check_language(self.language)
        if self.address:
            _web_address(self.address)
        seen: set[str] = set()
        for card in self.cards:
            # Folders that differ in capitals alone are one folder on many disks.
            folded = unicodedata.normalize("NFC", card.slug).casefold()
            if folded in seen:
                raise DomainError(
                    f"the folder '{card.slug}'", "two lessons share it", "Give each lesson a folder of its own."
                )
            seen.add(folded)

    @property
    def root(self) -> str:
        """The address with a slash at its end, in letters every reader takes; "" where it is not known."""
        return _web_address(self.address) if self.address else ""

    def url(self, path: str) -> str:
        """Give the address of a file of the site.

        Parameters
        ----------
        path : str
            The file, quoted.

        Returns
        -------
        str
            Its whole address, or the path where the site's is not known.
        """
        return self.root + path

    @property
    def newest(self) -> tuple[Card, ...]:
        """The lessons by date, the newest first; lessons of one day as in the course, the last first."""
        places = sorted(range(len(self.cards)), key=lambda place: (self.cards[place].date, place), reverse=True)
        return tuple(self.cards[place] for place in places)


def lesson_path(card: Card) -> str:
    """Give the file of a lesson's page below the site.

    Parameters
    ----------
    card : Card
        The lesson.

    Returns
    -------
    str
        Its path, quoted for an address.
    """
    return quote(f"{card.slug}/index.html", safe="/-._~")


def _is_day(date: str) -> bool:
    try:
        return dt.date.fromisoformat(date).isoformat() == date
    except ValueError:
        return False


def _check_language(language: str) -> None:
    if not _LANGUAGE.fullmatch(language):
        raise DomainError(f"language '{language}'", "it is no language tag", "Write it like en or de-AT.")


def _web_address(address: str) -> str:
    try:
        parts = urlsplit(address.strip())
        host = (parts.hostname or "").encode("idna").decode("ascii")
        port = f":{parts.port}" if parts.port else ""
    except ValueError:
        parts, host, port = urlsplit(""), "", ""
    is_plain = parts.scheme in {"http", "https"} and not (parts.query or parts.fragment or parts.username)
    if not is_plain or not re.fullmatch(r"[a-z0-9]([a-z0-9.-]*[a-z0-9])?", host):
        raise DomainError(
            f"the address '{address}'", "a site is found at a plain web address", "Write it like https://music.example/"
        )
    path = quote(parts.path.rstrip("/"), safe="/-._~%")
    return f"{parts.scheme}://{host}{port}{path}/"
