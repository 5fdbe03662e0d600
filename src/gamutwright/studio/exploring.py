"""The screen on which a scale is looked at: set by hand or by words, with every fact and the places that make it true.

Conventions: a scale in an address is words, or a string of ones and noughts from the root upwards with the root beside
it. Places are steps above the root. Frequencies are those of the equal division from the root at or above middle C.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse

from gamutwright.catalogue.shares import Shares, shares_of
from gamutwright.diagrams.model import names_of_steps
from gamutwright.errors import InputError
from gamutwright.facts.profile import Finding, profile
from gamutwright.facts.registry import default_registry
from gamutwright.facts.vocabulary import WitnessKind
from gamutwright.inputs.forms import to_text
from gamutwright.lesson.wording.engine import Wording, wording_for
from gamutwright.publish.lesson import printed_value
from gamutwright.series.contents import read_rooted_scale
from gamutwright.series.course import read_course
from gamutwright.series.examining import lesson_title
from gamutwright.studio.static import render
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import tone_frequencies

__all__ = ["router", "scale_data"]

router = APIRouter()

MOST_DIVISIONS = 24
"""Beyond, a ring of buttons is too dense to be hit; the command line has all of them."""
MOST_PLACES = 40
"""Places of one fact that are sent; a picture of more shows nothing."""
OF_TONES = frozenset(WitnessKind) - {WitnessKind.AXIS, WitnessKind.SCALE}
"""Places that are tones of the scale, and can be lit and played; an axis is a number, another scale has its own."""
BEGINNING = "D dorian"


@router.get("/explore")
def explore_page(request: Request, scale: Annotated[str, Query(max_length=200)] = BEGINNING) -> HTMLResponse:
    """Show the screen on which a scale is looked at."""
    course = read_course(request.app.state.place.course)
    return render(
        request,
        "explore.html.jinja",
        here="explore",
        title=f"Explore · {course.title}",
        course_title=course.title,
        scale=scale,
        divisions=course.divisions if course.divisions <= MOST_DIVISIONS else 12,
        most=MOST_DIVISIONS,
    )


@router.get("/api/scale")
def read(
    text: Annotated[str, Query(max_length=200)] = "",
    bits: Annotated[str, Query(max_length=72, pattern="^[01]*$")] = "",
    root: Annotated[int, Query(ge=0, lt=72)] = 0,
    divisions: Annotated[int, Query(ge=2, le=MOST_DIVISIONS)] = 12,
) -> Any:  # noqa: ANN401 - plain data
    """Give a scale with all that is known of it."""
    if bits:
        return scale_data(_from_bits(bits, root))
    return scale_data(read_rooted_scale(text, divisions))


def _from_bits(bits: str, root: int) -> Scale:
    if not 2 <= len(bits) <= MOST_DIVISIONS or bits[0] != "1" or root >= len(bits):
        raise InputError(
            f"the tones {bits} from {root}", "they begin on the root, one sign for each step", "Set the scale again."
        )
    return Scale(sum(1 << step for step, sign in enumerate(bits) if sign == "1"), len(bits), root)


def scale_data(scale: Scale) -> dict[str, Any]:
    """Gather what a screen shows of a scale.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.

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
    wording, shares = wording_for("en"), shares_of(scale.divisions)
    findings = [found for found in profile(scale, None, default_registry()).findings if found.value is not None]
    is_twelve = scale.divisions == 12
    title = lesson_title(scale, "en") if is_twelve else f"{scale.cardinality} of {scale.divisions}"
    return {
        "title": title,
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
    every = tone_frequencies(Scale((1 << scale.divisions) - 1, scale.divisions, scale.root))
    pairs = zip((*names, names[0]), (*every, 2 * every[0]), strict=True)
    return [{"name": name, "hz": round(freq_hz, 3)} for name, freq_hz in pairs]


def _fact(found: Finding, scale: Scale, wording: Wording, shares: Shares | None) -> dict[str, Any]:
    fact, value = found.fact, found.value
    assert value is not None  # noqa: S101 - what says nothing is left out before
    share = shares.of(fact, scale, value) if shares else None
    tones = [witness for witness in found.witnesses if witness.kind in OF_TONES][:MOST_PLACES]
    return {
        "id": fact.id,
        "title": fact.title,
        "group": fact.group.value,
        "level": fact.level.value,
        "value": printed_value(fact, value, "en"),
        "means": wording.definition(fact, scale.divisions) or fact.definition,
        "places": wording.places_in_words(found.witnesses, scale) if tones else "",
        "parts": [[list(part) for part in witness.parts] for witness in tones],
        "rare": f"{share.scales_alike:,} of {share.family.scales:,}" if share else "",
    }
