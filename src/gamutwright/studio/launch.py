"""Starting and ending the studio: a port of this machine, one printed address, a browser, and a clean Ctrl-C.

A course gets the same port at every start where that is free, so that what a browser keeps for the studio, a draft that
was not saved or the leave to use the microphone, is found again after a restart.

Conventions: times are seconds. Ctrl-C, a closed terminal and a polite kill all end the studio the same way: open
requests get three seconds, then whatever was started by it ends, and the exit code is 0.

References: RFC 6335 section 6 (dynamic ports 49152 to 65535), from memory.
"""

from __future__ import annotations

import asyncio
import contextlib
import hashlib
import json
import logging
import multiprocessing
import os
import signal
import socket
import sys
import threading
import webbrowser
from collections.abc import Callable
from pathlib import Path
from types import FrameType
from typing import Any, Final

import h11
import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

from gamutwright.errors import FileError, told
from gamutwright.studio.app import create_app
from gamutwright.studio.guard import HEADERS
from gamutwright.studio.place import LOOPBACK, Place, course_folder

__all__ = ["Server", "bound_socket", "launch", "server_for"]

FIRST_PORT: Final = 49_152
PORTS: Final = 16_384
GRACE_S: Final = 3
HEADERS_S = 15.0
"""How long a request may take to say what it wants."""
CHILD_S: Final = 1.0


def launch(course: Path, port: int | None, *, opens_browser: bool, as_json: bool) -> int:
    """Serve the studio of a course until it is stopped.

    Parameters
    ----------
    course : Path
        Folder of the course.
    port : int, optional
        Where to answer; the course's usual port, or any free one, without it.
    opens_browser : bool
        Whether a browser is opened.
    as_json : bool
        Print the address as JSON, for programs.

    Returns
    -------
    int
        0.

    Raises
    ------
    FileError
        If there is no such folder, or the port cannot be had.
    """
    folder = course_folder(course)
    with contextlib.closing(bound_socket(port, folder)) as listener:
        place = Place(folder, listener.getsockname()[1])
        _log_to_terminal()

        def announce() -> None:
            _print_address(place, as_json=as_json)
            if opens_browser:
                _open_browser(f"{place.address}?token={server.app.state.keys.ticket()}")

        server = server_for(place, announce)
        if hasattr(signal, "SIGHUP"):
            signal.signal(signal.SIGHUP, server.handle_exit)
        try:
            with contextlib.suppress(KeyboardInterrupt):
                server.run(sockets=[listener])
        finally:
            _end_children()
    return 0


def bound_socket(port: int | None, course: Path) -> socket.socket:
    """Take a port of this machine, and listen on it at once, so that nobody else gets it in between.

    Parameters
    ----------
    port : int or None
        Which; None for the course's usual one, or any where that is taken.
    course : Path
        Folder of the course.

    Returns
    -------
    socket
        It listens on the loopback address alone.

    Raises
    ------
    FileError
        If the port cannot be had.
    """
    if port is not None:
        try:
            return _listening(port)
        except OSError as error:
            raise FileError(
                told("port {port}", port=str(port)),
                told("it cannot be had ({part})", part=error.strerror or error),
                told("Leave out --port, and a free one is found; or name another."),
            ) from error
    usual = FIRST_PORT + int.from_bytes(hashlib.sha256(os.fsencode(course)).digest()[:4], "big") % PORTS
    try:
        return _listening(usual)
    except OSError:
        return _listening(0)


def _listening(port: int) -> socket.socket:
    # The protocol is named because asyncio sends without delay only on sockets that name it: 40 ms an answer otherwise.
    opened = socket.socket(socket.AF_INET, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        # Windows alone lets a second program take a port that is in use, unless it is told not to.
        exclusive = getattr(socket, "SO_EXCLUSIVEADDRUSE", None)
        opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR if exclusive is None else exclusive, 1)
        opened.bind((LOOPBACK, port))
        opened.listen(2048)
    except OSError:
        opened.close()
        raise
    return opened


def server_for(place: Place, announce: Callable[[], None]) -> Server:
    """Make the server of a studio.

    Parameters
    ----------
    place : Place
        What it serves.
    announce : callable
        Called once it answers.

    Returns
    -------
    Server
        Its `run` takes the listening socket.
    """
    app = create_app(place)
    config = uvicorn.Config(
        app,
        host=place.host,
        port=place.port,
        loop="asyncio",
        http=Protocol,
        ws="none",
        lifespan="on",
        log_config=None,
        log_level="critical",
        access_log=False,
        proxy_headers=False,
        server_header=False,
        timeout_graceful_shutdown=GRACE_S,
    )
    return Server(config, app, announce)


class Server(uvicorn.Server):
    """A server that says when it answers, and that every polite signal ends alike.

    Parameters
    ----------
    config : Config
        As for uvicorn.
    app : FastAPI
        What it serves.
    announce : callable
        Called once it answers.
    """

    def __init__(self, config: uvicorn.Config, app: Any, announce: Callable[[], None]) -> None:  # noqa: ANN401 - ASGI
        super().__init__(config)
        self.app = app
        self._announce = announce

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start, then say so."""
        await super().startup(sockets)
        if self.started:
            self._announce()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Let event streams end by themselves, then stop."""
        self.app.state.ending.set()
        await super().shutdown(sockets)

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:  # noqa: ARG002 - as signals are handled
        """Stop; at the second Ctrl-C without waiting for open requests."""
        self.force_exit = self.should_exit and sig == signal.SIGINT
        self.should_exit = True


class Protocol(H11Protocol):
    """HTTP that does not wait for ever for the head of a request, and that seals even what it cannot read."""

    _deadline: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override] # as uvicorn narrows it
        """Begin a connection."""
        super().connection_made(transport)
        self._wait_for_head()

    def data_received(self, data: bytes) -> None:
        """Take what comes."""
        super().data_received(data)
        if self.conn.their_state is h11.IDLE:
            self._wait_for_head()
        else:
            self._stop_waiting()

    def connection_lost(self, exc: Exception | None) -> None:
        """End a connection."""
        self._stop_waiting()
        super().connection_lost(exc)

    def send_400_response(self, msg: str) -> None:
        """Answer what is no HTTP."""
        head = {"content-type": "text/plain; charset=utf-8", "content-length": str(len(msg)), "connection": "close"}
        lines = [f"{name}: {value}" for name, value in {**head, "cache-control": "no-store", **HEADERS}.items()]
        self.transport.write("\r\n".join(["HTTP/1.1 400 Bad Request", *lines, "", msg]).encode("ascii"))
        self.transport.close()

    def _wait_for_head(self) -> None:
        if self._deadline is None:
            self._deadline = self.loop.call_later(HEADERS_S, self._give_up)

    def _stop_waiting(self) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None

    def _give_up(self) -> None:
        self._deadline = None
        if not self.transport.is_closing():
            self.transport.close()


def _print_address(place: Place, *, as_json: bool) -> None:
    url = f"{place.address}?token={place.token}"
    if as_json:
        print(json.dumps({"url": url}), flush=True)  # noqa: T201 - the terminal is where the address is told
        return
    print(  # noqa: T201 - as above
        f"The studio of {place.course}\n\n    {url}\n\n"
        "Open it in a browser on this machine. Whoever has this address can use the studio;\n"
        "it changes with every start. Ctrl-C here ends the studio; what was saved stays.",
        flush=True,
    )


def _open_browser(url: str) -> None:
    """Open a browser if there is one with a window; a browser of the terminal would take the terminal away."""
    has_window = sys.platform in {"win32", "darwin"} or any(
        os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER")
    )
    if has_window:
        threading.Thread(target=_try_browser, args=(url,), daemon=True).start()


def _try_browser(url: str) -> None:
    with contextlib.suppress(Exception):  # the address stands in the terminal
        webbrowser.open(url)


def _log_to_terminal() -> None:
    log = logging.getLogger("gamutwright.studio")
    if not log.handlers:
        handler = logging.StreamHandler()
        handler.setFormatter(logging.Formatter("%(asctime)s  %(message)s", "%H:%M:%S"))
        log.addHandler(handler)


def _end_children() -> None:
    children = multiprocessing.active_children()
    for child in children:
        child.terminate()
    for child in children:
        child.join(CHILD_S)
        if child.is_alive():
            child.kill()
