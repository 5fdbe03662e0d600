"""The screen on which a scale is looked at: set by hand or by words, with every fact and the places that make it true.

Conventions: a scale in an address is words, or a string of ones and noughts from the root upwards with the root beside
it. Places are steps above the root. Frequencies are those of the equal division from the root at or above middle C.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, Final

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from gamutwright.facts.profile import Finding, profile
from gamutwright.facts.registry import default_registry
from gamutwright.facts.vocabulary import WitnessKind
from gamutwright.inputs.forms import to_text
from gamutwright.music.pitches import names_of_steps
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.phrasing.printed import printed_value
from gamutwright.series.course import read_course
from gamutwright.studio import cataloguing, relating, searching
from gamutwright.studio.cataloguing import catalogues_of
from gamutwright.studio.scalecards import MOST_DIVISIONS, frequencies, scale_asked, share_in_words, title_of
from gamutwright.studio.static import render
from gamutwright.studio.tongue import say, tongue
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale

if TYPE_CHECKING:
    from gamutwright.catalogue.shares import Shares

__all__ = ["router", "scale_data"]

router = APIRouter()
for _part in (relating, searching, cataloguing):
    router.include_router(_part.router)

MOST_PLACES: Final = 40
"""Places of one fact that are sent; a picture of more shows nothing."""
OF_TONES: Final = frozenset(WitnessKind) - {WitnessKind.AXIS, WitnessKind.SCALE}
"""Places that are tones of the scale, and can be lit and played; an axis is a number, another scale has its own."""
BEGINNING: Final = "D dorian"

Text = Annotated[str, Query(max_length=200)]


@router.get("/explore")
def explore_page(
    request: Request,
    scale: Text = BEGINNING,
    divisions: Annotated[int, Query(ge=0, le=MOST_DIVISIONS)] = 0,
    beside: Text = "",
) -> HTMLResponse:
    """Show the screen on which a scale is looked at; what is in no address is the course's."""
    course = read_course(request.app.state.place.course)
    usual = course.divisions if course.divisions <= MOST_DIVISIONS else 12
    return render(
        request,
        "explore.html.jinja",
        here="explore",
        title=f"Explore · {course.title}",
        course_title=course.title,
        scale=scale,
        divisions=divisions or usual,
        most=MOST_DIVISIONS,
        beside=beside,
    )


@router.get("/api/scale")
def read(
    request: Request,
    text: Text = "",
    bits: Annotated[str, Query(max_length=72, pattern="^[01]*$")] = "",
    root: Annotated[int, Query(ge=0, lt=72)] = 0,
    divisions: Annotated[int, Query(ge=2, le=MOST_DIVISIONS)] = 12,
) -> Any:  # noqa: ANN401 - plain data
    """Give a scale with all that is known of it; how common that is, as soon as it has been counted."""
    scale, kept = scale_asked(text, bits, root, divisions), catalogues_of(request)
    shares = kept.shares(scale.divisions)
    return scale_data(scale, shares) | {"counts": "ready" if shares else kept.ensure(scale.divisions)}


def scale_data(scale: Scale, shares: Shares | None = None) -> dict[str, Any]:
    """Gather what a screen shows of a scale.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.
    shares : Shares, optional
        How common values are in its division; nothing is said of that without it.

    Returns
    -------
    dict
        Plain data: how it is written and called, every step of the octave with its name and frequency, and its facts.

    Examples
    --------
    >>> found = scale_data(Scale.of(2, 4, 5, 7, 9, 11, 0))
    >>> found["title"], found["tones"], [step["name"] for step in found["steps"]][:4]
    ('D dorian', [0, 2, 3, 5, 7, 9, 10], ['D', 'E♭', 'E', 'F'])
    """
    wording = wording_for(tongue().tag)
    findings = [found for found in profile(scale, None, default_registry()).findings if found.value is not None]
    is_twelve = scale.divisions == 12
    return {
        "title": title_of(scale),
        "text": to_text(scale, "notes" if is_twelve else "pcs").partition(": ")[2],
        "divisions": scale.divisions,
        "root": scale.root,
        "tones": list(scale.tones),
        "names": [f"{name.name} ({name.tradition})" for name in names_of(scale)] if is_twelve else [],
        "steps": _steps(scale),
        "facts": [_fact(found, scale, wording, shares) for found in findings],
    }


def _steps(scale: Scale) -> list[dict[str, Any]]:
    """Give every step of the octave above the root with its name and frequency, the octave itself last."""
    names = names_of_steps(scale)
    pairs = zip((*names, names[0]), frequencies(scale), strict=True)
    return [{"name": name, "hz": freq_hz} for name, freq_hz in pairs]


def _fact(found: Finding, scale: Scale, wording: Wording, shares: Shares | None) -> dict[str, Any]:
    fact, value = found.fact, found.value
    assert value is not None  # noqa: S101 - what says nothing is left out before
    share = shares.of(fact, scale, value) if shares else None
    tones = [witness for witness in found.witnesses if witness.kind in OF_TONES][:MOST_PLACES]
    return {
        "id": fact.id,
        "title": wording.title(fact),
        "group": say(fact.group.value),
        "level": fact.level.value,
        "value": printed_value(fact, value, tongue().tag),
        "means": wording.definition(fact, scale.divisions) or fact.definition,
        "places": wording.places_in_words(found.witnesses, scale) if tones else "",
        "parts": [[list(part) for part in witness.parts] for witness in tones],
        "rare": share_in_words(share) if share else "",
        "count": say("{some} of {all}", some=share.scales_alike, all=share.family.scales) if share else "",
    }
