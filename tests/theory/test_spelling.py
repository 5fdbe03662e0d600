"""Spelling against rudiments teaching, and against the policy written out again in another way."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval, pitch

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import (
    degree_names,
    name_to_degree,
    names_in,
    note_name_to_pitch_class,
    root_name,
    root_names,
    spelled_from,
    to_symbols,
    tone_name_map,
    tone_names,
    with_names,
)

LETTERS = "CDEFGAB"
NATURAL = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
ALL_NAMES = [letter + signs for letter in LETTERS for signs in ("bb", "b", "", "#", "##")]
MAJOR = (0, 2, 4, 5, 7, 9, 11)


def on(root: int, *tones: int) -> Scale:
    return Scale.of(*((root + tone) % 12 for tone in tones))


# Key signatures and their relatives: common practice of rudiments teaching, no source.
@pytest.mark.parametrize(
    ("scale", "names"),
    [
        (on(0, *MAJOR), "C D E F G A B"),
        (on(7, *MAJOR), "G A B C D E F#"),
        (on(10, *MAJOR), "Bb C D Eb F G A"),
        (on(3, *MAJOR), "Eb F G Ab Bb C D"),
        (on(1, *MAJOR), "Db Eb F Gb Ab Bb C"),
        (on(11, *MAJOR), "B C# D# E F# G# A#"),
        (on(8, 0, 2, 3, 5, 7, 8, 10), "G# A# B C# D# E F#"),
        (on(1, 0, 2, 3, 5, 7, 8, 10), "C# D# E F# G# A B"),
        (on(10, 0, 2, 3, 5, 7, 8, 10), "Bb C Db Eb F Gb Ab"),
        (on(6, 0, 2, 3, 5, 7, 8, 10), "F# G# A B C# D E"),
        (on(1, 0, 3, 7), "C# E G#"),
        (on(1, 0, 4, 7), "Db F Ab"),
        (on(0, 0, 3, 6, 9), "C Eb Gb A"),
        (on(0, 0, 3, 5, 6, 7, 10), "C Eb F Gb G Bb"),
        (on(6, 0, 3, 5, 6, 7, 10), "F# A B C C# E"),
        (on(1, 0, 3, 5, 6, 7, 10), "C# E F# G G# B"),
        (on(0, 0, 2, 4, 5, 7, 9, 10, 11), "C D E F G A Bb B"),
    ],
)
def test_names_that_every_rudiments_text_gives(scale: Scale, names: str):
    assert tone_names(scale) == tuple(names.split())


def slow_seven(scale: Scale) -> list[tuple[tuple[int, int, int], tuple[str, ...]]]:
    """Rule (a) by trying all names: the names with distinct consecutive letters, with their cost."""
    found = []
    for root in root_names(scale.root):
        start = LETTERS.index(root[0])
        letters = (LETTERS[(start + k) % 7] for k in range(7))
        options = [[n for n in ALL_NAMES if n[0] == letter] for letter in letters]
        names = [
            [n for n in column if (NATURAL[n[0]] + n.count("#") - n[1:].count("b")) % 12 == pc]
            for column, pc in zip(options, scale.pitch_classes, strict=True)
        ]
        if all(names):
            spelled = (root, *(column[0] for column in names[1:]))
            doubles = sum(len(n) == 3 for n in spelled)
            signs = sum(len(n) - 1 for n in spelled)
            flats = sum(n[1:].count("b") - n.count("#") for n in spelled)
            found.append(((doubles, signs, -flats), spelled))
    return found


@pytest.mark.exhaustive
def test_seven_tones_take_seven_letters_wherever_double_accidentals_suffice():
    for others in itertools.combinations(range(1, 12), 6):
        for root in range(12):
            scale = on(root, 0, *others)
            options = slow_seven(scale)
            names = tone_names(scale)
            if options:
                assert names == min(options)[1]
                assert len({name[0] for name in names}) == 7


@given(st.integers(0, 4095), st.integers(0, 11))
def test_names_sound_as_their_tones_and_never_collide(mask: int, root: int):
    scale = Scale(mask, root=root)
    names = tone_names(scale)
    # music21 computes the pitch class of each name.
    assert tuple(pitch.Pitch(name.replace("b", "-")).pitchClass for name in names) == scale.pitch_classes
    assert len(set(names)) == len(names)
    assert tone_name_map(scale) == dict(zip(scale.tones, names, strict=True))
    if scale.is_rooted:
        assert names[0] == root_name(scale)
        assert names[0] in root_names(root)


@given(st.integers(0, 4095), st.integers(0, 11))
def test_outside_seven_letters_the_names_lie_on_one_stretch_of_fifths(mask: int, root: int):
    scale = Scale(mask, root=root)
    names = tone_names(scale)
    if len({name[0] for name in names}) == 7 == len(names):
        return
    tonic = pitch.Pitch(root_name(scale).replace("b", "-"))
    fifths = [0]
    for name in names:
        generic = interval.Interval(tonic, pitch.Pitch(name.replace("b", "-")))
        # A slow count: walk the line of fifths in both directions until the name is met.
        chain = pitch.Pitch(tonic.name)
        fifths.append(_steps_of_a_fifth(chain, generic.noteEnd.pitch.name))
    assert max(fifths) - min(fifths) <= 11


def _steps_of_a_fifth(start: pitch.Pitch, goal: str) -> int:
    order = [s + "-" * k for k in (3, 2, 1) for s in "FCGDAEB"] + [s + "#" * k for k in (0, 1, 2, 3) for s in "FCGDAEB"]
    return order.index(goal) - order.index(start.name)


def test_octatonic_repeats_one_letter():
    # "Standard texts repeat one letter, choice differs": Straus 2005, from memory.
    for tones in ((0, 1, 3, 4, 6, 7, 9, 10), (0, 2, 3, 5, 6, 8, 9, 11)):
        names = tone_names(on(0, *tones))
        assert len({name[0] for name in names}) == 7


def test_ties_go_to_the_flat_name():
    assert tone_names(on(6, *MAJOR))[0] == "Gb"


def test_a_fixed_spelling_stands_and_the_policys_own_is_not_kept():
    g_flat = on(6, *MAJOR)
    assert with_names(g_flat, tone_names(g_flat)) == g_flat
    sharp = with_names(g_flat, spelled_from(g_flat, "F#"))
    assert tone_names(sharp) == ("F#", "G#", "A#", "B", "C#", "D#", "E#")
    assert tone_names(sharp.mode(2))[0] == "G#"
    with pytest.raises(DomainError, match="pitch classes"):
        with_names(g_flat, ["F#", "G#", "A#", "B", "C#", "D#", "E"])
    with pytest.raises(DomainError, match="Gb or F#"):
        spelled_from(g_flat, "G")


# Degrees of common scales: common practice, no source.
@pytest.mark.parametrize(
    ("tones", "degrees"),
    [
        ((0, 2, 3, 6, 7, 9, 10), "1 2 b3 #4 5 6 b7"),
        ((0, 1, 3, 5, 6, 8, 10), "1 b2 b3 4 b5 b6 b7"),
        ((0, 1, 3, 4, 6, 8, 10), "1 b2 b3 b4 b5 b6 b7"),
        ((0, 1, 2, 5, 7, 8, 9), "1 b2 bb3 4 5 b6 bb7"),
        ((0, 3, 5, 7, 10), "1 b3 4 5 b7"),
        ((0, 3, 5, 6, 7, 10), "1 b3 4 b5 5 b7"),
        ((0, 2, 4, 6, 7, 10, 11), "1 2 3 #4 5 #6 7"),
        ((), ""),
    ],
)
def test_degrees(tones: tuple[int, ...], degrees: str):
    for root in range(12):
        mask = sum(1 << tone for tone in tones)
        assert degree_names(Scale(mask, root=root)) == tuple(degrees.split())


@given(st.sampled_from(ALL_NAMES), st.sampled_from(root_names(0) + root_names(1) + root_names(6)))
def test_a_degree_names_the_interval_to_the_root(name: str, root: str):
    # music21 measures the interval; its quality says how far the major scale's degree is altered.
    degree = name_to_degree(name, root)
    number = int(degree.strip("#b"))
    signs = degree.count("#") - degree.count("b")
    semitones = (note_name_to_pitch_class(name) - note_name_to_pitch_class(root)) % 12
    assert (MAJOR[number - 1] + signs) % 12 == semitones
    low, high = pitch.Pitch(root.replace("b", "-") + "4"), pitch.Pitch(name.replace("b", "-") + "5")
    assert (interval.Interval(low, high).generic.value - 1) % 7 + 1 == number


def test_german_and_solfege_names():
    # German names: common practice of German-language teaching, no source.
    german = names_in("german")
    pairs = {
        "B": "H", "Bb": "B", "Bbb": "Heses", "Eb": "Es", "Ab": "As", "Ebb": "Eses", "Abb": "Ases", "F#": "Fis",
        "F##": "Fisis", "Cb": "Ces", "Db": "Des", "Gb": "Ges", "Fb": "Fes", "B#": "His", "E#": "Eis", "C##": "Cisis",
    }  # fmt: skip
    for ours, theirs in pairs.items():
        assert german.write(ours) == theirs
        assert german.read(theirs) == ours
    solfege = names_in("solfege")
    assert [solfege.write(n) for n in ("C", "Eb", "F#", "G", "B")] == ["do", "mib", "fa#", "sol", "si"]
    for text, name in {
        "mi-flat": "Eb",
        "fa dièse": "F#",
        "Si bémol": "Bb",
        "sol♭": "Gb",
        "do double-sharp": "C##",
    }.items():
        assert solfege.read(text) == name
    with pytest.raises(DomainError, match="english, german, solfege"):
        names_in("klingon")


@pytest.mark.parametrize("language", ["english", "german", "solfege"])
def test_every_name_reads_back_in_every_language(language: str):
    names = names_in(language)
    assert len({names.write(name) for name in ALL_NAMES}) == len(ALL_NAMES)
    for name in ALL_NAMES:
        assert names.read(names.write(name)) == name
        assert names.read(to_symbols(name)) in {name, None} if language == "english" else True
    assert names.read("X") is None


@pytest.mark.parametrize(
    ("text", "printed"),
    [
        ("Eb F## Bbb C#", "E♭ F𝄪 B𝄫 C♯"),
        ("Bbm, Ebmaj7/Bb, F#dim and C7b9", "B♭m, E♭maj7/B♭, F♯dim and C7♭9"),
        ("dorian #4 without b7", "dorian ♯4 without ♭7"),
        (
            "Abbey, Ebbing, Abe, Bbc, Dbase, a bb gun, Add, C, Big Band",
            "Abbey, Ebbing, Abe, Bbc, Dbase, a bb gun, Add, C, Big Band",
        ),
        ("Ebb and flow", "Ebb and flow"),
        ("C Db Ebb F", "C D♭ E𝄫 F"),
        ("(Ab, Bb)", "(A♭, B♭)"),
        ("#12 &#4; C#-code F#", "#12 &#4; C♯-code F♯"),
        ("", ""),
    ],
)
def test_symbols_touch_names_and_leave_words(text: str, printed: str):
    assert to_symbols(text) == printed


@given(st.text(alphabet="abcdefghijklmnopqrstuvwxyz .,;", max_size=60))
def test_lower_case_prose_is_never_touched(text: str):
    assert to_symbols(text) == text


def test_other_divisions_are_refused_with_a_reason():
    for function in (tone_names, degree_names, root_name, tone_name_map):
        with pytest.raises(DomainError, match="twelve divisions"):
            function(Scale(1, 19))
