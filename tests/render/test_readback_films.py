"""Whole films, untouched and tampered with: what is wrong is named, and what is whole is left alone.

The tampering is done on the file, with FFmpeg's libraries or on its bytes (tampering.py). What must be noticed follows
from what was changed. Measures: cents and hertz as in ISO 16 and twelve equal semitones; three flashes a second as in
WCAG 2.2, success criterion 2.3.1 (from memory).
"""

from __future__ import annotations

import json
from collections.abc import Callable
from importlib import resources
from pathlib import Path
from typing import Any

import jsonschema
import numpy as np
import pytest

from gamutwright.codec import digest
from gamutwright.errors import FileError, GamutwrightError, InputError
from gamutwright.ir.evidence import Evidence, Spot, Tone, View
from gamutwright.lessons import assemble
from gamutwright.lessons.parse import parse
from gamutwright.render.readback.film_report import Report, Verdict
from gamutwright.render.readback.promises import read_ledger
from gamutwright.render.readback.verifying import verify
from gamutwright.stages import Choices, FilmStyle, make_film
from render.tampering import Planes, Samples, paint_box, paint_disc, remade, tone, with_bytes
from thinning import usually

SCRIPT = """---
scale: C D E F G A B
minutes: 1
---
# Climbing

Listen from the quay. {play=scale show=clock}

# Steps

There are [two]{fact=semitone_steps show=clock} semitone steps: [E to F and B to C]{each=semitone_steps}.
It has [three]{fact=major_triads show=clock} major triads. {play=chords mark=major_triads}
"""
NAMES = {
    "digest", "index in front", "no edit list", "colour box", "picture format", "colour tags", "sound format",
    "begins at zero", "length of the picture", "length of the sound", "chapter list", "chapter track", "captions",
    "caption times", "places", "flashes", "red flashes", "tones", "chords", "parts", "onsets", "belonging",
    "loudness", "true peak", "sound in step", "picture in step", "ear and eye",
}  # fmt: skip


def film_of(folder: Path, script: str = SCRIPT, style: FilmStyle | None = None) -> Path:
    """Make a film whose last cards stay for a moment: nothing here reads them."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(assemble, "reading_ticks", lambda _: 48_000)
        return make_film(parse(script), folder, Choices(style or FilmStyle(640, 360))).files[0]


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return film_of(tmp_path_factory.mktemp("lesson"))


@pytest.fixture(scope="module")
def schemas() -> dict[str, Any]:
    folder = resources.files("gamutwright.schemas")
    return {
        name: json.loads(folder.joinpath(f"{name}.schema.json").read_text(encoding="utf-8"))
        for name in ("ledger", "film")
    }


@pytest.fixture(scope="module")
def promised(film: Path) -> Evidence:
    return read_ledger(film.with_name("ledger.json"))[0]


def broken_in(film: Path, changed: Path) -> dict[str, list[Any]]:
    found: dict[str, list[Any]] = {}
    for check in verify(changed, film.with_name("ledger.json")).broken:
        assert check.next_step.endswith("."), check
        found.setdefault(check.name, []).append(check)
    return found


def test_a_whole_film_is_whole(film: Path):
    told: list[tuple[str, int, int]] = []
    report = verify(film, film.with_name("ledger.json"), lambda *step: told.append(step))
    assert report.broken == ()
    assert {check.name for check in report.checks} == NAMES
    silent = {check.name for check in report.checks if check.verdict is not Verdict.HELD}
    assert silent == {"parts", "onsets", "belonging"}, "what has no bars promises nothing of these"
    assert {stage for stage, _, _ in told} == {"hearing", "seeing"}
    assert [step for step in told if step[0] == "seeing"][-1][1:] == (report.ticks // 1600,) * 2


def test_the_ledger_of_a_film_follows_its_schema(film: Path, schemas: dict[str, Any]):
    ledger = json.loads(film.with_name("ledger.json").read_text("utf-8"))
    jsonschema.validate(ledger, schemas["ledger"])
    jsonschema.validate(ledger["film"], schemas["film"])


def names(promised: Evidence, numbers: tuple[int, ...]) -> set[str]:
    return {promised.places[number].name for number in numbers}


def test_what_is_read_is_not_nothing(promised: Evidence):
    """The script plays a scale of eight tones up and down, points at two steps, and plays three triads."""
    steps = [names(promised, view.lit) for view in promised.views if view.picture == "Semitone steps"]
    assert steps == [set(), {"mark 1", "witness 1"}, {"mark 1", "witness 1", "mark 2", "witness 2"}]
    played = [names(promised, view.lit) for view in promised.views if view.picture == "Climbing" and view.lit]
    assert [name for lit in played for name in sorted(lit)] == [
        f"tone {tone}" for tone in (0, 2, 4, 5, 7, 9, 11, 0, 11, 9, 7, 5, 4, 2, 0)
    ]
    assert [len(example.tones) for example in promised.examples] == [15, 18]
    assert promised.unread == 0
    assert all(len(view.lit) + len(view.dark) == len(promised.places) for view in promised.views)


def test_the_same_film_coded_again_by_another_program_is_whole(film: Path, tmp_path: Path):
    assert broken_in(film, remade(film, tmp_path / "again.mp4")) == {}


def single(promised: Evidence, number: int = 3) -> Tone:
    return promised.examples[0].tones[number]


def replaced(promised: Evidence, cents: float, number: int = 3) -> Callable[[Samples], Samples]:
    played = single(promised, number)

    def change(samples: Samples) -> Samples:
        start, end = played.start_tick, played.start_tick + played.ticks
        rms = float(np.sqrt(np.mean(samples[start:end] ** 2)))
        samples[start:end] = tone(played.freq_hz * 2 ** (cents / 1200), end - start, rms)[:, None]
        return samples

    return change


@pytest.mark.parametrize(
    "cents", [4.0, *(pytest.param(further, marks=pytest.mark.long) for further in (-20.0, 100.0, 20.0, 300.0))]
)
def test_a_wrong_tone_is_heard(film: Path, promised: Evidence, cents: float, tmp_path: Path):
    found = broken_in(film, remade(film, tmp_path / "film.mp4", sound=replaced(promised, cents)))
    assert set(found) == {"tones"}
    (check,) = found["tones"]
    assert check.tick == single(promised).start_tick
    if abs(cents) <= 100:
        assert float(check.found.split(", ")[1].split()[0]) == pytest.approx(cents, abs=0.5)


@pytest.mark.long
def test_a_tone_made_anew_at_its_pitch_is_right(film: Path, promised: Evidence, tmp_path: Path):
    assert broken_in(film, remade(film, tmp_path / "film.mp4", sound=replaced(promised, 0.0))) == {}


def test_a_tone_that_is_missing_is_missed(film: Path, promised: Evidence, tmp_path: Path):
    played = single(promised)

    def silence(samples: Samples) -> Samples:
        samples[played.start_tick + 100 : played.start_tick + played.ticks] = 0
        return samples

    found = broken_in(film, remade(film, tmp_path / "film.mp4", sound=silence))
    assert set(found) == {"tones"}
    assert found["tones"][0].tick == played.start_tick


@pytest.mark.parametrize(
    ("cents", "name"), usually([(0.0, None), (20.0, "chords"), (100.0, "chords")], (0.0, None), (20.0, "chords"))
)
def test_a_wrong_tone_in_a_chord_is_heard(
    film: Path, promised: Evidence, cents: float, name: str | None, tmp_path: Path
):
    example = promised.examples[1]
    start = next(
        t.start_tick for t in example.tones if sum(o.start_tick == t.start_tick for o in example.tones) == 3
    )  # fmt: skip
    chord = sorted((t for t in example.tones if t.start_tick == start), key=lambda t: t.freq_hz)
    ticks = chord[0].ticks

    def change(samples: Samples) -> Samples:
        rms = float(np.sqrt(np.mean(samples[start : start + ticks] ** 2))) / 2
        factors = [1.0, 2 ** (cents / 1200), 1.0]
        parts = [tone(t.freq_hz * factor, ticks, rms) for t, factor in zip(chord, factors, strict=True)]
        samples[start : start + ticks] = np.sum(parts, axis=0)[:, None]
        return samples

    found = broken_in(film, remade(film, tmp_path / "film.mp4", sound=change))
    assert set(found) == ({name} if name else set())


def test_a_stranger_among_the_tones_is_heard(film: Path, promised: Evidence, tmp_path: Path):
    """A tritone above a tone of the scale, as loud as the tone itself."""
    played = single(promised)

    def change(samples: Samples) -> Samples:
        start, end = played.start_tick, played.start_tick + played.ticks
        rms = float(np.sqrt(np.mean(samples[start:end] ** 2)))
        samples[start:end] += tone(played.freq_hz * 2**0.5, end - start, rms)[:, None]
        return samples

    found = broken_in(film, remade(film, tmp_path / "film.mp4", sound=change))
    assert "tones" in found
    heard = float(found["tones"][0].found.split("of ")[1].split()[0])
    assert heard == pytest.approx(played.freq_hz * 2**0.5, rel=0.01)


@pytest.mark.parametrize("frames", [3, pytest.param(-3, marks=pytest.mark.long)])
def test_sound_that_is_shifted_is_noticed(film: Path, frames: int, tmp_path: Path):
    def shift(samples: Samples) -> Samples:
        return np.roll(samples, frames * 1600, axis=0)

    found = broken_in(film, remade(film, tmp_path / "film.mp4", sound=shift))
    assert {"sound in step", "ear and eye"} <= set(found) <= {"sound in step", "ear and eye", "tones", "chords"}
    assert ("late" if frames > 0 else "early") in found["ear and eye"][0].found


@pytest.mark.long
def test_a_picture_that_is_shifted_is_noticed(film: Path, tmp_path: Path):
    kept: list[Planes] = []

    def delay(number: int, planes: Planes) -> None:
        kept.append(tuple(plane.copy() for plane in planes))  # type: ignore[arg-type] # three planes again
        for plane, old in zip(planes, kept[max(0, number - 3)], strict=True):
            plane[:] = old
        if number >= 3:
            kept[number - 3] = kept[0]

    found = broken_in(film, remade(film, tmp_path / "film.mp4", picture=delay))
    assert {"picture in step", "ear and eye"} <= set(found)


def painted(promised: Evidence, colour: str) -> tuple[Callable[[int, Planes], None], View, Spot]:
    """Paint over the second witness in a picture of the steps: the last one, where it is lit, or that before."""
    view = [view for view in promised.views if view.picture == "Semitone steps"][-1 if colour == "ground" else -2]
    spot = next(spot for spot in promised.places if spot.name == "witness 2")
    code = next(item.colour for item in promised.colours if item.role == colour)

    def paint(number: int, planes: Planes) -> None:
        if view.frame - 2 <= number <= view.frame + 6:
            paint_disc(planes, spot.x, spot.y, spot.radius * 1.2, code)

    return paint, view, spot


def test_a_witness_that_is_not_lit_is_named(film: Path, promised: Evidence, tmp_path: Path):
    paint, view, spot = painted(promised, "ground")
    found = broken_in(film, remade(film, tmp_path / "film.mp4", picture=paint))
    assert set(found) == {"places"}
    assert found["places"][0].tick == view.frame * 1600
    assert spot.name in found["places"][0].expected
    assert "is not lit" in found["places"][0].found


def test_a_witness_that_is_lit_and_should_not_be_is_named(film: Path, promised: Evidence, tmp_path: Path):
    paint, view, spot = painted(promised, "now")
    found = broken_in(film, remade(film, tmp_path / "film.mp4", picture=paint))
    assert set(found) == {"places"}
    assert (found["places"][0].tick, spot.name in found["places"][0].expected) == (view.frame * 1600, True)
    assert "is lit" in found["places"][0].found


def test_a_word_changed_in_a_caption_is_read(film: Path, tmp_path: Path):
    found = broken_in(film, with_bytes(film, tmp_path / "film.mp4", b"There are two", b"There are six"))
    assert set(found) == {"captions"}
    assert "There are two" in found["captions"][0].expected
    assert "There are six" in found["captions"][0].found


def test_a_chapter_that_was_moved_is_noticed(film: Path, tmp_path: Path):
    def move(listed: list[dict[str, Any]]) -> list[dict[str, Any]]:
        listed[0]["end"] = listed[1]["start"] = listed[1]["start"] - 500
        return listed

    found = broken_in(film, remade(film, tmp_path / "film.mp4", chapters=move))
    assert set(found) == {"chapter list", "chapter track"}
    assert all("'Steps'" in check.expected for checks in found.values() for check in checks)


@pytest.mark.parametrize(
    ("is_list", "name"), [pytest.param(True, "chapter list", marks=pytest.mark.long), (False, "chapter track")]
)
def test_each_list_of_chapters_is_read(film: Path, is_list: bool, name: str, tmp_path: Path):
    """The index stands in front and so does the list in it; the track's titles lie among the data."""
    changed = with_bytes(film, tmp_path / "film.mp4", b"\x08Climbing", b"\x08Climbers", last=not is_list)
    assert set(broken_in(film, changed)) == {name}


def test_too_loud_and_too_soft_are_heard(film: Path, tmp_path: Path):
    loud = broken_in(film, remade(film, tmp_path / "loud.mp4", sound=lambda samples: samples * 1.4))
    assert set(loud) == {"loudness", "true peak"}
    soft = broken_in(film, remade(film, tmp_path / "soft.mp4", sound=lambda samples: samples * 0.7))
    assert set(soft) == {"loudness"}


@pytest.mark.parametrize(
    ("colours", "name"),
    [
        (("#FFFFFF", "#000000"), "flashes"),
        pytest.param(("#FF0000", "#000000"), "red flashes", marks=pytest.mark.long),
    ],
)
def test_flashing_pictures_are_seen(film: Path, colours: tuple[str, str], name: str, tmp_path: Path):
    """A patch of a sixteenth of the picture, five times a second; the ground is dark."""

    def flash(number: int, planes: Planes) -> None:
        if 120 <= number < 180:
            paint_box(planes, (450, 250, 610, 340), colours[number // 3 % 2])

    found = broken_in(film, remade(film, tmp_path / "film.mp4", picture=flash))
    assert name in found
    assert 120 * 1600 < found[name][0].tick < 180 * 1600
    assert "seizures" in found[name][0].next_step


@pytest.mark.long
def test_slow_changes_are_no_flashes(film: Path, tmp_path: Path):
    """The same patch once a second."""

    def blink(number: int, planes: Planes) -> None:
        if 120 <= number < 180:
            paint_box(planes, (450, 250, 610, 340), ("#FFFFFF", "#000000")[number // 15 % 2])

    assert not {"flashes", "red flashes"} & set(broken_in(film, remade(film, tmp_path / "film.mp4", picture=blink)))


@pytest.mark.parametrize(
    ("change", "must", "may"),
    [
        pytest.param(
            {"options": {"movflags": "+negative_cts_offsets", "use_editlist": "0"}},
            {"index in front"},
            set(),
            marks=pytest.mark.long,
        ),
        pytest.param(
            {"options": {"movflags": "+faststart", "use_editlist": "1"}},
            {"no edit list"},
            {"length of the sound"},
            marks=pytest.mark.long,
        ),
        pytest.param({"layout": "mono"}, {"sound format"}, {"loudness", "true peak"}, marks=pytest.mark.long),
        pytest.param(
            {"rate": 44_100}, {"sound format"}, {"sound in step", "length of the sound"}, marks=pytest.mark.long
        ),
        pytest.param({"tags": None}, {"colour tags", "colour box"}, set(), marks=pytest.mark.long),
        ({"frames": 200}, {"length of the picture"}, {"places", "ear and eye", "picture in step"}),
    ],
)
def test_a_file_of_another_form_is_named(
    film: Path, change: dict[str, Any], must: set[str], may: set[str], tmp_path: Path
):
    found = set(broken_in(film, remade(film, tmp_path / "film.mp4", **change)))
    assert must <= found <= must | may


def test_sound_that_is_cut_short_is_noticed(film: Path, tmp_path: Path):
    found = broken_in(film, remade(film, tmp_path / "film.mp4", sound=lambda samples: samples[:-48_000]))
    assert set(found) == {"length of the sound"}


def test_a_changed_ledger_is_noticed(film: Path, tmp_path: Path):
    ledger = json.loads(film.with_name("ledger.json").read_text("utf-8"))
    ledger["claims"][0]["said"] = "four"
    (tmp_path / "ledger.json").write_text(json.dumps(ledger), encoding="utf-8")
    report = verify(film, tmp_path / "ledger.json")
    assert [check.name for check in report.broken] == ["digest"]


def test_a_ledger_that_promises_something_else_under_a_right_digest_is_noticed(film: Path, tmp_path: Path):
    ledger = json.loads(film.with_name("ledger.json").read_text("utf-8"))
    view = ledger["film"]["views"][-1]
    view["lit"].append(view["dark"].pop())
    ledger["digest"] = digest({key: value for key, value in ledger.items() if key != "digest"})
    (tmp_path / "ledger.json").write_text(json.dumps(ledger), encoding="utf-8")
    assert [check.name for check in verify(film, tmp_path / "ledger.json").broken] == ["places"]


def test_the_ledger_of_another_film_is_refused(film: Path, tmp_path: Path):
    ledger = json.loads(film.with_name("ledger.json").read_text("utf-8"))
    ledger["film"] |= {"title": "Another evening", "ticks": ledger["film"]["ticks"] + 48_000 * 60}
    (tmp_path / "ledger.json").write_text(json.dumps(ledger), encoding="utf-8")
    with pytest.raises(InputError, match=r"ledger of another film: of 'Another evening'"):
        verify(film, tmp_path / "ledger.json")


@pytest.mark.parametrize("share", [0.0, 0.0001, 0.01, 0.3, 0.9])
def test_a_film_that_was_not_copied_to_its_end_is_an_error(film: Path, share: float, tmp_path: Path):
    data = film.read_bytes()
    place = tmp_path / "film.mp4"
    place.write_bytes(data[: int(len(data) * share)])
    with pytest.raises(FileError, match=r"whole MP4"):
        verify(place, film.with_name("ledger.json"))


@pytest.mark.parametrize("seed", [0, 1, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(2, 6))])
def test_damaged_pictures_and_sound_give_words_never_a_traceback(film: Path, seed: int, tmp_path: Path):
    chance = np.random.default_rng(seed)
    data = bytearray(film.read_bytes())
    for place in chance.integers(data.index(b"mdat"), len(data), 300):
        data[place] ^= 1 << int(chance.integers(8))
    place = tmp_path / "film.mp4"
    place.write_bytes(data)
    try:
        broken = verify(place, film.with_name("ledger.json")).broken
    except GamutwrightError as error:
        broken = (str(error),)
    assert broken


SHORT = """---
scale: C D E F G A B
minutes: 1
---
# Steps

[Two]{fact=semitone_steps show=SHOW} steps: [E to F and B to C]{each=semitone_steps}.
"""


@pytest.mark.parametrize(
    ("style", "show"),
    [
        (FilmStyle(720, 1280, "light"), "clock"),
        pytest.param(FilmStyle(1920, 1080, "print"), "keyboard", marks=pytest.mark.long),
        pytest.param(FilmStyle(3840, 2160, "night"), "ladder", marks=pytest.mark.long),
        (FilmStyle(1280, 720, "light"), "staff"),
    ],
)
def test_places_are_read_at_every_size_in_every_colour_and_layout(style: FilmStyle, show: str, tmp_path: Path):
    film = film_of(tmp_path, SHORT.replace("SHOW", show), style)
    report: Report = verify(film, film.with_name("ledger.json"))
    assert report.broken == ()
    places = next(check for check in report.checks if check.name == "places")
    assert places.verdict is Verdict.HELD
    views = read_ledger(film.with_name("ledger.json"))[0].views
    assert any(view.lit for view in views)
    assert any(view.dark for view in views)
