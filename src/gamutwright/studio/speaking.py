"""The screen on which lines are recorded, and what it asks for: lines with their takes, recordings in, recordings out.

Conventions: a recording is the body of a request, as it is. It is written down while it comes in, beside what the
course can make again, and deleted once it was taken in or refused; what a killed studio leaves is cleared away with
the next one. Nothing that is sent becomes part of a path: lessons, lines and takes are looked up among those there.
"""

from __future__ import annotations

import contextlib
import uuid
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import FileResponse, HTMLResponse, JSONResponse
from pydantic import BaseModel, ConfigDict, Field

from gamutwright.errors import InputError, told
from gamutwright.files import leftovers, make_folder, workplace
from gamutwright.series.course import Course
from gamutwright.studio.documents import ChangedMeanwhileError, Documents
from gamutwright.studio.lessons import lesson_course, lesson_frame
from gamutwright.studio.recordings import Recordings
from gamutwright.studio.static import render
from gamutwright.studio.tongue import say

__all__ = ["router"]

router = APIRouter()

SOUND = ("audio/", "video/webm", "video/mp4", "application/ogg", "application/octet-stream")
"""Kinds of bodies that may hold a recording; some systems know no better word for one."""

Number = Annotated[int, Field(ge=1, le=1_000_000)]


class UnfitKindError(InputError):
    """A body that does not even say that it is a recording."""

    status = 415


class Choice(BaseModel):
    """A take."""

    model_config = ConfigDict(extra="forbid", strict=True)

    take: Number


class Words(BaseModel):
    """A line's markup, as it was shown and as it is to be."""

    model_config = ConfigDict(extra="forbid", strict=True)

    before: Annotated[str, Field(max_length=20_000)]
    after: Annotated[str, Field(max_length=20_000)]


def _recordings(request: Request, slug: str) -> Recordings:
    return Recordings(lesson_course(request, slug), slug)


@router.get("/lesson/{slug}/speak")
def speak_page(request: Request, slug: str) -> HTMLResponse:
    """Show the screen on which lines are recorded."""
    course = lesson_course(request, slug)
    source = Documents(course).read(slug).text
    return render(request, "speak.html.jinja", **lesson_frame(course, slug, source, "speak", say("Speak")))


@router.get("/api/lesson/{slug}/lines")
def list_lines(request: Request, slug: str) -> Any:  # noqa: ANN401 - plain data
    """List the lines of a lesson with all that is recorded of them."""
    return _recordings(request, slug).listing()


@router.put("/api/lesson/{slug}/lines/{line_id}")
def change_words(request: Request, slug: str, line_id: str, words: Words) -> Any:  # noqa: ANN401 - two kinds of answer
    """Write other words for a line, where it still has those that were shown."""
    recordings = _recordings(request, slug)
    try:
        return recordings.rewrite(line_id, words.before, words.after)
    except ChangedMeanwhileError as error:
        told = {"value": error.value, "rule": error.rule, "next_step": error.next_step}
        return JSONResponse({**told, "now": recordings.row(line_id)}, status_code=412)


@router.put("/api/lesson/{slug}/lines/{line_id}/choice")
def choose(request: Request, slug: str, line_id: str, choice: Choice) -> Any:  # noqa: ANN401 - plain data
    """Choose the take of a line that is heard."""
    return _recordings(request, slug).choose(line_id, choice.take)


@router.delete("/api/lesson/{slug}/lines/{line_id}/choice")
def undo_choice(request: Request, slug: str, line_id: str) -> Any:  # noqa: ANN401 - plain data
    """Take the last choice back."""
    return _recordings(request, slug).undo_choice(line_id)


@router.delete("/api/lesson/{slug}/lines/{line_id}/takes/{number}")
def discard(request: Request, slug: str, line_id: str, number: Number) -> Any:  # noqa: ANN401 - plain data
    """Throw a take away."""
    return _recordings(request, slug).discard(line_id, number)


@router.put("/api/lesson/{slug}/lines/{line_id}/takes/{number}")
def restore(request: Request, slug: str, line_id: str, number: Number) -> Any:  # noqa: ANN401 - plain data
    """Take back a take that was thrown away."""
    return _recordings(request, slug).restore(line_id, number)


@router.get("/api/takes/{slug}/{line_id}/{number}")
def take_audio(request: Request, slug: str, line_id: str, number: Number) -> FileResponse:
    """Give the sound of a take, or the part of it that is asked for."""
    return FileResponse(_recordings(request, slug).audio(line_id, number), media_type="audio/flac")


@router.post("/api/takes/{slug}/{line_id}", status_code=201)
async def add_take(
    request: Request,
    slug: str,
    line_id: str,
    name: Annotated[str, Query(max_length=200)] = "",
    said: Annotated[str, Query(max_length=5000)] = "",
) -> Any:  # noqa: ANN401 - plain data
    """Take a recording in for a line."""
    course = await run_in_threadpool(lesson_course, request, slug)
    kind = request.headers.get("content-type", "").lower()
    if not kind.startswith(SOUND):
        raise UnfitKindError(
            told("a body of the kind '{kind}'", kind=kind[:60]),
            told("it is no recording"),
            told("Send WAV, FLAC, WebM, MP3 or M4A."),
        )
    recordings = Recordings(course, slug)
    await run_in_threadpool(recordings.row, line_id)
    async with _written_down(request, course) as path:
        row, number = await run_in_threadpool(recordings.add, line_id, path, _plain(name) or "recording", _plain(said))
    return {"line": row, "take": number}


def _plain(text: str) -> str:
    """Keep what can be printed."""
    return "".join(sign for sign in text if sign.isprintable()).strip()


@contextlib.asynccontextmanager
async def _written_down(request: Request, course: Course) -> AsyncIterator[Path]:
    """Write a body into a file that is there as long as it is needed."""
    folder = course.kept / "incoming"
    await run_in_threadpool(_make_room, folder)
    path = workplace(folder / "take", uuid.uuid4().hex)
    try:
        with path.open("wb") as file:
            async for piece in request.stream():
                await run_in_threadpool(file.write, piece)
        yield path
    finally:
        path.unlink(missing_ok=True)


def _make_room(folder: Path) -> None:
    make_folder(folder)
    for left, _ in leftovers(folder / "take"):
        left.unlink(missing_ok=True)
