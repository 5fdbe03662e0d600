"""Colour, brightness, pull and tetrachords against Persichetti's modes, tonal practice and music21."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from music21 import interval as music21_interval
from music21 import pitch as music21_pitch

from gamutwright.theory.character import (
    FAMILIAR,
    Relation,
    brightness,
    colour_tones,
    nearest_relative,
    tendency_tones,
    tetrachords,
    tonic_triad,
)
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import degree_names, tone_name_map, tone_names

MAJOR = (0, 2, 4, 5, 7, 9, 11)
MODES = {
    name: Scale.of(*MAJOR).mode(degree)
    for degree, name in enumerate(("ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian"), 1)
}
HARMONIC_MINOR = Scale.of(0, 2, 3, 5, 7, 8, 11)
MELODIC_MINOR = Scale.of(0, 2, 3, 5, 7, 9, 11)
ACOUSTIC = Scale.of(0, 2, 4, 6, 7, 9, 10)

rooted = st.integers(min_value=0, max_value=2047).map(lambda upper: Scale(2 * upper + 1))
roots = st.integers(min_value=0, max_value=11)


def _colours(scale: Scale) -> tuple[str, str]:
    relative = nearest_relative(scale)
    assert relative is not None
    degrees = dict(zip(scale.tones, degree_names(scale), strict=True))
    return relative.familiar.name, " ".join(degrees[tone] for tone in relative.colour_tones)


def test_colour_tones_of_the_modes() -> None:
    """Persichetti, Twentieth-Century Harmony (1961), chapter 2, and Kostka and Payne on modes; from memory."""
    assert _colours(MODES["dorian"]) == ("natural minor", "6")
    assert _colours(MODES["phrygian"]) == ("natural minor", "b2")
    assert _colours(MODES["lydian"]) == ("major", "#4")
    assert _colours(MODES["mixolydian"]) == ("major", "b7")
    assert _colours(MODES["locrian"]) == ("natural minor", "b2 b5")
    assert _colours(HARMONIC_MINOR) == ("natural minor", "7")
    assert _colours(ACOUSTIC) == ("major", "#4 b7")


def test_major_and_natural_minor_stand_beside_one_another() -> None:
    """Parallel keys differ in the third, the sixth and the seventh: common practice, no source."""
    assert _colours(MODES["aeolian"]) == ("major", "b3 b6 b7")
    assert _colours(MODES["ionian"]) == ("natural minor", "3 6 7")


def test_a_tie_goes_to_the_more_familiar() -> None:
    """Dorian is one semitone from natural and from melodic minor, melodic minor one from major and harmonic minor."""
    assert _colours(MODES["dorian"])[0] == "natural minor"
    assert _colours(MELODIC_MINOR) == ("major", "b3")


def test_fewer_and_more_tones() -> None:
    """The pentatonic scales and the blues scale as rudiments and jazz teaching have them; common practice."""
    left_out = nearest_relative(Scale.of(0, 2, 4, 7, 9))
    assert left_out
    assert (left_out.familiar.name, left_out.relation) == ("major", Relation.LEFT_OUT)
    assert (left_out.left_out, left_out.colour_tones) == ((5, 11), ())
    minor = nearest_relative(Scale.of(0, 3, 5, 7, 10))
    assert minor
    assert (minor.familiar.name, minor.left_out) == ("natural minor", (2, 8))
    blues = nearest_relative(Scale.of(0, 3, 5, 6, 7, 10))
    assert blues
    assert (blues.familiar.name, blues.relation, blues.added) == ("minor pentatonic", Relation.ADDED, (6,))
    bebop = nearest_relative(Scale.of(0, 2, 4, 5, 7, 9, 10, 11))
    assert bebop
    assert (bebop.familiar.name, bebop.added) == ("major", (10,))
    assert nearest_relative(Scale.of(0, 1, 3, 4, 6, 7, 9, 10)) is None
    assert nearest_relative(Scale.of(0, 2, 4, 6, 8, 10)) is None


def test_the_relative_is_spelled_from_the_same_root() -> None:
    relative = nearest_relative(Scale.of(6, 8, 9, 11, 1, 3, 4))
    assert relative is not None
    assert tone_names(relative.scale)[0] == "F#"
    names = tone_name_map(relative.scale)
    assert [names[change.before] for change in relative.changes] == ["D"]


@given(rooted, roots)
def test_colour_is_the_same_on_every_root(scale: Scale, root: int) -> None:
    moved = Scale(scale.mask, 12, root)
    assert colour_tones(moved) == colour_tones(scale)
    assert set(colour_tones(scale)) <= set(scale.tones) - {0}


@given(rooted)
def test_no_familiar_scale_is_nearer_than_the_relative(scale: Scale) -> None:
    """The least by counting differing places, or tones on one side only, over the whole list."""
    relative = nearest_relative(scale)
    if relative is None or scale.tones in {FAMILIAR[0].tones, FAMILIAR[1].tones}:
        return
    assert relative.familiar.tones != scale.tones
    for other in FAMILIAR:
        if other.tones == scale.tones or (scale.cardinality == 7 and len(other.tones) != 7):
            continue
        if len(other.tones) == scale.cardinality:
            differing = sum(a != b for a, b in zip(scale.tones, other.tones, strict=True))
            assert relative.distance[0] <= differing
        elif set(other.tones) <= set(scale.tones) or set(other.tones) >= set(scale.tones):
            assert relative.distance[0] <= len(set(other.tones) ^ set(scale.tones))


def test_no_relative_where_no_familiar_scale_is_printed() -> None:
    assert nearest_relative(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)) is None
    assert nearest_relative(Scale.of(0, 7)) is None
    assert nearest_relative(Scale(0b101010)) is None
    assert colour_tones(Scale.of(0, 7)) == ()


def test_the_modes_from_bright_to_dark() -> None:
    """Persichetti's order by flattened degrees, chapter 2, from memory."""
    order = sorted(MODES, key=lambda name: -brightness(MODES[name]))
    assert order == ["lydian", "ionian", "mixolydian", "dorian", "aeolian", "phrygian", "locrian"]
    assert [brightness(MODES[name]) for name in order] == [39, 38, 37, 36, 35, 34, 33]


@given(rooted, st.integers(min_value=1, max_value=11))
def test_raising_a_tone_by_a_semitone_adds_one(scale: Scale, tone: int) -> None:
    if tone in scale.tones and tone + 1 < 12 and tone + 1 not in scale.tones:
        assert brightness(Scale(scale.mask ^ (1 << tone) ^ (2 << tone))) == brightness(scale) + 1


def test_tendency_tones_of_major_and_minor() -> None:
    """Kostka and Payne: the leading tone goes up, the fourth down to the third, in minor the sixth too; from memory."""
    assert [(pull.tone, pull.targets) for pull in tendency_tones(Scale.of(*MAJOR))] == [(5, (4,)), (11, (0,))]
    pulls = [(pull.tone, pull.targets) for pull in tendency_tones(HARMONIC_MINOR)]
    assert pulls == [(2, (3,)), (8, (7,)), (11, (0,))]
    assert tendency_tones(Scale.of(0, 2, 4, 6, 8, 10)) == ()
    assert tendency_tones(Scale.of(0, 6, 12, divisions=19)) == ()


@given(rooted)
def test_tendency_tones_by_music21s_intervals(scale: Scale) -> None:
    triad = tonic_triad(scale)
    found = {pull.tone for pull in tendency_tones(scale)}
    if triad is None:
        assert not found
        return
    near = set()
    for tone in set(scale.tones) - set(triad.tones):
        for target in (*triad.tones, 12):
            pair = music21_interval.Interval(music21_pitch.Pitch(60 + tone), music21_pitch.Pitch(60 + target))
            if abs(pair.chromatic.semitones) == 1:
                near.add(tone)
    assert found == near


def test_tetrachords() -> None:
    """Lower and upper halves of the modes as counterpoint and rudiments teaching name them: common practice."""
    halves = {
        name: tuple(half.name for half in tetrachords(scale) or ())
        for name, scale in {**MODES, "harmonic minor": HARMONIC_MINOR, "melodic minor": MELODIC_MINOR}.items()
    }
    assert halves == {
        "ionian": ("major", "major"),
        "dorian": ("minor", "minor"),
        "phrygian": ("phrygian", "phrygian"),
        "lydian": ("whole-tone", "major"),
        "mixolydian": ("major", "minor"),
        "aeolian": ("minor", "phrygian"),
        "locrian": ("phrygian", "whole-tone"),
        "harmonic minor": ("minor", "harmonic"),
        "melodic minor": ("minor", "major"),
    }
    phrygian_dominant = tetrachords(Scale.of(0, 1, 4, 5, 7, 8, 10))
    assert phrygian_dominant
    assert [half.tones for half in phrygian_dominant] == [(0, 1, 4, 5), (7, 8, 10, 12)]
    assert [half.name for half in phrygian_dominant] == ["harmonic", "phrygian"]
    assert tetrachords(Scale.of(0, 2, 4, 7, 9)) is None
    assert tetrachords(Scale.of(0, 1, 2, 3, 4, 5, 6)) is None
