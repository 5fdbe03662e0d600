"""What goes wrong, told in words: as data to the screens, as a plain page to somebody who opened an address.

Conventions: data are `value`, `rule` and `next_step`, and the readings or problems where an error lists them. An error
of the studio may name its own `status`. What nobody foresaw is told in one plain sentence; the story goes to the
terminal, where the log belongs.
"""

from __future__ import annotations

import logging
from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING, Final

from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect
from starlette.responses import HTMLResponse, JSONResponse, Response

from gamutwright.errors import (
    CatalogueError,
    FileError,
    GamutwrightError,
    InputError,
    JobError,
    MissingPartError,
    PackError,
    UnknownFactError,
    UnprovedError,
    told,
)
from gamutwright.studio.tongue import say, tongue

if TYPE_CHECKING:
    from fastapi import FastAPI, Request
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["DATA_PATHS", "Catcher", "Told", "answered", "install", "status_of", "wants_page"]

LOG: Final = logging.getLogger("gamutwright.studio")
DATA_PATHS: Final = ("/api/", "/takes/", "/kit/")
"""Addresses that scripts ask, and that are never answered with a page about what went wrong."""
LONGEST: Final = 300
"""Characters of a value that are repeated to whoever sent it."""
STATUS: Final = (
    (UnknownFactError, 404),
    ((FileError, UnprovedError, JobError, PackError, MissingPartError), 409),
    (InputError, 422),
    (CatalogueError, 400),
    (ValueError, 422),
)
UNFORESEEN: Final = (
    told("this answer"),
    told("the studio met a fault of its own, and nothing that was saved is touched"),
    told("Try it again; the terminal in which the studio was started tells what happened."),
)
WORDS: Final = {
    400: (told("the request cannot be understood"), told("Load the page again.")),
    403: (told("it is not for this page"), told("Open the studio from its own address.")),
    404: (told("there is nothing at this address"), told("Go back to the start of the studio.")),
    405: (told("nothing of the kind can be done here"), told("Go back to the start of the studio.")),
    413: (told("it is too large"), told("Send less at once.")),
}


@dataclass(frozen=True, slots=True)
class Told:
    """What somebody is told.

    Parameters
    ----------
    status : int
        Status of the answer.
    value, rule, next_step : str
        As for `GamutwrightError`.
    """

    status: int
    value: str
    rule: str
    next_step: str


def status_of(error: GamutwrightError) -> int:
    """Choose the status that fits an error.

    Parameters
    ----------
    error : GamutwrightError
        The error; its own `status` comes first.

    Returns
    -------
    int
        404 for what is not there, 409 for what the state of the disk or of the work forbids, 422 for what cannot be
        used, else 400.

    Examples
    --------
    >>> status_of(InputError("'C X'", "X is no note name", "Write letters A to G."))
    422
    """
    own = getattr(error, "status", None)
    if isinstance(own, int):
        return own
    if isinstance(error, FileError) and isinstance(error.__cause__, FileNotFoundError):
        return 404
    return next((status for kinds, status in STATUS if isinstance(error, kinds)), 400)


def wants_page(scope: Scope) -> bool:
    """Whether an answer is read by a person, who opened an address in a browser.

    Parameters
    ----------
    scope : dict
        The request, by the ASGI specification.

    Returns
    -------
    bool
        False for scripts.
    """
    accepted = b",".join(value for name, value in scope["headers"] if name == b"accept")
    return scope["method"] == "GET" and b"text/html" in accepted and not scope["path"].startswith(DATA_PATHS)


def answered(what: Told, scope: Scope, **more: object) -> Response:
    """Word an answer for whoever asked.

    Parameters
    ----------
    what : Told
        What is told.
    scope : dict
        The request.
    **more : object
        Further data for scripts.

    Returns
    -------
    Response
        A page or data; everything that was sent is escaped.
    """
    retold = tongue().retold
    what = Told(what.status, retold(what.value), retold(what.rule), retold(what.next_step))
    value = what.value if len(what.value) <= LONGEST else what.value[: LONGEST - 1] + "…"
    if wants_page(scope):
        return HTMLResponse(_page(what, value), what.status)
    return JSONResponse({"value": value, "rule": what.rule, "next_step": what.next_step, **more}, what.status)


def _page(what: Told, value: str) -> str:
    heading = f"{value}: {what.rule}."
    heading = escape(heading[0].upper() + heading[1:])
    return (
        '<!doctype html>\n<html lang="' + tongue().tag + '">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        '<meta name="color-scheme" content="light dark">\n'
        f"<title>{what.status}: {escape(say('the studio'))}</title>\n</head>\n<body>\n<main>\n"
        f"<h1>{heading}</h1>\n<p>{escape(what.next_step)}</p>\n</main>\n</body>\n</html>\n"
    )


def install(app: FastAPI) -> None:
    """Let an application tell its errors in words.

    Parameters
    ----------
    app : FastAPI
        The application.
    """
    app.add_exception_handler(GamutwrightError, _tell_expected)
    app.add_exception_handler(HTTPException, _tell_http)
    app.add_exception_handler(RequestValidationError, _tell_invalid)


def _tell_expected(request: Request, error: Exception) -> Response:
    assert isinstance(error, GamutwrightError)  # noqa: S101 - it is installed for this class alone
    more: dict[str, object] = {}
    if readings := getattr(error, "readings", ()):
        more["readings"] = list(readings)
    if problems := getattr(error, "problems", ()):
        more["problems"] = [problem._asdict() for problem in problems]
    what = Told(status_of(error), error.value, error.rule, error.next_step)
    return answered(what, request.scope, **more)


def _tell_http(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)  # noqa: S101 - it is installed for this class alone
    rule, next_step = WORDS.get(error.status_code, (str(error.detail).rstrip("."), "Load the page again."))
    answer = answered(Told(error.status_code, request.scope["path"], rule, next_step), request.scope)
    answer.headers.update(error.headers or {})
    return answer


def _tell_invalid(request: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)  # noqa: S101 - it is installed for this class alone
    first = error.errors()[0]
    where = ".".join(str(step) for step in _inside(first["loc"])) or "what was sent"
    what = Told(422, where, first["msg"].rstrip("."), told("Mend that field, or load the page again."))
    return answered(what, request.scope)


def _inside(place: Iterable[object]) -> list[object]:
    """Leave out in which part of the request a field stood, which a teacher does not see."""
    return [step for step in place if step not in {"body", "query", "path", "header"}]


class Catcher:
    """The last net: what nobody foresaw becomes a plain sentence, and a log entry in the terminal.

    Parameters
    ----------
    app : ASGI application
        What is caught.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        has_started = False

        async def noting(message: Message) -> None:
            nonlocal has_started
            has_started = has_started or message["type"] == "http.response.start"
            await send(message)

        try:
            await self._app(scope, receive, noting)
        except ClientDisconnect:
            return
        except Exception:
            LOG.exception("A fault of the studio's own at %s %r:", scope["method"], scope["path"])
            if has_started:
                raise  # the connection is cut, so that nobody takes half an answer for a whole one
            await answered(Told(500, *UNFORESEEN), scope)(scope, receive, send)
