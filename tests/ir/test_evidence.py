"""What a film promises: places found by geometry against pixels drawn by a drawing library, and data that lies."""

from __future__ import annotations

import copy
import json
from importlib import resources
from typing import Any

import jsonschema
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.codec import digest, to_plain
from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.lighting import with_tones_lit
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.errors import InputError
from gamutwright.ir.covering import Cover
from gamutwright.ir.evidence import evidence_from_plain, with_film
from gamutwright.ir.figure import Dot, Figure, Fill, Role
from gamutwright.ir.sound import Note, Sound
from gamutwright.ir.timeline import Caption, ChapterMark, Clip, ClipKind, Panel, Shot, ShotKind, Timeline
from gamutwright.render.engrave import expanded
from gamutwright.render.expected import film_evidence
from gamutwright.render.raster import figure_to_frame
from gamutwright.render.theme import load_theme
from gamutwright.theory.scale import Scale

SECOND = 48_000
SCALE = Scale.of(0, 2, 4, 5, 7, 9, 11)
STEPS = Sketch(SCALE, (Place(Kind.STEP, ((4, 5),)), Place(Kind.STEP, ((11, 0),))))


@pytest.mark.parametrize("diagram", ["clock", "ladder", "keyboard", "staff"])
def test_geometry_and_a_drawing_library_agree_on_what_is_on_top(diagram: str):
    """Skia draws, we compute; they must agree wherever neither words nor edges are near."""
    figure = expanded(with_tones_lit(draw_diagram(diagram, STEPS.upto(1)), diagram, SCALE, (7,)))
    pixels = figure_to_frame(figure, "night", 1000, 800).astype(int)[..., :3]
    colours = {
        role: [int(look.mark[at : at + 2], 16) for at in (1, 3, 5)] for role, look in load_theme("night").looks.items()
    }
    cover, chance = Cover(figure), np.random.default_rng(7)
    checked = dict.fromkeys((Role.GROUND, Role.NOW), 0)
    for x, y in chance.uniform((10, 10), (990, 790), (40_000, 2)):
        around = pixels[int(y) - 3 : int(y) + 4, int(x) - 3 : int(x) + 4].reshape(-1, 3)
        if (around != around[0]).any():
            continue
        seen = next((role for role, colour in colours.items() if list(around[0]) == colour), None)
        if seen in checked:
            checked[seen] += 1
            # A theme draws lines up to 2.1 times as wide as the figure says, so the edge of one may lie beyond.
            near = {cover.role_at(x + dx, y + dy) for dx, dy in ((0, 0), (5, 0), (-5, 0), (0, 5), (0, -5))}
            assert seen is Role.NOW or cover.role_at(x, y) is not Role.NOW, (x, y)
            assert seen is not Role.NOW or Role.NOW in near, (x, y)
    assert checked[Role.GROUND] > 1000
    assert checked[Role.NOW] > 10


def shot(start: int, figure: Figure | None, **more: Any) -> Shot:  # noqa: ANN401 - any field
    return Shot(start * SECOND, (start + 1) * SECOND, ShotKind.STAGE, figure, Panel("Steps"), 0, "clock", **more)


def film(**more: Any) -> Timeline:  # noqa: ANN401 - any field
    shots = tuple(shot(index, draw_diagram("clock", STEPS.upto(index))) for index in range(3))
    sound = Clip(SECOND, SECOND, ClipKind.SOUND, "two")
    given = {
        "shots": shots,
        "clips": (sound,),
        "captions": (Caption(0, SECOND, "E to F"),),
        "chapters": (ChapterMark(0, "Steps"),),
    }
    return Timeline("C major", "en", 3 * SECOND, lines=(), **(given | more))


SOUND = Sound(SECOND, (Note(0, 20_000, 330.0, label="E"), Note(24_000, 20_000, 349.0, label="F")))


def evidence(**more: Any) -> Any:  # noqa: ANN401 - any field
    return film_evidence(film(**more), {"two": SOUND}, 1920, 1080, "night")


def test_places_are_lit_one_by_one_and_lie_on_the_stage():
    """The left five eighths of a wide frame are the stage (docs/figures.md)."""
    made = evidence()
    marks = {index: spot.name for index, spot in enumerate(made.places) if spot.name.startswith("mark")}
    lit = [[marks[number] for number in view.lit if number in marks] for view in made.views]
    assert lit == [[], ["mark 1"], ["mark 1", "mark 2"]]
    assert [view.frame for view in made.views] == [4, 30 + 9 + 4, 60 + 9 + 4]
    assert all(96 <= spot.x <= 1104 and 120 <= spot.y <= 908 for spot in made.places)
    assert made.unread == 0


def test_the_step_from_e_to_f_lies_where_a_clock_has_it():
    """Four and a half hours clockwise from the top, on a circle round the middle of the stage (1000 x 800 units)."""
    made = evidence()
    spot = next(spot for spot in made.places if spot.name == "mark 1")
    middle_x, middle_y = (96 + 1104) / 2, (120 + 908) / 2
    angle = np.degrees(np.arctan2(spot.x - middle_x, middle_y - spot.y)) % 360
    assert angle == pytest.approx(4.5 * 30, abs=0.5)


def test_tones_changes_chapters_and_captions_are_those_of_the_timeline():
    made = evidence()
    tones = made.examples[0].tones
    assert [(tone.start_tick, tone.freq_hz, tone.label) for tone in tones] == [
        (SECOND, 330.0, "E"), (SECOND + 24_000, 349.0, "F"),
    ]  # fmt: skip
    assert [(change.frame, change.moving) for change in made.changes] == [(30, 9), (60, 9)]
    assert (made.chapters, made.captions) == (film().chapters, film().captions)
    assert (made.picture.frames, made.ticks) == (90, 3 * SECOND)


def test_a_mark_too_thin_to_be_read_is_counted():
    thin = Figure("thin", "A speck.", (Dot(500, 400, 0.5, Fill(Role.NOW)),))
    made = evidence(shots=(shot(0, None), shot(1, thin), shot(2, None)))
    assert (made.places, made.views, made.unread) == ((), (), 1)


def test_evidence_survives_json_and_follows_its_schema():
    made = evidence()
    plain = json.loads(json.dumps(to_plain(made)))
    assert evidence_from_plain(plain) == made
    schema = json.loads(resources.files("gamutwright.schemas").joinpath("film.schema.json").read_text("utf-8"))
    jsonschema.validate(plain, schema)


def test_a_ledger_with_a_film_has_a_digest_of_everything():
    ledger = with_film({"format": "gamutwright.ledger/1", "counts": {}, "digest": "of before"}, evidence())
    body = {key: value for key, value in ledger.items() if key != "digest"}
    assert ledger["digest"] == digest(json.loads(json.dumps(body)))


def _places_of(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:  # noqa: ANN401 - any JSON
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path] * bool(path) + [found for key, part in inner for found in _places_of(part, (*path, key))]


PLAIN = json.loads(json.dumps(to_plain(evidence())))
PLACES = _places_of(PLAIN)


@settings(max_examples=300, deadline=None)
@given(
    st.sampled_from(PLACES),
    st.sampled_from([None, True, -1, 0, 10**30, 1e300, -0.5, float("nan"), "", "now", [], {}, [[]], {"x": 1}]),
)
def test_no_wrong_entry_gives_a_traceback(place: tuple[Any, ...], wrong: object):
    plain = copy.deepcopy(PLAIN)
    holder = plain
    for key in place[:-1]:
        holder = holder[key]
    holder[place[-1]] = wrong
    try:
        read = evidence_from_plain(plain)
    except InputError as error:
        assert error.next_step.startswith("Give the ledger")  # noqa: PT017 - not every change is wrong
    else:
        assert all(0 <= spot.x < read.picture.width for spot in read.places)
