"""What phrases play: tones in order, marks at every item, a comfortable register, voices led as theory says."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.diagrams.phrases import WALKS, phrase, phrase_places
from gamutwright.diagrams.sketch import Kind, Place
from gamutwright.errors import DomainError
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.ir.sound import Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import PIECES, Request
from gamutwright.music.pitches import Register, close_voicing, led_voicing, tuning_named
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import TUNINGS

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
MINOR = Scale.of(0, 2, 3, 5, 7, 8, 10)


def names(sound: Sound) -> str:
    return " ".join(note.label for note in sound.notes)


def chords(sound: Sound) -> list[list[str]]:
    starts = sorted({note.start_tick for note in sound.notes})
    return [[note.label for note in sound.notes if note.start_tick == start] for start in starts]


def semitones(freq_hz: float) -> int:
    return round(69 + 12 * math.log2(freq_hz / 440))


def test_up_and_down():
    assert names(phrase("up", MAJOR)) == "C D E F G A B C"
    assert names(phrase("down", MAJOR)) == "C B A G F E D C"
    sound = phrase("scale", MAJOR)
    assert names(sound) == "C D E F G A B C B A G F E D C"
    assert [mark.item for mark in sound.marks] == [1, 2, 3, 4, 5, 6, 7, 1, 7, 6, 5, 4, 3, 2, 1]


def test_from_each_degree():
    """The modes of C major start on C, D, E ... and each ends an octave above its beginning."""
    sound = phrase("modes", MAJOR)
    for item in range(1, 8):
        notes = [note for note in sound.notes if note.item == item]
        assert len(notes) == 8
        assert notes[0].label == "CDEFGAB"[item - 1]
        assert notes[-1].freq_hz == pytest.approx(2 * notes[0].freq_hz)
        assert all(low.freq_hz < high.freq_hz for low, high in pairwise(notes))


def test_chords_are_broken_and_struck():
    """The seven triads of C major (Kostka and Payne, from memory): C Dm Em F G Am Bdim, each close and in order."""
    sound = phrase("chords", MAJOR)
    expected = ["CEG", "DFA", "EGB", "FAC", "GBD", "ACE", "BDF"]
    for item, letters in enumerate(expected, 1):
        notes = [note for note in sound.notes if note.item == item]
        assert "".join(note.label for note in notes) == letters * 2
        broken, struck = notes[:3], notes[3:]
        assert len({note.start_tick for note in broken}) == 3
        assert len({note.start_tick for note in struck}) == 1
        assert struck[-1].freq_hz < 2 * struck[0].freq_hz


def test_intervals_from_the_lowest_tone():
    sound = phrase("intervals", Scale.of(0, 4, 7))
    sizes = []
    for item in (1, 2, 3):
        low, high, *together = [note for note in sound.notes if note.item == item]
        assert [note.freq_hz for note in together] == [low.freq_hz, high.freq_hz]
        sizes.append(semitones(high.freq_hz) - semitones(low.freq_hz))
    assert sizes == [4, 7, 12]


@pytest.mark.parametrize("timbre", list(Timbre))
def test_the_drone_sounds_under_everything(timbre: Timbre):
    sound = phrase("drone", MAJOR, performance=Performance(timbre))
    low = min(note.freq_hz for note in sound.notes)
    drone = [note for note in sound.notes if note.freq_hz == low]
    others = [note for note in sound.notes if note.freq_hz > low]
    assert low * 2 == pytest.approx(others[0].freq_hz)
    assert names(Sound(sound.ticks, tuple(others))) == "C D E F G A B C B A G F E D C"
    assert drone[0].start_tick == 0
    assert max(note.end_tick for note in drone) == max(note.end_tick for note in others)
    assert all(one.end_tick == other.start_tick for one, other in pairwise(drone))
    assert (len(drone) == 1) == (timbre is Timbre.SUSTAINED)


def test_two_scales_alternate():
    sound = phrase("alternation", MAJOR, other=MINOR)
    assert [mark.item for mark in sound.marks] == [1, 2, 1, 2]
    heard = [semitones(note.freq_hz) - 60 for note in sound.notes]
    assert heard == [0, 2, 4, 5, 7, 9, 11, 12, 0, 2, 3, 5, 7, 8, 10, 12] * 2


def test_a_second_scale_on_another_root_keeps_its_pitch_classes():
    other = Scale.of(7, 9, 11, 0, 2, 4, 6)
    sound = phrase("alternation", MAJOR, other=other)
    second = {semitones(note.freq_hz) % 12 for note in sound.notes if note.item == 2}
    assert second == set(other.pitch_classes)


def test_the_path_of_triads_of_the_major_scale():
    """One path: Dm F Am C Em G; from each triad to the next one tone moves, by a step (Cohn 1997, from memory)."""
    sound = phrase("path", MAJOR)
    heard = [frozenset(chord) for chord in chords(sound)]
    assert heard == [frozenset(chord) for chord in ("DFA", "FAC", "ACE", "CEG", "EGB", "GBD")]
    starts = sorted({note.start_tick for note in sound.notes})
    for one, other in pairwise(starts):
        before = sorted(semitones(note.freq_hz) for note in sound.notes if note.start_tick == one)
        after = sorted(semitones(note.freq_hz) for note in sound.notes if note.start_tick == other)
        assert len(set(before) & set(after)) == 2
        assert sum(abs(low - high) for low, high in zip(before, after, strict=True)) <= 2


def test_an_axis_is_heard_alike_both_ways():
    """D dorian reads the same upwards and downwards from D."""
    dorian = MAJOR.mode(2)
    sound = phrase("witnesses", dorian, (Place(Kind.AXIS, ((0,),)),))
    steps = [semitones(note.freq_hz) for note in sound.notes]
    half = len(steps) // 2
    up, down = steps[:half], steps[half:]
    assert [step - up[0] for step in up] == [down[0] - step for step in down] == [0, 2, 3, 5]


@pytest.mark.parametrize("divisions", [5, 12, 19, 31, 72])
@pytest.mark.parametrize("kind", list(WALKS))
def test_everything_lies_where_the_ear_is_at_ease(kind: str, divisions: int):
    """Scales from G3 (196 Hz) up, at most an octave below for a drone, and nothing above 2 kHz; on every root."""
    tones = tuple(sorted({round(divisions * k / 5) for k in range(5)}))
    for root in range(divisions):
        scale = Scale(sum(1 << tone for tone in tones), divisions, root)
        try:
            sound = phrase(kind, scale, other=scale.mode(2))
        except DomainError:
            if kind == "path":
                continue
            raise
        freqs = [note.freq_hz for note in sound.notes]
        assert min(freqs) >= (95 if kind == "drone" else 190)
        assert max(freqs) <= 2000


@settings(max_examples=150, deadline=None)
@given(st.integers(1, 4095), st.integers(0, 11), st.sampled_from(list(WALKS)))
def test_marks_number_the_items(mask: int, root: int, kind: str):
    scale = Scale(mask, root=root)
    other = MAJOR
    try:
        places = phrase_places(kind, scale, other=other)
    except DomainError:
        if kind == "path":
            return
        raise
    sound = phrase(kind, scale, other=other)
    assert {mark.item for mark in sound.marks} <= set(range(len(places) + 1))
    assert {mark.item for mark in sound.marks if mark.item} == set(range(1, len(places) + 1))
    assert sound.notes
    for mark in sound.marks:
        assert any(note.start_tick == mark.tick for note in sound.notes)


@pytest.mark.parametrize("scale", [MAJOR, Scale.of(7, 9, 11, 1, 2, 4, 5), Scale.of(0, 3, 4, 7, 8, 11), Scale(4095)])
def test_the_witnesses_of_every_fact_can_be_heard(scale: Scale):
    """As many items are marked as there are places: what is counted is what is heard."""
    for fact in default_registry().facts.values():
        if fact.evaluate(scale) is None or not fact.places(scale):
            continue
        places = sketch_of(fact, scale).places
        if not places or len(places) > 200:
            continue
        sound = phrase("witnesses", scale, places)
        assert [mark.item for mark in sound.marks] == list(range(1, len(places) + 1)), fact.id
        assert max(note.freq_hz for note in sound.notes) <= 2000, fact.id


@pytest.mark.parametrize("tempo", [20, 37, 90, 120.5, 300])
def test_beats_do_not_drift(tempo: float):
    """Tone k of the scale begins at k beats of 60 / tempo seconds, to the nearest tick."""
    sound = phrase("up", Scale(4095), performance=Performance(tempo=tempo))
    for k, note in enumerate(sound.notes):
        assert abs(note.start_tick / 48_000 - k * 60 / tempo) <= 0.5 / 48_000 + 1e-12


def test_tunings_keep_the_fork():
    for tuning in TUNINGS:
        register = Register(Scale.of(9, 0, 4), tuning)
        assert register.freq_hz(0) == pytest.approx(220.0)
    assert tuning_named("Five-limit").id == "five_limit"


@settings(max_examples=80, deadline=None)
@given(st.integers(1, 4095).filter(lambda mask: mask & 1), st.integers(0, 11), st.sampled_from(list(PIECES)))
def test_pieces_are_phrases_whose_marks_number_the_tones(mask: int, root: int, kind: str):
    scale = Scale(mask, root=root)
    try:
        places = phrase_places(kind, scale)
    except DomainError:
        assert scale.cardinality < 3 or kind == "tune-changed"
        return
    sound = phrase(kind, scale)
    assert [place.parts[0][0] for place in places] == list(scale.tones)
    assert {mark.item for mark in sound.marks} <= set(range(max(scale.cardinality, 12) + 1))
    begins = {note.start_tick for note in sound.notes} | {stroke.start_tick for stroke in sound.strokes}
    assert all(mark.tick in begins for mark in sound.marks if mark.item)
    assert min((note.freq_hz for note in sound.notes), default=100) >= 65
    assert max((note.freq_hz for note in sound.notes), default=100) <= 2000


def test_what_has_no_bars_is_not_asked_for_them():
    with pytest.raises(DomainError, match="choose one of tune"):
        phrase("scale", MAJOR, wish=Request(bars=8))
    assert len(phrase("tune", MAJOR, wish=Request(bars=8)).bars) == 8


def test_voicings():
    assert close_voicing((0, 7, 4), 12) == (0, 7, 16)
    assert led_voicing((5, 9, 0), (0, 4, 7), 12) == (0, 5, 9)
    assert led_voicing((7, 11, 2), (), 12) == (7, 11, 14)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: phrase("scales", MAJOR), "Did you mean scale"),
        (lambda: phrase("xyz", MAJOR), "alternation"),
        (lambda: phrase("scale", Scale(0)), "nothing to play"),
        (lambda: phrase("alternation", MAJOR), "--with"),
        (lambda: phrase("alternation", MAJOR, other=Scale(1, 19)), "one division"),
        (lambda: phrase("path", Scale.of(0, 1, 2)), "another phrase"),
        (lambda: phrase("up", Scale(1, 19), performance=Performance(tuning=TUNINGS[0])), "twelve"),
        (lambda: Performance(tempo=0), "90"),
        (lambda: Performance(tempo=float("nan")), "90"),
        (lambda: tuning_named("mean"), "quarter_comma_meantone"),
        (lambda: phrase("modes", Scale((1 << 72) - 1, 72), performance=Performance(tempo=20)), "quicker"),
    ],
)
def test_what_cannot_be_played_is_refused(call: object, words: str):
    with pytest.raises(DomainError, match=words):
        call()  # type: ignore[operator]
