"""Scores against music21, verovio, the MusicXML schema, and notes written by hand."""

from __future__ import annotations

import math
import warnings
from fractions import Fraction
from importlib.util import find_spec
from itertools import combinations, pairwise
from pathlib import Path
from xml.dom.minidom import Element, parseString

import pytest
import verovio
import xmlschema
from music21 import chord as chords
from music21 import converter, harmony, key, note, pitch, stream

from gamutwright.diagrams.phrases import phrase
from gamutwright.music.written import pitch_of
from gamutwright.publish.score.musicxml_score import score
from gamutwright.theory.scale import Scale
from publish.lessons import lesson, lesson_from, source_of
from thinning import usually

# Written by hand from the published spellings of these scales (rudiments; the acoustic scale as in the literature on
# Bartók, the octatonic with one repeated letter; from memory).
UP = {
    "G acoustic": "G3 A3 B3 C#4 D4 E4 F4 G4",
    "C octatonic, semitone first": "C4 D-4 E-4 E4 F#4 G4 A4 B-4 C5",
    "Db harmonic minor": "D-4 E-4 F-4 G-4 A-4 B--4 C5 D-5",
    "D# E# F## G# A# B# C##": "D#4 E#4 F##4 G#4 A#4 B#4 C##5 D#5",
    "Cb Db Eb Fb Gb Ab Bb": "C-4 D-4 E-4 F-4 G-4 A-4 B-4 C-5",
    "C chromatic": "C4 D-4 D4 E-4 E4 F4 G-4 G4 A-4 A4 B-4 B4 C5",
    "B# C## D## E# F## G## A##": "B#3 C##4 D##4 E#4 F##4 G##4 A##4 B#4",
}


def read(text: str) -> stream.Score:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return converter.parseData(text, format="musicxml")


def measures(text: str) -> list[list[note.GeneralNote]]:
    return [
        [e for e in measure.notesAndRests if not isinstance(e, harmony.ChordSymbol)]
        for measure in read(text).parts[0].getElementsByClass(stream.Measure)
    ]


@pytest.mark.parametrize("name", UP)
def test_music21_reads_the_scale_up_and_down_as_it_is_spelled(name: str):
    first = measures(score(lesson(name)))[0]
    up = UP[name].split()
    assert [found.pitch.nameWithOctave for found in first] == [*up, *up[-2::-1]]
    assert {found.quarterLength for found in first} == {1.0}


@pytest.mark.parametrize("name", UP)
def test_what_is_written_is_what_is_heard(name: str):
    """The keys of the sound's frequencies, A4 = 440 Hz being key 69, are those that music21 reads."""
    told = lesson(name)
    heard = [round(69 + 12 * math.log2(tone.freq_hz / 440)) for tone in phrase("scale", told.scale).notes]
    assert [found.pitch.midi for found in measures(score(told))[0]] == heard


@pytest.mark.parametrize(
    "name", ["G acoustic", "C octatonic, semitone first", "D# E# F## G# A# B# C##", "C whole tone"]
)
def test_modes_hold_the_same_tones_from_each_distinct_degree(name: str):
    """A mode is the same set from another tone (definition); the pattern of its steps comes once only."""
    told = lesson(name)
    own = {(pitch_class + 0) % 12 for pitch_class in told.scale.pitch_classes}
    found = [measure for measure in measures(score(told))[1:] if not any(isinstance(e, chords.Chord) for e in measure)]
    patterns = set()
    for measure in found:
        keys = [one.pitch.midi for one in measure]
        assert {key_ % 12 for key_ in keys} == own
        assert keys[-1] - keys[0] == 12
        patterns.add(tuple(high - low for low, high in pairwise(keys)))
    steps = told.scale.step_pattern
    distinct = {steps[k:] + steps[:k] for k in range(len(steps))}
    assert patterns == (distinct if len(distinct) > 1 else set())
    assert len(found) == len(patterns)


@pytest.mark.parametrize("name", ["G acoustic", "C octatonic, semitone first", "Db harmonic minor"])
def test_chords_are_those_that_music21_finds_in_the_scale(name: str):
    """Every three and four tones of the scale that music21 calls one of the usual chords, and no others."""
    told = lesson(name)
    written = [frozenset(e.pitchClasses) for m in measures(score(told)) for e in m if isinstance(e, chords.Chord)]
    triads = {"major triad", "minor triad", "diminished triad", "augmented triad"}
    sevenths = {
        "dominant seventh chord", "major seventh chord", "minor seventh chord", "half-diminished seventh chord",
        "diminished seventh chord", "minor-augmented tetrachord", "augmented major tetrachord",
    }  # fmt: skip
    expected = set()
    for size, wanted in ((3, triads), (4, sevenths)):
        for tones in combinations(told.scale.pitch_classes, size):
            if chords.Chord(list(tones)).commonName.removeprefix("enharmonic equivalent to ") in wanted:
                expected.add(frozenset(tones))
    assert set(written) == expected


def test_chord_names_are_read_as_the_chords_they_stand_over():
    told = lesson("G acoustic")
    part = read(score(told)).parts[0]
    checked = 0
    for measure in part.getElementsByClass(stream.Measure):
        for name in measure.getElementsByClass(harmony.ChordSymbol):
            (sounding,) = [
                e for e in measure.getElementsByClass(chords.Chord) if not isinstance(e, harmony.ChordSymbol)
            ]
            assert name.root().pitchClass == sounding.pitches[0].pitchClass
            assert set(name.pitchClasses) == set(sounding.pitchClasses), name.figure
            checked += 1
    assert checked == 16  # nine triads and seven seventh chords in the acoustic scale, counted by hand


def test_there_is_no_key_signature_and_accidentals_are_written():
    part = read(score(lesson("G acoustic"))).parts[0]
    assert {signature.sharps for signature in part.flatten().getElementsByClass(key.KeySignature)} == {0}
    shown = [
        found.pitch.name
        for found in measures(score(lesson("G acoustic")))[0]
        if found.pitch.accidental is not None and found.pitch.accidental.displayStatus
    ]
    assert shown == ["C#"]  # once: it holds to the bar line


def accidentals(text: str) -> list[list[tuple[str, str]]]:
    root = parseString(text.encode()).documentElement  # noqa: S318 - what the test wrote itself

    def one(found: Element, name: str) -> str:
        inside = found.getElementsByTagName(name)
        return inside[0].firstChild.data if inside else ""

    return [
        [
            (one(n, "step") + one(n, "octave"), one(n, "accidental"), one(n, "alter"))
            for n in m.getElementsByTagName("note")
        ]
        for m in root.getElementsByTagName("measure")
    ]


@pytest.mark.parametrize("name", [*UP, "C D E F Gb G A"])
def test_accidentals_read_from_the_page_give_the_pitches(name: str):
    """Read signs as a player does (common practice, no source): a sign holds on its line until the bar line."""
    meaning = {"flat-flat": -2, "flat": -1, "natural": 0, "sharp": 1, "double-sharp": 2}
    for measure in accidentals(score(lesson(name))):
        held: dict[str, int] = {}
        for place, sign, alter in measure:
            if sign:
                assert held.get(place) != meaning[sign]
                held[place] = meaning[sign]
            assert held.get(place, 0) == int(alter or 0), (name, place, sign, alter)


def schema() -> xmlschema.XMLSchema:
    """MusicXML 3.1 as partitura carries it; what this program writes of 4.0 is in 3.1 too. No network."""
    home = Path(xmlschema.__file__).parent / "schemas"
    places = {
        "http://www.w3.org/XML/1998/namespace": str(home / "XML" / "xml.xsd"),
        "http://www.w3.org/1999/xlink": str(home / "XLINK" / "xlink.xsd"),
    }
    return xmlschema.XMLSchema(
        str(Path(find_spec("partitura").origin).parent / "assets" / "musicxml.xsd"),
        locations=places,
        uri_mapper={f"http://www.musicxml.org/xsd/{Path(p).name}": p for p in places.values()},
        allow="local",
    )


@pytest.mark.parametrize(
    ("name", "language", "divisions"),
    [
        *usually([(name, "en", 12) for name in UP], ("Db harmonic minor", "en", 12), ("C chromatic", "en", 12)),
        ("G acoustic", "de", 12),
        ("0 3 6 9 11 14 17", "de", 19),
        ("0 9 17", "en", 53),
    ],
)
def test_the_document_obeys_the_schema(name: str, language: str, divisions: int):
    schema().validate(score(lesson(name, language, 4.0, divisions)))


@pytest.mark.parametrize(
    ("name", "language", "divisions"),
    [("G acoustic", "de", 12), ("C chromatic", "en", 12), ("0 3 6 9 11 14 17", "en", 19), ("C", "en", 12)],
)
def test_verovio_engraves_every_note_without_a_complaint(
    name: str, language: str, divisions: int, capfd: pytest.CaptureFixture[str]
):
    text = score(lesson(name, language, 4.0, divisions))
    toolkit = verovio.toolkit()
    assert toolkit.loadData(text)
    drawn = "".join(toolkit.renderToSVG(page) for page in range(1, toolkit.getPageCount() + 1))
    assert drawn.count('class="note"') == text.count("<note>")
    complaints = capfd.readouterr().err
    assert "Error" not in complaints
    assert "Warning" not in complaints


@pytest.mark.parametrize(
    ("tones", "divisions"), [((0, 3, 6, 9, 11, 14, 17), 19), ((0, 4, 9, 17), 24), ((0, 1, 31), 53)]
)
def test_other_divisions_write_exact_decimals_and_the_nearest_quarter_tone(tones: tuple[int, ...], divisions: int):
    """A step of n equal divisions is 12/n semitones (definition); `alter` is semitones (MusicXML 4.0, from memory)."""
    told = lesson(" ".join(map(str, tones)), "en", 4.0, divisions)
    quarters = {"flat": -2, "quarter-flat": -1, "": None, "natural": 0, "quarter-sharp": 1, "sharp": 2}
    naturals = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
    first = accidentals(score(told))[0][: len(tones) + 1]
    for (place, sign, alter), tone in zip(first, (*tones, divisions), strict=True):
        semitones = naturals[place[0]] + float(alter or 0) + 12 * (int(place[1:]) - 4)
        assert semitones == pytest.approx(12 * tone / divisions, abs=5e-5)
        if quarters[sign] is not None:
            assert abs(2 * float(alter or 0) - quarters[sign]) <= 0.5
    assert "nearest quarter tone" in score(told)


def test_quarter_tones_sound_in_music21_as_written():
    told = lesson("0 3 9 14", "en", 4.0, 24)
    found = measures(score(told))[0]
    assert [one.pitch.ps for one in found[:4]] == [60, 61.5, 64.5, 67]


def test_pitches_know_their_octave_where_the_letter_crosses_it():
    """B sharp 3 is the key of C4, C flat 5 that of B4 (music21 says so as well)."""
    sharp = Scale.of(0, 2, 4, 5, 7, 9, 11)
    fixed = Scale(sharp.mask, 12, 0, ("B#", "C##", "D##", "E#", "F##", "G##", "A##"))
    found = pitch_of(fixed, 0)
    assert (found.step, found.alter, found.octave) == ("B", Fraction(1), 3)
    assert pitch.Pitch("B#3").midi == 60 + found.semitones


def test_a_hostile_title_is_text():
    wicked = 'A "score" <script>x</script> & \u202eevil\u202c 🎵 ' + "x" * 300
    text = score(lesson_from(source_of("G acoustic").replace("---\n", f"---\ntitle: '{wicked}'\n", 1)))
    assert "<script" not in text
    assert "\u202e" not in text
    document = parseString(text.encode())  # noqa: S318 - what the test wrote itself
    title = document.getElementsByTagName("work-title")[0].firstChild.data
    assert title.startswith('A "score" <script>x</script> & evil 🎵 xxx')
    assert verovio.toolkit().loadData(text)


def test_german_scores_speak_german():
    text = score(lesson("G acoustic", "de"))
    assert "Modus auf Cis" in text
    assert '<root-step text="H">B</root-step>' in text
    assert text == score(lesson("G acoustic", "de"))


@pytest.mark.parametrize("name", ["G acoustic", "Db harmonic minor"])
def test_no_metre_is_announced_and_the_part_names_its_instrument(name: str):
    # Music without a time signature has `senza-misura`; `score-instrument` says what plays (MusicXML 4.0, from memory).
    root = parseString(score(lesson(name)))  # noqa: S318 - written by us
    (time,) = root.getElementsByTagName("time")
    assert [child.tagName for child in time.childNodes if child.nodeType == child.ELEMENT_NODE] == ["senza-misura"]
    (instrument,) = root.getElementsByTagName("score-instrument")
    assert instrument.getElementsByTagName("instrument-name")[0].firstChild.data
    assert instrument.getElementsByTagName("instrument-sound")[0].firstChild.data == "keyboard.piano"
