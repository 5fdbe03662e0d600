"""The studio as a teacher meets it: a real server over loopback, and Chromium.

A click is timed from its event to the end of the frame in which the picture has changed; a screen is interactive when
its modules have run. Chromium draws without a graphics card here, which is slower than on a teacher's machine.
"""

from __future__ import annotations

import http.client
import itertools
import json
import os
import random
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, replace
from pathlib import Path
from urllib.parse import urlencode, urlsplit

from measure import Row, seconds, timed
from playwright.sync_api import Browser, BrowserContext, sync_playwright

CHROMIUM = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
CLICKS = 100
PAUSE_MS = 150
LOADS = 7
BARE = "/nothing"
"""An address that leads nowhere: its answer is a page of one sentence, which shows what the browser itself takes."""
CHECKS = 15
REQUESTS = 2_000
MIB = 2**20
PLAN = 'title = "Scales by the harbour"\n'
CLICK_S, CLICK_95_S, LOAD_S, LOAD_KB, CHECK_S, GROWTH_MIB = 0.016, 0.035, 0.15, 80, 0.1, 16
NOTE_CLICKS = """() => { window.took = [];
  document.querySelector('#ring').addEventListener('click', event => requestAnimationFrame(() => {
    const {port1, port2} = new MessageChannel();
    port1.onmessage = () => window.took.push(performance.now() - event.timeStamp);
    port2.postMessage(null);
  }), true); }"""
"""A message that is sent in a frame arrives when the frame is drawn."""


@dataclass(frozen=True)
class Served:
    """A studio that answers."""

    port: int
    token: str
    cookie: str
    process: int

    def ask(self, method: str, path: str, body: object = None, **headers: str) -> bytes:
        """Ask as the studio's own page does."""
        sent = {"host": f"127.0.0.1:{self.port}", "cookie": self.cookie, "origin": f"http://127.0.0.1:{self.port}"}
        content = None if body is None else json.dumps(body)
        if content is not None:
            sent["content-type"] = "application/json"
        with closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)) as line:
            line.request(method, path, content, sent | headers)
            answer = line.getresponse()
            read = answer.read()
            assert answer.status < 400, (path, answer.status, read[:300])
            return read

    def ask_again(self, path: str, times: int) -> list[float]:
        """Ask one thing several times on one line, and give the seconds of each answer but the first."""
        with closing(http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)) as line:
            return [seconds(lambda: self._answered(line, path)) for _ in range(times)][1:]

    def _answered(self, line: http.client.HTTPConnection, path: str) -> None:
        line.request("GET", path, headers={"host": f"127.0.0.1:{self.port}", "cookie": self.cookie})
        assert line.getresponse().read()

    def resident_mib(self) -> float:
        """Give the memory of the server's process, in MiB."""
        fields = Path(f"/proc/{self.process}/statm").read_text().split()
        return int(fields[1]) * os.sysconf("SC_PAGESIZE") / MIB


def rows() -> Iterator[Row]:
    with tempfile.TemporaryDirectory() as folder, served(Path(folder)) as studio:
        slug = json.loads(studio.ask("POST", "/api/lessons", {"scale": "D dorian", "minutes": 6}))["slug"]
        while json.loads(studio.ask("GET", "/api/catalogue/12"))["state"] == "building":
            time.sleep(0.2)
        with sync_playwright() as driver, closing(launched(driver)) as browser:
            context = browser.new_context(viewport={"width": 1280, "height": 900})
            page = context.new_page()
            page.goto(f"http://127.0.0.1:{studio.port}/?token={studio.token}")
            page.close()
            yield from clicks(context, studio)
            for name, path in screens(slug):
                yield from first_load(browser, context, studio, name, path)
        yield checks(studio, slug)
        # Two systems that wait for each other cost 40 ms an answer (RFC 896 and delayed acknowledgement, from memory).
        yield timed("a small answer, median of 15", statistics.median(studio.ask_again("/api/catalogue/12", 16)), 0.035)
        yield memory(studio, slug)


@contextmanager
def served(folder: Path) -> Iterator[Served]:
    """Start the command as a teacher does."""
    (folder / "series.toml").write_text(PLAN, encoding="utf-8")
    command = [str(Path(sys.executable).with_name("gamutwright")), "studio", str(folder), "--no-browser", "--json"]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)  # noqa: S603 - our own command
    try:
        assert process.stdout is not None
        told = urlsplit(json.loads(process.stdout.readline())["url"])
        token = told.query.removeprefix("token=")
        with closing(http.client.HTTPConnection("127.0.0.1", told.port or 0, timeout=60)) as line:
            line.request("GET", f"/?token={token}", headers={"host": f"127.0.0.1:{told.port}"})
            cookie = str(line.getresponse().getheader("set-cookie")).partition(";")[0]
        yield Served(told.port or 0, token, cookie, process.pid)
    finally:
        process.terminate()
        process.wait(20)


def launched(driver: object) -> Browser:
    path = next(found for name in CHROMIUM if (found := shutil.which(name)))
    return driver.chromium.launch(executable_path=path, args=["--no-sandbox", "--disable-gpu"])  # type: ignore[attr-defined]


def screens(slug: str) -> tuple[tuple[str, str], ...]:
    lesson = f"/lesson/{slug}"
    return (
        ("the course", "/"), ("Explore", "/explore"), ("Write", lesson), ("Speak", f"{lesson}/speak"),
        ("See", f"{lesson}/see"), ("Make", f"{lesson}/make"),
    )  # fmt: skip


def clicks(context: BrowserContext, studio: Served) -> Iterator[Row]:
    page = context.new_page()
    page.goto(f"http://127.0.0.1:{studio.port}/explore")
    page.wait_for_selector("#facts dt")
    page.evaluate(NOTE_CLICKS)
    pegs = [page.locator(f".peg[data-step='{step}']").bounding_box() for step in range(1, 12)]
    spots = [(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2) for box in pegs if box]
    for spot in itertools.islice(itertools.cycle(spots), CLICKS):
        page.mouse.click(*spot)
        page.wait_for_timeout(PAUSE_MS)
    took = sorted(one / 1000 for one in page.evaluate("window.took"))
    assert len(took) == CLICKS
    page.close()
    yield timed(f"Explore: click to changed picture, median of {CLICKS}", statistics.median(took), CLICK_S)
    yield timed("Explore: the same, 95th of 100", took[int(0.95 * CLICKS)], CLICK_95_S)


def first_load(browser: Browser, context: BrowserContext, studio: Served, name: str, path: str) -> Iterator[Row]:
    """Load a screen in browsers that know nothing of it yet, in turn with a page that has no style and no modules."""
    took, bare, sizes = [], [], []
    for _ in range(LOADS):
        bare.append(loaded(browser, context, studio, BARE)[0])
        seconds, size = loaded(browser, context, studio, path)
        took.append(seconds)
        sizes.append(size)
    middle, floor = statistics.median(took), statistics.median(bare)
    row = timed(f"{name}: first load, until interactive", middle, LOAD_S)
    yield replace(row, against=f"a bare page {1000 * floor:.0f} ms", ratio=f"{middle / floor:.2f} x")
    size = max(sizes)
    yield Row(f"{name}: first load, bytes", f"{size:.1f} kB", f"≤ {LOAD_KB} kB", is_missed=size > LOAD_KB)


def loaded(browser: Browser, context: BrowserContext, studio: Served, path: str) -> tuple[float, float]:
    """Load a page once: seconds until it is interactive, and kilobytes."""
    fresh = browser.new_context(viewport={"width": 1280, "height": 900}, storage_state=context.storage_state())
    page = fresh.new_page()
    received: list[int] = []
    page.on("response", lambda answer: received.append(int(answer.headers.get("content-length", 0))))
    page.goto(f"http://127.0.0.1:{studio.port}{path}", wait_until="load")
    page.wait_for_timeout(700)
    seconds = page.evaluate("performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd") / 1000
    fresh.close()
    return seconds, sum(received) / 1000


def checks(studio: Served, slug: str) -> Row:
    """Check a script of six minutes as it is when somebody types at its end."""
    text = json.loads(studio.ask("GET", f"/api/lesson/{slug}/script"))["text"]
    took = []
    for turn in range(CHECKS + 1):
        begun = time.perf_counter()
        studio.ask("POST", "/api/check", {"text": f"{text}\nThe harbour is quiet{'.' * turn}\n"})
        took.append(time.perf_counter() - begun)
    return timed("Write: a script of six minutes checked while typing", statistics.median(took[1:]), CHECK_S)


def memory(studio: Served, slug: str) -> Row:
    """Ask thousands of things of all kinds, and see whether anything is kept."""
    drawn = random.Random(7)  # noqa: S311 - not for secrets
    text = json.loads(studio.ask("GET", f"/api/lesson/{slug}/script"))["text"]

    def asked(turn: int) -> None:
        bits = "1" + "".join(drawn.choice("01") for _ in range(11))
        other = "1" + "".join(drawn.choice("01") for _ in range(11))
        root, beside = {"bits": bits, "root": str(drawn.randrange(12))}, {"other_bits": other}
        ways = (
            "/api/scale?" + urlencode(root),
            "/api/scale?" + urlencode({"text": "0 5 11", "divisions": 19}),
            "/api/relatives?" + urlencode(root),
            "/api/comparison?" + urlencode(root | beside),
            "/api/search?" + urlencode(root | {"condition": f"cardinality = {drawn.randrange(2, 11)}"}),
            "/api/search/columns?" + urlencode(root),
            "/explore", "/", f"/lesson/{slug}", f"/api/lesson/{slug}/script",
        )  # fmt: skip
        if turn % 11 == 10:
            studio.ask("POST", "/api/check", {"text": f"{text}\nTurn {turn}.\n"})
        else:
            studio.ask("GET", ways[turn % 11])

    for turn in range(REQUESTS // 4):
        asked(turn)
    before = studio.resident_mib()
    for turn in range(REQUESTS):
        asked(turn)
    after = studio.resident_mib()
    return Row(
        f"the server's memory before and after {REQUESTS:,} requests",
        f"{before:.0f} and {after:.0f} MiB",
        f"≤ {GROWTH_MIB} MiB more",
        is_missed=after - before > GROWTH_MIB,
    )
