"""From words to a film and back: what is decoded from the file is what the script says.

The pitches are computed here from the text of the scale alone: A at 440 Hz (ISO 16) and twelve equal semitones. The
loudness target is common practice for films on the web, no source; the meter is FFmpeg's. Flashes: WCAG 2.2, 2.3.1.
"""

from __future__ import annotations

import json
from itertools import pairwise
from pathlib import Path

import av
import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from gamutwright.errors import UnprovedError
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.timeline import ClipKind
from gamutwright.jobs.outfolder import LIST
from gamutwright.lessons.parse import parse
from gamutwright.render.loudness import Meter
from gamutwright.render.video import FilmStyle
from gamutwright.stages import DRAFT_STAMP, Choices, Made, make_film, sounds_of
from render.filmed import blocks, flashes_in_a_second, luma
from render.hearing import cents, pitch_hz

SCRIPT = """---
scale: G A B C# D E F
minutes: 1
---
# Hear it

Listen to it rise from the harbour wall. {play=scale show=ladder}

# Steps

The scale has [seven]{fact=cardinality show=keyboard} tones.
There are [two]{fact=semitone_steps} semitone steps: [C sharp to D and E to F]{each=semitone_steps mark=semitone_steps}.
"""
SEMITONES_FROM_A = {"G": -2, "A": 0, "B": 2, "C#": 4, "D": 5, "E": 7, "F": 8}
SMALL = FilmStyle(640, 360)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    return make_film(parse(SCRIPT), tmp_path_factory.mktemp("lesson"), Choices(SMALL))


@pytest.fixture(scope="module")
def seen(made: Made) -> NDArray[np.uint8]:
    return luma(made.files[0])


@pytest.fixture(scope="module")
def sound(made: Made) -> NDArray[np.float64]:
    with av.open(str(made.files[0])) as file:
        return np.concatenate([frame.to_ndarray()[0] for frame in file.decode(audio=0)]).astype(float)


def test_the_parts_are_written_and_as_long_as_the_timeline(made: Made):
    assert [path.name for path in made.files] == [
        "film.mp4", "poster.png", "captions.vtt", "captions.srt", "chapters.vtt", "ledger.json",
    ]  # fmt: skip
    there = {path.name for path in made.files[0].parent.iterdir()}
    assert there == {LIST, *(path.name for path in made.files)}
    with av.open(str(made.files[0])) as file:
        assert file.streams.video[0].frames * 1600 == made.timeline.ticks


def test_each_played_tone_has_the_pitch_of_its_name(made: Made, sound: NDArray[np.float64]):
    scale = read_scale("G A B C# D E F").scale
    sounds = {key.id: value for key, value in sounds_of(parse(SCRIPT), scale, default_registry()).items()}
    clip = next(clip for clip in made.timeline.clips if clip.kind is ClipKind.SOUND)
    notes = sorted(sounds[clip.key].notes, key=lambda note: note.start_tick)
    names = [*SEMITONES_FROM_A, "G", *reversed(SEMITONES_FROM_A)]
    assert len(notes) == len(names)
    for note, name in zip(notes, names, strict=True):
        start = clip.start_tick + note.start_tick + 2400
        freq_hz = 440 * 2 ** (SEMITONES_FROM_A[name] / 12)
        octaves = round(np.log2(note.freq_hz / freq_hz))
        expected_hz = freq_hz * 2**octaves
        assert abs(cents(pitch_hz(sound[start : start + 14_000], expected_hz), expected_hz)) < 1, name


def test_the_film_is_as_loud_as_it_should_be(sound: NDArray[np.float64]):
    meter = Meter(channels=2)
    meter.add(np.stack([sound, sound], axis=1))
    loudness = meter.result()
    assert loudness.integrated_lufs == pytest.approx(-16, abs=0.5)
    assert loudness.true_peak_dbtp <= -1


@pytest.mark.long  # `verify` looks for flashes in every film that other tests make
def test_the_film_does_not_flash(seen: NDArray[np.uint8]):
    assert flashes_in_a_second(blocks(seen)) <= 3


def test_pictures_change_where_the_timeline_says(made: Made, seen: NDArray[np.uint8]):
    frames = seen.astype(np.int16)
    moved = {index for index in range(1, len(frames)) if np.abs(frames[index] - frames[index - 1]).max() > 24}
    edges = {shot.start_tick // 1600 for shot in made.timeline.shots[1:]}
    # Nine pictures of a change, the held one, and two in which the encoder settles.
    changes = {edge + step for edge in edges for step in range(12)}
    assert moved <= changes
    visible = [
        shot.start_tick // 1600
        for before, shot in pairwise(made.timeline.shots)
        if (before.figure and before.figure.shapes, before.panel) != (shot.figure and shot.figure.shapes, shot.panel)
    ]
    assert len(visible) >= 6
    assert all(any(edge + step in moved for step in range(10)) for edge in visible)


def test_every_word_of_the_script_is_in_the_captions_once_and_in_order(made: Made):
    spoken = " ".join(line.text for line in parse(SCRIPT).lines if line.text)
    assert " ".join(" ".join(caption.text for caption in made.timeline.captions).split()) == spoken
    assert "C sharp to D and E to F" in " ".join(made.files[2].read_text("utf-8").split("\n"))


def test_the_poster_is_the_first_picture(made: Made, seen: NDArray[np.uint8]):
    with Image.open(made.files[1]) as poster:
        grey = np.asarray(poster.convert("L")).astype(int)
    assert grey.shape == seen[0].shape
    assert np.abs(seen[0].astype(int) - grey).mean() < 2
    assert grey.max() - grey.min() > 100


def test_the_ledger_holds_every_claim(made: Made):
    entries = json.loads(made.files[-1].read_text("utf-8"))
    text = json.dumps(entries)
    assert all(fact in text for fact in ("cardinality", "semitone_steps"))


def test_a_wrong_count_stops_the_film(tmp_path: Path):
    wrong = parse(SCRIPT.replace("[two]{fact=semitone_steps}", "[three]{fact=semitone_steps}"))
    with pytest.raises(UnprovedError, match=r"'three'.*--draft"):
        make_film(wrong, tmp_path / "lesson", Choices(SMALL))
    assert not (tmp_path / "lesson").exists()


def test_a_draft_is_marked_in_its_name_and_on_its_frames(tmp_path: Path):
    wrong = parse("---\nscale: G A B C# D E F\n---\n# Count\nThe scale has [eight]{fact=cardinality} tones.\n")
    made = make_film(wrong, tmp_path, Choices(SMALL, is_draft=True))
    assert made.files[0].name == "film-draft.mp4"
    assert DRAFT_STAMP.startswith("DRAFT")
    band = luma(made.files[0])[:, 24:40, 160:480].astype(int)
    assert (band.max(axis=(1, 2)) - band.min(axis=(1, 2)) > 60).all(), "words stand across the top of every frame"
