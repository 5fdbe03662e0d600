"""The kit: addresses by content, the right types, codings that unpack to the same bytes, and pages that escape."""

from __future__ import annotations

import gzip
import io
import re
from importlib import resources
from pathlib import Path

import brotli
import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from jinja2 import UndefinedError
from starlette.requests import Request

from gamutwright.errors import DomainError
from gamutwright.studio import static
from gamutwright.studio.static import Kit, default_kit, kit_url, render
from studio.serving import SECRET, Studio

FIRST_LOAD = 80_000


def kit_of(studio: Studio) -> Kit:
    kit: Kit = studio.server.app.state.kit
    return kit


def test_a_file_comes_whole_in_every_coding(studio: Studio) -> None:
    address = kit_of(studio).url("screen.js")
    plain = studio.ask("GET", address)
    assert plain.status == 200
    assert plain.body == b"export const beat = 1;\n" * 40
    assert plain.headers["content-type"] == "text/javascript; charset=utf-8"
    assert plain.headers["vary"].lower() == "accept-encoding"
    unpack = {"br": brotli.decompress, "gzip": gzip.decompress}
    for accepted, coding in (
        ("gzip, deflate, br, zstd", "br"), ("gzip", "gzip"), ("br;q=0, gzip", "gzip"), ("br;q=0.5", "br"), ("BR", "br"),
        ("gzip;q=0.000", None), ("brotli", None), ("identity", None), (";;,,q=", None),
    ):  # fmt: skip
        packed = studio.ask("GET", address, accept_encoding=accepted)
        assert packed.headers.get("content-encoding") == coding
        assert (unpack[coding](packed.body) if coding else packed.body) == plain.body
        assert int(packed.headers["content-length"]) == len(packed.body)
    tags = {studio.ask("GET", address, accept_encoding=one).headers["etag"] for one in ("br", "gzip", "identity")}
    assert len(tags) == 3


def test_what_a_browser_has_is_not_sent_again(studio: Studio) -> None:
    address = kit_of(studio).url("parts/clock.js")
    first = studio.ask("GET", address, accept_encoding="br")
    assert "immutable" in first.headers["cache-control"]
    for known in (first.headers["etag"], f'"x", W/{first.headers["etag"]}', "*"):
        again = studio.ask("GET", address, accept_encoding="br", if_none_match=known)
        assert (again.status, again.body) == (304, b"")
        assert again.headers["etag"] == first.headers["etag"]
    assert studio.ask("GET", address, if_none_match=first.headers["etag"]).status == 200


def test_modules_find_each_other_by_relative_names(studio: Studio) -> None:
    base = kit_of(studio).url("screen.js").removesuffix("screen.js")
    assert kit_of(studio).url("parts/clock.js") == base + "parts/clock.js"
    assert studio.ask("GET", base + "parts/clock.js").status == 200


def test_only_files_of_known_types_are_served(studio: Studio) -> None:
    assert kit_of(studio).files.keys() == {"screen.js", "parts/clock.js", "studio.css"}
    assert kit_of(studio).templates == {"hidden.html.jinja": SECRET}
    with pytest.raises(DomainError, match="no such file"):
        kit_of(studio).url("hidden.html.jinja")


def test_another_byte_is_another_address(tmp_path: Path) -> None:
    (tmp_path / "a.js").write_text("1")
    (tmp_path / "b.css").write_text("2")
    before = Kit.read(tmp_path)
    assert Kit.read(tmp_path).url("a.js") == before.url("a.js")
    seen = {before.digest}
    for name, text in (("b.css", "3"), ("a.js", "13"), ("a.js", "1"), ("c.js", "")):
        (tmp_path / name).write_text(text)
        seen.add(Kit.read(tmp_path).digest)
    assert len(seen) == 4  # one of the four changes leads back
    (tmp_path / "page.html.jinja").write_text("a template is in no address")
    (tmp_path / ".screen.js.swp").write_text("what an editor leaves")
    (tmp_path / "notes.py").write_text("nothing to serve")
    assert Kit.read(tmp_path).digest in seen


def test_pages_escape_what_they_print_and_miss_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "a.js").write_text("1")
    (tmp_path / "frame.html.jinja").write_text("<title>{{ title }}</title>{% block work %}{% endblock %}")
    (tmp_path / "page.html.jinja").write_text(
        '{% extends "frame.html.jinja" %}{% block work %}<script type="module" src="{{ kit_url("a.js") }}"></script>'
        "{% endblock %}"
    )
    kit = Kit.read(tmp_path)

    class App:
        class state:  # noqa: N801 - as Starlette spells it
            pass

    App.state.kit = kit
    request = Request({"type": "http", "app": App, "headers": []})
    page = render(request, "page.html.jinja", status_code=201, title='<script>alert("1")</script>')
    text = bytes(page.body).decode()
    assert page.status_code == 201
    assert text.startswith("<title>&lt;script&gt;alert(&#34;1&#34;)&lt;/script&gt;</title>")
    assert text.endswith(f'<script type="module" src="{kit.url("a.js")}"></script>')
    with pytest.raises(UndefinedError, match="title"):
        render(request, "page.html.jinja")


def test_the_studios_own_kit_keeps_to_its_policy_and_its_weight() -> None:
    """The policy forbids scripts and styles inside pages; what a policy would refuse is not written at all."""
    kit = default_kit()
    assert kit is default_kit()
    names = {entry.name for entry in (resources.files("gamutwright.studio") / "kit").iterdir() if entry.is_file()}
    assert names == {name for name in kit.files.keys() | kit.templates.keys() if "/" not in name}
    for name, text in kit.templates.items():
        assert not re.search(r"<style|\sstyle\s*=|\son[a-z]+\s*=|javascript:", text, re.IGNORECASE), name
        assert not re.search(r"<script(?![^>]*\ssrc=)", text, re.IGNORECASE), name
        assert not re.search(r"(src|href)\s*=\s*[\"']?(https?:)?//", text), name
        for asked in re.findall(r"kit_url\(['\"]([^'\"]+)", text):
            assert kit_url(asked).endswith(asked)
    for name, file in kit.files.items():
        if name.endswith((".js", ".css")):
            text = file.bodies[""].decode()
            assert not re.search(
                r"\beval\(|new Function\(|\.innerHTML\b|document\.write|https?://(?!www\.w3\.org/)", text
            )
            for asked in re.findall(r"from\s+\"\./([^\"]+)\"", text):
                assert asked in kit.files, f"{name} imports {asked}"
    weight = sum(
        min(map(len, file.bodies.values())) for name, file in kit.files.items() if Path(name).suffix in static.PACKED
    )
    assert 0 < weight <= FIRST_LOAD


def test_the_signs_that_systems_lack_come_with_the_studio(studio: Studio) -> None:
    """Every accidental of the notes we print has a glyph with an outline in the font that is sent."""
    answer = studio.ask("GET", "/type/signs.woff2")
    assert (answer.status, answer.headers["content-type"]) == (200, "font/woff2")
    font = TTFont(io.BytesIO(answer.body))
    glyphs = font.getBestCmap()
    for sign in "♭♮♯𝄪𝄫":
        pen = BoundsPen(font.getGlyphSet())
        font.getGlyphSet()[glyphs[ord(sign)]].draw(pen)
        assert pen.bounds is not None
        assert glyphs[ord(sign)] != ".notdef"
    style = (resources.files("gamutwright.studio") / "kit" / "studio.css").read_text(encoding="utf-8")
    assert "unicode-range:U+266D-266F,U+1D12A-1D12B" in style
    stacks = [
        stack
        for file in (resources.files("gamutwright.studio") / "kit").iterdir()
        if file.name.endswith(".css")
        for stack in re.findall(r"font(?:-family)?:([^;}]*(?:serif|monospace))", file.read_text(encoding="utf-8"))
    ]
    assert len(stacks) >= 4
    assert all('"Studio Signs",' in stack for stack in stacks), stacks
