"""`gamutwright studio`: opening the studio of a course."""

from __future__ import annotations

from pathlib import Path

from gamutwright.studio.launch import launch

__all__ = ["run"]


def run(course: Path, port: int | None, *, opens_browser: bool, as_json: bool) -> int:
    """Serve the studio of a course until it is stopped.

    Parameters
    ----------
    course : Path
        Folder of the course.
    port : int or None
        Where to answer; a free port without it.
    opens_browser : bool
        Whether a browser is opened.
    as_json : bool
        Print the address as JSON.

    Returns
    -------
    int
        The exit code.
    """
    return launch(course, port, opens_browser=opens_browser, as_json=as_json)
