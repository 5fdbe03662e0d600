"""Names of scales on a root, of chords and of foreign tones, as English and German teaching say them."""

from __future__ import annotations

import pytest

from gamutwright.phrasing.spoken_names import find_chords, spoken_chord
from gamutwright.phrasing.values import spoken_rooted_scale, spoken_tone
from gamutwright.theory.harmony import CHORDS
from gamutwright.theory.scale import Scale


@pytest.mark.parametrize(
    ("name", "english", "german"),
    [
        ("C major", "C major", "C-Dur"),
        ("A natural minor", "A natural minor", "a-Moll"),
        ("A harmonic minor", "A harmonic minor", "harmonisch a-Moll"),
        ("G# melodic minor", "G sharp melodic minor", "melodisch gis-Moll"),
        ("Bb dorian", "B flat dorian", "B dorisch"),
        ("B lydian b7", "B lydian flat seven", "H lydisch erniedrigte sieben"),
        ("mode 6 of Eb major", "the sixth mode of E flat major", "der sechste Modus von Es-Dur"),
    ],
)
def test_scales_on_a_root(name: str, english: str, german: str) -> None:
    """German keys have capitals in major and small letters in minor, B is a semitone below H: common practice."""
    assert spoken_rooted_scale(name, "en") == english
    assert spoken_rooted_scale(name, "de") == german


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("suffix", list(CHORDS))
def test_every_chord_that_is_said_is_found_again(language: str, suffix: str) -> None:
    for root in ("C", "F#", "Bb", "B", "Eb"):
        (found,) = find_chords(spoken_chord(root + suffix, language), language, is_bound=True)
        assert (found.root, found.suffix) == (root, suffix)


def test_tones_outside_are_spelled_as_in_the_familiar_scale() -> None:
    """E natural minor has F sharp, which E phrygian dominant lacks; G major has F sharp, G acoustic F."""
    assert spoken_tone(Scale.of(4, 5, 8, 9, 11, 0, 2), 2, "en") == "F sharp"
    assert spoken_tone(Scale.of(7, 9, 11, 1, 2, 4, 5), 11, "de") == "Fis"
