"""The page as a learner opens it: from the disk, by keyboard, with eyes and ears that differ, without a network."""

from __future__ import annotations

import base64
import io
import itertools
import json
import re
from pathlib import Path

import av
import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from lxml import html
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from browser.looking import focused, too_wide
from gamutwright.diagrams.phrases import phrase
from gamutwright.lessons.credits import Credits
from gamutwright.publish.page.document import Media
from gamutwright.publish.page.document import page as page_text
from gamutwright.publish.quiz.question import Choice, Question
from gamutwright.render.theme import contrast
from publish.lessons import lesson, lesson_from, source_of
from thinning import thinned, usually

RATE = 48_000
MEDIA = Media("film.mp4", "poster.png", width=160, height=90)
QUIZ = (
    Question(
        "semitones",
        "How many of its steps are semitones?",
        (
            Choice("1", is_right=False, why="1 would be another scale."),
            Choice("2", is_right=True, why="C♯ to D and E to F are 2."),
        ),
        "semitone_steps",
    ),
    Question(
        "rise",
        "Listen. Does it rise first?",
        (Choice("Yes", is_right=True, why="Up, then down."), Choice("No", is_right=False, why="It begins low.")),
        "spelling",
        "scale::",
    ),
)
LESSONS = {
    "acoustic": ("G acoustic",),
    "german": ("C melodic minor", "de"),
    "nineteen": ("0 3 6 8 11 14 17", "en", 4.0, 19),
    "chromatic": ("C chromatic",),
}
SEEN = "el => { const b = el.getBoundingClientRect(); return b.width > 0 && b.height > 0; }"

# An audio context that renders as fast as it can instead of playing, and can be asked for its samples.
OFFLINE = """
window.AudioContext = class extends OfflineAudioContext {
  constructor() { super(1, 48000 * 8, 48000); window.heard = this; }
  resume() { return Promise.resolve(); }
};
window.samples = async () => {
  const buffer = await window.heard.startRendering();
  const bytes = new Uint8Array(buffer.getChannelData(0).buffer);
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(text);
};
"""

# What the page does after a while, it does twenty times later, so that a busy machine sees it in between.
PATIENT = "{ const soon = setTimeout; window.setTimeout = (what, ms) => soon(what, 20 * ms); }"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Pages of several lessons beside a small grey film that is as long as the longest of them."""
    at = tmp_path_factory.mktemp("pages")
    lessons = {name: lesson(*key) for name, key in LESSONS.items()}
    for name, one in lessons.items():
        sounds = {**one.sounds, "scale::": phrase("scale", one.scale)}
        (at / f"{name}.html").write_text(
            page_text(one, QUIZ, media=MEDIA, json_ld="{}", sounds=sounds).html, encoding="utf-8"
        )
    (at / "sound.html").write_text(page_text(lessons["acoustic"], media=Media(audio="film.mp4")).html, encoding="utf-8")
    Image.new("RGB", (160, 90), "#334455").save(at / "poster.png")
    seconds = int(max(one.seconds for one in lessons.values())) + 2
    with av.open(str(at / "film.mp4"), "w") as film:
        stream = film.add_stream("libx264", rate=2)
        stream.width, stream.height, stream.pix_fmt = 160, 90, "yuv420p"
        for _ in range(2 * seconds):
            frame = av.VideoFrame.from_ndarray(np.full((90, 160, 3), 90, np.uint8), format="rgb24")
            film.mux(stream.encode(frame))
        film.mux(stream.encode())
    return at


def opened(page: Page, folder: Path, name: str = "acoustic", width: int = 1440, scheme: str = "light") -> Page:
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    page.goto((folder / f"{name}.html").as_uri())
    return page


VIEWS = [
    ("acoustic", 360),
    ("acoustic", 768),
    ("acoustic", 1440),
    ("german", 360),
    ("nineteen", 360),
    ("chromatic", 1440),
]
USUAL = {("acoustic", 1440, "light"), ("german", 360, "dark")}


@pytest.mark.parametrize(
    ("name", "width", "scheme"),
    [
        pytest.param(*view, scheme, marks=() if (*view, scheme) in USUAL else pytest.mark.long)
        for view in VIEWS
        for scheme in ("light", "dark")
    ],
)
def test_no_barrier_is_found(page: Page, folder: Path, name: str, width: int, scheme: str):
    """axe-core's rules for WCAG 2.2 A and AA, and its own good practice."""
    opened(page, folder, name, width, scheme)
    page.click("#quiz .choice >> nth=0")
    page.click("#quiz .choice >> nth=1")
    page.click("#key0")
    found = Axe().run(page).response
    assert found["violations"] == []
    assert too_wide(page) == 0
    assert len(found["passes"]) > 25


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_and_controls_stand_out(page: Page, folder: Path, scheme: str):
    """WCAG 2.2, 1.4.3 and 1.4.11: words 4.5:1, what is needed to see a control 3:1, by its formula."""
    opened(page, folder, scheme=scheme)
    page.click("#key0")
    looks = page.evaluate(
        """() => { const of = name => {
             const c = getComputedStyle(document.documentElement).getPropertyValue(name).trim(); return c; };
           return Object.fromEntries(['ground', 'ink', 'quiet', 'now', 'other', 'good', 'wrong'].map(
             name => [name, [of(`--${name}`), of(`--${name}-text`)]])); }"""
    )
    ground = looks["ground"][0]
    for role, (mark, text) in looks.items():
        if role != "ground":
            assert contrast(mark, ground) >= 3
            assert contrast(text, ground) >= 4.5
    body = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert "#" + "".join(f"{int(part):02X}" for part in re.findall(r"\d+", body)) == ground


@pytest.mark.parametrize(("name", "size"), thinned(itertools.product(LESSONS, [1.0, 2.0]), 0.5))
def test_nothing_is_cut_off_on_a_phone(page: Page, folder: Path, name: str, size: float):
    """WCAG 2.2, 1.4.4 and 1.4.10: 200 % text, and reflow at 320 CSS pixels."""
    opened(page, folder, name, 320 if size == 1 else 360)
    page.evaluate(f"document.documentElement.style.fontSize = '{17 * size}px'")
    assert too_wide(page) == 0
    cut = page.evaluate(
        """() => [...document.querySelectorAll('h1, h2, h3, p, dd, li, button')].filter(el => {
             const box = el.getBoundingClientRect();
             return box.width && !el.closest('.skip, .unseen, svg') && (box.left < -1 || box.right > innerWidth + 1);
           }).map(el => el.outerHTML.slice(0, 80))"""
    )
    assert cut == []


@pytest.mark.parametrize("name", usually(LESSONS, "acoustic", "nineteen"))
def test_targets_are_large_enough(page: Page, folder: Path, name: str):
    """WCAG 2.2, 2.5.8: 24 by 24 CSS pixels; links inside sentences are excepted."""
    opened(page, folder, name, 360)
    small = page.evaluate(
        """() => [...document.querySelectorAll('button, input, .chapters a, nav a, .line a.time')].filter(el => {
             const box = el.getBoundingClientRect();
             return box.width && (box.width < 24 || box.height < 24);
           }).map(el => [el.id || el.className, el.getBoundingClientRect().width, el.getBoundingClientRect().height])"""
    )
    assert small == []


def test_nothing_leaves_the_disk(page: Page, folder: Path):
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    opened(page, folder)
    page.click("#key4")
    page.click("#run")
    page.click(".hear")
    page.click(".chapters a >> nth=1")
    page.wait_for_function("document.getElementById('film').currentTime > 1")
    assert asked
    assert {url.partition(":")[0] for url in asked} <= {"file", "data", "blob"}
    assert {Path(url).name for url in asked if url.startswith("file:")} <= {"acoustic.html", "film.mp4", "poster.png"}


def test_names_stay_names(page: Page, folder: Path):
    evil = '</title></script><script>window.hurt=1;alert(1)</script><img src=x onerror="window.hurt=2">'
    source = source_of("G acoustic").replace("scale:", f'title: {evil}\ncourse: {evil}\nnext: "{evil}"\nscale:', 1)
    made = lesson_from(source, Credits(evil, supporters=(evil, "\u202eAna", "Ž" * 300)))
    choices = (Choice(evil, is_right=True, why=evil), Choice("b", is_right=False, why=evil))
    asks = (Question("x", evil, choices, "spelling"),)
    media = Media("film.mp4", "poster.png", files=((evil, "a b'\".pdf"),))
    (folder / "evil.html").write_text(
        page_text(made, asks, media=media, json_ld=json.dumps([evil])).html, encoding="utf-8"
    )
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    opened(page, folder, "evil", 360)
    page.click("#quiz .choice >> nth=0")
    assert page.inner_text("h1") == evil
    assert evil in page.inner_text(".reason")
    assert page.title() == evil
    assert page.evaluate("window.hurt") is None
    assert dialogs == []
    assert page.locator("img").count() == 0
    assert too_wide(page) == 0


def test_keys_walk_to_everything(page: Page, folder: Path):
    """WAI-ARIA Authoring Practices, toolbar: one stop of the tab key, arrows inside (from memory)."""
    opened(page, folder)
    page.keyboard.press("Tab")
    assert focused(page) == "skip"
    page.keyboard.press("Enter")
    assert focused(page) == "lesson"
    stops = []
    for _ in range(200):
        page.keyboard.press("Tab")
        stops.append(focused(page))
        if stops[-1] == "choice":
            break
    assert stops.count("rung0") == 1
    assert stops.count("key0") == 1
    assert not {f"rung{k}" for k in range(1, 13)} & set(stops)
    assert {"film", "transcript", "run", "volume"} <= set(stops)
    page.focus("#rung0")
    walked = []
    for key in ("ArrowRight", "ArrowUp", "ArrowDown", "Home", "End", "ArrowRight", "ArrowLeft"):
        page.keyboard.press(key)
        walked.append(focused(page))
    assert walked == ["rung2", "rung4", "rung2", "rung0", "rung12", "rung0", "rung12"]
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Enter")
    assert page.inner_text("#readout").startswith("F:")
    page.keyboard.press("Tab")
    assert focused(page) == "key0"
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Space")
    assert page.inner_text("#readout").startswith("A♭:")
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline == "solid"


def test_a_screen_reader_hears_names(page: Page, folder: Path):
    opened(page, folder)
    ladder = page.get_by_role("toolbar", name="Ladder of steps")
    assert [button.get_attribute("aria-label") for button in ladder.get_by_role("button").all()] == [
        "G, the root", "A", "B", "C sharp", "D", "E", "F", "G, the octave",
    ]  # fmt: skip
    assert page.get_by_role("toolbar", name="Keyboard").get_by_role("button").count() == 13
    for landmark in ("banner", "main", "contentinfo", "navigation"):
        assert page.get_by_role(landmark).count() == 1
    assert page.get_by_role("img", name=re.compile("ladder of one octave in 12 equal steps")).count() == 1


def samples(page: Page) -> NDArray[np.float64]:
    """Render what is heard; sent as text, since a list of so many numbers takes seconds."""
    return np.frombuffer(base64.b64decode(page.evaluate("window.samples()")), "<f4").astype(float)


def pitch_hz(sound: NDArray[np.float64]) -> float:
    """The strongest frequency, by a parabola through the logarithms of a windowed spectrum."""
    windowed = sound * np.hanning(len(sound))
    spectrum = np.log(np.abs(np.fft.rfft(windowed, 8 * len(sound))) + 1e-12)
    top = int(spectrum.argmax())
    low, middle, high = spectrum[top - 1 : top + 2]
    return (top + (low - high) / (2 * (low - 2 * middle + high))) * RATE / (8 * len(sound))


def cents(one: float, other: float) -> float:
    return abs(1200 * np.log2(one / other))


@pytest.mark.parametrize(
    ("name", "press", "want"),
    [
        # Keys of the MIDI scale at 440 * 2**((k - 69) / 12) Hz (MIDI Tuning Standard, from memory).
        ("acoustic", "#rung0", 440 * 2 ** ((55 - 69) / 12)),
        pytest.param("acoustic", "#rung6", 440 * 2 ** ((61 - 69) / 12), marks=pytest.mark.long),
        pytest.param("acoustic", "#key3", 440 * 2 ** ((58 - 69) / 12), marks=pytest.mark.long),
        pytest.param("acoustic", "#key12", 440 * 2 ** ((67 - 69) / 12), marks=pytest.mark.long),
        pytest.param("german", "#key9", 440.0, marks=pytest.mark.long),
        # An n-th of the octave is a ratio of 2**(1/n); middle C lies three quarters of an octave below 440 Hz.
        ("nineteen", "#rung11", 440 * 2 ** (11 / 19 - 0.75)),
        pytest.param("nineteen", "#key18", 440 * 2 ** (18 / 19 - 0.75), marks=pytest.mark.long),
    ],
)
def test_a_press_sounds_the_pitch_of_the_tuning(page: Page, folder: Path, name: str, press: str, want: float):
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder, name)
    page.click(press)
    assert page.locator(".sounding").count() >= 1
    sound = samples(page)
    assert cents(pitch_hz(sound[2400:36_000]), want) < 0.5
    assert np.abs(sound[0]) < 1e-3
    assert np.abs(sound[48_000:]).max() < 1e-4


def test_the_run_goes_up_and_down_in_tune(page: Page, folder: Path):
    """G A B C♯ D E F G and back: keys 55 57 59 61 62 64 65 67 of the MIDI scale."""
    page.add_init_script(OFFLINE)
    opened(page, folder)
    page.click("#run")
    sound = samples(page)
    up = [55, 57, 59, 61, 62, 64, 65, 67]
    for index, key in enumerate([*up, *up[-2::-1]]):
        start = int((index * 0.45 + 0.12) * RATE)
        heard = pitch_hz(sound[start : start + int(0.3 * RATE)])
        assert cents(heard, 440 * 2 ** ((key - 69) / 12)) < 5, index


def test_the_run_can_be_stopped(page: Page, folder: Path):
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder)
    for label in ("Stop", "Play up and down", "Stop"):
        page.click("#run")
        assert page.inner_text("#run") == label
    assert page.get_attribute("#run", "aria-pressed") == "true"


def test_a_listening_question_plays_the_sound_of_the_lesson(page: Page, folder: Path):
    page.add_init_script(OFFLINE)
    opened(page, folder)
    page.click(".hear")
    sound = samples(page)
    notes = [note for note in phrase("scale", lesson().scale).notes if note.end_tick < 8 * RATE]
    assert len(notes) > 5
    for note in notes:
        middle = note.start_tick + note.duration_ticks // 2
        heard = pitch_hz(sound[middle - 7_000 : middle + 7_000])
        assert cents(heard, note.freq_hz) < 6


def test_it_never_gets_loud(page: Page, folder: Path):
    """However much is pressed, at full volume, nothing exceeds 12 dB below full scale: a limit of our own."""
    page.add_init_script(OFFLINE)
    opened(page, folder)
    page.fill("#volume", "1")
    page.click("#key0")
    one = np.abs(samples(page)).max()
    assert 10 ** (-26 / 20) < one < 10 ** (-12 / 20)
    opened(page, folder)
    page.fill("#volume", "1")
    page.evaluate("document.querySelectorAll('.key').forEach(key => key.click())")
    page.click("#run")
    assert np.abs(samples(page)).max() <= 10 ** (-12 / 20)
    opened(page, folder)
    page.fill("#volume", "0")
    page.click("#key0")
    assert np.abs(samples(page)).max() < 1e-5


def test_tones_begin_and_end_without_a_click(page: Page, folder: Path):
    """A tone that is cut short by the next fades: no sample leaps further than two tones together, each left alone."""
    page.add_init_script(OFFLINE)
    opened(page, folder)
    page.fill("#volume", "1")
    page.evaluate("document.getElementById('key12').click()")
    alone = samples(page)
    opened(page, folder)
    page.fill("#volume", "1")
    page.evaluate("for (const step of [0, 7, 12]) document.getElementById(`key${step}`).click()")
    steepest = np.abs(np.diff(alone)).max()
    assert np.abs(np.diff(samples(page))).max() < 2 * steepest
    assert 2 * steepest < np.abs(alone).max(), "a leap would be seen"


def test_ladder_and_keyboard_light_the_same_tone_where_it_is_drawn(page: Page, folder: Path):
    """The button of a tone stands on its drawn rung."""
    page.add_init_script(PATIENT)
    opened(page, folder)
    page.click("#key6")
    assert page.evaluate("[...document.querySelectorAll('.sounding')].map(el => el.id).sort()") == ["key6", "rung6"]
    apart = page.evaluate(
        """() => [...document.querySelectorAll('.rung')].map(button => {
             const name = `rung ${button.dataset.step}`;
             const drawn = document.querySelector(`.ladder [data-name="${name}"]`).getBoundingClientRect();
             const box = button.getBoundingClientRect();
             return Math.hypot(box.x + box.width / 2 - drawn.x - drawn.width / 2,
                               box.y + box.height / 2 - drawn.y - drawn.height / 2); })"""
    )
    assert len(apart) == 8
    assert max(apart) < 1.0
    page.click("#key12")
    assert page.evaluate("[...document.querySelectorAll('.sounding')].map(el => el.id).sort()") == ["key12", "rung12"]


def test_times_lead_into_the_film_and_the_line_is_marked(page: Page, folder: Path):
    opened(page, folder)
    made = lesson()
    page.wait_for_function("document.getElementById('film').readyState >= 1")
    for index, mark in enumerate(made.timeline.chapters):
        page.click(f".chapters a >> nth={index}")
        page.wait_for_function(f"Math.abs(document.getElementById('film').currentTime - {mark.start_tick / RATE}) < 1")
    line = [line for line in made.script.lines if line.text][9]
    start = next(timed.start_tick for timed in made.timeline.lines if timed.id == line.id) / RATE
    page.click(".line .time >> nth=9")
    page.wait_for_selector(".line[aria-current]")
    page.wait_for_function(
        f"document.querySelector('.line[aria-current] .said')?.textContent === {json.dumps(line.text)}"
    )
    assert page.evaluate("document.getElementById('film').currentTime") >= start - 0.01
    assert page.locator(".chapters a[aria-current]").count() == 1
    page.click("#key0")
    assert page.evaluate("document.getElementById('film').paused"), "a tone is not heard over the film"


def test_captions_are_inside(page: Page, folder: Path):
    opened(page, folder)
    page.wait_for_function("document.querySelector('track').readyState === 2")
    cues = page.evaluate(
        "[...document.getElementById('film').textTracks[0].cues].map(cue => [cue.startTime, cue.endTime, cue.text])"
    )
    captions = lesson().timeline.captions
    assert [text for _, _, text in cues] == [caption.text for caption in captions]
    assert [start for start, _, _ in cues] == pytest.approx([c.start_tick / RATE for c in captions], abs=0.001)
    assert page.evaluate("document.getElementById('film').textTracks[0].mode") == "showing"


def test_quiz_by_keyboard_says_why_and_counts_the_first_choice(page: Page, folder: Path):
    opened(page, folder)
    page.focus("#quiz-semitones .choice >> nth=0")
    page.keyboard.press("Enter")
    reason = page.locator("#quiz-semitones .reason")
    assert reason.inner_text() == "Not this one. 1 would be another scale."
    assert reason.get_attribute("role") == "status"
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert reason.inner_text() == "Right. C♯ to D and E to F are 2."
    assert page.inner_text("#score") == "0 of 2 right at the first choice."
    page.click("#quiz-rise .choice >> nth=0")
    assert page.inner_text("#score") == "1 of 2 right at the first choice."
    assert page.get_attribute("#score", "role") == "status"
    assert not page.is_visible("#quiz-rise .answers")


def test_dark_is_chosen_and_remembered(page: Page, folder: Path):
    opened(page, folder)
    button = page.get_by_role("button", name="Dark colours")
    assert button.get_attribute("aria-pressed") == "false"
    button.click()
    dark = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert dark == "rgb(16, 21, 31)"
    page.wait_for_function("localStorage.getItem('lesson-theme') === 'dark'")
    page.reload()
    page.wait_for_function(f"getComputedStyle(document.body).backgroundColor === {json.dumps(dark)}")
    assert button.get_attribute("aria-pressed") == "true"
    page.evaluate("localStorage.clear()")
    page.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('none') } })")
    page.reload()
    button.click()
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == dark


def test_without_scripts_words_pictures_and_film_remain(browser: Browser, folder: Path):
    context = browser.new_context(java_script_enabled=False, viewport={"width": 768, "height": 900})
    plain = context.new_page()
    plain.goto((folder / "acoustic.html").as_uri())
    assert plain.is_visible("video")
    assert plain.is_visible(".ladder svg")
    assert plain.locator("article.fact figure svg").count() >= 3
    assert plain.is_visible(f"text={next(line.text for line in lesson().script.lines if line.text)}")
    assert plain.get_attribute(".chapters a >> nth=1", "href").startswith("./film.mp4#t=")
    plain.click(".answers summary >> nth=0")
    assert plain.is_visible("text=C♯ to D and E to F are 2.")
    assert not plain.is_visible("#run")
    assert not plain.is_visible("#theme")
    context.close()


def test_sound_alone_has_its_times_too(page: Page, folder: Path):
    opened(page, folder, "sound")
    assert page.is_visible("audio")
    assert page.locator("video").count() == 0
    page.wait_for_function("document.getElementById('film').readyState >= 1")
    page.click(".line .time >> nth=3")
    page.wait_for_function("document.getElementById('film').currentTime > 1")


def test_on_paper_it_is_ink(page: Page, folder: Path):
    opened(page, folder, scheme="dark")
    page.emulate_media(media="print", color_scheme="dark")
    for name in ("video", "#run", ".keys", ".rung >> nth=0", "nav", ".skip", "#theme", ".hear"):
        assert not page.is_visible(name), name
    for name in (".ladder svg", ".line .said >> nth=0", ".fact figure >> nth=0", "#quiz-rise .choice >> nth=0"):
        assert page.is_visible(name), name
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    with Image.open(io.BytesIO(page.screenshot(full_page=True))) as picture:
        pixels = np.asarray(picture.convert("RGB")).astype(int)
    assert (pixels.max(axis=2) - pixels.min(axis=2)).max() < 12, "one ink"
    paper = PdfReader(io.BytesIO(page.pdf(format="A4")))
    assert 2 <= len(paper.pages) <= 8
    text = " ".join(sheet.extract_text() for sheet in paper.pages)
    for word in ("G acoustic", "Semitone steps", "Tonic", "How many of its steps"):
        assert word in " ".join(text.split())


def test_reduced_motion_is_kept(page: Page, folder: Path):
    opened(page, folder)
    moving = page.evaluate(
        """() => [...document.querySelectorAll('body *:not(track)')].filter(el => {
             const s = getComputedStyle(el);
             return s.animationName !== 'none' || !/^0s(, 0s)*$/.test(s.transitionDuration)
               || s.scrollBehavior === 'smooth'; }).length"""
    )
    assert moving == 0


def test_every_number_that_appears_by_script_is_traced(page: Page, folder: Path):
    opened(page, folder)
    page.click("#key4")
    page.click("#quiz-semitones .choice >> nth=0")
    document = html.document_fromstring(page.content())
    for place in ("readout", "score"):
        element = document.get_element_by_id(place)
        assert re.search(r"\d", element.text)
        assert element.get("data-from")
    assert document.get_element_by_id("readout").get("data-from") == "tuning:4"
