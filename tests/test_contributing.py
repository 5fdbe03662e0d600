"""The pack of CONTRIBUTING, made from that page and installed: a teacher's whole way through it, in two languages.

Expectations are counted by hand: D dorian is D E F G A B C, and five of its seven steps are whole tones (D to E, F to
G, G to A, A to B, C to D; rudiments, common practice, no source); the whole-tone scale has six.
"""

from __future__ import annotations

import http.client
import json
import os
import re
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from urllib.parse import urlencode, urlsplit

import pytest

from thinning import usually

CONTRIBUTING = Path(__file__).parents[1] / "CONTRIBUTING.md"
PACK = Path(__file__).parent / "packs" / "harbour_pack"
SPOKEN = {
    "en": ("Count along. It has [five]{fact=whole_tone_steps show=ladder} whole-tone steps.", "Whole-tone steps"),
    "de": ("Zählen Sie mit. Sie hat [fünf]{fact=whole_tone_steps show=ladder} Ganztonschritte.", "Ganztonschritte"),
}
SOME_SECONDS = 60


def blocks() -> list[tuple[str, str]]:
    """The code of the section, in order: kind and text."""
    section = CONTRIBUTING.read_text(encoding="utf-8").partition("## A new fact")[2].partition("\n## ")[0]
    return re.findall(r"```(\w+)\n(.*?)```", section, re.DOTALL)


@pytest.fixture(scope="module", name="site")
def _site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What the page says, as an installed distribution."""
    place = tmp_path_factory.mktemp("site")
    (python, english, german, heard, project) = [text for _, text in blocks()]
    package = place / "harbour_pack"
    (package / "wording").mkdir(parents=True)
    (package / "__init__.py").write_text('"""An example pack."""\n', encoding="utf-8")
    (package / "whole_tone_steps.py").write_text(python, encoding="utf-8")
    for name, text in (("en.ftl", english), ("de.ftl", german), ("en.heard.toml", heard)):
        (package / "wording" / name).write_text(text, encoding="utf-8")
    points = re.search(r'\[project\.entry-points\."(.+)"\]\n(\w+) = "(\w+)"', project)
    assert points
    info = place / "harbour_pack-1.2.0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: harbour-pack\nVersion: 1.2.0\n", encoding="utf-8")
    (info / "entry_points.txt").write_text(f"[{points[1]}]\n{points[2]} = {points[3]}\n", encoding="utf-8")
    return place


def environment(site: Path) -> dict[str, str]:
    paths = os.pathsep.join([str(site), *filter(None, [os.environ.get("PYTHONPATH")])])
    return {**os.environ, "PYTHONPATH": paths, "PYTHONUTF8": "1"}


def run(site: Path, *words: str | Path) -> str:
    done = subprocess.run(  # noqa: S603 - our own command with fixed words
        [sys.executable, "-m", "gamutwright", *map(str, words)],
        env=environment(site), capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert "Traceback" not in done.stderr
    return f"{done.stdout}{done.stderr}\nexit {done.returncode}"


def test_the_page_shows_the_example_as_it_is():
    files = ["whole_tone_steps.py", "wording/en.ftl", "wording/de.ftl", "wording/en.heard.toml"]
    shown = [text for _, text in blocks()]
    held = [(PACK / "src" / "harbour_pack" / name).read_text(encoding="utf-8") for name in files]
    assert shown == [*held, (PACK / "pyproject.toml").read_text(encoding="utf-8")]


def test_it_is_described_found_and_drawn(site: Path, tmp_path: Path):
    assert re.search(r"5 steps\b", run(site, "describe", "D", "dorian", "--fact", "whole_tone_steps"))
    found = json.loads(run(site, "find", "whole_tone_steps = 6", "--json").rpartition("\nexit 0")[0])
    assert [row["bits"] for row in found] == ["101010101010"]
    assert "exit 0" in run(site, "picture", "D", "dorian", "--mark", "whole_tone_steps", "-o", tmp_path / "steps.svg")
    assert "Whole-tone steps: 5 steps" in (tmp_path / "steps.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("language", usually(SPOKEN, "de"))
def test_it_is_drafted_checked_filmed_printed_and_asked(site: Path, tmp_path: Path, language: str):
    sentence, title = SPOKEN[language]
    drafted = tmp_path / "draft.md"
    run(site, "draft", "D", "dorian", "--minutes", "8", "--language", language, "-o", drafted)
    assert "fact=whole_tone_steps" in drafted.read_text(encoding="utf-8")
    assert "exit 0" in run(site, "check", drafted)
    script = tmp_path / "steps" / "script.md"
    script.parent.mkdir()
    front = f"---\nscale: D dorian\nlanguage: {language}\nminutes: 1\n---\n# D dorian\n"
    script.write_text(f"{front}{sentence}\n", encoding="utf-8")
    assert "exit 0" in run(site, "check", script)
    assert "exit 0" in run(site, "package", script, "-o", tmp_path / "out")
    written = json.loads((tmp_path / "out" / "ledger.json").read_text(encoding="utf-8"))
    (claim,) = [claim for claim in written["claims"] if claim["fact"] == "whole_tone_steps"]
    assert (claim["verdict"], claim["value"]) == ("confirmed", 5)
    page = (tmp_path / "out" / "index.html").read_text(encoding="utf-8")
    assert title in page
    from pypdf import PdfReader  # noqa: PLC0415 - the only place that reads a print

    printed = " ".join(one.extract_text() for one in PdfReader(tmp_path / "out" / "handout.pdf").pages)
    assert title in " ".join(printed.split())
    assert re.search(r"whole-tone steps|Ganztonschritte", (tmp_path / "out" / "publish.md").read_text("utf-8") + page)
    script.write_text(f"{front}{sentence.replace('five', 'six').replace('fünf', 'sechs')}\n", encoding="utf-8")
    assert "exit 1" in run(site, "check", script)


def test_it_is_heard_in_a_text(site: Path, tmp_path: Path):
    text = tmp_path / "notes.txt"
    text.write_text("D dorian has seven notes. It has six whole steps.", encoding="utf-8")
    told = run(site, "audit", text)
    assert "six" in told
    assert "five" in told


def test_without_words_it_is_left_out_and_told(site: Path, tmp_path: Path):
    words = site / "harbour_pack" / "wording" / "de.ftl"
    held = words.read_text(encoding="utf-8")
    words.unlink()
    try:
        told = run(site, "draft", "D", "dorian", "--minutes", "8", "--language", "de")
        assert "whole_tone_steps" not in told
        script = tmp_path / "script.md"
        sentence = SPOKEN["de"][0]
        script.write_text(f"---\nscale: D dorian\nlanguage: de\n---\n# Eins\n{sentence}\n", encoding="utf-8")
        told = run(site, "check", script)
        assert "ihr Paket hat in der Sprache 'de' keine Wörter" in " ".join(told.split())
        assert "exit 1" in told
    finally:
        words.write_text(held, encoding="utf-8")


@pytest.fixture(name="answered")
def _answered(site: Path, tmp_path: Path) -> Iterator[Callable[[str], str]]:
    """Ask a studio that runs in a process of its own."""
    process = subprocess.Popen(  # noqa: S603 - our own command with fixed words
        [sys.executable, "-m", "gamutwright", "studio", str(tmp_path), "--no-browser", "--json"],
        env=environment(site), stdout=subprocess.PIPE, text=True,
    )  # fmt: skip

    def ask(path: str, **headers: str) -> tuple[str, str]:
        with closing(http.client.HTTPConnection("127.0.0.1", door.port or 0, timeout=SOME_SECONDS)) as line:
            line.request("GET", path, headers={"host": f"127.0.0.1:{door.port}", **headers})
            answer = line.getresponse()
            return answer.read().decode(), str(answer.getheader("set-cookie")).partition(";")[0]

    try:
        assert process.stdout
        door = urlsplit(json.loads(process.stdout.readline())["url"])
        _, cookie = ask(f"/?{door.query}")
        yield lambda path: ask(path, cookie=cookie)[0]
    finally:
        process.terminate()
        process.communicate(timeout=SOME_SECONDS)


def test_it_is_looked_at_in_the_studio(answered: Callable[[str], str]):
    facts = json.loads(answered(f"/api/scale?{urlencode({'text': 'D dorian'})}"))["facts"]
    (found,) = [fact for fact in facts if fact["id"] == "whole_tone_steps"]
    assert (found["title"], found["value"]) == ("Whole-tone steps", "5")
