"""The screen on which a script is written, and what it asks for: text with versions, marks, earlier versions.

Conventions: the browser's lines end with a line feed; a file that ends its lines otherwise keeps its way.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Header, Request
from fastapi.responses import HTMLResponse, JSONResponse
from pydantic import BaseModel, ConfigDict

from gamutwright.codec import to_plain
from gamutwright.facts.registry import default_registry
from gamutwright.studio.documents import ChangedMeanwhileError, Document, Documents
from gamutwright.studio.lessons import lesson_course, lesson_frame
from gamutwright.studio.marking import mark_script
from gamutwright.studio.sentences import sentences_for
from gamutwright.studio.static import render
from gamutwright.studio.tongue import say

__all__ = ["router"]

router = APIRouter()


class Text(BaseModel):
    """A script as the browser sends it."""

    model_config = ConfigDict(extra="forbid", strict=True)

    text: str


def _documents(request: Request, slug: str) -> Documents:
    return Documents(lesson_course(request, slug))


def _to_browser(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _to_file(text: str, before: str) -> str:
    """Give lines the ends that they had in the file."""
    plain = _to_browser(text)
    return plain.replace("\n", "\r\n") if "\r\n" in before else plain


@router.get("/lesson/{slug}")
def script_page(request: Request, slug: str) -> HTMLResponse:
    """Show the screen on which a script is written."""
    course = lesson_course(request, slug)
    now = Documents(course).read(slug)
    return render(
        request,
        "script.html.jinja",
        **lesson_frame(course, slug, now.text, "script", say("Write")),
        text=_to_browser(now.text),
        version=now.version,
    )


@router.get("/api/lesson/{slug}/script")
def read_script(request: Request, slug: str) -> dict[str, str]:
    """Give a script with its version."""
    documents = _documents(request, slug)
    return _told(documents.read(slug))


@router.put("/api/lesson/{slug}/script")
def save_script(request: Request, slug: str, text: Text, if_match: Annotated[str, Header()]) -> Any:  # noqa: ANN401 - two kinds of answer
    """Write a script, where it is still the version that was changed."""
    documents = _documents(request, slug)
    try:
        written = _to_file(text.text, documents.read(slug).text)
        return _told(documents.save(slug, written, if_match.strip('"')))
    except ChangedMeanwhileError as error:
        told = {"value": error.value, "rule": error.rule, "next_step": error.next_step}
        return JSONResponse({**told, "now": _told(error.now) if error.now else None}, status_code=412)


def _told(document: Document) -> dict[str, str]:
    return {"text": _to_browser(document.text), "version": document.version}


@router.post("/api/check")
def check_script(text: Text) -> Any:  # noqa: ANN401 - plain data
    """Check a text as it stands."""
    return to_plain(mark_script(text.text, default_registry()))


@router.get("/api/lesson/{slug}/history")
def list_versions(request: Request, slug: str) -> Any:  # noqa: ANN401 - plain data
    """List the earlier versions of a script."""
    documents = _documents(request, slug)
    return to_plain(documents.history(slug))


@router.get("/api/lesson/{slug}/history/{version}")
def read_version(request: Request, slug: str, version: str) -> dict[str, str]:
    """Give an earlier version of a script."""
    documents = _documents(request, slug)
    return {"text": _to_browser(documents.kept(slug, version))}


@router.post("/api/sentences")
def write_sentences(text: Text) -> Any:  # noqa: ANN401 - plain data
    """Give every fact of a script's scale as sentences that can be put into it."""
    return sentences_for(text.text, default_registry())
