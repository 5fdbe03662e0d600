"""A studio that really listens, for tests that speak with it over the wire as a browser would, or would not."""

from __future__ import annotations

import asyncio
import http.client
import json
import os
import socket
import subprocess
import sys
import threading
from collections.abc import AsyncIterator, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from fastapi import Body, FastAPI, Request
from fastapi.responses import HTMLResponse, JSONResponse, StreamingResponse

from gamutwright.errors import InputError
from gamutwright.studio.guard import cookie_name
from gamutwright.studio.launch import Server, bound_socket, server_for
from gamutwright.studio.place import Place

COMMAND = [sys.executable, "-m", "gamutwright", "studio"]
SECRET = "nobody may read this"  # noqa: S105 - what lies outside of the kit


@dataclass(frozen=True)
class Answer:
    """What came back: header names in small letters."""

    status: int
    headers: dict[str, str]
    body: bytes


@dataclass
class Studio:
    """A running studio, and what its screens were reached by."""

    place: Place
    server: Server
    reached: list[str] = field(default_factory=list)
    read: int = 0
    cookie: str = ""

    @property
    def port(self) -> int:
        return self.place.port

    @property
    def host(self) -> str:
        return f"127.0.0.1:{self.port}"

    def ask(self, method: str, path: str, body: bytes | None = None, *, is_in: bool = True, **headers: str) -> Answer:
        """Ask as the studio's own page does; `headers` with underscores add to that or replace it."""
        sent = {"host": self.host, "accept-encoding": "identity"}
        if is_in:
            sent["cookie"] = self.cookie
            if method not in {"GET", "HEAD"}:
                sent["origin"] = f"http://{self.host}"
        sent |= {name.replace("_", "-"): value for name, value in headers.items()}
        with closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=20)) as line:
            line.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            if body is not None:
                sent.setdefault("content-length", str(len(body)))
            for name, value in sent.items():
                if value:
                    line.putheader(name, value)
            line.endheaders(body)
            got = line.getresponse()
            return Answer(got.status, {name.lower(): value for name, value in got.getheaders()}, got.read())

    def say(self, words: bytes, seconds: float = 10.0) -> bytes:
        """Send bytes and read until the other side closes, or falls silent."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=seconds) as line:
            line.sendall(words)
            return heard(line)

    def head(self, start: str, *lines: str) -> bytes:
        """Write the head of a request by the studio's own page."""
        own = [f"host: {self.host}", f"cookie: {self.cookie}", f"origin: http://{self.host}"]
        return "\r\n".join([start, *own, *lines, "", ""]).encode("latin-1")


def heard(line: socket.socket) -> bytes:
    pieces = []
    try:
        while piece := line.recv(65_536):
            pieces.append(piece)
    except (TimeoutError, ConnectionError):
        pass
    return b"".join(pieces)


def add_screens(app: FastAPI, studio: Studio) -> None:
    """Give a studio screens that note that they were reached."""

    @app.get("/test")
    def page() -> HTMLResponse:
        studio.reached.append("page")
        return HTMLResponse("<!doctype html><title>the screen</title>")

    @app.api_route("/api/note", methods=["GET", "POST", "PUT", "PATCH", "DELETE"])
    def note(request: Request) -> dict[str, str]:
        studio.reached.append(request.method)
        return {"noted": request.method}

    @app.post("/api/words")
    def words(sent: dict[str, int] = Body()) -> dict[str, int]:  # noqa: B008 - as FastAPI declares it
        studio.reached.append("words")
        return sent

    @app.post("/takes/line")
    async def take(request: Request) -> JSONResponse:
        studio.read = 0
        async for piece in request.stream():
            studio.read += len(piece)
        studio.reached.append("take")
        return JSONResponse({"bytes": studio.read})

    @app.get("/api/fault")
    def fault() -> None:
        raise RuntimeError("the combination is 3-1-4")

    @app.get("/wrong/{what:path}")
    def wrong(what: str) -> None:
        raise InputError(repr(what), f"{what} is no scale", f"Write another than {what}.")

    @app.get("/api/stream")
    async def stream(request: Request) -> StreamingResponse:
        async def beats() -> AsyncIterator[bytes]:
            yield b"data: here\n\n"
            await request.app.state.ending.wait()

        return StreamingResponse(beats(), media_type="text/event-stream")


@contextmanager
def running(folder: Path) -> Iterator[Studio]:
    """Serve a folder from a thread of this process."""
    with closing(bound_socket(None, folder)) as listener:
        answers = threading.Event()
        place = Place(folder, listener.getsockname()[1])
        server = server_for(place, answers.set)
        studio = Studio(place, server)
        studio.cookie = f"{cookie_name(place.port)}={server.app.state.keys.session_for(place.token)}"
        add_screens(server.app, studio)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]})
        thread.start()
        try:
            assert answers.wait(20)
            yield studio
        finally:
            server.should_exit = True
            thread.join(20)
            assert not thread.is_alive()


@contextmanager
def started(folder: Path, *words: str, **environment: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """Start the command and read the address it prints."""
    process = subprocess.Popen(  # noqa: S603 - our own command with fixed words
        [*COMMAND, str(folder), "--no-browser", "--json", *words],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, **environment},
    )
    try:
        assert process.stdout is not None
        printed = process.stdout.readline()
        assert printed, process.communicate()[1]
        yield process, json.loads(printed)["url"]
    finally:
        process.kill()
        process.communicate()


async def many(studio_port: int, words: bytes, count: int) -> list[bytes]:
    """Send the same words over many connections at once; give the first line of every answer."""

    async def one() -> bytes:
        reader, writer = await asyncio.open_connection("127.0.0.1", studio_port)
        writer.write(words)
        await writer.drain()
        everything = await reader.read()
        writer.close()
        await writer.wait_closed()
        return everything.partition(b"\r\n")[0]

    return await asyncio.gather(*(one() for _ in range(count)))
