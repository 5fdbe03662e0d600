"""Draw the house: rooms on their floors, arrows from each to what it stands on, and every circle in red.

Usage: `python docs/houseplan.py [-o FILE] [REVISION ...]`. Without a revision the files are drawn as they are here;
with several, one plan beside the other: `python docs/houseplan.py -o plans.svg v0.1.0 HEAD` shows before and after.
`make docs` writes docs/houseplan.svg.

A room is a folder or a file at the top of the package. It is as wide as it is large (the square root of its lines) and
stands one floor above the highest room that it imports from, so that nobody has to say where it belongs. An arrow is
left out where another way leads to the same room. Rooms that reach themselves stand on one floor, with red arrows.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from dataclasses import dataclass
from html import escape
from math import sqrt
from pathlib import Path

HERE = Path(__file__).parent
sys.path[:0] = [str(HERE), str(HERE.parent / "tools")]

from measure import circles, imported_at_load, parsed  # noqa: E402 - the folders above are where they stand
from revision import unpacked  # noqa: E402 - as above

Graph = dict[str, set[str]]
WIDTH, HIGH, GAP, MARGIN, TITLE = 920, 46, 34, 24, 46
STYLE = (
    "text{font:13px system-ui,sans-serif;fill:#1b2733}.small{font-size:10px;fill:#51606d}"
    ".room{fill:#eef3f7;stroke:#51606d}.ways path{fill:none;stroke:#51606d;stroke-opacity:.55;marker-end:url(#tip)}"
    ".round .room{fill:#fbe6e2;stroke:#a3260f}.ways path.round{stroke:#a3260f;stroke-opacity:1;stroke-width:2}"
)


@dataclass(frozen=True)
class Plan:
    """What a revision looks like.

    Parameters
    ----------
    name : str
        The revision.
    lines, files : dict of str to int
        How large each room is.
    ways : dict of str to set of str
        Which rooms each imports from.
    knots : int
        Modules that reach themselves.
    """

    name: str
    lines: dict[str, int]
    files: dict[str, int]
    ways: Graph
    knots: int


def room_of(module: str) -> str:
    """Give the room of a module: what follows the package's name."""
    return module.split(".")[1] if "." in module else ""


def plan_of(package: Path, name: str) -> Plan:
    """Read the plan of a package."""
    modules = parsed(package)
    graph = imported_at_load(modules)
    lines: dict[str, int] = {}
    files: dict[str, int] = {}
    ways: Graph = {}
    for module, (_, text, _) in modules.items():
        room = room_of(module)
        if not room or room == "__main__":  # the front door: everything is behind it
            continue
        lines[room] = lines.get(room, 0) + text.count("\n")
        files[room] = files.get(room, 0) + 1
        ways.setdefault(room, set()).update({room_of(one) for one in graph[module]} - {room, ""})
    return Plan(name, lines, files, ways, circles(graph))


def reached(ways: Graph) -> Graph:
    """Tell for each room all that it reaches."""
    found: Graph = {}
    for room in ways:
        seen: set[str] = set()
        left = list(ways[room])
        while left:
            one = left.pop()
            if one not in seen:
                seen.add(one)
                left += ways.get(one, ())
        found[room] = seen
    return found


def floors_of(ways: Graph) -> list[list[str]]:
    """Put rooms on floors, the lowest first; those that reach each other on one."""
    far = reached(ways)
    height: dict[str, int] = {}

    def floor(room: str) -> int:
        if room not in height:
            ring = {one for one in far[room] if room in far.get(one, ())} | {room}
            under = {below for one in ring for below in ways[one]} - ring
            here = 1 + max(map(floor, under), default=-1)
            height.update(dict.fromkeys(ring, here))
        return height[room]

    for room in ways:
        floor(room)
    return [sorted(room for room in height if height[room] == k) for k in range(1 + max(height.values(), default=-1))]


def short_ways(ways: Graph) -> list[tuple[str, str]]:
    """List the ways that no other way makes needless; in a circle, all."""
    far = reached(ways)
    return [
        (room, to) for room in sorted(ways) for to in sorted(ways[room])
        if room in far[to] or not any(to in far[by] for by in ways[room] - {to})
    ]  # fmt: skip


def drawn(plan: Plan, left: float) -> tuple[str, float]:
    """Draw a plan from a left edge on; give its SVG and its height."""
    floors = floors_of(plan.ways)
    height = TITLE + len(floors) * (HIGH + GAP)
    far = reached(plan.ways)
    places: dict[str, tuple[float, float, float]] = {}
    for level, rooms in enumerate(floors):
        widths = [max(78.0, 8 * len(room) + 14, 1.9 * sqrt(plan.lines[room])) for room in rooms]
        free = (WIDTH - sum(widths)) / (len(rooms) + 1)
        x, y = left + free, height - (level + 1) * (HIGH + GAP) + GAP / 2
        for room, width in zip(rooms, widths, strict=True):
            places[room] = x, y, width
            x += width + free
    parts = [_heading(plan, left), '<g class="ways">']
    for room, to in short_ways(plan.ways):
        (x, y, w), (tx, ty, tw) = places[room], places[to]
        is_round = room in far[to]
        start, end = (x + w / 2, y + (0 if is_round else HIGH)), (tx + tw / 2, ty)
        bend = (start[1] + end[1]) / 2 - (GAP if is_round else 0)
        kind = ' class="round"' if is_round else ""
        parts.append(
            f'<path{kind} d="M{start[0]:.0f} {start[1]:.0f}'
            f'C{start[0]:.0f} {bend:.0f} {end[0]:.0f} {bend:.0f} {end[0]:.0f} {end[1]:.0f}"/>'
        )
    parts.append("</g>")
    for room, (x, y, width) in places.items():
        middle = x + width / 2
        kind = ' class="round"' if room in far[room] else ""
        parts.append(
            f"<g{kind}>"
            f'<rect class="room" x="{x:.0f}" y="{y:.0f}" width="{width:.0f}" height="{HIGH}" rx="4"/>'
            f'<text x="{middle:.0f}" y="{y + 20:.0f}" text-anchor="middle">{escape(room)}</text>'
            f'<text class="small" x="{middle:.0f}" y="{y + 36:.0f}" text-anchor="middle">'
            f"{plan.files[room]} × {plan.lines[room]:,}</text></g>"
        )
    return "\n".join(parts), height


def _heading(plan: Plan, left: float) -> str:
    upward = sum(room in far for room, far in reached(plan.ways).items())
    told = (
        f"{sum(plan.files.values())} files, {sum(plan.lines.values()):,} lines, {len(plan.lines)} rooms on "
        f"{len(floors_of(plan.ways))} floors; rooms in circles: {upward}, modules in circles: {plan.knots}"
    )
    return (
        f'<text x="{left:.0f}" y="18" font-weight="600">{escape(plan.name)}</text>'
        f'<text class="small" x="{left:.0f}" y="34">{told}</text>'
    )


def picture(plans: list[Plan]) -> str:
    """Draw plans beside each other."""
    made = [drawn(plan, MARGIN + place * (WIDTH + MARGIN)) for place, plan in enumerate(plans)]
    width, height = MARGIN + len(plans) * (WIDTH + MARGIN), max(high for _, high in made) + MARGIN
    label = "; then ".join(f"{plan.name}: {len(plan.lines)} rooms" for plan in plans)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height:.0f}" width="{width}" '
        f'height="{height:.0f}" role="img" aria-label="{escape(label, quote=True)}">\n<style>{STYLE}</style>\n'
        '<defs><marker id="tip" viewBox="0 0 8 8" refX="8" refY="4" markerWidth="6" markerHeight="6" orient="auto">'
        '<path d="M0 0L8 4L0 8Z" fill="#51606d"/></marker></defs>\n'
        '<rect width="100%" height="100%" fill="#fff"/>\n' + "\n".join(svg for svg, _ in made) + "\n</svg>\n"
    )


def main() -> None:
    """Draw what is asked for."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("revisions", nargs="*", help="revisions, as git knows them; the files as they are here without")
    reader.add_argument("-o", "--output", type=Path, default=HERE / "houseplan.svg")
    asked = reader.parse_args()
    with tempfile.TemporaryDirectory() as place:
        roots = [
            (unpacked(revision, ("src",), Path(place, str(number))), revision)
            for number, revision in enumerate(asked.revisions or [""])
        ]
        plans = [plan_of(root / "src" / "gamutwright", revision or "Gamutwright") for root, revision in roots]
    asked.output.write_text(picture(plans), encoding="utf-8")


if __name__ == "__main__":
    main()
