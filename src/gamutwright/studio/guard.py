"""Who may speak with the studio: the browser of whoever started it, from the studio's own pages, and nobody else.

A program on one's own machine can be reached by every page that is open in the browser, and by every other user of the
machine. Four things keep them out, for every address, style and event stream alike:

- **Host** must be this machine by one of its three spellings with the studio's port, so that a foreign name that is
  pointed at this machine (DNS rebinding) reaches nothing.
- **Origin and Sec-Fetch-Site**: what a foreign page sends is refused; whatever could change something must prove that
  it comes from the studio's own page.
- **A token in the first address**, told in the terminal alone, is exchanged for a cookie that no script and no foreign
  page can use, and leaves the address at once. A browser that the studio itself opens gets a ticket for one use
  instead, since the words of a command can be read by other users of the machine while it runs.
- **Bodies** have their size and their time (`intake`).

Conventions: 400 what no browser sends, 401 no cookie, 403 a foreign page or name, 405 a method nobody needs. Every
answer carries `HEADERS`, with a policy without any scripts below `MADE`; data are not stored unless the answer says so.

References: RFC 9110 section 7.2 (Host); RFC 6454 and the Fetch standard (Origin); Fetch Metadata Request Headers (W3C);
RFC 6265bis (SameSite cookies); Content Security Policy Level 3 (W3C); all from memory.
"""

from __future__ import annotations

import asyncio
import hmac
import re
import secrets
import time
from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final
from urllib.parse import parse_qsl

from starlette.responses import RedirectResponse, Response

from gamutwright.errors import told
from gamutwright.studio.errors import Told, answered
from gamutwright.studio.intake import Intake, has_body

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from gamutwright.studio.place import Place

__all__ = ["HEADERS", "METHODS", "Guard", "Keys", "cookie_name"]

POLICY: Final = {
    "default-src": "'none'", "script-src": "'self'", "style-src": "'self'", "img-src": "'self' data: blob:",
    "media-src": "'self' blob:", "font-src": "'self' data:", "connect-src": "'self'", "worker-src": "'self'",
    "form-action": "'self'", "base-uri": "'none'", "frame-ancestors": "'none'",
}  # fmt: skip
DENIED: Final = (
    "accelerometer", "camera", "display-capture", "geolocation", "gyroscope", "hid", "local-fonts",
    "magnetometer", "payment", "serial", "usb",
)  # fmt: skip
HEADERS: Final = {
    "content-security-policy": "; ".join(f"{name} {value}" for name, value in POLICY.items()),
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": ", ".join(["microphone=(self)", "midi=(self)", *(f"{name}=()" for name in DENIED)]),
}
"""What every answer says."""
MADE: Final = "/made/"
"""Below this address lies what was made for learners: pages with scripts of their own, which do not run here."""
MADE_POLICY: Final = {
    "default-src": "'none'", "style-src": "'unsafe-inline'", "img-src": "'self' data:", "media-src": "'self' data:",
    "font-src": "data:", "form-action": "'none'", "base-uri": "'none'", "frame-ancestors": "'none'",
}  # fmt: skip
"""It has no source of scripts at all; what a package's page may do is look like itself and play its film."""
SANDBOX: Final = "allow-same-origin allow-downloads allow-popups"
"""Without the leave to run scripts; with the origin, so that its film is let in."""
NOT_STORED: Final = (b"cache-control", b"no-store")
METHODS: Final = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE")
SAFE: Final = ("GET", "HEAD")
ONCE: Final = (
    b"host", b"origin", b"cookie", b"sec-fetch-site", b"content-length", b"transfer-encoding", b"if-match",
)  # fmt: skip
WRONG_TOKEN_S = 0.5
TICKET_S = 120.0
_ODD = re.compile(r"[\x00-\x1f\x7f\\\ufffd]|(^|/)\.{1,2}(/|$)")
"""What no address of the studio has: control signs, backslashes, bytes that are no UTF-8, and steps up."""

CLOSED: Final = Told(
    401,
    told("this browser"),
    told("it has not been let into the studio"),
    told("Open the address that stands in the terminal in which the studio was started; it changes with every start."),
)


def cookie_name(port: int) -> str:
    """Name the cookie of a studio.

    Parameters
    ----------
    port : int
        Where it answers; browsers share cookies between ports, so the name tells them apart.

    Returns
    -------
    str
        The name.

    Examples
    --------
    >>> cookie_name(50321)
    'gamutwright-50321'
    """
    return f"gamutwright-{port}"


class Keys:
    """What opens the studio, and what keeps it open.

    Parameters
    ----------
    token : str
        Opens it as often as is liked.
    """

    def __init__(self, token: str) -> None:
        self._token = token.encode()
        self._session = secrets.token_urlsafe(32)
        self._tickets: dict[bytes, float] = {}

    def ticket(self) -> str:
        """Make a token for one use within two minutes.

        Returns
        -------
        str
            The ticket.
        """
        made = secrets.token_urlsafe(32)
        self._tickets[made.encode()] = time.monotonic() + TICKET_S
        return made

    def session_for(self, offered: str) -> str | None:
        """Exchange a token or a ticket.

        Parameters
        ----------
        offered : str
            What somebody shows.

        Returns
        -------
        str or None
            The value of the cookie; None where it opens nothing.
        """
        shown = offered.encode("utf-8", "replace")
        if hmac.compare_digest(shown, self._token):
            return self._session
        for ticket, until in list(self._tickets.items()):
            if hmac.compare_digest(shown, ticket):
                del self._tickets[ticket]
                return self._session if time.monotonic() < until else None
        return None

    def is_session(self, offered: bytes) -> bool:
        """Whether a cookie is the studio's.

        Parameters
        ----------
        offered : bytes
            Its value.

        Returns
        -------
        bool
            Compared in constant time.
        """
        return hmac.compare_digest(offered, self._session.encode())


class Guard:
    """Let in what may come in.

    Parameters
    ----------
    app : ASGI application
        What is guarded.
    place : Place
        Where the studio answers.
    keys : Keys
        What opens it.
    """

    def __init__(self, app: ASGIApp, place: Place, keys: Keys) -> None:
        self._app = app
        self._keys = keys
        self._hosts = {f"{name}:{place.port}".encode() for name in ("127.0.0.1", "localhost", "[::1]")}
        self._cookie = cookie_name(place.port).encode()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request, or pass it on."""
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
            return
        if scope["type"] != "http":
            await send({"type": "websocket.close", "code": 1008, "reason": "The studio speaks no WebSocket."})
            return
        intake = Intake(scope, receive)
        sealed = _sealed(scope, intake, send)
        if (answer := await self._at_the_door(scope)) is not None:
            await _close_with(answer, scope, intake, send)
        elif intake.refused is not None:
            await _close_with(answered(intake.refused, scope), scope, intake, send)
        else:
            await self._pass_on(scope, intake, sealed, send)

    async def _pass_on(self, scope: Scope, intake: Intake, sealed: Send, send: Send) -> None:
        """Let the application answer; where the body is refused on the way, the refusal is the answer."""
        has_started = False

        async def noting(message: Message) -> None:
            nonlocal has_started
            if intake.refused is None or has_started:
                has_started = True
                await sealed(message)

        try:
            await self._app(scope, intake, noting)
        except Exception:
            if intake.refused is None:
                raise
        if intake.refused is not None and not has_started:
            await _close_with(answered(intake.refused, scope), scope, intake, send)

    async def _at_the_door(self, scope: Scope) -> Response | None:
        """Give the answer to whoever may not come in, and to whoever shows a token."""
        refusal = self._malformed(scope) or self._foreign(scope)
        if refusal is not None:
            answer = answered(refusal, scope)
            if refusal.status == 405:
                answer.headers["allow"] = ", ".join(METHODS)
            return answer
        if scope["path"] == "/" and scope["method"] == "GET" and (offered := _token_of(scope)) is not None:
            session = self._keys.session_for(offered)
            if session is None:
                await asyncio.sleep(WRONG_TOKEN_S)
                return answered(CLOSED, scope)
            entrance = RedirectResponse("/", 303)
            entrance.set_cookie(self._cookie.decode(), session, path="/", httponly=True, samesite="strict")
            return entrance
        shown = [value for name, value in _cookies(scope) if name == self._cookie]
        if len(shown) == 1 and self._keys.is_session(shown[0]):
            return None
        return answered(CLOSED, scope)

    def _malformed(self, scope: Scope) -> Told | None:
        """Say what no browser sends."""
        counts = Counter(name for name, _ in scope["headers"])
        twice = [name.decode() for name in ONCE if counts[name] > 1]
        if twice:
            return Told(
                400,
                told("the header {twice}", twice=twice[0]),
                told("it stands there more than once"),
                told("Send it once."),
            )
        if scope["method"] not in METHODS:
            return Told(405, scope["method"], told("the studio has no such method"), told("Use its own pages."))
        if not scope["raw_path"].startswith(b"/") or _ODD.search(scope["path"]):
            return Told(
                400, scope["path"], told("it is no address of the studio"), told("Go back to the start of the studio.")
            )
        if b"websocket" in _header(scope, b"upgrade").lower():
            return Told(400, "WebSocket", told("the studio does not speak it"), told("Use its own pages."))
        return None

    def _foreign(self, scope: Scope) -> Told | None:
        """Say what comes from another page or under another name."""
        host, origin = _header(scope, b"host"), _header(scope, b"origin")
        site = _header(scope, b"sec-fetch-site")
        if host not in self._hosts:
            rule = told("it is not the name of this studio")
            return Told(403, host.decode("latin-1") or "no host", rule, told("Use the address of the terminal."))
        if site in {b"cross-site", b"same-site"} or (origin and origin != b"http://" + host):
            rule = told("it may not ask the studio for anything")
            return Told(403, told("another page"), rule, told("Copy the address of the terminal into a new tab."))
        if scope["method"] not in SAFE and not origin and site != b"same-origin":
            rule = told("it does not say that it comes from the studio's own page")
            return Told(403, told("the request"), rule, told("Use the studio's own pages."))
        return None


def _header(scope: Scope, wanted: bytes) -> bytes:
    return next((value for name, value in scope["headers"] if name == wanted), b"")


def _cookies(scope: Scope) -> list[tuple[bytes, bytes]]:
    pairs = (one.partition(b"=") for one in _header(scope, b"cookie").split(b";"))
    return [(name.strip(), value.strip()) for name, _, value in pairs]


def _token_of(scope: Scope) -> str | None:
    """Read the token out of the first address; None where there is none, or where there are several."""
    try:
        pairs = parse_qsl(scope["query_string"].decode("ascii"), keep_blank_values=True, max_num_fields=10)
    except ValueError:
        return None
    tokens = [value for name, value in pairs if name == "token"]
    return tokens[0] if len(tokens) == 1 else None


def _with_headers(message: Message, *, closes: bool, path: str = "") -> Message:
    ours = {name.encode() for name in HEADERS} | {b"server"}
    headers = [(name, value) for name, value in message.get("headers", []) if name.lower() not in ours]
    if not any(name.lower() == b"cache-control" for name, _ in headers):
        headers.append(NOT_STORED)
    if closes:
        headers.append((b"connection", b"close"))
    policy = _made_policy(headers) if path.startswith(MADE) else {}
    headers += [(name.encode(), value.encode()) for name, value in (HEADERS | policy).items()]
    return {**message, "headers": headers}


def _made_policy(headers: Sequence[tuple[bytes, bytes]]) -> dict[str, str]:
    """Give the policy of what was made: no scripts, and for pages nothing else that could act either."""
    is_page = any(name.lower() == b"content-type" and value.startswith(b"text/html") for name, value in headers)
    policy = ({"sandbox": SANDBOX} if is_page else {}) | MADE_POLICY
    return {"content-security-policy": "; ".join(f"{name} {value}" for name, value in policy.items())}


def _sealed(scope: Scope, intake: Intake, send: Send) -> Send:
    """Send with our headers; a connection whose body was not read to its end is closed after the answer."""

    async def sealing(message: Message) -> None:
        if message["type"] == "http.response.start":
            message = _with_headers(message, closes=has_body(scope) and not intake.is_whole, path=scope["path"])
        await send(message)

    return sealing


async def _close_with(answer: Response, scope: Scope, intake: Intake, send: Send) -> None:
    """Answer at once without having read the body."""
    is_unread = not intake.is_whole
    start: Message = {"type": "http.response.start", "status": answer.status_code, "headers": answer.raw_headers}
    await send(_with_headers(start, closes=is_unread))
    body = b"" if scope["method"] == "HEAD" else bytes(answer.body)
    await send({"type": "http.response.body", "body": body, "more_body": is_unread})
    if is_unread:
        await intake.throw_away()
        await send({"type": "http.response.body", "body": b"", "more_body": False})
