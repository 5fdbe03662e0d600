"""Setting sheets for print: a template of typst, and data that are never read as code.

Conventions: every text goes through `Texts`, which keeps it with its origin for the ledger. Very long words may break.
"""

from __future__ import annotations

import json
import re
import tempfile
from dataclasses import dataclass, field
from importlib import resources
from pathlib import Path
from typing import Any, Literal

from gamutwright.errors import DomainError
from gamutwright.ir.cards import legible
from gamutwright.publish.description import plain_text
from gamutwright.publish.handout.typefaces import write_typefaces
from gamutwright.publish.told_lesson import Lesson
from gamutwright.render.fonts import require

__all__ = ["BREAK", "Texts", "author_of", "typeset"]

_LONGEST_WORD = 24
BREAK = "\u200b"
"""Where a long word may break."""


@dataclass(slots=True)
class Texts:
    """Everything that is printed, with where it comes from, collected as it is put into the data."""

    printed: list[tuple[str, str]] = field(default_factory=list)

    def put(self, origin: str, text: str) -> str:
        """Note a text, and make it fit to be set.

        Parameters
        ----------
        origin : str
            Where it comes from.
        text : str
            The text.

        Returns
        -------
        str
            The same, with places where long words may break.
        """
        made = legible(text)
        self.printed.append((origin, made))
        return re.sub(rf"(\S{{{_LONGEST_WORD}}})(?=\S)", rf"\1{BREAK}", made)


def author_of(lesson: Lesson) -> str:
    """Name who made a sheet, for the file's own card: the author, the speaker or the course of the script.

    Parameters
    ----------
    lesson : Lesson
        The lesson.

    Returns
    -------
    str
        The name.
    """
    named = (lesson.others.get(key, "").strip() for key in ("author", "speaker", "course"))
    return next((plain_text(name, 200) for name in named if name), "Gamutwright")


def typeset(template: str, data: dict[str, Any], form: Literal["pdf", "png"] = "pdf") -> tuple[bytes, ...]:
    """Set a sheet; data come in as one string, and the root is an empty folder.

    Parameters
    ----------
    template : str
        Name of the template beside this file.
    data : dict
        What is printed; `title` names it in errors.
    form : str
        pdf, or png for a picture of each page.

    Returns
    -------
    tuple of bytes
        One PDF, or the pictures.

    Raises
    ------
    DomainError
        If it cannot be set.
    MissingPartError
        If typst or a font is not installed.
    """
    require("typst", "typst", "setting handouts")
    import typst  # noqa: PLC0415 - only for print

    source = resources.files("gamutwright.publish.handout").joinpath(template).read_bytes()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name, "fonts")
        folder.mkdir()
        write_typefaces(folder)
        fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)])
        root = Path(name, "root")
        root.mkdir()
        try:
            made = typst.Compiler(root=str(root), font_paths=fonts).compile(
                source,
                format=form,
                sys_inputs={"data": json.dumps(data, ensure_ascii=False)},
                pdf_standards=["ua-1"] if form == "pdf" else [],
                timestamp=0,
                ppi=None if form == "pdf" else 80.0,
            )
        except typst.TypstError as error:
            raise DomainError(
                f"the handout of '{data['title'][:60]}'",
                f"it cannot be set: {error.message}",
                "This is a mistake in the program that sets it; please report it.",
            ) from error
    return tuple(made) if isinstance(made, list) else (made or b"",)
