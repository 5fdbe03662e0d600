"""The field's words as the built-in voice says them, checked by the phonemes that eSpeak NG makes of them.

Expected pronunciations are written in the alphabet of the International Phonetic Association, as English dictionaries
of British pronunciation and German ones give them (from memory).
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from gamutwright.errors import DomainError, FileError, InputError
from gamutwright.languages import known_languages, language_of
from gamutwright.render.espeak import phonemes_of
from gamutwright.render.lexicon import load_lexicon, respell
from gamutwright.render.voice import word_spans

ENGLISH = {
    "E flat": "iː flat",
    "E♭": "iː flat",
    "Eb": "iː flat",
    "A minor": "eɪ maɪnə",
    "A♭ major": "eɪ flat meɪdʒə",
    "B𝄫": "biː dʌbəl flat",
    "B double flat": "biː dʌbəl flat",
    "F##": "ɛf dʌbəl ʃɑːp",
    "C♯ minor": "siː ʃɑːp maɪnə",
    "from A to B": "fɹɒm eɪ tə biː",
    "Bm7♭5": "biː hɑːfdɪmɪnɪʃt sɛvənθ",
    "Forte": "fɔːt",
    "Forte's": "fɔːts",
    "forte": "fɔːteɪ",
    "tritone": "tɹaɪtəʊn",
    "hemitonic": "hɛmɪtɒnɪk",
    "anhemitonic": "anhɛmɪtɒnɪk",
    "Myhill": "maɪhɪl",
    "dorian": "dɔːɹiən",
    "phrygian": "fɹɪdʒiən",
    "mixolydian": "mɪksəlɪdiən",
    "Messiaen": "mɛsɪɑːn",
    "Rameau": "ɹɑːməʊ",
    "melakarta": "meɪlɐkɑːtɐ",
    "Kalyani": "kəljɑːni",
    "thaat": "tɑːt",
    "bhairav": "baɪɹəv",
    "palindrome": "palɪndɹəʊm",
    "achiral": "eɪkaɪɹəl",
    "IV": "fɔː",
    "vii°": "sɛvən dɪmɪnɪʃt",
    "7-35": "sɛvən θɜːti faɪv",
}
GERMAN = {
    "H": "hɑː",
    "B": "beː",
    "Es": "ɛs",
    "As": "as",
    "Fis": "fɪs",
    "Cis": "tsɪs",
    "Ces": "tsɛs",
    "Ais": "ɑːɪs",
    "Eis": "eːɪs",
    "E♭": "ɛs",
    "F♯": "fɪs",
    "B♭": "beː",
    "Heses": "hɛsɛs",
    "fis-Moll": "fɪs mɔl",
    "es-Moll": "ɛsmɔl",
    "Tritonus": "tɾiːtoːnʊs",
    "Myhill": "maɪhɪl",
    "Forte": "fɔɾt",
    "die IV. Stufe": "diː fiːɾtə ʃtuːfə",
    "die 3. Stufe": "diː dɾɪtə ʃtuːfə",
}


def said(text: str, language: str) -> str:
    lexicon = load_lexicon(language)
    ipa = phonemes_of(respell(text, lexicon).text, lexicon, is_ipa=True)
    return re.sub("[ˈˌ]", "", ipa)


@pytest.mark.parametrize(("text", "expected"), ENGLISH.items())
def test_english(text: str, expected: str) -> None:
    assert said(text, "en") == expected


@pytest.mark.parametrize(("text", "expected"), GERMAN.items())
def test_german(text: str, expected: str) -> None:
    assert said(text, "de") == expected


@pytest.mark.parametrize("language", known_languages())
def test_no_entry_is_needless(language: str) -> None:
    lexicon = load_lexicon(language)
    needless = [
        word for word, entry in lexicon.words.items() if phonemes_of(word, lexicon) == phonemes_of(entry, lexicon)
    ]
    assert needless == []


@pytest.mark.parametrize("language", known_languages())
def test_every_entry_says_why(language: str) -> None:
    assert all(entry["why"] for entry in language_of(language).table("lexicon")["words"].values())


@pytest.mark.parametrize(
    ("line", "is_note"),
    [
        ("A minor third is three semitones.", False),
        ("A scale climbs.", False),
        ("A is the root.", True),
        ("A flat follows.", True),
        ("A, B and C.", True),
        ("A minor and E minor share two tones.", True),
        ("The root is A.", True),
        ("From A minor to C major.", True),
    ],
)
def test_a_capital_a_is_told_from_the_article(line: str, is_note: bool) -> None:
    assert ("[['eI]]" in respell(line, load_lexicon("en")).text) is is_note


def test_what_is_known_to_be_a_note_is_said_as_one() -> None:
    assert respell("A sounds.", load_lexicon("en"), [(0, 1)]).text.startswith("[['eI]]")
    assert respell("A dog sounds.", load_lexicon("en"), [(0, 1)]).text.startswith("[['eI]]")


@pytest.mark.parametrize(
    ("line", "expected"),
    [
        ("Steps 2-1-2-2-1-2-2.", "Steps 2 1 2 2 1 2 2."),
        ("Between 5–7 tones", "Between 5 to 7 tones"),
        ("Wait … then “go” (softly).", "Wait. then go, softly."),
        ("It is e.g. here.", "It is for example here."),
        ("Say <b>[[x]]</b> {y}", "Say b x b y"),
    ],
)
def test_symbols_are_written_out_and_marks_become_pauses(line: str, expected: str) -> None:
    assert respell(line, load_lexicon("en")).text == expected


@pytest.mark.parametrize("line", ["E♭, “B𝄫” – Forte’s 7-35 (e.g. A minor)…", "Von H bis F♯, z.B. die 3. Stufe."])
def test_each_word_of_the_line_has_its_place_in_what_is_spoken(line: str) -> None:
    written = respell(line, load_lexicon("de" if line.startswith("Von") else "en"))
    assert written.spans == word_spans(line)
    assert all(written.text[start:end].strip() for start, end in written.spoken)
    assert all(first[1] <= second[0] for first, second in zip(written.spoken, written.spoken[1:], strict=False))


def test_a_course_may_say_a_word_its_own_way(tmp_path: Path) -> None:
    own = tmp_path / "lexicon.toml"
    own.write_text('[words]\nForte = { say = "Fortay" }\nslendro = { phonemes = "sl\'EndroU" }\n', encoding="utf-8")
    lexicon = load_lexicon("en", own)
    assert respell("Forte and slendro", lexicon).text == "Fortay and [[sl'EndroU]]"
    assert lexicon.identity != load_lexicon("en").identity


@pytest.mark.parametrize(
    ("text", "error"),
    [
        ("words", InputError),
        ("[other]\n", InputError),
        ("[words]\na = 3\n", InputError),
        ('[words]\na = {say=" "}', InputError),
    ],
)
def test_a_bad_lexicon_is_refused(tmp_path: Path, text: str, error: type[Exception]) -> None:
    own = tmp_path / "lexicon.toml"
    own.write_text(text, encoding="utf-8")
    with pytest.raises(error):
        load_lexicon("en", own)


def test_a_missing_lexicon_and_an_unknown_language_are_said(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="cannot be read"):
        load_lexicon("en", tmp_path / "none.toml")
    with pytest.raises(DomainError, match="de, en"):
        load_lexicon("tlh")


def test_deep_toml_is_refused_in_words(tmp_path: Path):
    path = tmp_path / "words.toml"
    path.write_text("[words]\nquay = " + "[" * 5_000)
    with pytest.raises(InputError, match="is not TOML"):
        load_lexicon("en", path)
