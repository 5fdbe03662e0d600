"""The screen on which a lesson is seen and heard before it is made: line by line at once, or as a whole, small.

Conventions: a moment in an address is a tick of 1/48,000 s. Films are sent with ranges, so that a browser can seek in
them. The server hands out the two files of a preview that it has found itself; no name in an address becomes a path.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import FileResponse, HTMLResponse, Response

from gamutwright.errors import FileError, told
from gamutwright.studio.documents import Documents
from gamutwright.studio.lessons import lesson_course, lesson_frame
from gamutwright.studio.previews import Film, Previews, small_film
from gamutwright.studio.static import render
from gamutwright.studio.tongue import say

__all__ = ["previews_of", "router"]

router = APIRouter()

LONGEST_TICK = 48_000 * 60 * 60 * 5
KEPT = "private, max-age=3600"
"""A preview belongs to the key in its address, and never changes."""


def previews_of(request: Request) -> Previews:
    """Give the previews of this studio, made when they are first asked for and ended with it.

    Parameters
    ----------
    request : Request
        What was asked.

    Returns
    -------
    Previews
        The same each time.
    """
    state = request.app.state
    if not hasattr(state, "previews"):
        state.previews = Previews()
        state.at_end.callback(state.previews.end)
    found: Previews = state.previews
    return found


@router.get("/lesson/{slug}/see")
def see_page(request: Request, slug: str) -> HTMLResponse:
    """Show the screen."""
    course = lesson_course(request, slug)
    return render(
        request,
        "see.html.jinja",
        **lesson_frame(course, slug, Documents(course).read(slug).text, "see", say("See")),
        is_tall=course.film.size == "vertical",
    )


@router.get("/api/lesson/{slug}/timeline")
def tell_timeline(request: Request, slug: str) -> Any:  # noqa: ANN401 - plain data
    """Say when everything of a lesson happens, and whether there is a film of it."""
    course = lesson_course(request, slug)
    told = previews_of(request).timeline(course, slug)
    film = small_film(course, slug, str(told["key"]))
    return {**told, "film": "none" if film is None else "new" if film.is_new else "old"}


@router.get("/api/lesson/{slug}/clip/{line_id}")
def send_clip(request: Request, slug: str, line_id: Annotated[str, Path(pattern=r"^[\w-]{1,64}$")]) -> Response:
    """Send a line as a small film."""
    content = previews_of(request).clip(lesson_course(request, slug), slug, line_id)
    return Response(content, media_type="video/mp4", headers={"Cache-Control": KEPT})


@router.get("/api/lesson/{slug}/still")
def send_still(request: Request, slug: str, tick: Annotated[int, Query(ge=0, le=LONGEST_TICK)]) -> Response:
    """Send what is seen at a moment."""
    content = previews_of(request).still(lesson_course(request, slug), slug, tick)
    return Response(content, media_type="image/png", headers={"Cache-Control": KEPT})


def _film(request: Request, slug: str) -> Film:
    course = lesson_course(request, slug)
    film = small_film(course, slug, "")
    if film is None:
        raise FileError(
            told("the preview of '{slug}'", slug=slug), told("it was not made yet"), told("Make it on the screen See.")
        )
    return film


@router.get("/api/lesson/{slug}/small-film")
def send_film(request: Request, slug: str) -> FileResponse:
    """Send the whole lesson, small."""
    return FileResponse(_film(request, slug).path, media_type="video/mp4")


@router.get("/api/lesson/{slug}/small-captions")
def send_captions(request: Request, slug: str) -> FileResponse:
    """Send its captions."""
    return FileResponse(_film(request, slug).captions, media_type="text/vtt")
