"""The places of pictures, read back from decoded frames: lit when they should be, and only then.

Conventions: a place counts as lit if the share of it that has the colour of what is being said is nearer to the share
that was promised than to none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from gamutwright.ir.evidence import Evidence, Spot
from gamutwright.ir.figure import Role
from gamutwright.ir.timeline import FRAME_TICKS
from gamutwright.render.readback.film_report import Check, Group, broken, clock, held, nothing

__all__ = ["colours_of", "is_seen_lit", "place_checks"]

MOST_TOLD = 6
AGAIN = "Render the film again; if it stays so, its figure does not draw what it promises: please report it."


def colours_of(film: Evidence) -> tuple[list[tuple[int, int, int]], int]:
    """List the different colours of a film, and say which of them is that of what is being said.

    Parameters
    ----------
    film : Evidence
        What was promised.

    Returns
    -------
    list of (int, int, int)
        Red, green and blue from 0 to 255.
    int
        Position in the list.
    """
    by_role = {colour.role: colour.colour.lower() for colour in film.colours}
    kinds = list(dict.fromkeys(by_role.values()))
    numbers = [tuple(int(kind[at : at + 2], 16) for at in (1, 3, 5)) for kind in kinds]
    return [(red, green, blue) for red, green, blue in numbers], kinds.index(by_role[Role.NOW])


def is_seen_lit(spot: Spot, share: float) -> bool:
    """Say whether a place is lit.

    Parameters
    ----------
    spot : Spot
        The place.
    share : float in [0, 1]
        How much of it has the colour looked for.

    Returns
    -------
    bool
        Whether it is lit.

    Examples
    --------
    >>> is_seen_lit(Spot("witness 1", 10, 10, 5, 1.0), 0.8)
    True
    """
    return share >= spot.share / 2


def place_checks(film: Evidence, seen: Mapping[int, tuple[float, ...]]) -> Iterator[Check]:
    """Compare the places that were read with what was promised.

    Parameters
    ----------
    film : Evidence
        What was promised.
    seen : mapping of int to tuple of float
        By frame: how much of each place has the colour looked for.

    Yields
    ------
    Check
        One for all, or one for each of the first that are wrong.
    """
    expected = "every place that is pointed at is lit, and no other"
    if not film.views:
        yield nothing(Group.PICTURE, "places", expected)
        return
    count = sum(len(view.lit) + len(view.dark) for view in film.views)
    wrong = []
    for view in film.views:
        shares = seen.get(view.frame)
        if shares is None:
            wrong.append((view.frame, f"'{view.picture}' is seen", "the film has no such frame"))
            continue
        for number, share in zip((*view.lit, *view.dark), shares, strict=True):
            spot, is_lit = film.places[number], number in view.lit
            if is_seen_lit(spot, share) != is_lit:
                where = f"in '{view.picture}', {spot.name}"
                states = ("is not lit", "is lit")
                found = f"it {states[not is_lit]} ({share:.0%} of it, at {spot.x:.0f}, {spot.y:.0f})"
                wrong.append((view.frame, f"{where} {states[is_lit]}", found))
    for frame, told, found in wrong[:MOST_TOLD]:
        yield broken(Group.PICTURE, "places", told, found, AGAIN, frame * FRAME_TICKS)
    if len(wrong) > MOST_TOLD:
        told = f"{len(wrong) - MOST_TOLD} more are wrong, the last at {clock(wrong[-1][0] * FRAME_TICKS)}"
        yield broken(Group.PICTURE, "places", expected, told, AGAIN)
    if not wrong:
        rest = f"; in {film.unread} more something is lit too thinly to be read" if film.unread else ""
        yield held(Group.PICTURE, "places", expected, f"{count} places in {len(film.views)} frames{rest}")
