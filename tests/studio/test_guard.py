"""Attacks on the studio, each made as it would be made and each refused, over real connections.

What must be refused, and why, follows the references of `gamutwright.studio.guard` (from memory); the spellings of
foreign hosts and of steps out of a folder are those that are usually tried (common practice, no source).
"""

from __future__ import annotations

import asyncio
import json
import logging
import socket
import threading
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing

import pytest

from gamutwright.studio import guard, intake, launch
from studio.serving import SECRET, Answer, Studio, heard, many

PAGE = {"accept": "text/html,application/xhtml+xml"}


def told(answer: Answer) -> dict[str, str]:
    """Read an error as scripts do: three things, all said."""
    data: dict[str, str] = json.loads(answer.body)
    assert all(data[key] for key in ("value", "rule", "next_step"))
    return data


def status(raw: bytes) -> int:
    return int(raw.split(b" ", 2)[1])


def test_the_own_page_is_answered(studio: Studio) -> None:
    for name in ("127.0.0.1", "localhost", "[::1]"):
        host = f"{name}:{studio.port}"
        assert studio.ask("GET", "/test", host=host, sec_fetch_site="none").status == 200
        assert studio.ask("POST", "/api/note", host=host, origin=f"http://{host}").status == 200
    for method in ("GET", "POST", "PUT", "PATCH", "DELETE"):
        assert studio.ask(method, "/api/note", sec_fetch_site="same-origin").status == 200
    assert studio.ask("POST", "/api/note", origin="", sec_fetch_site="same-origin").status == 200
    assert json.loads(studio.ask("POST", "/api/words", b'{"a": 1}', content_type="application/json").body) == {"a": 1}


HOSTS = (
    "evil.example",
    "evil.example:{port}",
    "127.0.0.1",
    "localhost",
    "127.0.0.1:",
    "127.0.0.1:{other}",
    "localhost.:{port}",
    "127.0.0.1.:{port}",
    "127.0.0.1:{port}.",
    "LOCALHOST:{port}",
    "127.1:{port}",
    "0.0.0.0:{port}",
    "2130706433:{port}",
    "0x7f000001:{port}",
    "[::]:{port}",
    "::1:{port}",
    "[::ffff:127.0.0.1]:{port}",
    "127.0.0.1:{port}@evil.example",
    "evil.example#127.0.0.1:{port}",
    "127.0.0.1:{port},evil.example",
    "127.0.0.1:0{port}",
    "127.0.0.1.nip.example:{port}",
)


@pytest.mark.parametrize("spelling", HOSTS)
def test_a_foreign_host_reaches_nothing(studio: Studio, spelling: str) -> None:
    host = spelling.format(port=studio.port, other=studio.port + 1)
    for method, path in (("GET", "/test"), ("POST", "/api/note"), ("GET", f"/?token={studio.place.token}")):
        answer = studio.ask(method, path, host=host)
        assert answer.status in {400, 403}
        assert "set-cookie" not in answer.headers
    assert not studio.reached


def test_a_host_that_is_missing_doubled_or_in_the_address_reaches_nothing(studio: Studio) -> None:
    cookie = f"cookie: {studio.cookie}\r\n"
    own, foreign = f"host: {studio.host}\r\n", "host: evil.example\r\n"
    for words, wanted in (
        (f"GET /test HTTP/1.1\r\n{cookie}\r\n", 400),
        (f"GET /test HTTP/1.0\r\n{cookie}\r\n", 403),
        (f"GET /test HTTP/1.1\r\n{own}{foreign}{cookie}\r\n", 400),
        (f"GET /test HTTP/1.0\r\n{own}{own}{cookie}\r\n", 400),
        (f"GET http://evil.example/test HTTP/1.1\r\n{own}{cookie}connection: close\r\n\r\n", 400),
        (f"GET http://{studio.host}/test HTTP/1.1\r\n{foreign}{cookie}connection: close\r\n\r\n", 400),
        (f"GET test HTTP/1.1\r\n{own}{cookie}connection: close\r\n\r\n", 400),
    ):
        assert status(studio.say(words.encode())) == wanted, words
    assert not studio.reached


@pytest.mark.parametrize(
    "origin",
    ["null", "http://evil.example", "https://{host}", "http://{host}.evil.example", "http://{host}/", "HTTP://{host}",
     "http://localhost:{port}", "http://127.0.0.1:{other}", "http://127.0.0.1", "file://", "http://{host} http://evil.example",
     "http://user@{host}", "chrome-extension://abcdef"],
)  # fmt: skip
def test_a_foreign_origin_reaches_nothing(studio: Studio, origin: str) -> None:
    spelled = origin.format(host=studio.host, port=studio.port, other=studio.port + 1)
    for method in ("GET", "POST", "PUT", "PATCH", "DELETE"):
        answer = studio.ask(method, "/api/note", origin=spelled, sec_fetch_site="same-origin")
        assert answer.status == 403
        told(answer)
    assert not studio.reached


def test_whatever_could_change_something_says_where_it_comes_from(studio: Studio) -> None:
    for method in ("POST", "PUT", "PATCH", "DELETE"):
        for site in ("", "none"):
            assert studio.ask(method, "/api/note", origin="", sec_fetch_site=site).status == 403
    for site in ("cross-site", "same-site"):
        assert studio.ask("GET", "/api/note", sec_fetch_site=site).status == 403
        assert studio.ask("GET", "/api/stream", sec_fetch_site=site).status == 403
        assert studio.ask("GET", studio_file(studio), sec_fetch_site=site).status == 403
        assert studio.ask("POST", "/api/note", sec_fetch_site=site).status == 403
    assert not studio.reached


def studio_file(studio: Studio) -> str:
    address: str = studio.server.app.state.kit.url("screen.js")
    return address


def test_the_token_is_exchanged_for_a_cookie_and_leaves_the_address(studio: Studio) -> None:
    answer = studio.ask("GET", f"/?token={studio.place.token}", is_in=False, sec_fetch_site="none", **PAGE)
    assert (answer.status, answer.headers["location"]) == (303, "/")
    pair, *attributes = answer.headers["set-cookie"].split("; ")
    assert {one.lower() for one in attributes} == {"httponly", "samesite=strict", "path=/"}
    name, _, value = pair.partition("=")
    assert name == f"gamutwright-{studio.port}"
    assert studio.place.token not in answer.headers["set-cookie"]
    assert len(value) >= 43
    assert studio.ask("GET", "/test", is_in=False, cookie=pair).status == 200
    assert studio.ask("GET", "/test", is_in=False, cookie=f"a=b; gamutwright-1=x; {pair}").status == 200


def test_who_has_no_cookie_is_told_where_the_address_stands(studio: Studio) -> None:
    for path in ("/", "/test", studio_file(studio), "/api/note", "/api/stream", "/no/such/thing", "/takes/line"):
        assert studio.ask("GET", path, is_in=False).status == 401
    page = studio.ask("GET", "/test", is_in=False, **PAGE)
    assert page.headers["content-type"].startswith("text/html")
    assert b"terminal" in page.body
    data = studio.ask("GET", "/api/note", is_in=False, **PAGE)
    assert "terminal" in told(data)["next_step"]
    assert studio.ask("POST", "/api/note", is_in=False, origin=f"http://{studio.host}").status == 401
    assert not studio.reached


def test_a_token_that_is_wrong_or_in_the_wrong_place_opens_nothing(
    studio: Studio, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(guard, "WRONG_TOKEN_S", 0.0)
    token = studio.place.token
    for path in (
        "/?token=", "/?token", f"/?token={token[:-1]}", f"/?token={token}x", f"/?token={token.swapcase()}",
        f"/?token={token}%00", f"/?token=%20{token}", f"/?token={token}&token={token}", f"/?Token={token}",
        f"/?x={token}", f"/test?token={token}", f"/{token}", f"/#token={token}", "/?token=%ff%fe", "/?token=%C3%A4",
        "/?" + "&".join(f"a{i}=1" for i in range(50)) + f"&token={token}", f"/?token={'x' * 20_000}",
    ):  # fmt: skip
        answer = studio.ask("GET", path, is_in=False)
        assert answer.status == 401, path
        assert "set-cookie" not in answer.headers
    own = f"gamutwright-{studio.port}"
    session = studio.cookie.partition("=")[2]
    for cookie in (
        f"{own}={token}", f"token={token}", f"{own}=", own, f"{own}={session[:-1]}", f"{own}={session}x",
        f"gamutwright-{studio.port + 1}={session}", f"{own.upper()}={session}", f'{own}="{session}"',
        f"{own}=wrong; {own}={session}", f"x{own}={session}",
    ):  # fmt: skip
        assert studio.ask("GET", "/test", is_in=False, cookie=cookie).status == 401, cookie
    assert studio.ask("GET", "/test", is_in=False, authorization=f"Bearer {token}").status == 401
    assert studio.ask("HEAD", f"/?token={token}", is_in=False).status == 401
    answer = studio.ask("POST", f"/?token={token}", is_in=False, origin=f"http://{studio.host}")
    assert (answer.status, "set-cookie" in answer.headers) == (401, False)
    assert not studio.reached


def test_a_wrong_token_costs_time_but_only_whoever_tries_it(studio: Studio) -> None:
    took: list[float] = []

    def guess() -> None:
        before = time.monotonic()
        studio.ask("GET", "/?token=guess", is_in=False)
        took.append(time.monotonic() - before)

    guesses = [threading.Thread(target=guess) for _ in range(20)]
    for one in guesses:
        one.start()
    assert studio.ask("GET", "/test").status == 200
    for one in guesses:
        one.join()
    assert min(took) >= guard.WRONG_TOKEN_S


def test_a_ticket_opens_once_and_not_for_long(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "WRONG_TOKEN_S", 0.0)
    keys = studio.server.app.state.keys
    ticket = keys.ticket()
    assert [studio.ask("GET", f"/?token={ticket}", is_in=False).status for _ in range(2)] == [303, 401]
    monkeypatch.setattr(guard, "TICKET_S", -1.0)
    assert studio.ask("GET", f"/?token={keys.ticket()}", is_in=False).status == 401


@pytest.mark.parametrize(
    "way",
    [
        "../outside.js",
        "%2e%2e/outside.js",
        "%2e%2e%2foutside.js",
        "..%2foutside.js",
        "%252e%252e%252foutside.js",
        "..%5coutside.js",
        "..\\outside.js",
        "%c0%ae%c0%ae/outside.js",
        "..%c0%afoutside.js",
        "..%00/outside.js",
        "screen.js%00",
        "%00",
        "....//outside.js",
        "..;/outside.js",
        "/outside.js",
        "//etc/passwd",
        "%2fetc%2fpasswd",
        "parts/../../outside.js",
        "./screen.js",
        "screen.js/",
        "SCREEN.JS",
        "hidden.html.jinja",
        "%u002e%u002e/outside.js",
        "%ef%bc%8e%ef%bc%8e/outside.js",
        "file:///etc/passwd",
        "~/outside.js",
        "C:%5cwindows",
        "parts",
        "parts/",
        "",
    ],
)
def test_no_spelling_leads_out_of_the_kit(studio: Studio, way: str) -> None:
    digest = studio.server.app.state.kit.digest
    for path in (f"/kit/{digest}/{way}", f"/kit/{way}"):
        answer = studio.ask("GET", path)
        assert answer.status in {400, 404}, path
        assert SECRET.encode() not in answer.body


SEALED = (
    "content-security-policy", "x-content-type-options", "referrer-policy", "cross-origin-opener-policy",
    "cross-origin-resource-policy", "permissions-policy", "cache-control",
)  # fmt: skip


def test_every_answer_is_sealed(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "WRONG_TOKEN_S", 0.0)
    answers = [
        studio.ask("GET", "/test"),
        studio.ask("GET", "/api/note"),
        studio.ask("GET", studio_file(studio)),
        studio.ask("HEAD", studio_file(studio)),
        studio.ask("GET", "/nothing"),
        studio.ask("GET", "/api/fault"),
        studio.ask("GET", "/wrong/x"),
        studio.ask("GET", "/test", is_in=False),
        studio.ask("GET", "/test", host="evil"),
        studio.ask("GET", f"/?token={studio.place.token}"),
        studio.ask("GET", "/?token=x"),
        studio.ask("OPTIONS", "/test"),
        studio.ask("POST", "/api/words", b"{"),
        studio.ask("POST", "/api/words", b"", content_length="9999999"),
        studio.ask("GET", "/kit/..%2f"),
        studio.ask("PUT", "/test"),
    ]
    for answer in answers:
        assert set(SEALED) <= answer.headers.keys(), answer
        assert "server" not in answer.headers
        assert "x-powered-by" not in answer.headers
        policy = dict(part.split(" ", 1) for part in answer.headers["content-security-policy"].split("; "))
        assert policy["default-src"] == "'none'"
        assert policy["frame-ancestors"] == "'none'"
        assert not {"unsafe-inline", "unsafe-eval", "*", "http:", "https:"} & set(" ".join(policy.values()).split())
        assert "unsafe" not in answer.headers["content-security-policy"]
        assert answer.headers["x-content-type-options"] == "nosniff"
    stored = [answer.headers["cache-control"] for answer in answers]
    assert [("immutable" in one, one == "no-store") for one in stored[:4]] == [
        (False, True), (False, True), (True, False), (True, False),
    ]  # fmt: skip
    assert set(stored[4:]) == {"no-store"}
    for words in (b"\x16\x03\x01\x02\x00\x01\r\n\r\n", b"GET /te st HTTP/1.1\r\n\r\n", b"nonsense\r\n\r\n"):
        raw = studio.say(words).lower()
        assert status(raw) == 400
        assert all(b"\r\n" + name.encode() + b": " in raw for name in SEALED)


def test_methods_that_nobody_needs_are_refused(studio: Studio) -> None:
    for method in ("OPTIONS", "TRACE", "BREW", "PROPFIND", "get", "CONNECT"):
        answer = studio.ask(method, "/api/note")
        assert answer.status == 405
        assert answer.headers["allow"] == "GET, HEAD, POST, PUT, PATCH, DELETE"
        assert "access-control-allow-origin" not in answer.headers
    raw = studio.say(f"CONNECT evil.example:443 HTTP/1.1\r\nhost: {studio.host}\r\nconnection: close\r\n\r\n".encode())
    assert status(raw) == 405
    head = studio.ask("HEAD", studio_file(studio))
    assert (head.status, head.body) == (200, b"")
    assert int(head.headers["content-length"]) == len(studio.ask("GET", studio_file(studio)).body)
    assert studio.ask("HEAD", "/test", is_in=False).status == 401
    assert not studio.reached


def test_a_websocket_is_refused(studio: Studio) -> None:
    lines = (
        "connection: Upgrade",
        "upgrade: websocket",
        "sec-websocket-version: 13",
        "sec-websocket-key: aGFyYm91cg==",
    )
    for path in ("/test", "/api/stream"):
        assert status(studio.say(studio.head(f"GET {path} HTTP/1.1", *lines), 0.5)) == 400
    assert not studio.reached


def test_what_is_too_large_is_refused_before_it_is_read(studio: Studio) -> None:
    for path, size in (("/api/words", "1000001"), ("/takes/line", "64000001"), ("/api/words", "9" * 18)):
        answer = studio.ask("POST", path, b"", content_length=size, expect="100-continue")
        assert answer.status == 413
        assert answer.headers["connection"] == "close"
        assert "MB" in told(answer)["rule"]
    answer = studio.ask("POST", "/api/words", b'{"a": "' + b"x" * 1_500_000 + b'"}')
    assert answer.status == 413
    assert not studio.reached


def test_what_turns_out_too_large_is_refused_at_that_byte(studio: Studio) -> None:
    chunk = b"10000\r\n" + b"x" * 65_536 + b"\r\n"
    for path, most in (("/api/words", 1_000_000), ("/takes/line", 64_000_000)):
        sent, is_cut, before = 0, False, time.monotonic()
        with socket.create_connection(("127.0.0.1", studio.port), timeout=10) as line:
            line.sendall(studio.head(f"POST {path} HTTP/1.1", "transfer-encoding: chunked"))
            try:
                while time.monotonic() - before < 15:  # an upload without end
                    line.sendall(chunk)
                    sent += 65_536
            except OSError:
                is_cut = True
            answered = heard(line)
        assert is_cut
        assert sent > most
        assert not answered or status(answered) == 413
        if path.startswith("/takes"):
            assert studio.read <= most
    assert not studio.reached
    assert json.loads(studio.ask("POST", "/takes/line", b"x" * 5_000_000).body) == {"bytes": 5_000_000}


def test_a_sender_that_reads_is_told_why_a_stream_was_too_large(studio: Studio) -> None:
    body = b"186a1\r\n" + b"x" * 0x186A1 + b"\r\n"
    head = studio.head("POST /api/words HTTP/1.1", "transfer-encoding: chunked", "connection: close")
    for rest in (b"0\r\n\r\n", b"", body * 20):
        raw = studio.say(head + body * 10 + rest, 2.0)
        assert status(raw) == 413
        assert b"MB that are taken at once" in raw


def test_a_length_that_lies_gains_nothing(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> None:
    json_type = "content-type: application/json"
    head = studio.head("POST /api/words HTTP/1.1", json_type, "content-length: 8")
    raw = studio.say(head + b'{"a": 1}DELETE /api/note HTTP/1.1\r\nhost: evil.example\r\n\r\n', 2.0)
    assert b'{"a":1}' in raw
    assert raw.count(b"HTTP/1.1 ") == 2
    assert b"HTTP/1.1 403" in raw
    assert studio.reached == ["words"]
    for length in ("-1", "abc", "0x10", "1, 2", "+5", "1e3"):
        assert status(studio.say(studio.head("POST /api/words HTTP/1.1", f"content-length: {length}"), 2.0)) == 400
    both = studio.head("POST /api/words HTTP/1.1", "content-length: 4", "content-length: 5")
    assert status(studio.say(both + b"abcd", 2.0)) == 400
    monkeypatch.setattr(intake, "IDLE_S", 0.3)
    raw = studio.say(studio.head("POST /api/words HTTP/1.1", json_type, "content-length: 100") + b'{"a": 1}', 4.0)
    assert status(raw) == 408
    assert studio.reached == ["words"]


def test_a_slow_upload_is_ended(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(intake, "WHOLE_S", 0.6)
    with socket.create_connection(("127.0.0.1", studio.port), timeout=5) as line:
        line.sendall(studio.head("POST /api/words HTTP/1.1", "content-length: 1000"))
        sent = 0
        try:
            while sent < 1000:
                line.sendall(b"x")
                sent += 1
                time.sleep(0.05)
        except OSError:
            pass
        assert sent < 1000
        assert not (answered := heard(line)) or status(answered) == 408
    assert not studio.reached


def test_a_head_that_never_ends_is_given_up(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(launch, "HEADERS_S", 0.4)
    for words in (b"", b"GET /test HT"):
        with socket.create_connection(("127.0.0.1", studio.port), timeout=5) as line:
            line.sendall(words)
            assert line.recv(10) == b""
    endless = studio.say(b"GET /test HTTP/1.1\r\nx: " + b"y" * 200_000, 2.0)
    assert not endless or status(endless) == 400
    assert studio.ask("GET", "/test").status == 200


def test_who_leaves_in_the_middle_leaves_no_trace(studio: Studio, caplog: pytest.LogCaptureFixture) -> None:
    for path in ("/api/words", "/takes/line"):
        with socket.create_connection(("127.0.0.1", studio.port), timeout=5) as line:
            line.sendall(studio.head(f"POST {path} HTTP/1.1", "content-length: 1000") + b"abc")
    assert studio.ask("GET", "/test").status == 200
    assert studio.reached == ["page"]
    assert not [one for one in caplog.records if one.levelno >= logging.WARNING and one.name.startswith("gamut")]


def test_many_requests_at_once_are_all_answered(studio: Studio) -> None:
    words = studio.head("POST /api/note HTTP/1.1", "connection: close")
    # A thread of its own, since a browser that other tests keep open has a loop running in this one.
    with ThreadPoolExecutor(1) as pool:
        firsts = pool.submit(lambda: asyncio.run(many(studio.port, words, 200))).result()
    assert firsts == [b"HTTP/1.1 200 OK"] * 200
    assert studio.reached == ["POST"] * 200


def test_names_that_are_scripts_stay_names(studio: Studio) -> None:
    nasty = "%3Cscript%3Ealert(1)%3C/script%3E%22%27%26"
    for path in (f"/wrong/{nasty}", f"/{nasty}", f"/kit/{nasty}"):
        answer = studio.ask("GET", path, **PAGE)
        assert answer.status in {404, 422}
        if answer.headers["content-type"].startswith("text/html"):
            assert b"<script" not in answer.body
            assert b"&lt;script&gt;alert(1)" in answer.body
        else:
            assert answer.headers["content-type"] == "application/json"
    assert studio.ask("GET", f"/wrong/{nasty}", **PAGE).headers["content-type"].startswith("text/html")
    answer = studio.ask("GET", "/test", host="<script>alert(1)</script>", **PAGE)
    assert b"<script" not in answer.body


def test_errors_are_words_and_never_a_story(studio: Studio, caplog: pytest.LogCaptureFixture) -> None:
    answer = studio.ask("GET", "/api/fault")
    assert answer.status == 500
    assert "terminal" in told(answer)["next_step"]
    assert b"3-1-4" not in answer.body
    assert b"Traceback" not in answer.body
    assert "3-1-4" in caplog.text
    assert told(studio.ask("GET", "/wrong/C%20X")) == {
        "value": "'C X'", "rule": "C X is no scale", "next_step": "Write another than C X.",
    }  # fmt: skip
    long = told(studio.ask("GET", "/wrong/" + "x" * 20_000))
    assert len(long["value"]) == 300
    for body in (b"{", b"[]", b'{"a": "b"}', b"\xff\xfe", b"[" * 100_000, b'{"a": 1e400}', b""):
        answer = studio.ask("POST", "/api/words", body, content_type="application/json")
        assert answer.status in {400, 422}, body[:20]
        told(answer)


def test_an_event_stream_ends_with_the_studio(short_lived: Studio) -> None:
    studio = short_lived
    with closing(socket.create_connection(("127.0.0.1", studio.port), timeout=10)) as line:
        line.sendall(studio.head("GET /api/stream HTTP/1.1"))
        begun = b""
        while b"data: here" not in begun:
            begun += line.recv(65_536)
        assert b"content-security-policy" in begun.lower()
        studio.server.should_exit = True
        rest = heard(line)
        assert rest.endswith(b"0\r\n\r\n")
