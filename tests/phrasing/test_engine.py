"""Statements of all facts, read back by the finders: what is said is the value, and nothing stands unproved beside it.

The readers themselves are tested against outside references in test_numbers and test_names. Grammar is checked by
rules of the two languages (common practice, no source) and by sentences written out by hand.
"""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

import pytest
from fluent.syntax import FluentParser, ast

from gamutwright.errors import DomainError
from gamutwright.facts.model import Dtype, Fact, Level, Value, Witness, WitnessKind
from gamutwright.facts.profile import Finding, profile
from gamutwright.facts.registry import default_registry
from gamutwright.facts.roles import Reader
from gamutwright.languages import known_languages, language_of
from gamutwright.phrasing.claim_marks import as_sentences
from gamutwright.phrasing.engine import Wording, marked, wording_for
from gamutwright.phrasing.messages import Messages, load_messages
from gamutwright.phrasing.numbers import Quantity, find_quantities, find_shares
from gamutwright.phrasing.packwords import pack_messages
from gamutwright.phrasing.spoken_names import (
    find_chords,
    find_degrees,
    find_notes,
    find_numerals,
    find_ratios,
    find_steps,
    spoken_note,
)
from gamutwright.phrasing.values import spoken_rooted_scale, spoken_scale_name
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import note_name_to_pitch_class
from thinning import usually

LANGUAGES = ("en", "de")
FACTS = tuple(default_registry().facts.values())
FOUNDATION = tuple(fact.id for fact in FACTS if fact.level is Level.FOUNDATION)
ROOTED = tuple(Scale(mask, root=mask % 12) for mask in range(1, 4096, 2))
OTHERS = (
    Scale.of(0, 2, 4, divisions=5),
    Scale.of(0, 1, 2, 3, 4, 5, 6, divisions=7),
    Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19),
    Scale.of(5, 8, 10, 13, 18, divisions=19),
    Scale.of(*range(0, 31, 2), divisions=31),
    Scale.of(*range(31), divisions=31),
)
SAMPLE = (*ROOTED[::127], Scale.of(0, 2, 4, 5, 7, 9, 11), Scale.of(0, 4, 7), Scale.of(0), Scale(0xFFF), *OTHERS)
SPAN = re.compile(r"\[([^\[\]]*)\]\{([^{}]*)\}")
READERS = {
    Reader.NOTES: lambda text, language: find_notes(text, language, is_bound=True),
    Reader.DEGREES: find_degrees,
    Reader.CHORDS: lambda text, language: find_chords(text, language, is_bound=True),
    Reader.NUMERALS: find_numerals,
    Reader.RATIOS: find_ratios,
}
SPEAKERS = {Reader.SCALES: spoken_scale_name, Reader.ROOTED_SCALES: spoken_rooted_scale}


def attributes_of(written: str) -> dict[str, str]:
    return {name: value.strip('"') for name, value in re.findall(r'([\w-]+)=("[^"]*"|\S+)', written)}


def is_same_number(said: Quantity, value: float | Fraction) -> bool:
    """Whether a number said equals a value, rounded to the digits said."""
    if said.kind == "decimal" or isinstance(value, float):
        return abs(said.value - Fraction(value)) <= Fraction(1, 2 * 10 ** (said.decimals or 0)) + Fraction(1, 10**9)
    return said.value == Fraction(value)


def read_back(fact: Fact, value: Value, text: str, wording: Wording) -> bool:
    """Whether the words of a claim give the value, by the readers alone."""
    language = wording.language
    if isinstance(value, bool):
        return text.lower() == wording.words_of(fact)["yes" if value else "no"].lower()
    if value == ():
        return [q.value for q in find_quantities(text, language)] == [0]
    if fact.dtype is Dtype.INT_ROWS:
        if not isinstance(value[0], tuple):
            return tuple(int(q.value) for q in find_quantities(text, language)) == value
        rows = value
        parts = text.split("; ") if ";" in text else re.split(r", | und | and ", text)
        return [tuple(int(q.value) for q in find_quantities(part, language)) for part in parts] == list(rows)
    if isinstance(value, str) and value in wording.words_of(fact):
        return text.lower() == wording.words_of(fact)[value].lower()
    texts = (value,) if isinstance(value, str) else value
    reader = fact.roles.reader
    if reader in READERS:
        return tuple(m.name for m in READERS[reader](text, language)) == tuple(texts)
    if fact.dtype in {Dtype.TEXT, Dtype.TEXTS}:
        if fact.id == "bit_string":
            return text.replace(" ", "") == value
        fixed = wording.words_of(fact)
        said = [SPEAKERS[reader](item, language) if reader in SPEAKERS else fixed.get(item, item) for item in texts]
        plain = text.lower()
        return all(item.lower() in plain for item in said)
    numbers = value if isinstance(value, tuple) else (value,)
    said = find_quantities(text, language, is_bound=True)
    return len(said) == len(numbers) and all(is_same_number(q, n) for q, n in zip(said, numbers, strict=True))


def places_read_back(scale: Scale, witnesses: tuple[Witness, ...], text: str, language: str) -> bool:
    pointing = re.findall(r"\b(?:here|there|hier|da|dort)\b", text)
    if pointing:
        return len(pointing) == len(witnesses)
    tones = [tone for witness in witnesses for part in witness.parts for tone in part]
    if all(w.kind is WitnessKind.CHORD for w in witnesses):
        return [c.name for c in find_chords(text, language, is_bound=True)] == [w.label for w in witnesses]
    if any(w.kind is WitnessKind.LINK for w in witnesses):
        roots = [part[0] for witness in witnesses for part in witness.parts]
        said = [note_name_to_pitch_class(c.root) for c in find_chords(text, language, is_bound=True)]
        return said == [(root + scale.root) % 12 for root in roots]
    if scale.divisions == 12:
        said = [note_name_to_pitch_class(n.name) for n in find_notes(text, language, is_bound=True)]
        return said == [(tone + scale.root) % 12 for tone in tones]
    return [int(m.name) for m in find_steps(text, language)] == tones


def check_form(text: str, language: str) -> None:
    assert text[0] == "[" or text[0].isupper() or text[0].isdigit(), text
    assert text.endswith((".", "?")), text
    assert "  " not in text, text
    assert not re.search(r"[‹›{}\[\]]", SPAN.sub("", text)), text
    assert " ." not in text, text
    assert " ," not in text, text
    plain = SPAN.sub(r"\1", text)
    assert ".." not in plain, text
    for sentence in re.split(r"(?<=[.!?]) ", plain):
        assert sentence[0].isupper() or sentence[0].isdigit(), text
    one = (
        r"(?<![-\w])[Oo]ne (?:tones|steps|modes|triads|chords|pairs|places|tritones|scales|axes|transpositions|links)\b"
    )
    many = (
        r"\b(?:[Tt]wo|[Tt]hree|[Ff]our|[Nn]o) (?:tone|step|mode|triad|chord|place|link|axis|transposition)\b(?! at all)"
    )
    eins = r"\b(?:[Ee]ins (?!Dur|Moll)[A-ZÄÖÜ]|[Ee]inen? (?:\w+ )?(?:Töne|Modi|Dreiklänge|Halbtonschritte|Septakkorde))"
    assert not re.search(one if language == "en" else eins, plain), text
    assert language != "en" or not re.search(many, plain), text


def check_nothing_unproved(text: str, language: str) -> None:
    """Outside claims stand no numbers, notes or chords."""
    rest = SPAN.sub("…", text)
    assert not find_quantities(rest, language), text
    assert not find_notes(rest, language), text
    assert not find_chords(rest, language), text


def check_statement(wording: Wording, finding: Finding, scale: Scale, text: str) -> None:
    language, fact, value = wording.language, finding.fact, finding.value
    assert value is not None
    check_form(text, language)
    check_nothing_unproved(text, language)
    for words, written in SPAN.findall(text):
        bound = attributes_of(written)
        if "each" in bound:
            index = int(bound["at"]) - 1 if "at" in bound else None
            witnesses = finding.witnesses if index is None else (finding.witnesses[index],)
            assert places_read_back(scale, witnesses, words, language), text
        else:
            assert bound["fact"] == fact.id
            part = value[int(bound["at"]) - 1] if "at" in bound and isinstance(value, tuple) else value
            assert read_back(fact, part, words, wording), (text, value)


def test_the_languages_offer_the_same_messages_and_variables():
    assert known_languages() == tuple(sorted(LANGUAGES))
    english, german = (load_messages(language) for language in LANGUAGES)
    assert set(english.ids) == set(german.ids)
    for message in english.ids:
        named = [{name for name in file.attributes(message) if len(name) > 1} for file in (english, german)]
        assert named[0] == named[1] - {"terms", "title"}, message
    for fact in FACTS:
        assert not fact.terms or wording_for("de").terms(fact), fact.id
        assert wording_for("en").terms(fact) == fact.terms


@pytest.mark.parametrize("part", usually(range(12), 0))
@pytest.mark.parametrize("language", LANGUAGES)
def test_foundation_facts_of_every_scale_are_said_and_read_back(language: str, part: int):
    wording = wording_for(language)
    for place, scale in enumerate(ROOTED[part::12]):
        for finding in profile(scale, FOUNDATION).findings:
            if finding.value is not None:
                text = wording.statement(finding.fact, finding, scale, place, is_pointing=place % 3 == 0)
                check_statement(wording, finding, scale, text)


@pytest.mark.parametrize("language", LANGUAGES)
def test_all_facts_of_a_sample_are_said_and_read_back_in_every_shape(language: str):
    wording = wording_for(language)
    for scale in SAMPLE:
        for finding in profile(scale).findings:
            if finding.value is None:
                assert wording.statement(finding.fact, finding, scale) == ""
                continue
            for variant in range(wording.variants(finding.fact)):
                text = wording.statement(finding.fact, finding, scale, variant)
                check_statement(wording, finding, scale, text)
            answer = wording.answer(finding.fact, finding, scale)
            if answer:
                check_statement(wording, finding, scale, answer)
                assert wording.question(finding.fact, scale).endswith("?")


@pytest.mark.parametrize("language", LANGUAGES)
def test_sets_without_their_root_can_be_spoken_of(language: str):
    wording = wording_for(language)
    for scale in (Scale(0), Scale(0b110), Scale(0b101010110101 ^ 0xFFF)):
        for finding in profile(scale).findings:
            for variant in range(wording.variants(finding.fact)):
                text = wording.statement(finding.fact, finding, scale, variant)
                if text:
                    check_statement(wording, finding, scale, text)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_picture_is_shown_once_at_a_claim(language: str):
    wording = wording_for(language)
    for scale in (Scale.of(0, 2, 4, 5, 7, 9, 11), Scale(0xFFF), OTHERS[4]):
        for finding in profile(scale).findings:
            if finding.value is None:
                continue
            for variant in range(wording.variants(finding.fact)):
                text = wording.statement(finding.fact, finding, scale, variant, show="clock")
                assert text.count("show=clock") == (1 if "fact=" in text else 0), text


@pytest.mark.parametrize("language", LANGUAGES)
def test_definitions_and_questions_prove_nothing_and_are_fit_for_the_ear(language: str):
    wording = wording_for(language)
    for fact in FACTS:
        held = (wording.definition(fact), wording.definition(fact, 19))
        for text in (*dict.fromkeys(held), wording.question(fact, Scale(0b10010001))):
            if not text:
                continue
            check_form(text, language)
            assert not SPAN.search(text)
            assert "(" not in text
            if fact.id != "tone_cents":  # a cent cannot be explained without saying which part of a semitone it is
                check_nothing_unproved(text, language)
            assert all(len(sentence.split()) <= 32 for sentence in re.split(r"[.:;] ", text)), text


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_definition_speaks_of_the_keyboard_outside_twelve_divisions(language: str):
    """A keyboard has twelve keys to the octave (common practice, no source)."""
    wording, keyboard = wording_for(language), re.compile(r"keyboard|\bkeys\b|Klaviatur|\bTasten\b")
    scale = Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19)
    told = [fact for fact in FACTS if not fact.reason(scale)]
    assert len(told) > 40
    assert not [fact.id for fact in told if keyboard.search(wording.definition(fact, 19))]
    mended = {fact.id for fact in told if keyboard.search(wording.definition(fact))}
    assert mended == {"pitch_classes", "complement", "is_maximally_even", "just_errors"}
    for fact in told:
        assert (wording.definition(fact, 19) != wording.definition(fact)) == (fact.id in mended)


@pytest.mark.parametrize("language", LANGUAGES)
def test_stories_prove_nothing_outside_their_slots_and_come_in_two_shapes(language: str):
    wording, messages = wording_for(language), load_messages(language)
    keys = re.findall(r"(?m)^([a-z][\w-]*) =", language_of(language).text("stories.ftl"))
    assert len(keys) > 140
    for key in keys:
        shapes = messages.shapes(key)
        assert len(shapes) >= (1 if key.startswith("word-") else 2), key
        for shape in shapes:
            spoken, deciding = messages.slots(key, shape)
            for number in (0, 1, 2):
                slots = {**dict.fromkeys(deciding, number), **dict.fromkeys(spoken, "…")}
                written = messages.format(key, shape, slots)
                text = re.sub(r"‹\w+: ([^|›]*) \| ([^›]*)›", lambda found, n=number: found[n % 2 + 1], written)
                check_nothing_unproved(as_sentences(text), language)
                if not key.startswith(("chapter-", "word-")):
                    check_form(as_sentences(text).replace("…", "X"), language)
    assert wording.tellings("walk-hear", {}, {}) == ()


@pytest.mark.parametrize("language", LANGUAGES)
def test_comparisons_modes_and_shares(language: str):
    wording = wording_for(language)
    other = "the major scale" if language == "en" else "die Durtonleiter"
    for fact in FACTS:
        if fact.counts:
            for mine, theirs in ((3, 2), (2, 3), (2, 2), (0, 1)):
                for variant in range(2):
                    text = wording.comparison(fact, mine, theirs, "C major", other, variant)
                    assert f'{{fact={fact.id} than="C major"}}' in text
                    check_form(text, language)
                    check_nothing_unproved(text, language)
        if fact.dtype is Dtype.BOOL:
            for mine, theirs in ((True, False), (True, True), (False, False)):
                for variant in range(2):
                    text = wording.comparison(fact, mine, theirs, "C major", other, variant)
                    check_form(text, language)
                    ((words, written),) = SPAN.findall(text)
                    assert attributes_of(written) == {"fact": fact.id, "of": "C major"}
                    assert read_back(fact, theirs, words, wording)
    for count, total in ((1, 462), (6, 462), (66, 462), (231, 462), (461, 462), (1, 3), (300, 100000)):
        text = wording.rarity(FACTS[0], count, total, count)
        ((words, written),) = SPAN.findall(text)
        assert attributes_of(written)["rare"] == FACTS[0].id
        (share,) = find_shares(words, language)
        assert abs(share.value - Fraction(count, total)) <= (Fraction(1, 200) if share.kind == "percent" else 0), text


# Sentences written out by hand.
def test_english_sentences_as_a_teacher_would_say_them():
    wording, major = wording_for("en"), Scale.of(0, 2, 4, 5, 7, 9, 11)
    found = {finding.fact.id: finding for finding in profile(major).findings}

    def said(fact_id: str, variant: int, scale: Scale = major) -> str:
        finding = found[fact_id] if scale == major else profile(scale, [fact_id]).findings[0]
        return SPAN.sub(r"\1", wording.statement(finding.fact, finding, scale, variant))

    assert said("semitone_steps", 0) == "It has two semitone steps: E to F and B to C."
    assert said("semitone_steps", 1) == "Two of its steps are semitones: E to F and B to C."
    assert said("semitone_steps", 1, Scale.of(0, 2, 4, 6, 8, 10)) == "None of its steps are semitones."
    assert said("tritones", 0) == "It has one tritone: F to B."
    assert said("tritones", 0, Scale.of(0, 2, 4, 7, 9)) == "It has no tritones."
    assert said("tones_without_fifth", 0) == "One tone lacks its fifth above: B."
    assert said("minor_triads", 0) == "It holds three minor triads: D minor, E minor and A minor."
    assert said("is_balanced", 0) == "The scale is not perfectly balanced."
    assert said("propriety", 0) == "The scale is proper."


def test_german_sentences_as_a_teacher_would_say_them():
    wording, major = wording_for("de"), Scale.of(0, 2, 4, 5, 7, 9, 11)

    def said(fact_id: str, variant: int, scale: Scale = major) -> str:
        finding = profile(scale, [fact_id]).findings[0]
        return SPAN.sub(r"\1", wording.statement(finding.fact, finding, scale, variant))

    assert said("semitone_steps", 0) == "Sie hat zwei Halbtonschritte: E nach F und H nach C."
    assert said("semitone_steps", 0, Scale.of(0, 2, 4, 6, 8, 10)) == "Sie hat keine Halbtonschritte."
    assert said("semitone_steps", 0, Scale.of(0, 1, 5)) == "Sie hat einen Halbtonschritt: C nach Des."
    assert said("tritones", 0) == "Sie hat einen Tritonus: F nach H."
    assert said("minor_triads", 0) == "Sie enthält drei Molldreiklänge: d-Moll, e-Moll und a-Moll."
    assert said("spelling", 0, Scale.of(10, 0, 2, 3, 5, 7, 9)) == "Ihre Töne heißen B, C, D, Es, F, G und A."
    assert said("is_balanced", 0) == "Die Tonleiter ist nicht vollkommen ausgewogen."


def test_a_fact_without_words_is_not_spoken_of():
    fact = default_registry().fact("cardinality")
    strange = replace(fact, id="hidden_tones", title="Hidden tones")
    wording = wording_for("en")
    assert not wording.speaks_of(strange)
    assert wording.statement(strange, Finding(strange, 3, ()), Scale.of(0, 4, 7)) == ""
    assert wording.definition(strange) == strange.definition


def test_marks_are_written_as_the_script_wants_them():
    assert marked("two", fact="tritones", show=None) == "[two]{fact=tritones}"
    assert marked("x", rare="a", by="class") == "[x]{rare=a by=class}"
    assert marked("x", of_='a "b"') == r'[x]{of="a \"b\""}'
    assert marked("x") == "x"


def test_bad_wording_files_are_refused():
    with pytest.raises(DomainError, match="does not parse"):
        Messages("en", "nonsense here")
    messages = Messages("en", "x =\n    .a = { $gone }")
    with pytest.raises(DomainError, match="gone"):
        messages.format("x", "a", {})
    with pytest.raises(DomainError, match="has none"):
        messages.format("x", "b", {})
    with pytest.raises(DomainError):
        Wording("tlh")


@pytest.mark.parametrize("language", LANGUAGES)
def test_languages_take_regions(language: str):
    assert wording_for(f"{language}-XX").count_in_words(3) == wording_for(language).count_in_words(3)
    assert spoken_note("C", f"{language}-XX") == "C"


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_message_is_what_fluents_own_parser_reads(language: str):
    """The Fluent syntax 1.0 as `fluent.syntax` reads it: each message and attribute of the whole file, no junk."""
    words = language_of(language)
    source = "\n".join(
        [*(words.text(f"{name}.ftl") for name in ("lesson", "stories", "scales")), *pack_messages(words)]
    )
    body = FluentParser(with_spans=True).parse(source).body
    assert not [entry for entry in body if isinstance(entry, ast.Junk)]
    read = {e.id.name: {a.id.name for a in e.attributes} for e in body if isinstance(e, ast.Message)}
    messages = load_messages(language)
    assert {key: set(messages.attributes(key)) for key in messages.ids} == read
    for key in messages.ids:
        messages.read(key)


def test_a_message_that_does_not_parse_is_refused_when_it_is_needed():
    messages = Messages("en", "x =\n    .a = { $open\n")
    with pytest.raises(DomainError, match="does not parse"):
        messages.format("x", "a", {"open": 1})


@pytest.mark.parametrize(("language", "larger", "equal"), [("en", "larger", "equal"), ("de", "größeres", "gleich")])
def test_strictly_proper_is_told_as_it_is_defined(language: str, larger: str, equal: str):
    """More steps are always a larger interval there (Rothenberg 1978, from memory): the major pentatonic scale."""
    scale = Scale.of(0, 2, 4, 7, 9)
    (found,) = profile(scale, ["propriety"]).findings
    assert found.value == "strictly proper"
    text = wording_for(language).statement(found.fact, found, scale, 1)
    assert larger in text
    assert equal not in text
