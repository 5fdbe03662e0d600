"""Serve a course in the language that nobody speaks, and print what a person reads: its site, its state, the studio.

Run with the language's folder on Python's path: `python screens.py`. What the studio's modules say in a browser comes
from the same table as its pages; here it is the table itself that is read.
"""

from __future__ import annotations

import json
import sys
import tempfile
from dataclasses import replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from gamutwright.publish.site.course_site import Site, site_files
from gamutwright.publish.site.state_page import state_page
from gamutwright.series.course import begin_course
from languages.leaks import FAULTY, Texts
from languages.pseudo import TAG
from publish.courses import card, report
from publish.lessons import source_of
from studio.serving import running

TITLE = "Édíítíí"
SCREENS = ("/", "/explore?scale=D+dorian", *(f"/lesson/quay{screen}" for screen in ("", "/speak", "/see", "/make")))


def read(page: str) -> list[str]:
    """List the texts of a page."""
    reader = Texts()
    reader.feed(page)
    return reader.found


def site() -> list[str]:
    """Lay out the site of a course, whose cards say little that is not the site's own."""
    plain = {"title": TITLE, "names": (), "facts": (), "summary": ""}
    cards = tuple(replace(card(place, 0xAD5 + 2 * place, TAG), **plain) for place in range(3))
    files = site_files(Site(TITLE, TAG, TITLE, "", cards))
    return read(files["index.html"].decode())


def state() -> list[str]:
    """Write the state of a course, and leave out what its report, which is a test's, says in its own words."""
    data = report(12)
    given = json.dumps(data, ensure_ascii=False)
    return [
        text for text in read(state_page(data, TAG))
        if text not in given and (" · " not in text or text.partition(" · ")[2] not in given)
    ]  # fmt: skip


def studio(folder: Path) -> dict[str, list[str]]:
    """Go through the screens of the studio, and ask for what cannot be had."""
    begin_course(folder, TITLE, TAG)
    for slug, source in (("quay", source_of("D dorian", TAG, 2.0)), ("mole", FAULTY)):
        (folder / "lessons" / slug).mkdir(parents=True, exist_ok=True)
        (folder / "lessons" / slug / "script.md").write_text(source, encoding="utf-8")
    with running(folder) as served:
        pages = {path: served.ask("GET", path, accept="text/html") for path in SCREENS}
        assert {answer.status for answer in pages.values()} == {200}, pages
        found = json.loads(served.ask("GET", "/api/scale?text=G+acoustic").body)
        refused = json.loads(served.ask("GET", "/api/scale?text=nonsense").body)
        missing = served.ask("GET", "/lesson/nowhere", accept="text/html")
    facts = [text for fact in found["facts"] for text in (fact["title"], fact["means"], fact["group"], fact["rare"])]
    return {
        "studio": [text for answer in pages.values() for text in read(answer.body.decode())],
        "studio's facts": facts,
        "studio's errors": [refused["rule"], refused["next_step"], *read(missing.body.decode())],
    }


def main() -> None:
    """Print everything as data."""
    with tempfile.TemporaryDirectory() as folder:
        told = {"site": site(), "state": state(), **studio(Path(folder))}
    sys.stdout.write(json.dumps(told, ensure_ascii=False))


if __name__ == "__main__":
    main()
