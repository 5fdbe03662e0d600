"""What the screens ask of the tasks: begin one, cancel it, put it first, go on with it, and hear how far they all are.

Conventions: a stream of server-sent events begins with everything (`all`), then tells what has changed (`changed`) and
what is no longer kept (`gone`). While a task runs it tells of it each second, so that times go on by themselves. It
ends with the studio.

References: HTML Living Standard, section 9.2 (server-sent events), from memory.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
from collections.abc import AsyncIterator, Callable, Mapping
from typing import Annotated, Any, Final

from fastapi import APIRouter, Request
from fastapi.responses import StreamingResponse
from pydantic import BaseModel, ConfigDict, Field
from starlette.exceptions import HTTPException

from gamutwright.studio.lessons import lesson_course
from gamutwright.studio.taskdesk import Desk
from gamutwright.studio.tasks import Task

__all__ = ["router"]

router = APIRouter()

EACH_S: Final = 1.0
"""How often a running task is told of, and whoever listens is looked after."""
LEAST_S: Final = 0.1
"""Changes that come faster are told together."""
QUIET_TURNS: Final = 15
"""After so many turns in silence a word without meaning is sent, so that a line that is gone is noticed."""


class Wanted(BaseModel):
    """What is to be done."""

    model_config = ConfigDict(extra="forbid", strict=True)

    kind: Annotated[str, Field(max_length=32)]
    lesson: Annotated[str, Field(max_length=64)] = ""


def _desk(request: Request) -> Desk:
    desk: Desk = request.app.state.desk
    return desk


@router.post("/api/tasks", status_code=201)
def start(request: Request, wanted: Wanted) -> dict[str, str]:
    """Ask for a task."""
    if wanted.lesson:
        lesson_course(request, wanted.lesson)
    return {"id": _desk(request).start(wanted.kind, wanted.lesson).id}


@router.get("/api/tasks")
def list_tasks(request: Request) -> dict[str, Any]:
    """Tell of all tasks."""
    return {"tasks": _desk(request).told()}


@router.get("/api/tasks/events")
async def events(request: Request) -> StreamingResponse:
    """Tell of all tasks, and then of everything that changes."""
    return StreamingResponse(_changes(_desk(request), request.app.state.ending), media_type="text/event-stream")


@router.post("/api/tasks/{task_id}/{verb}")
def act(request: Request, task_id: str, verb: str) -> dict[str, str]:
    """Cancel a task, put it first, or go on with it."""
    desk = _desk(request)
    verbs: Mapping[str, Callable[[str], Task]] = {"cancel": desk.cancel, "first": desk.to_front, "again": desk.again}
    if verb not in verbs:
        raise HTTPException(404)
    task = verbs[verb](task_id)
    return {"id": task.id, "state": task.state.value}


async def _changes(desk: Desk, ending: asyncio.Event) -> AsyncIterator[str]:
    loop, woken = asyncio.get_running_loop(), asyncio.Event()

    def wake() -> None:
        with contextlib.suppress(RuntimeError):  # the loop has ended
            loop.call_soon_threadsafe(woken.set)

    with desk.listening(wake):
        known = {task["id"]: task for task in desk.told()}
        yield _event("all", {"tasks": list(known.values())})
        quiet = 0
        while not ending.is_set():
            await _first_of(woken, ending)
            woken.clear()
            now = {task["id"]: task for task in desk.told()}
            changed = [task for task_id, task in now.items() if known.get(task_id) != task]
            gone = [task_id for task_id in known if task_id not in now]
            known = now
            if changed:
                yield _event("changed", {"tasks": changed})
            if gone:
                yield _event("gone", {"ids": gone})
            quiet = 0 if changed or gone else quiet + 1
            if quiet >= QUIET_TURNS:
                quiet = 0
                yield ": still here\n\n"
            await asyncio.sleep(LEAST_S)


async def _first_of(woken: asyncio.Event, ending: asyncio.Event) -> None:
    """Wait for a change, for the end, or for a turn to go by."""
    waits = [asyncio.ensure_future(event.wait()) for event in (woken, ending)]
    try:
        await asyncio.wait(waits, timeout=EACH_S, return_when=asyncio.FIRST_COMPLETED)
    finally:
        for wait in waits:
            wait.cancel()


def _event(name: str, data: Mapping[str, object]) -> str:
    return f"event: {name}\ndata: {json.dumps(data, ensure_ascii=False)}\n\n"
