"""The page as text: every number traced, every name harmless, every pitch and place as theory says."""

from __future__ import annotations

import base64
import hashlib
import io
import json
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont
from lxml import html

from gamutwright.errors import DomainError
from gamutwright.lessons.credits import Credits
from gamutwright.publish.page.document import Media, page
from gamutwright.publish.page.letters import _letters, font_rules
from gamutwright.publish.quiz.question import Choice, Question
from gamutwright.publish.told_lesson import Lesson
from gamutwright.theory.tuning import QUARTER_COMMA_MEANTONE
from publish.lessons import lesson, lesson_from, source_of
from publish.markup import sound
from thinning import usually

FILM = Media("film.mp4", "poster.png", captions="captions.vtt", files=(("Handout", "handout.pdf"),))
LESSONS = {
    "acoustic": ("G acoustic",),
    "German": ("C melodic minor", "de"),
    "nineteen": ("0 3 6 8 11 14 17", "en", 4.0, 19),
    "chromatic": ("C chromatic",),
    "five tones, long": ("F# major pentatonic", "en", 9.0),
}
QUIZ = (
    Question(
        "how-many-semitones",
        "How many of its 7 steps are semitones?",
        (
            Choice("1", is_right=False, why="1 belongs to another scale."),
            Choice("2", is_right=True, why="C♯ to D and E to F: 2 places."),
        ),
        "semitone_steps",
    ),
    Question(
        "hear-it",
        "Does it rise first?",
        (Choice("Yes", is_right=True, why="Up."), Choice("No", is_right=False, why="")),
        "spelling",
        "tune-over-drone::",
    ),
)
HOSTILE = (
    '</title></script><script>alert(1)</script><img src=x onerror="alert(2)">',
    "\"' onmouseover=alert(3) x='",
    "{{ 7*7 }}{% raw %}",
    "\u202eהפוך\u0000\x07👩‍👩‍👧 Möwe",
    "]]><!--" + "x" * 300,
)


@pytest.fixture(params=usually(LESSONS, "acoustic", "German", "nineteen"), scope="module")
def made(request: pytest.FixtureRequest) -> Lesson:
    return lesson(*LESSONS[request.param])


def tree(text: str) -> html.HtmlElement:
    return html.document_fromstring(text)


def data_of(text: str) -> dict:
    return json.loads(tree(text).get_element_by_id("data").text)


def origin_of(element: html.HtmlElement) -> str | None:
    for at in (element, *element.iterancestors()):
        if at.get("data-from"):
            return at.get("data-from")
    return None


def read(document: html.HtmlElement) -> list[tuple[html.HtmlElement, str]]:
    """Every text that somebody sees or hears, with the element it stands in."""
    found = []
    for element in document.iter():
        if not isinstance(element.tag, str) or element.tag in {"script", "style", "meta", "defs"}:
            continue
        if element.text:
            found.append((element, element.text))
        found += [
            (element, element.get(name)) for name in ("aria-label", "alt", "title", "data-text") if element.get(name)
        ]
        found += [(element, child.tail) for child in element if child.tail]
    return found


def test_every_number_is_on_the_list_with_its_origin(made: Lesson):
    written = page(made, QUIZ, media=FILM)
    text, printed = written.html, written.printed
    numbers = [(at, said) for at, said in read(tree(text)) if re.search(r"\d", said)]
    assert len(numbers) > 40
    for element, said in numbers:
        origin = origin_of(element)
        assert origin, (element.tag, said)
        words = " ".join(said.split())
        assert any(where == origin and words in " ".join(listed.split()) for where, listed in printed), (origin, said)


def test_printed_facts_and_times_are_those_of_the_lesson(made: Lesson):
    """Times: minutes and whole seconds elapsed, as players show them (common practice, no source)."""
    document = tree(page(made, media=FILM).html)
    for telling in made.tellings:
        entry = document.get_element_by_id(f"fact-{telling.fact.id}")
        assert entry.find_class("value")[0].text_content() == telling.text
        assert telling.definition in entry.text_content()
        assert all(citation.locator in entry.text_content() for citation in telling.sources)
    spoken = {line.id: line for line in made.timeline.lines}
    lines = document.find_class("line")
    texts = [line.find_class("said")[0].text_content() for line in lines]
    assert texts == [line.text for line in made.script.lines if line.text]
    for shown, line in zip(lines, (line for line in made.script.lines if line.text), strict=True):
        minutes, seconds = divmod(spoken[line.id].start_tick // 48_000, 60)
        assert shown.find_class("seek")[0].text_content().split()[-1] == f"{minutes}:{seconds:02d}"
        assert float(shown.get("data-at")) == pytest.approx(spoken[line.id].start_tick / 48_000, abs=0.001)


def test_claims_lead_to_their_facts():
    document = tree(page(lesson(), media=FILM).html)
    links = {(link.get("href"), link.text) for link in document.xpath("//span[@class='said']//a")}
    assert ("#fact-colour_tones", "C sharp") in links
    assert ("#fact-tonic", "G major") in links


@pytest.mark.parametrize(("key", "low"), [("acoustic", 55), ("German", 60)])
def test_pitches_are_those_of_twelve_equal_semitones(key: str, low: int):
    """Key k of the MIDI scale sounds at 440 * 2**((k - 69) / 12) Hz (MIDI Tuning Standard, from memory)."""
    tones = data_of(page(lesson(*LESSONS[key]), media=FILM).html)["tones"]
    assert list(map(int, tones)) == list(range(13))
    for step, (freq_hz, _) in tones.items():
        assert freq_hz == pytest.approx(440 * 2 ** ((low + int(step) - 69) / 12), rel=1e-12)


def test_pitches_of_nineteen_divisions():
    """An n-th of the octave is a ratio of 2**(1/n); middle C is three quarters of an octave below 440 Hz."""
    tones = data_of(page(lesson(*LESSONS["nineteen"]), media=FILM).html)["tones"]
    assert [freq for freq, _ in tones.values()] == pytest.approx(
        [440 * 2 ** (step / 19 - 0.75) for step in range(20)], rel=1e-12
    )


def test_another_tuning_is_what_sounds():
    """The major third of quarter-comma meantone is pure, 5/4 (Barbour 1951, from memory)."""
    tones = data_of(page(lesson(*LESSONS["German"]), media=FILM, tuning=QUARTER_COMMA_MEANTONE).html)["tones"]
    assert tones["4"][0] / tones["0"][0] == pytest.approx(5 / 4, rel=1e-12)
    with pytest.raises(DomainError, match="twelve keys"):
        page(lesson(*LESSONS["nineteen"]), media=FILM, tuning=QUARTER_COMMA_MEANTONE)


def test_run_goes_up_to_the_octave_and_back(made: Lesson):
    tones = list(made.scale.tones)
    up = [*tones, made.scale.divisions]
    assert data_of(page(made, media=FILM).html)["run"] == up + list(reversed(up))[1:]


def test_rungs_stand_at_their_heights(made: Lesson):
    """Step k of n stands at k/n of the way from the root's rung to that of its octave; no two meet."""
    text, n = page(made, media=FILM).html, made.scale.divisions
    rules = re.findall(r"#rung(\d+)\{left:([\d.]+)%;top:([\d.]+)%;width:[\d.]+%;height:([\d.]+)%", text)
    assert [int(step) for step, *_ in rules] == [*made.scale.tones, n]
    tops = [float(top) for _, _, top, _ in rules]
    for (step, left, _, _), top in zip(rules, tops, strict=True):
        assert (tops[0] - top) / (tops[0] - tops[-1]) == pytest.approx(int(step) / n, abs=0.001)
        assert left == rules[0][1]
    gaps = [low - high for low, high in pairwise(tops)]
    assert max(float(height) for *_, height in rules) <= min(gaps) + 0.01


def test_black_keys_stand_between_their_neighbours():
    """C# D#, F# G# A#: the layout of every piano (common practice, no source); here from G."""
    text = page(lesson(), media=FILM).html
    places = {int(step): float(left) for step, left in re.findall(r"#key(\d+)\{left:([\d.]+)%", text)}
    assert sorted(places, key=places.get) == list(range(13))
    document = tree(text)
    black = [int(key.get("data-step")) for key in document.find_class("black")]
    assert black == [1, 3, 6, 8, 11]  # G♯ A♯ C♯ D♯ F♯ above G
    names = [key.get("aria-label") for key in document.find_class("key")]
    assert names[:3] == ["G, the root", "A flat, not in the scale", "A"]
    assert names[12] == "G, the octave"


@pytest.mark.parametrize(
    ("speaker", "said"),
    [("", "spoken by the teacher; a voice"), ("Ada Merrin <b>", "Ada Merrin <b>; a voice")],
)
def test_recordings_are_the_teachers_unless_a_speaker_is_named(speaker: str, said: str):
    source = source_of("G acoustic").replace("scale:", f"speaker: {speaker}\nscale:", 1)
    made = lesson_from(source, Credits("a voice", is_recorded=True))
    text = " ".join(tree(page(made, QUIZ, media=FILM).html).text_content().split())
    assert f"Voice {said}" in text or f"Voice{said}" in text
    unheard = tree(page(lesson_from(source, Credits("a voice")), QUIZ, media=FILM).html).text_content()
    assert "spoken by" not in unheard
    assert "Ada" not in unheard


def test_nothing_typed_becomes_markup():
    head = "\n".join(
        f"{key}: {text}" for key, text in zip(("title", "course", "lesson", "next"), HOSTILE, strict=False)
    )
    source = source_of("G acoustic").replace("scale:", f"{head}\nscale:", 1)
    made = lesson_from(source, Credits(voice=HOSTILE[0], supporters=HOSTILE))
    media = Media("film.mp4", files=((HOSTILE[0], 'a"><script>.pdf'),))
    text = page(made, QUIZ, media=media, json_ld=json.dumps({"name": HOSTILE[0]})).html
    document = tree(text)
    assert [script.get("type") for script in document.iter("script")] == [
        "application/ld+json",
        "application/json",
        "module",
    ]
    assert not document.xpath("//img")
    assert not [name for element in document.iter() for name in element.attrib if name.startswith("on")]
    assert json.loads(next(document.iter("script")).text)["name"] == HOSTILE[0]
    assert "{{ 7*7 }}" in document.text_content()
    assert not re.search("[\u202a-\u202e\u2066-\u2069\x00-\x08]", text)
    assert "👩‍👩‍👧 Möwe" in text.replace("&#x200d;", "\u200d")
    shown = document.xpath("//bdi")
    assert {HOSTILE[0], HOSTILE[1]} <= {name.text_content() for name in shown}
    assert all(re.match(r"#|\./", link.get("href")) for link in document.xpath("//a"))


@pytest.mark.parametrize(
    "name", ["/etc/film.mp4", "../film.mp4", "https://a.example/film.mp4", "a/../../film.mp4", "\\\\a"]
)
def test_files_lie_beside_the_page(name: str):
    with pytest.raises(DomainError, match="beside"):
        Media(film=name)


def test_what_is_wrong_is_refused():
    choices = (Choice("1", is_right=True, why=""), Choice("2", is_right=False, why=""))
    asks = (Question("a", "?", choices, "spelling", "nowhere"),)
    with pytest.raises(DomainError, match="not among the sounds"):
        page(lesson(), asks, media=FILM)
    with pytest.raises(DomainError, match="no JSON"):
        page(lesson(), media=FILM, json_ld="{")


def test_the_policy_allows_this_style_and_this_script_alone(made: Lesson):
    """A source expression is the SHA-256 of the element's text, base64 (CSP Level 3, from memory)."""
    text = page(made, QUIZ, media=FILM).html
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', text)[1].replace("&#39;", "'")
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy
    assert "http" not in policy
    for kind, pattern in (("style", r"<style>(.*?)</style>"), ("script", r'<script type="module">(.*?)</script>')):
        (inside,) = re.findall(pattern, text, re.DOTALL)
        want = base64.b64encode(hashlib.sha256(inside.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{want}'" in policy
    assert not re.search(r"<[^>]+ style=", text)
    assert not re.search(r"""(src|href)=["'](https?:)?//""", text)


@pytest.mark.parametrize("media", [FILM, Media(audio="lesson.opus"), Media()], ids=["film", "audio", "words"])
def test_markup_is_sound(made: Lesson, media: Media):
    text = page(made, QUIZ, media=media, json_ld="{}").html
    document = sound(text)
    assert bool(document.xpath("//video")) == bool(media.film)
    assert bool(document.xpath("//audio")) == bool(media.audio)


def test_page_is_small_and_always_the_same(made: Lesson):
    text = page(made, QUIZ, media=FILM).html
    assert len(text.encode()) < 400_000
    _letters.cache_clear()
    assert page(made, QUIZ, media=FILM).html == text


def test_words_are_in_the_language_of_the_lesson():
    document = tree(page(lesson("C melodic minor", "de"), QUIZ, media=FILM).html)
    assert document.get("lang") == "de"
    assert document.get("dir") == "ltr"
    said = " ".join(text for _, text in read(document))
    for word in ("Transcript", "Sources", "Listen at", "Keyboard", "the root", "from memory", "step of"):
        assert word not in said
    assert "Es" in {tone.get("aria-label") for tone in document.find_class("rung")}


def test_cautions_stand_where_they_are_due():
    text = tree(page(lesson(), media=FILM).html).text_content()
    assert text.count("Listen at a moderate level") >= 2
    source = source_of("D dorian", minutes=12.0, story="portrait")
    made = lesson_from(source)
    assert "traditional_names" in {telling.fact.id for telling in made.tellings}
    told = tree(page(made, media=FILM).html).text_content()
    assert "Hindustani" in told
    assert "it is not the tuning of the tradition" in told


def test_pages_share_their_type_where_they_can():
    """Signs have a font of their own, and what no face holds is left to the reader's."""
    shared = font_rules("G acoustic")
    assert font_rules("Lydisch auf F♯ – “übermäßig” −1 🎻 \u05e9") == shared
    assert font_rules("Ő") != shared


def test_type_holds_the_letters_and_the_signs():
    """Signs stand among letters as they do in the pictures; heights are thousandths of an em."""
    fonts = re.findall(r"font-family:'([^']+)'[^}]*?base64,([A-Za-z0-9+/=]+)", font_rules("Ő E♭"))
    found = {name: TTFont(io.BytesIO(base64.b64decode(data))) for name, data in fonts}
    assert ord("Ő") in found["Lesson Sans"].getBestCmap()
    signs = found["Lesson Signs"]
    assert {chr(code) for code in signs.getBestCmap()} == set("♭♮♯𝄪𝄫")
    heights = {}
    for code, name in signs.getBestCmap().items():
        pen = BoundsPen(signs.getGlyphSet())
        signs.getGlyphSet()[name].draw(pen)
        left, low, right, high = pen.bounds
        assert 0 <= left < right <= signs["hmtx"][name][0] + 40
        heights[chr(code)] = (low, high)
    # A flat stands on the line and reaches about as high as a letter with an ascender; a sharp is centred on capitals.
    assert -60 < heights["♭"][0] < 40
    assert abs(sum(heights["♯"]) / 2 - 330) < 30


def shared(text: str) -> dict[str, str]:
    return {one.get("property"): one.get("content") for one in html.fromstring(text).iterfind(".//meta[@property]")}


def test_what_is_shown_where_the_address_is_shared():
    """The Open Graph protocol: title, type, image and address; whole addresses (ogp.me, from memory)."""
    made = lesson()
    beside = shared(page(made, media=FILM).html)
    assert (beside["og:title"], beside["og:type"], beside["og:image"]) == (made.title, "video.other", "poster.png")
    assert beside["og:description"]
    assert "og:url" not in beside
    at = "https://school.example/scales/acoustic/"
    there = shared(page(made, media=replace(FILM, address=at)).html)
    assert (there["og:url"], there["og:image"], there["og:video"]) == (at, f"{at}poster.png", f"{at}film.mp4")
    assert there["og:locale"] == "en"
    silent = shared(page(lesson(*LESSONS["German"]), media=Media()).html)
    assert (silent["og:type"], silent["og:locale"]) == ("article", "de")
    assert not {"og:image", "og:video"} & silent.keys()
    for hostile in HOSTILE:
        source = source_of("C E G").replace("---\n", f"---\ncourse: {' '.join(hostile.split())}\n", 1)
        assert "<script>alert" not in page(lesson_from(source), media=FILM).html


def test_edges_and_scrollbars_are_of_the_ground():
    """A browser paints the canvas and its scrollbars by these (CSS Color Adjust 1, CSS Scrollbars 1, from memory)."""
    text = page(lesson(), media=FILM).html
    assert '<meta name="color-scheme" content="light dark">' in text
    # However the sheet is laid out.
    style = re.sub(r"\s*([{}:;,])\s*", r"\1", text)
    assert re.search(r"html\{background:var\(--ground\);scrollbar-color:var\(--quiet\) var\(--ground\)", style)
    assert ":root:not([data-theme=light]){color-scheme:dark" in text
