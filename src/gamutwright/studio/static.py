"""The studio's kit: style, modules and pictures under addresses that change with them, and pages from templates.

All of it is read and packed once, at the start; a request looks a name up among those read and never touches the disk,
so no spelling of an address leads out of the kit. One digest stands for the whole kit: modules that import one another
by relative names stay together, and a browser may keep every file for good.

Conventions: templates end in `.jinja` and are not served; neither is anything whose type is not listed in `TYPES`.

References: RFC 9110 (HTTP Semantics) sections 8.8.3 (ETag), 12.5.3 (Accept-Encoding) and 13.1.2 (If-None-Match), from
memory; RFC 8246 (immutable), from memory.
"""

from __future__ import annotations

import functools
import gzip
import hashlib
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import TYPE_CHECKING, Final
from urllib.parse import quote

import brotli
from fastapi import APIRouter, Request
from jinja2 import DictLoader, Environment, StrictUndefined
from starlette.exceptions import HTTPException
from starlette.responses import HTMLResponse, Response

from gamutwright.errors import DomainError, told
from gamutwright.publish.page.signs_font import signs_font
from gamutwright.studio.tongue import marked_up, table_for_pages, tongue

if TYPE_CHECKING:
    from jinja2 import Template

__all__ = ["TYPES", "Kit", "default_kit", "kit_url", "render", "router"]

TYPES: Final[Mapping[str, str]] = {
    ".css": "text/css; charset=utf-8",
    ".ico": "image/vnd.microsoft.icon",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
}
PACKED: Final = frozenset({".css", ".js", ".json", ".svg", ".txt"})
TEMPLATE: Final = ".jinja"
FOR_GOOD: Final = "public, max-age=31536000, immutable"

_IMPORTED: Final = re.compile(r"^(?:import|export)\b[^;]*?[\"']\./([\w-]+\.js)[\"'];", re.MULTILINE)

router = APIRouter()


@dataclass(frozen=True, slots=True)
class _File:
    """A file as it is sent: its type, and its bytes by coding, "" for none."""

    type: str
    bodies: Mapping[str, bytes]


@dataclass(frozen=True, slots=True, eq=False)
class Kit:
    """A folder of files and templates, read once.

    Parameters
    ----------
    digest : str
        What the files' addresses begin with; another as soon as one byte of one of them is.
    files : mapping of str to _File
        By name; those in folders with their folder.
    templates : mapping of str to str
        By name.
    """

    digest: str
    files: Mapping[str, _File]
    templates: Mapping[str, str]
    _environment: Environment = field(init=False, repr=False)

    def __post_init__(self) -> None:
        environment = Environment(
            loader=DictLoader(dict(self.templates)),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            auto_reload=False,
        )
        environment.globals["kit_url"] = self.url
        environment.globals["kit_modules"] = self.modules
        object.__setattr__(self, "_environment", environment)

    @classmethod
    def read(cls, folder: Traversable) -> Kit:
        """Read a folder and pack what can be packed.

        Parameters
        ----------
        folder : Path or other Traversable
            The folder.

        Returns
        -------
        Kit
            Its content.
        """
        contents = dict(sorted(_walked(folder, "")))
        templates = {name: body.decode("utf-8") for name, body in contents.items() if name.endswith(TEMPLATE)}
        bodies = {name: body for name, body in contents.items() if Path(name).suffix in TYPES}
        digest = hashlib.sha256()
        for name, body in bodies.items():
            digest.update(f"{name}\0{len(body)}\0".encode())
            digest.update(body)
        return cls(digest.hexdigest()[:16], {name: _packed(name, body) for name, body in bodies.items()}, templates)

    def url(self, name: str) -> str:
        """Give the address of a file.

        Parameters
        ----------
        name : str
            Its name.

        Returns
        -------
        str
            `/kit/<digest>/<name>`.

        Raises
        ------
        DomainError
            If the kit has no such file.
        """
        if name not in self.files:
            raise DomainError(
                repr(name), told("the kit has no such file"), told("Name a file of the kit that is served.")
            )
        return f"/kit/{self.digest}/{quote(name)}"

    def modules(self, name: str) -> tuple[str, ...]:
        """List a module and all that it asks for, so that a page can name them at once.

        Parameters
        ----------
        name : str
            A module of the kit.

        Returns
        -------
        tuple of str
            Names, the module itself first.

        Raises
        ------
        DomainError
            If the kit has no such file.
        """
        found = [name]
        for one in found:  # grows while it is walked
            self.url(one)
            text = self.files[one].bodies[""].decode("utf-8")
            found += [other for other in _IMPORTED.findall(text) if other not in found]
        return tuple(dict.fromkeys(found))

    def template(self, name: str) -> Template:
        """Give a template; whatever comes into it is escaped, and nothing may be missing.

        Parameters
        ----------
        name : str
            Its name.

        Returns
        -------
        Template
            The template.
        """
        return self._environment.get_template(name)


def _walked(folder: Traversable, before: str) -> Iterator[tuple[str, bytes]]:
    for entry in folder.iterdir():
        if entry.name.startswith((".", "_")):
            continue
        if entry.is_dir():
            yield from _walked(entry, f"{before}{entry.name}/")
        elif entry.name.endswith((TEMPLATE, *TYPES)):
            yield before + entry.name, entry.read_bytes()


def _packed(name: str, body: bytes) -> _File:
    suffix = Path(name).suffix
    bodies = {"": body}
    if suffix in PACKED:
        # Quality 9 is a tenth of the time of the best, for a few bytes in a hundred.
        coded = {"br": brotli.compress(body, quality=9), "gzip": gzip.compress(body, 9, mtime=0)}
        bodies |= {coding: packed for coding, packed in coded.items() if len(packed) < len(body)}
    return _File(TYPES[suffix], bodies)


@functools.cache
def default_kit() -> Kit:
    """Read the kit that comes with the studio.

    Returns
    -------
    Kit
        The same one each time.
    """
    return Kit.read(resources.files("gamutwright.studio") / "kit")


def kit_url(name: str) -> str:
    """Give the address of a file of the studio's kit.

    Parameters
    ----------
    name : str
        Its name.

    Returns
    -------
    str
        Its address.

    Raises
    ------
    DomainError
        If the kit has no such file.
    """
    return default_kit().url(name)


def render(request: Request, template: str, /, *, status_code: int = 200, **context: object) -> HTMLResponse:
    """Make a page.

    Parameters
    ----------
    request : Request
        Who asks; its application has the kit.
    template : str
        Name of a template of the kit.
    status_code : int
        Status of the answer.
    **context : object
        What the template prints.

    Returns
    -------
    HTMLResponse
        The page.
    """
    kit: Kit = request.app.state.kit
    spoken = {"tongue": tongue().tag, "tongue_words": table_for_pages(), "say": marked_up}
    return HTMLResponse(kit.template(template).render(context | spoken), status_code)


def _is_accepted(coding: str, header: str) -> bool:
    """Whether a browser takes a coding: it names it, and does not give it the weight nought."""
    for one in header.lower().split(","):
        name, _, weight = one.partition(";")
        if name.strip() == coding:
            return not (weight.strip().startswith("q=") and weight.strip()[2:].strip("0.") == "")
    return False


@router.api_route("/kit/{digest}/{name:path}", methods=["GET", "HEAD"])
async def kit_file(request: Request, digest: str, name: str) -> Response:
    """Send a file of the kit.

    Parameters
    ----------
    request : Request
        Who asks.
    digest, name : str
        Which.

    Returns
    -------
    Response
        The file, or 304 where the browser has it.

    Raises
    ------
    HTTPException
        404 where the kit has no such file, or not any more.
    """
    kit: Kit = request.app.state.kit
    file = kit.files.get(name)
    if file is None or digest != kit.digest:
        raise HTTPException(404)
    accepted = request.headers.get("accept-encoding", "")
    coding = next((one for one in ("br", "gzip") if one in file.bodies and _is_accepted(one, accepted)), "")
    etag = f'"{digest}-{coding}"' if coding else f'"{digest}"'
    headers = {"Cache-Control": FOR_GOOD, "ETag": etag, "Vary": "Accept-Encoding"}
    known = {one.strip().removeprefix("W/") for one in request.headers.get("if-none-match", "").split(",")}
    if etag in known or "*" in known:
        return Response(status_code=304, headers=headers)
    if coding:
        headers["Content-Encoding"] = coding
    return Response(file.bodies[coding], headers=headers, media_type=file.type)


@router.api_route("/type/signs.woff2", methods=["GET", "HEAD"])
def signs_file() -> Response:
    """Send the font of accidentals, which many systems lack; a page asks for it where it shows one.

    Returns
    -------
    Response
        The font.
    """
    return Response(
        signs_font("woff2"), headers={"Cache-Control": "private, max-age=86400"}, media_type=TYPES[".woff2"]
    )
