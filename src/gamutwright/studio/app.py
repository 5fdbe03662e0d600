"""The studio's application: the screens behind one guard.

Conventions: a screen is a module with a `router`, named in `ROUTERS`. `app.state` has `place` (what is served), `kit`
(style and templates), `keys` (what opens the studio), `desk` (the tasks of the course), `ending` (an event that is set
when the studio is being stopped: event streams end on it) and `at_end` (a stack of what is to be done then: whoever
starts a process pushes its end).
"""

from __future__ import annotations

import asyncio
import contextlib
import importlib
from collections.abc import AsyncIterator
from typing import TYPE_CHECKING, Final

from fastapi import FastAPI

from gamutwright.studio import errors, static
from gamutwright.studio.guard import Guard, Keys
from gamutwright.studio.taskdesk import Desk
from gamutwright.studio.tongue import Tongue

if TYPE_CHECKING:
    from gamutwright.studio.place import Place

__all__ = ["ROUTERS", "create_app"]

ROUTERS: Final[tuple[str, ...]] = (
    "static", "courses", "exploring", "writing", "speaking", "seeing", "tasking", "making",
)  # fmt: skip
"""Modules of the studio whose addresses are served."""


def create_app(place: Place) -> FastAPI:
    """Put the studio together.

    Parameters
    ----------
    place : Place
        What it serves, and where.

    Returns
    -------
    FastAPI
        The application, guarded.
    """
    app = FastAPI(
        title="Gamutwright",
        docs_url=None,
        redoc_url=None,
        openapi_url=None,
        redirect_slashes=False,
        lifespan=_lifespan,
        # Nothing is measured for anybody else, whatever the environment asks for.
        telemetry={"auto_configure": False, "tracing": False, "metrics": False, "logs": False},
    )
    app.state.place = place
    app.state.kit = static.default_kit()
    app.state.keys = Keys(place.token)
    app.state.ending = asyncio.Event()
    app.state.at_end = contextlib.AsyncExitStack()
    app.state.desk = Desk(place.course)
    app.state.at_end.callback(app.state.desk.close)
    for name in ROUTERS:
        app.include_router(importlib.import_module(f"gamutwright.studio.{name}").router)
    errors.install(app)
    app.add_middleware(errors.Catcher)
    app.add_middleware(Guard, place=place, keys=app.state.keys)
    app.add_middleware(Tongue, course=place.course)
    return app


@contextlib.asynccontextmanager
async def _lifespan(app: FastAPI) -> AsyncIterator[None]:
    async with app.state.at_end:
        yield
        app.state.ending.set()
