"""Reading text: each form, clashes between forms, refusals in words, and nothing that ends in a traceback."""

from __future__ import annotations

import pickle

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from music21 import chord, pitch

from deadlines import before_long
from gamutwright.errors import AmbiguousInputError, DomainError, GamutwrightError, InputError
from gamutwright.inputs.forms import FORMS, FORMS_OF_TWELVE, to_text
from gamutwright.inputs.text import read_scale
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names
from thinning import usually

MAJOR = (0, 2, 4, 5, 7, 9, 11)
MINOR = (0, 2, 3, 5, 7, 8, 10)


# The same scale in every form: rudiments teaching (common practice, no source); labels from Forte 1973, Appendix 1.
@pytest.mark.parametrize(
    ("text", "root", "tones"),
    [
        ("C D E F G A B", 0, MAJOR),
        ("C D E F G A B C", 0, MAJOR),
        ("D, E, F♯, G, A, B, C♯", 2, MAJOR),
        ("E flat - F - G - A flat - B flat - C - D", 3, MAJOR),
        ("c-d-eb-f-g-ab-bb", 0, MINOR),
        ("notes: A B C D E F G", 9, MINOR),
        ("0 2 4 5 7 9 11", 0, MAJOR),
        ("0 2 4 5 7 9 11 12", 0, MAJOR),
        ("0 2 4 5 7 9 11 0", 0, MAJOR),
        ("{2, 4, 6, 7, 9, e, 1}", 2, MAJOR),
        ("(0,4,7)", 0, (0, 4, 7)),
        ("pcs: t e 0", 10, (0, 1, 2)),
        ("2-2-1-2-2-2-1", 0, MAJOR),
        ("2 1 2 2 1 2 2", 0, MINOR),
        ("T S T T S T T", 0, MINOR),
        ("W W H W W W H on G", 7, MAJOR),
        ("W H W W H WH H", 0, (0, 2, 3, 5, 7, 8, 11)),
        ("steps: 12", 0, (0,)),
        ("1 2 b3 #4 5 6 b7", 0, (0, 2, 3, 6, 7, 9, 10)),
        ("1 2 ♭3 4 5 ♭6 ♭7 8 on A", 9, MINOR),
        ("degrees: 1 2 3 4 5 6 7", 0, MAJOR),
        ("7-35 mode 2", 0, MAJOR),
        ("6-Z29", 0, (0, 1, 3, 6, 8, 9)),
        ("6-29", 0, (0, 1, 3, 6, 8, 9)),
        ("3-11", 0, (0, 3, 7)),
        ("3-11 inverted on F", 5, (0, 4, 7)),
        ("bits 101011010101", 0, MAJOR),
        ("bits: 1010 1101 0101 on D", 2, MAJOR),
        ("2212221", 0, MAJOR),
        ("2122122 on D", 2, MINOR),
        ("steps: 57", 0, (0, 5)),
        ("024579e", 0, MAJOR),
        ("024579B", 0, MAJOR),
        ("0358", 0, (0, 3, 5, 8)),
        ("(0146)", 0, (0, 1, 4, 6)),
        ("[0146]", 0, (0, 1, 4, 6)),
        ("[9T04]", 9, (0, 1, 3, 7)),
        ("pcs: 9t04", 9, (0, 1, 3, 7)),
        ("pcs: 48", 4, (0, 4)),
        ("111111111111", 0, tuple(range(12))),
        ("D dorian", 2, (0, 2, 3, 5, 7, 9, 10)),
        ("Dorian on D", 2, (0, 2, 3, 5, 7, 9, 10)),
        ("E flat harmonic minor scale", 3, (0, 2, 3, 5, 7, 8, 11)),
        ("C minor", 0, MINOR),
        ("mela 29", 0, MAJOR),
        ("Messiaen 3", 0, (0, 2, 3, 4, 6, 7, 8, 10, 11)),
        ("thaat kafi", 0, (0, 2, 3, 5, 7, 9, 10)),
        ("C hirajoshi (Sachs)", 0, (0, 1, 5, 6, 10)),
        ("octatonic, tone first on D", 2, (0, 2, 3, 5, 6, 8, 9, 11)),
        ("D dorian ♯4", 2, (0, 2, 3, 6, 7, 9, 10)),
        ("F ionian without 4 and 7", 5, (0, 2, 4, 7, 9)),
        ("aeolian with added b2 on 4", 4, (0, 1, 2, 3, 5, 7, 8, 10)),
    ],
)
def test_forms(text: str, root: int, tones: tuple[int, ...]) -> None:
    reading = read_scale(text)
    assert reading.scale.root == root
    assert reading.scale.tones == tones
    assert reading.form


def test_prime_form_of_a_label_agrees_with_music21() -> None:
    for label in ("7-32", "6-Z29", "5-20", "8-26", "4-19"):
        prime = tuple(chord.Chord(list(read_scale(label).scale.pitch_classes)).primeForm)
        assert read_scale(label).scale.tones == prime
        inverted = read_scale(f"{label} inverted").scale
        assert tuple(chord.Chord(list(inverted.pitch_classes)).primeForm) == prime
        assert inverted.tones == tuple(sorted(prime[-1] - tone for tone in prime))
    assert read_scale("7-32 inverted mode 3 on D").scale.pitch_classes == (2, 4, 5, 7, 8, 11, 0)


# The compact writing of prime forms: one sign a pitch class, T and E for ten and eleven (Straus, Introduction to
# Post-Tonal Theory, 3rd ed. 2005, appendix 1, from memory); music21 computes the forms themselves.
@pytest.mark.parametrize("signs", ["0123456789te", "0123456789TE", "0123456789AB"])
def test_prime_forms_in_compact_writing_agree_with_music21(signs: str) -> None:
    for size in range(3, 10):
        for ordinal in (1, 2, 5, 10, 12):
            label = f"{size}-{ordinal}"
            prime = tuple(chord.fromForteClass(label).primeForm)
            for text in ("".join(signs[tone] for tone in prime), f"({''.join(signs[tone] for tone in prime)})"):
                assert read_scale(text).scale.tones == prime


def test_the_usual_forms_are_told_where_a_run_of_digits_is_none() -> None:
    with pytest.raises(InputError) as caught:
        read_scale("2741")
    for form in ("2212221", "024579e", "(0146)", "bits 101011010101"):
        assert form in caught.value.next_step
        read_scale(form)


@pytest.mark.parametrize("text", ["1 3 4 7 8 10 11", "G# B C# D# E G A#", "pcs: 8 1 3", "134t"])
def test_a_stated_root_settles_the_spelling(text: str) -> None:
    root = "C#" if text.startswith(("pcs", "134")) else "G#"
    scale = read_scale(text, root=root).scale
    assert tone_names(scale)[0] == root or not scale.is_rooted
    assert not any("b" in name for name in tone_names(scale))


def test_notes_in_german_and_solfege() -> None:
    assert read_scale("C D Es F G As H", names="german").scale.tones == (0, 2, 3, 5, 7, 8, 11)
    assert read_scale("A B C", names="german").scale.pitch_classes == (9, 10, 0)
    assert read_scale("do ré mi bémol fa dièse sol", names="solfege").scale.tones == (0, 2, 3, 6, 7)
    assert read_scale("H phrygian", names="german").scale.root == 11
    with pytest.raises(InputError, match="one in German"):
        read_scale("C D Es F")


def test_spelling_is_kept_where_it_departs_from_the_policy() -> None:
    assert tone_names(read_scale("F# G# A# B C# D# E#").scale) == ("F#", "G#", "A#", "B", "C#", "D#", "E#")
    assert read_scale("Gb Ab Bb Cb Db Eb F").scale.names == ()
    assert tone_names(read_scale("F# major").scale)[-1] == "E#"
    assert tone_names(read_scale("1 b3 4 #4 5 b7").scale) == ("C", "Eb", "F", "F#", "G", "Bb")
    assert read_scale("C# E G#").scale == read_scale("1 4 8").scale


def test_a_root_stated_beside_the_text_goes_first() -> None:
    assert read_scale("E G B", root="G").scale.pitch_classes == (7, 11, 4)
    assert read_scale("2-2-1-2-2-2-1", root="Bb").scale.root == 10
    assert read_scale("D dorian", root=4).scale.root == 4
    assert read_scale("0 4 7 on 4").scale.tones == (0, 3, 8)
    off = read_scale("E G B", root="C")
    assert not off.scale.is_rooted
    assert "not one of the notes" in off.remarks[0]
    for root in ("H", 12, -1, "", "Q", None.__class__.__name__):
        with pytest.raises(InputError, match="a root is"):
            read_scale("0 4 7", root=root)


def test_a_missing_root_is_remarked() -> None:
    assert any("C is taken" in remark for remark in read_scale("2-2-1-2-2-2-1").remarks)
    assert read_scale("C E G").remarks == ()


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("1 2 3 4 5 6 7", 2),
        ("1 2 3 6", 3),
        ("4-8", 2),
        ("C hirajoshi", 3),
        ("octatonic", 2),
        ("pentatonic on A", 2),
        ("101011010101", 1),
        ("1236", 2),
    ],
)
def test_ambiguous_text_lists_readings_that_can_be_written_back(text: str, count: int) -> None:
    with pytest.raises(AmbiguousInputError) as caught:
        read_scale(text)
    readings = caught.value.readings
    assert len(readings) == count
    scales = {read_scale(line.split(" (pitch")[0].rsplit(" (", 1)[0]).scale for line in readings}
    assert len(scales) == count
    assert pickle.loads(pickle.dumps(caught.value)).readings == readings  # noqa: S301 - our own bytes


@pytest.mark.parametrize(
    ("text", "word", "rule"),
    [
        ("C D E X", "X", "no note name in English"),
        ("C Db C#", "C#", "same key as Db"),
        ("C E G E", "E", "comes twice"),
        ("0 2 4 13", "13", "run from 0 to 11"),
        ("0 4 4 7", "4", "comes twice"),
        ("2 2 1 2 2 2 2", "2 2 1 2 2 2 2", "sum to 13"),
        ("1 2 b3 4 5 6 b9", "b9", "a degree is 1 to 7"),
        ("degrees: 2 3", "2", "begin with 1"),
        ("7-99", "7-99", "ordinals 1 to 38"),
        ("7-35 mode 8", "degree 8", "degrees 1 to 7"),
        ("7-35 upside down", "upside down", "a Forte label is"),
        ("bits 1010", "bits 1010", "take 12 bits"),
        ("bits: 10201", "10201", "noughts and ones"),
        ("2741", "2741", "steps where they sum to 12, and these sum to 14"),
        ("2212222", "2212222", "these sum to 13"),
        ("9t04", "9t04", "written together rise"),
        ("(2741)", "2741", "written together rise"),
        ("(0446)", "0446", "each once"),
        ("steps: 2741", "2741", "sum to 14"),
        ("mask 2741", "mask 2741", "no scale we know"),
        ("mask: 2741", "mask: 2741", "no scale we know"),
        ("0b101010110101", "0b101010110101", "written together rise"),
        ("D dorain", "dorain", "no scale we know"),
        ("mela 99", "mela 99", "numbered 1 to 72"),
        ("C hirajoshi (Nobody)", "(Nobody)", "no scale we know"),
        ("dorian #3 b3", "dorian #3 b3", "degree 3"),
        ("dorian on toast", "toast", "a root is a note name"),
        ("cheese", "cheese", "tried as notes, pitch classes, steps"),
        ("file: tune.pdf", "tune.pdf", "none of .mid"),
        ("tune.mid", "tune.mid", "cannot be opened"),
        ("   ", "empty", "no scale in it"),
        ("name: blorp", "blorp", "no scale we know"),
    ],
)
def test_refusals_name_the_word_and_the_rule(text: str, word: str, rule: str) -> None:
    with pytest.raises(InputError) as caught:
        read_scale(text)
    assert not isinstance(caught.value, AmbiguousInputError)
    assert word in caught.value.value
    assert rule in caught.value.rule
    assert caught.value.next_step.endswith((".", "?", "'"))


def test_hints() -> None:
    with pytest.raises(InputError, match="Did you mean dorian"):
        read_scale("D dorain")


@pytest.mark.parametrize("text", ["C D E", "1 2 b3 #4", "7-35", "D dorian", "dorian #4", "mela 29"])
def test_other_divisions_refuse_what_belongs_to_twelve(text: str) -> None:
    with pytest.raises(InputError, match="12 divisions"):
        read_scale(text, divisions=19)


def test_other_divisions() -> None:
    scale = read_scale("0 3 6 8 11 14 17", divisions=19).scale
    assert (scale.divisions, scale.step_pattern) == (19, (3, 3, 2, 3, 3, 3, 2))
    assert read_scale("3-3-2-3-3-3-2 on 5", divisions=19).scale.root == 5
    assert read_scale("0 10 11", divisions=19).scale.tones == (0, 10, 11)
    with pytest.raises(InputError, match="root"):
        read_scale("3-3-2-3-3-3-2 on D", divisions=19)
    with pytest.raises(DomainError):
        read_scale("0", divisions=73)
    with pytest.raises(DomainError):
        read_scale("C", names="klingon")


@pytest.mark.exhaustive
@pytest.mark.parametrize("part", usually(range(4), 0))
def test_every_form_reads_back(part: int) -> None:
    for mask in range(1 + 2 * part, 4096, 8):
        scale = Scale(mask, root=mask // 2 % 12)
        for form in FORMS:
            assert read_scale(to_text(scale, form)).scale == scale


@settings(max_examples=300)
@given(st.integers(1, 72), st.data())
def test_forms_of_other_divisions_read_back(divisions: int, data: st.DataObject) -> None:
    mask = data.draw(st.integers(0, (1 << divisions) - 1))
    root = data.draw(st.integers(0, divisions - 1))
    scale = Scale(mask, divisions, root)
    said = 0
    for form in FORMS:
        try:
            text = to_text(scale, form)
        except DomainError:
            assert form in FORMS_OF_TWELVE or not scale.is_rooted
            continue
        said += 1
        assert read_scale(text, divisions=divisions).scale == scale
    assert said >= 1


@given(st.lists(st.sampled_from([letter + sign for letter in "CDEFGAB" for sign in ("", "b", "#")]), min_size=1))
def test_written_notes_keep_their_spelling(names: list[str]) -> None:
    unique = {pitch.Pitch(name.replace("b", "-")).pitchClass: name for name in names}
    scale = read_scale("notes: " + " ".join(unique.values())).scale
    assert set(tone_names(scale)) == set(unique.values())
    for form in ("notes", "degrees"):
        assert read_scale(to_text(scale, form)).scale == scale


def test_unknown_forms_are_refused() -> None:
    with pytest.raises(DomainError, match="scales are written in"):
        to_text(Scale(1), "smoke signals")
    with pytest.raises(DomainError, match="empty set"):
        to_text(Scale(0), "pcs")


WORDS = st.sampled_from(
    [
        "C", "Db", "e#", "H", "es", "0", "1", "2", "12", "t", "e", "7-35", "mode", "inverted", "on", "D", "dorian",
        "and", "without", "with", "added", "4", "b3", "#4", "bits", "2212221", "(0146)", "notes:", "name:", "file:",
        "degrees:", "0b101", "101011010101", "-1", "²", "٣", "(", ")", "{", "}", ",", ";", "natural", "flat", "mela",
        "29", "hirajoshi", "(Sachs)", ".", "/", "\x00", "\n",
    ]
)  # fmt: skip


@settings(max_examples=600, deadline=None)
@given(
    st.one_of(st.text(max_size=80), st.lists(WORDS, max_size=10).map(" ".join)),
    st.sampled_from([12, 1, 19, 72]),
    st.sampled_from(["english", "german", "solfege"]),
    st.one_of(st.none(), st.integers(-2, 80), st.text(max_size=5)),
)
def test_no_text_ends_in_a_traceback(text: str, divisions: int, names: str, root: str | int | None) -> None:
    try:
        said = read_scale(text, divisions=divisions, names=names, root=root).form
    except GamutwrightError as error:
        said = str(error)
    assert 0 < len(said) < 2000


@pytest.mark.parametrize(
    "text", ["C " * 5_000_000, "9" * 10_000_000, " " * 4999, "a " * 2499, "a" + " " * 4990 + "on", "(" * 4999]
)
def test_long_text_is_refused(text: str) -> None:
    with before_long(), pytest.raises(InputError) as caught:
        read_scale(text)
    assert len(str(caught.value)) < 500
