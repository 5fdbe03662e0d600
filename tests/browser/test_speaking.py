"""Recording in Chromium, with a microphone that hears a line: nothing recorded is lost, every key and button does its
work, and the screen is for everybody.

The take is compared with what was said into the microphone: its length, and the times of its words as the synthesiser
itself tells them. Peaks: 0.5 of full scale are -6.02 dB. Rules for everybody: WCAG 2.2 as axe-core checks it, and its
success criterion 2.1.4 (character key shortcuts), from memory.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import av
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.looking import VIEWS, cut_off, magnify, too_wide
from browser.microphone import BEFORE_S, LINE, microphone_file
from browser.studios import Studio, entered, on_disk, opened
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.recording import decode
from gamutwright.render.takes import Take, add_take, chosen_take, list_takes
from gamutwright.settings import takes_folder
from series.courses import script

ADDRESS = "/lesson/dorian/speak#tones"
SPOKEN_S = 1.8
"""The line lasts about this long, and the second of silence before it is over by then."""


@pytest.fixture
def teacher(hearing: Browser, studio: Studio) -> Iterator[BrowserContext]:
    """A browser with a microphone that has come in by the door; it counts in no one, to be quick."""
    made = entered(hearing, studio)
    made.add_init_script("localStorage.getItem('speak count') ?? localStorage.setItem('speak count', '0')")
    yield made
    made.close()


def takes_in(studio: Studio) -> Path:
    return takes_folder(studio.place.course / "lessons" / "dorian" / "script.md")


def takes_of(studio: Studio) -> tuple[Take, ...]:
    return list_takes(takes_in(studio), "tones")


def begin(page: Page) -> None:
    """Begin a recording with a microphone that begins at the beginning."""
    expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
    if page.inner_text("#open") == "Turn it off":
        page.click("#open")
    page.focus("#stand")
    page.keyboard.press("r")
    expect(page.locator("#stand")).to_have_attribute("data-phase", "recording")


def record(page: Page, number: int) -> None:
    begin(page)
    page.wait_for_timeout(1000 * (BEFORE_S + SPOKEN_S))
    page.keyboard.press("r")
    expect(page.locator("#said")).to_contain_text(f"Take {number} of line 2", timeout=20_000)


def laid_down(studio: Studio, folder: Path, count: int = 1) -> None:
    """Give the line takes, as if they had been recorded before."""
    path = microphone_file(folder / "line.wav")
    for _ in range(count):
        add_take(takes_in(studio), "tones", LINE, path, "en")


def test_a_line_is_recorded_by_key_judged_and_laid_along_its_words(teacher: BrowserContext, studio: Studio):
    teacher.add_init_script(
        """const ask = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
           window.asked = [];
           navigator.mediaDevices.getUserMedia = (what) => { window.asked.push(what); return ask(what); };"""
    )
    with opened(teacher, studio, ADDRESS) as page:
        expect(page.locator("#totals")).to_have_text("0 of 2 lines recorded.")
        assert page.evaluate("window.asked") == [], "no microphone is opened unasked"
        record(page, 1)
        raw = {"channelCount": 1, "echoCancellation": False, "noiseSuppression": False, "autoGainControl": False}
        assert page.evaluate("window.asked[0].audio") == raw
        expect(page.locator("#said")).to_contain_text("Its peak was −6 dB. Nothing is wrong with it.")
        expect(page.locator("#takes li")).to_contain_text("LUFS")
        expect(page.locator("[aria-current=true] small")).to_contain_text(" s")
        expect(page.locator("#totals")).to_contain_text("1 of 2 lines recorded")
        expect(page.locator("#lamp")).to_have_text("not clipped")
    (take,) = takes_of(studio)
    with av.open(str(take.path)) as file:
        stream = file.streams.audio[0]
        assert (file.format.name, stream.rate, stream.channels) == ("flac", 48_000, 1)
    said = EspeakVoice("en", 1.1, 70).speak(LINE)
    words = [LINE[word.start_char : word.end_char] for word in take.times]
    assert words == ["It", "has", "seven", "tones"]
    # A take keeps 50 ms before its first sound; the synthesiser's own line begins and ends with a little silence.
    assert take.seconds == pytest.approx(said.seconds, abs=0.3)
    assert len(decode(take.path).samples) == pytest.approx(take.seconds * 48_000, abs=1)
    shift = take.times[0].start_tick - said.words[0].start_tick
    for found, true in zip(take.times, said.words, strict=True):
        assert abs(found.start_tick - true.start_tick - shift) < 0.1 * 48_000
    assert on_disk(studio) == script(), "a line that has its id is left alone"


def test_takes_are_chosen_compared_thrown_away_and_taken_back_by_keys(teacher: BrowserContext, studio: Studio):
    with opened(teacher, studio, ADDRESS) as page:
        record(page, 1)
        record(page, 2)
        chosen = page.locator("#takes li.chosen")
        expect(chosen).to_contain_text("Take 2")
        page.click("[aria-label='Choose: take 1']")
        expect(chosen).to_contain_text("Take 1")
        assert page.evaluate("document.activeElement.id") == "takes-h", "the focus stays near"
        page.keyboard.press("u")
        expect(chosen).to_contain_text("Take 2")
        page.keyboard.press("Backspace")
        expect(page.locator("#takes li")).to_have_count(1)
        expect(page.locator("#said")).to_contain_text("U takes it back")
        assert [take.number for take in takes_of(studio)] == [1]
        page.keyboard.press("u")
        expect(page.locator("#takes li")).to_have_count(2)
        expect(chosen).to_contain_text("Take 2")
        # What was thrown away can be taken back after a reload too.
        page.keyboard.press("Backspace")
        expect(page.locator("#takes li")).to_have_count(1)
        page.reload()
        page.click("[aria-label^='Take back 2']")
        expect(page.locator("#takes li")).to_have_count(2)
        # One after the other, and from one to the other in the middle.
        page.click("[aria-label^='Compare: take 1']")
        expect(page.locator("#heard")).to_have_text("Now: Take 2.")
        page.keyboard.press("x")
        expect(page.locator("#heard")).to_have_text("Now: Take 1.")
        page.keyboard.press("x")
        expect(page.locator("#heard")).to_have_text("Now: Take 2.")
        expect(page.locator("#heard")).to_have_text("Now: Take 1.", timeout=10_000)
        length = page.evaluate(
            """() => new Promise((told) => { const sound = document.querySelector('#sound');
                 if (sound.readyState) told(sound.duration);
                 else sound.addEventListener('loadedmetadata', () => told(sound.duration), { once: true }); })"""
        )
        assert length == pytest.approx(takes_of(studio)[0].seconds, abs=0.05), "takes have a length and can be sought"
        page.evaluate("document.querySelector('#sound').currentTime = 0.5")
        assert page.evaluate("document.querySelector('#sound').currentTime") == pytest.approx(0.5, abs=0.2)
    assert chosen_take(takes_in(studio), "tones").number == 2


def test_space_plays_and_enter_goes_on(teacher: BrowserContext, studio: Studio, tmp_path: Path):
    laid_down(studio, tmp_path)
    with opened(teacher, studio, ADDRESS) as page:
        expect(page.locator("#takes li")).to_have_count(1)
        is_playing = "() => !document.querySelector('#sound').paused"
        page.keyboard.press(" ")
        page.wait_for_timeout(300)
        assert page.evaluate(is_playing)
        page.keyboard.press(" ")
        assert not page.evaluate(is_playing)
        page.keyboard.press("ArrowUp")
        expect(page.locator("#which")).to_contain_text("Line 1 of 2")
        assert page.url.endswith("#count")
        page.keyboard.press("n")
        expect(page.locator("#said")).to_have_text("Line 1.")
        # Enter ends the recording, keeps it and goes on to the next line.
        begin(page)
        page.wait_for_timeout(1000 * (BEFORE_S + SPOKEN_S))
        page.keyboard.press("Enter")
        expect(page.locator("#which")).to_contain_text("Line 2 of 2")
        expect(page.locator("#said")).to_contain_text("Take 1 of line 1", timeout=20_000)
        page.keyboard.press("n")
        expect(page.locator("#said")).to_have_text("Every line is recorded.")


def test_a_recording_thrown_away_while_it_is_made_can_be_taken_back(teacher: BrowserContext, studio: Studio):
    with opened(teacher, studio, ADDRESS) as page:
        begin(page)
        page.wait_for_timeout(1000 * (BEFORE_S + SPOKEN_S))
        page.keyboard.press("Backspace")
        expect(page.locator("#said")).to_contain_text("Take 1 is thrown away", timeout=20_000)
        assert takes_of(studio) == ()
        page.keyboard.press("u")
        expect(page.locator("#takes li")).to_have_count(1)


TONE = """navigator.mediaDevices.getUserMedia = async () => {
  const audio = new AudioContext(), tone = audio.createOscillator(), level = audio.createGain();
  const out = audio.createMediaStreamDestination();
  level.gain.value = %s;
  tone.connect(level).connect(out);
  tone.start();
  return out.stream;
};
localStorage.setItem('speak count', '0');"""


def record_tone(context: BrowserContext, studio: Studio, gain: float) -> Page:
    """Record a second and a half of a tone of 440 Hz at a known level."""
    context.add_init_script(TONE % gain)
    page = context.new_page()
    page.goto(studio.at(ADDRESS))
    begin(page)
    page.wait_for_timeout(1900)
    return page


def test_a_silent_recording_is_told_of_and_refused_with_the_reason(context: BrowserContext, studio: Studio):
    page = record_tone(context, studio, 0)
    expect(page.locator("#stand")).to_have_class(re.compile("deaf"))  # while it is still being recorded
    page.keyboard.press("r")
    expect(page.locator("#waiting")).to_contain_text("it is silent")
    expect(page.locator("#waiting")).to_contain_text("Check the microphone")
    page.click("#waiting >> text=Discard it")
    expect(page.locator("#waiting")).to_be_empty()
    assert takes_of(studio) == ()
    page.click("#test")
    expect(page.locator("#said")).to_contain_text("Is the microphone muted", timeout=10_000)
    page.close()


@pytest.mark.parametrize(("gain", "is_clipped"), [(0.99, False), (1.5, True)])
def test_the_lamp_is_lit_where_it_was_too_loud_and_not_before(
    context: BrowserContext, studio: Studio, gain: float, is_clipped: bool
):
    page = record_tone(context, studio, gain)
    expect(page.locator("#lamp")).to_have_text(re.compile("^Clipped" if is_clipped else "^not clipped"))
    page.keyboard.press("r")
    expect(page.locator("#said")).to_contain_text("Take 1 of line 2", timeout=20_000)
    assert ("clipped" in [fault.value for fault in takes_of(studio)[0].faults]) == is_clipped
    if is_clipped:
        expect(page.locator("#takes li")).to_contain_text("Turn the level down")
        page.click("#lamp")
    expect(page.locator("#lamp")).to_have_text("not clipped")
    page.close()


def test_a_recording_that_grows_too_long_ends_by_itself(context: BrowserContext, studio: Studio):
    context.route("**/lines", lambda route: route.fulfill(json=route.fetch().json() | {"longest": 3.2}))
    page = record_tone(context, studio, 0.5)
    expect(page.locator("#said")).to_contain_text("Take 1 of line 2", timeout=20_000)
    assert takes_of(studio)[0].seconds < 2
    page.close()


@pytest.mark.parametrize("ending", ["reload", "crash"])
def test_a_recording_that_is_cut_short_is_offered(teacher: BrowserContext, studio: Studio, ending: str):
    page = teacher.new_page()
    asked: list[str] = []
    page.on("dialog", lambda dialog: (asked.append(dialog.type), dialog.accept()))
    page.goto(studio.at(ADDRESS))
    begin(page)
    page.wait_for_timeout(1000 * (BEFORE_S + SPOKEN_S))
    with opened(teacher, studio, ADDRESS) as other:
        expect(other.locator("#speak")).to_have_attribute("data-ready", "yes")
        expect(other.locator("#waiting")).to_be_empty()  # what another tab is recording is its own
    if ending == "reload":
        page.reload()
        assert asked == ["beforeunload"], "leaving is asked about"
    else:
        page.close(run_before_unload=False)
        page = teacher.new_page()
        page.goto(studio.at(ADDRESS))
    expect(page.locator("#waiting")).to_contain_text("A recording of line 2 was not sent")
    expect(page.locator("#waiting")).to_contain_text(re.compile(r"[2-9]\.\d s"))
    assert takes_of(studio) == ()
    page.click("#waiting >> text=Listen")
    expect(page.locator("#sound")).to_be_visible()
    page.click("#waiting >> text=Send it")
    expect(page.locator("#said")).to_contain_text("Take 1 of line 2", timeout=20_000)
    expect(page.locator("#waiting")).to_be_empty()
    assert [LINE[word.start_char : word.end_char] for word in takes_of(studio)[0].times] == [
        "It",
        "has",
        "seven",
        "tones",
    ]
    page.reload()
    expect(page.locator("#takes li")).to_have_count(1)
    expect(page.locator("#waiting")).to_be_empty()
    page.close()


def test_a_studio_that_is_gone_gets_the_recording_when_it_is_back(teacher: BrowserContext, studio: Studio):
    page = teacher.new_page()
    page.goto(studio.at(ADDRESS))
    begin(page)
    studio.stop()
    page.wait_for_timeout(1000 * (BEFORE_S + SPOKEN_S))
    page.keyboard.press("r")
    expect(page.locator("#said")).to_contain_text("It is kept in this browser")
    studio.start()
    # The door opens with a new key after a restart: come in again, in another tab.
    other = teacher.new_page()
    other.goto(studio.door)
    other.close()
    expect(page.locator("#said")).to_contain_text("Take 1 of line 2", timeout=20_000)
    assert len(takes_of(studio)) == 1
    page.close(run_before_unload=False)


def test_words_change_in_place_and_the_take_is_stale(teacher: BrowserContext, studio: Studio, tmp_path: Path):
    laid_down(studio, tmp_path)
    with opened(teacher, studio, ADDRESS) as page:
        expect(page.locator("#takes li")).to_have_count(1)
        page.keyboard.press("e")
        assert page.input_value("#markup") == "It has [seven]{fact=cardinality} tones."
        page.fill("#markup", "It has [nine]{fact=cardinality} tones by the quay.")
        # Leaving does not lose what was typed.
        page.reload()
        page.locator("#takes li").wait_for()
        page.keyboard.press("e")
        assert "quay" in page.input_value("#markup")
        page.keyboard.press("Control+Enter")
        expect(page.locator("#warning")).to_contain_text(f"which says: “{LINE}”")
        expect(page.locator("[aria-current=true]")).to_have_class(re.compile("stale"))
        expect(page.locator("#words")).to_have_text("It has nine tones by the quay.")
        expect(page.locator("#totals")).to_contain_text("1 stale")
        assert "by the quay. {#tones}" in on_disk(studio)
        # A change elsewhere is said and written over by nobody.
        page.keyboard.press("e")
        path = studio.place.course / "lessons" / "dorian" / "script.md"
        path.write_text(path.read_text("utf-8").replace("by the quay", "at the mole"), encoding="utf-8")
        page.fill("#markup", "It has [seven]{fact=cardinality} tones.")
        page.click("text=Save the words")
        expect(page.locator("#said")).to_contain_text("changed elsewhere")
        assert "at the mole" in on_disk(studio)
        assert page.input_value("#markup") == "It has [seven]{fact=cardinality} tones."
        page.click("text=Save the words")
        expect(page.locator("[aria-current=true]")).to_have_class(re.compile("recorded"))
        assert on_disk(studio) == script()


def test_single_keys_rest_while_somebody_types_and_where_they_are_off(
    teacher: BrowserContext, studio: Studio, tmp_path: Path
):
    laid_down(studio, tmp_path)
    with opened(teacher, studio, ADDRESS) as page:
        expect(page.locator("#takes li")).to_have_count(1)
        page.keyboard.press("e")
        page.keyboard.type(" r?nu")
        page.keyboard.press("Backspace")
        assert page.input_value("#markup").endswith(" r?n")
        page.keyboard.press("Escape")
        assert page.evaluate("document.activeElement.id") == "stand"
        page.focus("#device")
        page.keyboard.press("r")
        page.focus("#single")
        page.keyboard.press(" ")
        page.focus("#stand")
        for key in ("r", "Backspace", "?", "Enter", "ArrowUp"):
            page.keyboard.press(key)
        expect(page.locator("#stand")).to_have_attribute("data-phase", "idle")
        expect(page.locator("#keys")).to_be_hidden()
        expect(page.locator("#which")).to_contain_text("Line 2")
        assert len(takes_of(studio)) == 1
        page.check("#single")
        page.focus("#stand")
        page.keyboard.press("Control+r")  # a key with another one belongs to the browser
        page.locator("#takes li").wait_for()
        page.keyboard.press("?")
        expect(page.locator("#key-list dt")).to_have_count(15)
        for key in ("R", "Space", "Enter", "Backspace", "↑", "↓", "?"):
            expect(page.locator("#key-list")).to_contain_text(key)
        page.keyboard.press("r")
        expect(page.locator("#stand")).to_have_attribute("data-phase", "idle")
        page.keyboard.press("Escape")
        expect(page.locator("#keys")).to_be_hidden()


def test_the_count_the_meter_and_the_trial(teacher: BrowserContext, studio: Studio):
    with opened(teacher, studio, ADDRESS) as page:
        expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
        assert page.is_checked("#click") is False
        assert page.is_checked("#processed") is False
        assert page.locator(".level-scale span").all_inner_texts() == ["−40", "−20", "−12", "−6", "0"]
        page.click("#test")
        expect(page.locator("#said")).to_have_text(
            "That is a good level. The peak was −6 dB. You hear it now.", timeout=10_000
        )
        expect(page.locator("#device option")).not_to_have_count(1)
        page.select_option("#device", index=1)
        wanted = page.input_value("#device")
        expect(page.locator("#said")).to_have_text("The microphone is on.")
        page.select_option("#countin", "3")
        page.focus("#stand")
        page.keyboard.press("r")
        expect(page.locator("#count")).to_have_text("3")
        expect(page.locator("#stand")).to_have_attribute("data-phase", "counting")
        expect(page.locator("#count")).to_have_text("1")
        expect(page.locator("#stand")).to_have_attribute("data-phase", "recording")
        expect(page.locator("#count")).to_be_empty()
        # The level is seen while it is recorded: the line peaks at half of full scale.
        expect(page.locator("[role=meter]")).to_have_attribute("aria-valuetext", "−6 dB", timeout=10_000)
        page.keyboard.press("r")
        expect(page.locator("#said")).to_contain_text(re.compile("Take 1|silent"), timeout=20_000)
        page.keyboard.press("r")
        expect(page.locator("#count")).to_have_text("3")
        page.keyboard.press("r")  # in the count: nothing is recorded
        expect(page.locator("#said")).to_have_text("Not recorded.")
        page.reload()
        expect(page.locator("#device")).to_have_value(wanted)


def test_a_microphone_that_may_not_be_used_is_said(browser: Browser, studio: Studio):
    context = entered(browser, studio)
    page = context.new_page()
    page.goto(studio.at(ADDRESS))
    expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
    page.keyboard.press("r")
    expect(page.locator("#said")).to_contain_text(re.compile("Allow it|Plug one in|cannot be opened"))
    expect(page.locator("#stand")).to_have_attribute("data-phase", "idle")
    context.close()


def test_a_file_is_taken_in(context: BrowserContext, studio: Studio, tmp_path: Path):
    with opened(context, studio, ADDRESS) as page:
        expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
        page.set_input_files("#file", microphone_file(tmp_path / "mine.wav"))
        expect(page.locator("#takes li")).to_have_count(1)
        assert takes_of(studio)[0].source == "mine.wav"
        (tmp_path / "words.txt").write_text("no sound")
        page.set_input_files("#file", tmp_path / "words.txt")
        expect(page.locator("#said")).to_contain_text("cannot be read as sound")


def test_the_prompter_has_its_size_its_mirror_and_the_pace_of_the_takes(
    context: BrowserContext, studio: Studio, tmp_path: Path
):
    with opened(context, studio, "/lesson/dorian/speak#count") as page:
        expect(page.locator("#next")).to_have_text(f"Then: {LINE}")
        # Eighteen words and four at the usual 140 a minute: 60 * 18 / 140 and 60 * 22 / 140 seconds.
        expect(page.locator("#pace")).to_have_text(
            "18 words, about 7.7 s at 140 words a minute. Still to record: 2 lines, about 9.4 s."
        )
        size = "parseFloat(getComputedStyle(document.querySelector('#words')).fontSize)"
        before = page.evaluate(size)
        page.keyboard.press("+")
        assert page.evaluate(size) > before
        page.keyboard.press("-")
        page.keyboard.press("-")
        assert page.evaluate(size) < before
        page.keyboard.press("m")
        assert page.evaluate("getComputedStyle(document.querySelector('#words')).transform").startswith("matrix(-1")
        page.reload()
        expect(page.locator("#mirror")).to_have_attribute("aria-pressed", "true")
        assert page.evaluate(size) < before, "both are remembered"
        page.keyboard.press("o")
        expect(page.locator("#lines-h")).to_be_hidden()
        page.keyboard.press("Escape")
        expect(page.locator("#lines-h")).to_be_visible()
    text = script().replace("tones. {#tones}", "tones, and every one of them is heard tonight by the harbour. {#tones}")
    (studio.place.course / "lessons" / "dorian" / "script.md").write_text(text, encoding="utf-8")
    line = "It has seven tones, and every one of them is heard tonight by the harbour."
    take = add_take(takes_in(studio), "tones", line, microphone_file(tmp_path / "line.wav"), "en")
    with opened(context, studio, "/lesson/dorian/speak#count") as page:
        rate = round(min(240, 60 * len(line.split()) / take.seconds))
        expect(page.locator("#pace")).to_contain_text(f"at {rate} words a minute, your pace so far")


def test_what_a_script_says_stays_text(context: BrowserContext, studio: Studio):
    hostile = "<b>Seven</b> &lt;img src=x onerror='window.broken = 1'&gt; tones"
    path = studio.place.course / "lessons" / "dorian" / "script.md"
    path.write_text(
        script(title="</textarea><script>window.broken = 1</script>") + f"\n\\{hostile}.\n", encoding="utf-8"
    )
    with opened(context, studio, "/lesson/dorian/speak") as page:
        expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
        page.wait_for_timeout(200)
        assert page.evaluate("window.broken") is None
        assert page.locator("main img, main b").count() == 0


def test_a_script_that_cannot_be_read_is_said(context: BrowserContext, studio: Studio):
    path = studio.place.course / "lessons" / "dorian" / "script.md"
    path.write_text(script() + "\n- a list\n", encoding="utf-8")
    with opened(context, studio, "/lesson/dorian/speak") as page:
        expect(page.locator("#words")).to_contain_text("begins a list")


def test_the_first_load_is_small(context: BrowserContext, studio: Studio):
    page = context.new_page()
    sizes: list[int] = []
    page.on("response", lambda response: sizes.append(int(response.headers.get("content-length", 0))))
    page.goto(studio.at("/lesson/dorian/speak"), wait_until="networkidle")
    assert 0 < sum(sizes) < 80_000
    page.close()


@pytest.mark.parametrize(("shade", "widths"), VIEWS)
def test_the_screen_is_for_everybody(
    browser: Browser, context: BrowserContext, studio: Studio, tmp_path: Path, shade: str, widths: tuple[int, ...]
):
    laid_down(studio, tmp_path, 2)
    for width in widths:
        # The check of axe-core is evaluated in the page, which the studio's policy forbids.
        made = browser.new_context(
            viewport={"width": width, "height": 900},
            color_scheme=shade,
            storage_state=context.storage_state(),
            bypass_csp=True,
        )
        page = made.new_page()
        page.goto(studio.at(ADDRESS))
        expect(page.locator("#takes li")).to_have_count(2)
        page.click("[aria-label='Throw away: take 2']")
        expect(page.locator("#takes li")).to_have_count(1)
        page.keyboard.press(" ")
        page.keyboard.press("e")
        for is_large in (False, True):
            if is_large:
                magnify(page)
            found = Axe().run(page)
            assert found.violations_count == 0, found.generate_report()
            assert too_wide(page) <= 0
            assert cut_off(page) == []
        page.keyboard.press("Escape")
        if width == 360:
            page.click("#keys-open")
            assert Axe().run(page).violations_count == 0
            page.keyboard.press("Escape")
        page.click("[aria-label^='Take back 2']")
        expect(page.locator("#takes li")).to_have_count(2)
        made.close()
