"""Starting and ending the studio as a teacher does it: the command, its address, its port, Ctrl-C."""

from __future__ import annotations

import asyncio
import http.client
import logging
import multiprocessing
import signal
import socket
import subprocess
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import psutil
import pytest

from gamutwright.errors import FileError
from gamutwright.studio import launch
from gamutwright.studio.launch import bound_socket
from gamutwright.studio.place import Place
from gamutwright.studio.static import default_kit
from studio.serving import COMMAND, Studio, many, started
from thinning import usually

SOME_SECONDS = 30.0


def status(url: str, path: str | None = None, **headers: str) -> tuple[int, dict[str, str]]:
    """Ask a running studio; follow nothing."""
    parts = urlsplit(url)
    with closing(http.client.HTTPConnection("127.0.0.1", parts.port, timeout=SOME_SECONDS)) as line:
        line.request("GET", path if path is not None else f"/?{parts.query}", headers=headers)
        answer = line.getresponse()
        answer.read()
        return answer.status, dict(answer.getheaders())


@pytest.mark.parametrize("name", usually(["SIGINT", "SIGTERM", "SIGHUP"], "SIGTERM", "SIGHUP"))
def test_it_starts_answers_and_ends_without_a_word(tmp_path: Path, name: str) -> None:
    if not hasattr(signal, name):
        assert name == "SIGHUP"  # Windows alone has none
        return
    with started(tmp_path) as (process, url):
        parts = urlsplit(url)
        assert (parts.scheme, parts.hostname, parts.path) == ("http", "127.0.0.1", "/")
        assert len(parse_qs(parts.query)["token"][0]) >= 43
        code, headers = status(url)
        assert (code, headers["location"]) == (303, "/")
        assert status(url, "/")[0] == 401
        process.send_signal(getattr(signal, name))
        out, err = process.communicate(timeout=SOME_SECONDS)
        assert (process.returncode, out, err) == (0, "", "")


def test_ctrl_c_ends_it_within_seconds_while_a_browser_holds_on(tmp_path: Path) -> None:
    with started(tmp_path) as (process, url):
        port = urlsplit(url).port
        with socket.create_connection(("127.0.0.1", port)) as held, socket.create_connection(("127.0.0.1", port)):
            held.sendall(b"POST /takes/x HTTP/1.1\r\nhost: ")
            process.send_signal(signal.SIGINT)
            _, err = process.communicate(timeout=SOME_SECONDS)
            assert (process.returncode, err) == (0, "")


def test_only_this_machine_is_listened_to_and_looking_at_a_folder_writes_nothing_into_it(tmp_path: Path) -> None:
    with started(tmp_path) as (process, url):
        listening = [
            one.laddr for one in psutil.Process(process.pid).net_connections() if one.status == psutil.CONN_LISTEN
        ]
        assert [(place.ip, place.port) for place in listening] == [("127.0.0.1", urlsplit(url).port)]
        status(url)
    assert not list(tmp_path.iterdir())


def test_a_course_keeps_its_port_and_takes_another_where_that_is_taken(tmp_path: Path) -> None:
    with closing(bound_socket(None, tmp_path)) as one:
        usual = one.getsockname()[1]
        with closing(bound_socket(None, tmp_path)) as two:
            assert two.getsockname()[1] != usual
        with pytest.raises(FileError, match=f"port {usual}: it cannot be had") as caught:
            bound_socket(usual, tmp_path)
        assert "--port" in caught.value.next_step
    with closing(bound_socket(None, tmp_path)) as again:
        assert again.getsockname()[1] == usual
    assert 49_152 <= usual <= 65_535  # RFC 6335, section 6: dynamic ports; from memory


def test_what_cannot_be_served_is_said_in_words(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("no folder")
    with closing(bound_socket(None, tmp_path)) as taken:
        for words, said in (
            ([str(tmp_path / "nowhere")], "series init"),
            ([str(tmp_path / "notes.txt")], "series init"),
            ([str(tmp_path), "--port", str(taken.getsockname()[1])], "--port"),
        ):
            done = subprocess.run(  # noqa: S603 - our own command with fixed words
                [*COMMAND, *words, "--no-browser"], capture_output=True, text=True, timeout=SOME_SECONDS, check=False
            )
            assert done.returncode == 2
            assert done.stderr.startswith("error: ")
            assert said in done.stderr
            assert "Traceback" not in done.stderr
    assert sorted(entry.name for entry in tmp_path.iterdir()) == ["notes.txt"]


def test_the_address_is_printed_once_for_people(tmp_path: Path) -> None:
    process = subprocess.Popen(  # noqa: S603 - our own command with fixed words
        [*COMMAND, str(tmp_path), "--no-browser"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    printed = ""
    while "Ctrl-C" not in printed:
        line = process.stdout.readline()
        assert line
        printed += line
    process.send_signal(signal.SIGINT)
    rest, err = process.communicate(timeout=SOME_SECONDS)
    printed += rest
    assert printed.count("http://127.0.0.1:") == 1
    assert printed.count("token=") == 1
    assert str(tmp_path) in printed
    assert err == ""


def test_no_measurement_leaves_the_studio(tmp_path: Path) -> None:
    """Frameworks can be asked by the environment to report what they do; a listener here hears nothing."""
    with socket.create_server(("127.0.0.1", 0)) as listener:
        listener.settimeout(1.0)
        port = listener.getsockname()[1]
        asked = {"OTEL_EXPORTER_OTLP_ENDPOINT": f"http://127.0.0.1:{port}", "FASTAPI_OTEL_AUTO_CONFIGURE": "true"}
        with started(tmp_path, **asked) as (process, url):
            status(url)
            process.send_signal(signal.SIGINT)
            assert process.communicate(timeout=SOME_SECONDS)[1] == ""
        with pytest.raises(TimeoutError):
            listener.accept()


def test_hundreds_of_requests_at_once_are_answered_in_the_same_memory(tmp_path: Path) -> None:
    with started(tmp_path) as (process, url):
        parts = urlsplit(url)
        cookie = status(url)[1]["set-cookie"].partition(";")[0]
        name = next(iter(default_kit().files))
        words = (
            f"GET {default_kit().url(name)} HTTP/1.1\r\nhost: 127.0.0.1:{parts.port}\r\ncookie: {cookie}\r\n"
            "connection: close\r\n\r\n"
        ).encode()
        server = psutil.Process(process.pid)
        used = []
        for _ in range(4):
            # A thread of its own, since a browser that other tests keep open has a loop running in this one.
            with ThreadPoolExecutor(1) as pool:
                answers = pool.submit(lambda: asyncio.run(many(parts.port or 0, words, 500))).result()
            assert answers == [b"HTTP/1.1 200 OK"] * 500
            used.append(server.memory_info().rss)
        assert used[-1] - used[0] < 8_000_000
        assert server.num_fds() < 40 if hasattr(server, "num_fds") else True
        process.send_signal(signal.SIGINT)
        assert process.communicate(timeout=SOME_SECONDS) == ("", "")


def test_what_was_started_ends_with_the_studio(short_lived: Studio) -> None:
    ended: list[str] = []
    studio = short_lived
    studio.server.app.state.at_end.callback(ended.append, "the work")
    studio.server.should_exit = True
    until = time.monotonic() + SOME_SECONDS
    while not ended and time.monotonic() < until:
        time.sleep(0.05)
    assert ended == ["the work"]
    assert studio.server.app.state.ending.is_set()


def test_processes_left_behind_are_ended() -> None:
    context = multiprocessing.get_context("spawn")
    child = context.Process(target=time.sleep, args=(600,))
    child.start()
    launch._end_children()
    assert not child.is_alive()


def test_a_browser_is_opened_with_a_ticket_and_never_in_the_terminal(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[str] = []

    def fails(url: str) -> bool:
        opened.append(url)
        raise OSError("there is no browser")

    monkeypatch.setattr(launch.webbrowser, "open", fails)
    launch._try_browser("http://127.0.0.1:1/")
    assert opened == ["http://127.0.0.1:1/"]
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "BROWSER"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(launch.sys, "platform", "linux")
    launch._open_browser("http://127.0.0.1:2/")
    assert len(opened) == 1
    place = Place(tmp_path, 50_321)
    assert place.token not in repr(place)
    assert place.token != Place(tmp_path, 50_321).token


def test_the_log_goes_to_the_terminal_once(monkeypatch: pytest.MonkeyPatch) -> None:
    log = logging.getLogger("gamutwright.studio")
    monkeypatch.setattr(log, "handlers", [])
    launch._log_to_terminal()
    launch._log_to_terminal()
    assert len(log.handlers) == 1
