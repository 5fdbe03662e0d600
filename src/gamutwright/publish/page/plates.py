"""Pictures of a page: drawn once, coloured by the page's style sheet, their letters shared.

**Conventions.** Colours are custom properties, so one picture serves light, dark and paper; outlines of letters stand
once in a block of definitions that all pictures use; captions and texts for whoever cannot see are in the lesson's
language.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import cache
from html import escape, unescape
from types import MappingProxyType

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.ladder import ladder
from gamutwright.diagrams.sketch import USUAL, Sketch
from gamutwright.errors import GamutwrightError
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.roles import Basic
from gamutwright.ir.figure import Figure
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.publish.page.page_words import PageWords, Printer, Raw
from gamutwright.publish.told_lesson import Lesson, Telling
from gamutwright.render.svg import figure_to_svg
from gamutwright.render.theme import Theme, load_theme

__all__ = ["Drawn", "drawn", "ladder_figure", "note_texts", "picture_of_telling", "pictures_of"]

MOST_PICTURES = 6
MOST_ALIKE = 2
LARGEST = 60_000
"""Bytes of one picture; more than that is a table that no phone shows well."""
_DEFINITION = re.compile(r"<(path|pattern) id=\"([^\"]+)\".*?(?:/>|</pattern>)", re.DOTALL)
_HEAD = re.compile(r"<svg[^>]*>\s*<title>.*?</title>\s*<desc>.*?</desc>\s*(?:<defs>(.*?)</defs>\s*)?", re.DOTALL)
_TEXT = re.compile(r'data-text="([^"]*)"')
_EXTENTS = re.compile(r'viewBox="([^"]*)"')


@dataclass(frozen=True, slots=True)
class Drawn:
    """A picture ready for a page.

    Parameters
    ----------
    markup : Raw
        The picture, as SVG.
    definitions : tuple of (str, str)
        What it uses, by id.
    texts : tuple of str
        Every word and number drawn in it.
    caption : str
        What to see.
    origin : str
        What it is about.
    """

    markup: Raw
    definitions: tuple[tuple[str, str], ...]
    texts: tuple[str, ...]
    caption: str = ""
    origin: str = ""


@cache
def _theme() -> Theme:
    plain = load_theme("light")
    looks = {
        role: replace(look, mark=f"var(--{role})", text=f"var(--{role}-text)") for role, look in plain.looks.items()
    }
    return Theme("page", MappingProxyType(looks))


def drawn(figure: Figure, alt: str, *, origin: str = "", caption: str = "", box: str = "") -> Drawn:
    """Turn a figure into markup that may stand beside others on a page.

    Parameters
    ----------
    figure : Figure
        The figure.
    alt : str
        What it shows, in the language of the page; "" for a picture that stands beside words that say it all.
    origin, caption : str
        What it is about, and what to see.
    box : str
        The part that is shown, as SVG writes it; all of it without it.

    Returns
    -------
    Drawn
        The picture.

    Examples
    --------
    >>> from gamutwright.ir.figure import Dot
    >>> drawn(Figure("a dot", "One dot.", (Dot(5, 5, 2),), width=10, height=10), "A dot.").markup[:60]
    '<svg viewBox="0 0 10 10" role="img" aria-label="A dot."><cir'
    """
    text = figure_to_svg(figure, _theme(), with_ground=False)
    head = _HEAD.match(text)
    if head is None:  # pragma: no cover - the writer always begins like this
        raise AssertionError(text[:80])
    found = _EXTENTS.search(text)
    extents = box or (found[1] if found else "")
    kind = f'role="img" aria-label="{escape(alt)}"' if alt else 'aria-hidden="true"'
    definitions = tuple((match[2], match[0]) for match in _DEFINITION.finditer(head[1] or ""))
    return Drawn(
        Raw(f'<svg viewBox="{extents}" {kind}>{text[head.end() :].strip()}'),
        definitions,
        tuple(dict.fromkeys(unescape(found) for found in _TEXT.findall(text))),
        caption,
        origin,
    )


def ladder_figure(lesson: Lesson) -> Figure:
    """Draw the ladder of a lesson's scale; its named places are where a page puts what can be pressed.

    Parameters
    ----------
    lesson : Lesson
        The lesson.

    Returns
    -------
    Figure
        The ladder.
    """
    return ladder(Sketch(lesson.scale, title="ladder", words=lesson.card_words.inside))


def picture_of_telling(lesson: Lesson, telling: Telling, words: PageWords) -> Drawn | None:
    """Draw what a fact shows.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    telling : Telling
        The fact as it was told.
    words : PageWords
        The words of the page.

    Returns
    -------
    Drawn or None
        The picture; None where there is none, or none small enough.
    """
    fact = telling.fact
    if fact.picture is None:
        return None
    diagram = fact.picture.diagram
    try:
        sketch = sketch_of(fact, lesson.scale, "", diagram)
        if sketch.other is not None:
            own, other = (spoken_name(scale, lesson.wording) for scale in (lesson.scale, sketch.other))
            sketch = replace(sketch, beside=(own, other))
        sketch = replace(sketch, title=telling.title, words=lesson.card_words.inside)
        figure = draw_diagram(diagram, sketch)
        said = [f"{telling.title}: {telling.text}.", telling.places and f"{telling.places}.", words.see[diagram]]
        picture = drawn(
            figure, " ".join(part for part in said if part), origin=f"fact:{fact.id}", caption=words.see[diagram]
        )
    except GamutwrightError:
        # A scale for which the diagram does not exist, or a title in letters the typefaces lack: the words remain.
        return None
    return picture if len(picture.markup) <= LARGEST else None


def pictures_of(lesson: Lesson, words: PageWords, printer: Printer) -> dict[str, Drawn]:
    """Choose and draw the pictures of a page: few, and not many of one kind.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    printer : Printer
        Told of everything that is written in them.

    Returns
    -------
    dict of str to Drawn
        By the id of the fact.
    """
    chosen: dict[str, Drawn] = {}
    kinds: dict[str, int] = {}
    # The ladder of the scale stands above already; a fact whose picture points at nothing adds least.
    order = sorted(lesson.tellings, key=lambda telling: (_is_plain(telling), not telling.witnesses))
    for telling in order:
        diagram = telling.fact.picture.diagram if telling.fact.picture else ""
        alike = kinds.get(diagram, 0)
        if len(chosen) >= MOST_PICTURES or alike >= MOST_ALIKE or _is_plain(telling):
            continue
        if alike and not telling.witnesses:
            continue
        picture = picture_of_telling(lesson, telling, words)
        if picture is None:
            continue
        kinds[diagram] = kinds.get(diagram, 0) + 1
        chosen[telling.fact.id] = picture
        note_texts((picture,), printer)
    return chosen


def note_texts(pictures: Iterable[Drawn], printer: Printer) -> None:
    """Tell a printer what is written in pictures.

    Parameters
    ----------
    pictures : iterable of Drawn
        The pictures.
    printer : Printer
        Told of it.
    """
    for picture in pictures:
        for text in picture.texts:
            printer.note(picture.origin, text)
        found = re.search(r'aria-label="([^"]*)"', picture.markup)
        if found:
            printer.note(picture.origin, unescape(found[1]))


def _is_plain(telling: Telling) -> bool:
    picture = telling.fact.picture
    is_pointing = picture is not None and picture.marks != "none" and (telling.witnesses or picture.marks == "value")
    return (
        picture is not None and picture.diagram == USUAL and (not is_pointing or telling.fact.roles.basic is Basic.SIZE)
    )
