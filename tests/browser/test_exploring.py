"""Explore in Chromium: one set of tones in two pictures, heard, played in, undone, compared, searched, for everybody.

Rules for everybody: WCAG 2.2 as axe-core checks it.
"""

from __future__ import annotations

import itertools
import re
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from browser.looking import VIEWS, cut_off, too_wide
from browser.studios import Studio, entered, on_disk, opened
from gamutwright.catalogue.shares import shares_of
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse

FIRST_LOAD_BYTES = 80_000
PANELS = ("facts", "near", "beside", "find")
LIT = """() => { window.seen = [];
  new MutationObserver(() => {
    const now = [...document.querySelectorAll('.rung.lit')].map(rung => rung.textContent).join(' ');
    if (now && now !== window.seen.at(-1)) window.seen.push(now);
  }).observe(document.querySelector('#ladder'), {subtree: true, attributes: true, attributeFilter: ['class']}); }"""
"""Notes which tones are lit, however long the test takes to look."""
HEARD = """(() => { window.heard = []; window.levels = []; window.ended = 0;
  const start = OscillatorNode.prototype.start, stop = OscillatorNode.prototype.stop;
  OscillatorNode.prototype.start = function (...when) {
    window.heard.push(Math.round(this.frequency.value * 10) / 10); return start.apply(this, when); };
  OscillatorNode.prototype.stop = function (...when) { window.ended += 1; return stop.apply(this, when); };
  const ramp = AudioParam.prototype.linearRampToValueAtTime;
  AudioParam.prototype.linearRampToValueAtTime = function (value, at) {
    window.levels.push(value); return ramp.call(this, value, at); }; })()"""
"""Notes the frequencies of what is played."""
MIDI = """(() => {
  const input = {name: 'Quayside 49', onmidimessage: null};
  window.asked = [];
  window.midi = {inputs: new Map([['1', input]]), onstatechange: null};
  window.play = (bytes, at) => input.onmidimessage?.({data: new Uint8Array(bytes), timeStamp: at});
  navigator.requestMIDIAccess = async options => { window.asked.push(options); return window.midi; }; })()"""
"""A keyboard of MIDI 1.0: 0x9n or 0x8n, note, velocity, where note on with velocity 0 is note off (from memory)."""


@pytest.fixture(scope="module", autouse=True)
def _counted() -> None:
    """The catalogue of twelve divisions is there, as after the first minute of a studio."""
    shares_of(12)


def tones(page: Page, kind: str = "rung") -> str:
    found = page.evaluate(
        "kind => [...document.querySelectorAll(`.${kind}[aria-pressed=true]`)].map(one => one.textContent)", kind
    )
    return " ".join(found)


def explored(page: Page, title: str) -> None:
    expect(page.locator("#name")).to_have_text(title, timeout=15_000)


def test_a_scale_is_set_by_hand_by_keys_and_by_words(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        expect(page.locator(".rung[aria-pressed=true]")).to_have_count(7)
        # Flatten the third and the seventh by hand: the dorian mode (common practice, no source).
        for step in (4, 3, 11, 10):
            page.click(f".rung[data-step='{step}']")
        explored(page, "C dorian")
        assert "C+D+Eb+F+G+A+Bb" in page.url
        # From the root two tones on, and the second tone becomes the root.
        page.focus(".rung[data-step='0']")
        for key in ("ArrowRight", "ArrowRight", "r"):
            page.keyboard.press(key)
        explored(page, "D phrygian")
        assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "D, the root"
        page.fill("#text", "G acoustic")
        page.keyboard.press("Enter")
        explored(page, "G acoustic")
        page.fill("#text", "nonsense")
        page.keyboard.press("Enter")
        expect(page.locator("#said")).to_contain_text("nonsense", timeout=15_000)
        explored(page, "G acoustic")


def test_the_places_of_a_fact_are_shown_one_after_another(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        page.evaluate(LIT)
        page.fill("#sift", "semitone steps")
        page.click("[aria-label='Show and play: Semitone steps']")
        # The semitones of the major scale lie between E and F and between B and C (common practice, no source).
        expect(page.locator(".rung[data-step='11']")).to_have_class(re.compile("lit"), timeout=15_000)
        expect(page.locator(".rung.lit")).to_have_count(0, timeout=15_000)
        assert page.evaluate("window.seen") == ["E F", "C B"]


def test_a_click_changes_both_pictures_at_once(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        changed = page.evaluate(
            """() => { const rung = document.querySelector(".rung[data-step='6']"); rung.click();
                 return [rung, document.querySelector(".key[data-step='6']")]
                   .map(one => one.getAttribute('aria-pressed'))
                   .concat(document.querySelectorAll('#ladder .step').length); }"""
        )
        assert changed == ["true", "true", 8]


def test_a_double_flat_is_drawn_from_the_font_that_is_sent(context: BrowserContext, studio: Studio):
    """G flat phrygian has A double flat and so on (common practice, no source); few systems have the sign."""
    with opened(context, studio, "/explore?scale=Gb+phrygian") as page:
        explored(page, "G flat phrygian")
        expect(page.locator("#ladder")).to_contain_text("𝄫", timeout=15_000)
        # The page asks for the font by itself, since it shows the sign.
        sent, drawn = page.evaluate(
            """async () => {
                 while ([...document.fonts].every(font => font.status !== 'loaded'))
                   await new Promise(resolve => setTimeout(resolve, 50));
                 const pen = document.createElement('canvas').getContext('2d'), one = document.createElement('span');
                 pen.font = '100px "Studio Signs"';
                 one.style.fontSize = '100px'; one.style.position = 'absolute'; one.textContent = '𝄫';
                 document.body.append(one);
                 return [pen.measureText('𝄫').width, one.getBoundingClientRect().width]; }"""
        )
        assert drawn == pytest.approx(sent, abs=1)


def test_every_step_of_the_scale_is_a_bar_with_its_size(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=A+B+C+D+E+F+G%23") as page:
        explored(page, "A harmonic minor")
        sizes = "() => [...document.querySelectorAll('#ladder .size')].map(one => one.textContent).join(' ')"
        # Whole, half, whole, whole, half, one and a half, half (common practice, no source).
        assert page.evaluate(sizes) == "2 1 2 2 1 3 1"
        for step in (2, 3, 5, 7, 8, 11):
            page.click(f".rung[data-step='{step}']")
        assert page.evaluate(sizes) == "12"
        expect(page.locator("#said")).to_contain_text("One tone.")


def test_keys_set_tones_and_sound_them(context: BrowserContext, studio: Studio):
    context.add_init_script(HEARD)
    with opened(context, studio, "/explore?scale=A+B+C%23+E+F%23") as page:
        explored(page, "A major pentatonic")
        assert tones(page, "key") == "A B C♯ E F♯ A"
        page.click(".key[data-step='12']")
        expect(page.locator("#said")).to_contain_text("root belongs")
        # The fourth above A is D: from the octave back by keys, seven steps.
        for _ in range(7):
            page.keyboard.press("ArrowLeft")
        page.keyboard.press("Space")
        assert tones(page) == "A B C♯ D E F♯"
        expect(page.locator("#said")).to_contain_text("6 tones")
        # D4 where A4 is 440 Hz (ISO 16), one equal fifth below A4; the keys stand at and above A4.
        assert page.evaluate("window.heard") == pytest.approx([880.0 * 2 ** (-7 / 12)], abs=0.1)
        page.keyboard.press("Space")
        assert tones(page) == "A B C♯ E F♯"
        assert len(page.evaluate("window.heard")) == 1, "what is taken out is not sounded"
        # From D four steps down to B flat, which stays out; Home is the root.
        page.keyboard.press("Home")
        assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "A, the root"
        page.fill("#divisions", "19")
        page.fill("#text", "0 5 11")
        page.keyboard.press("Enter")
        explored(page, "3 of 19")
        expect(page.locator("#keyboard")).to_be_hidden()


def test_a_late_answer_leaves_what_is_being_typed(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        held: list[Route] = []
        page.route("**/api/scale?bits=*", lambda route: held.append(route))  # noqa: PLW0108 - a list has no marks of its own
        page.click(".rung[data-step='6']")
        page.fill("#text", "G acoustic")
        while not held:
            page.wait_for_timeout(20)
        held[0].continue_()
        expect(page.locator("#said")).to_contain_text("8 tones")
        expect(page.locator("#text")).to_have_value("G acoustic")
        page.keyboard.press("Enter")
        explored(page, "G acoustic")
        expect(page.locator("#text")).to_have_value("G A B C# D E F")


def test_the_keys_lie_as_on_a_piano(context: BrowserContext, studio: Studio):
    # Between C and C: white, black, white, black, white, white, black, ... (common practice, no source).
    with opened(context, studio, "/explore?scale=E+flat+dorian") as page:
        explored(page, "E flat dorian")
        shown = page.evaluate(
            """() => [...document.querySelectorAll('.key')].map(key => [key.classList.contains('short'),
                 key.getBoundingClientRect().left, key.getBoundingClientRect().right])"""
        )
        from_e_flat = [True, False, False, True, False, True, False, True, False, False, True, False, True]
        assert [is_short for is_short, *_ in shown] == from_e_flat
        white = [(left, right) for is_short, left, right in shown if not is_short]
        assert all(abs(one[1] - other[0]) < 1 for one, other in itertools.pairwise(white))
        middles = [(left + right) / 2 for _, left, right in shown]
        assert middles == sorted(middles)
        whole = page.locator("#keys").bounding_box()
        assert whole
        assert min(left for _, left, _ in shown) == pytest.approx(whole["x"], abs=1)
        assert max(right for *_, right in shown) == pytest.approx(whole["x"] + whole["width"], abs=1)


def test_a_midi_keyboard_sets_the_scale(context: BrowserContext, studio: Studio):
    context.add_init_script(MIDI)
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        assert page.evaluate("window.asked") == [], "nothing is asked before the click"
        page.click("#midi")
        expect(page.locator("#midi-said")).to_contain_text("Listening to Quayside 49")
        assert page.evaluate("window.asked") == [{"sysex": False}]

        def play(note: int, at: float, off: tuple[int, int] = (0x80, 64)) -> None:
            page.evaluate("([bytes, at]) => window.play(bytes, at)", [[0x93, note, 80], at])
            page.evaluate("([bytes, at]) => window.play(bytes, at)", [[off[0], note, off[1]], at + 200])

        # Two octaves apart and out of order: E G B D, each ended in one of the two ways; E is the first.
        for number, note in enumerate((64, 79, 59, 86)):
            play(note, 1000 + 400 * number, (0x80, 64) if number % 2 else (0x90, 0))
        expect(page.locator("#said")).to_contain_text("4 tones", timeout=15_000)
        assert tones(page) == "E G B D"
        # After three seconds without a key held, another scale begins; a chord held together is one.
        for note in (60, 63, 67):
            page.evaluate("([bytes, at]) => window.play(bytes, at)", [[0x90, note, 70], 9000])
        page.evaluate("() => window.play([0xF8], 9001)")
        page.evaluate("() => window.play([0xB0, 64, 127], 9002)")
        expect(page.locator("#said")).to_contain_text("3 tones", timeout=15_000)
        assert tones(page) == "C E♭ G"
        # Still held: a late tone belongs to it.
        page.evaluate("() => window.play([0x90, 70, 70], 20000)")
        expect(page.locator("#said")).to_contain_text("4 tones", timeout=15_000)
        assert tones(page) == "C E♭ G B♭"
        # Each scale that was played is one step of the work.
        page.click("#undo")
        expect(page.locator(".rung.root")).to_have_text("E", timeout=15_000)
        expect(page.locator("#said")).to_contain_text("4 tones")
        assert tones(page) == "E G B D"
        page.click("#midi")
        expect(page.locator("#midi")).to_have_text("Listen to a MIDI keyboard")
        page.evaluate("() => window.play([0x90, 61, 70], 30000)")
        assert tones(page) == "E G B D"


def test_bytes_are_read_as_the_standard_has_them(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore") as page:
        explored(page, "D dorian")
        # Channel voice messages of MIDI 1.0, from memory; everything else is left alone.
        cases: list[tuple[list[int], Any]] = [
            ([0x90, 60, 1], {"note": 60, "isOn": True}),
            ([0x9F, 127, 127], {"note": 127, "isOn": True}),
            ([0x90, 60, 0], {"note": 60, "isOn": False}),
            ([0x80, 60, 64], {"note": 60, "isOn": False}),
            ([0xA0, 60, 64], None),
            ([0xB0, 64, 127], None),
            ([0xFE], None),
            ([0x90, 60], None),
            ([0xF0, 0x7E, 0xF7], None),
            ([], None),
        ]
        read = page.evaluate(
            """async cases => {
                 const at = document.querySelector('script[src*=explore]').src.replace('explore', 'midi');
                 const {read} = await import(at); return cases.map(bytes => read(new Uint8Array(bytes))); }""",
            [bytes_ for bytes_, _ in cases],
        )
        assert read == [expected for _, expected in cases]


def test_a_browser_without_midi_says_so(context: BrowserContext, studio: Studio):
    context.add_init_script("delete Navigator.prototype.requestMIDIAccess")
    with opened(context, studio, "/explore") as page:
        expect(page.locator("#midi-said")).to_have_text("This browser cannot listen to a MIDI keyboard.")
        expect(page.locator("#midi")).to_be_hidden()


def test_a_browser_that_is_not_allowed_to_listen_says_so(context: BrowserContext, studio: Studio):
    context.add_init_script(
        "navigator.requestMIDIAccess = () => Promise.reject(new DOMException('no', 'NotAllowedError'))"
    )
    with opened(context, studio, "/explore") as page:
        page.click("#midi")
        expect(page.locator("#midi-said")).to_contain_text("not allowed")
        expect(page.locator("#midi")).to_have_text("Listen to a MIDI keyboard")


def test_steps_are_taken_back_by_buttons_keys_and_the_browser(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        expect(page.locator("#undo")).to_have_attribute("aria-disabled", "true")
        # Quicker than any answer comes.
        page.evaluate(
            "() => { for (const step of [6, 5]) document.querySelector(`.rung[data-step='${step}']`).click(); }"
        )
        explored(page, "C lydian")
        page.click("#undo")
        expect(page.locator("#said")).to_contain_text("8 tones")
        page.keyboard.press("Control+z")
        explored(page, "C major")
        page.keyboard.press("Control+y")
        expect(page.locator("#said")).to_contain_text("8 tones")
        page.click("#redo")
        explored(page, "C lydian")
        expect(page.locator("#redo")).to_have_attribute("aria-disabled", "true")
        page.reload()
        explored(page, "C lydian")
        page.go_back()
        expect(page.locator("#said")).to_contain_text("8 tones")
        page.go_forward()
        explored(page, "C lydian")
        # What is typed is a step as well; while somebody types, Ctrl-Z belongs to the field.
        page.fill("#text", "D dorian")
        page.keyboard.press("Enter")
        explored(page, "D dorian")
        page.keyboard.press("Control+z")
        page.wait_for_timeout(300)
        explored(page, "D dorian")
        page.click("#undo")
        explored(page, "C lydian")


def test_an_address_leads_back_to_the_same_work(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=0+5+11&divisions=19") as page:
        explored(page, "3 of 19")
        page.click("#beside-tab")
        page.fill("#other", "0 6 11")
        page.keyboard.press("Enter")
        expect(page.locator("#both .pairs").first).to_contain_text("5 to 6", timeout=15_000)
        kept = page.url.removeprefix(studio.at(""))
    with opened(context, studio, kept) as page:
        explored(page, "3 of 19")
        expect(page.locator("#both .pairs").first).to_contain_text("5 to 6", timeout=15_000)
        # A lesson has the divisions of its scale, whatever others of the course have.
        page.click("#write")
        page.wait_for_url(re.compile("/lesson/19-divisions-0-5-11$"))
    drafted = on_disk(studio, "19-divisions-0-5-11")
    assert "divisions: 19\n" in drafted
    assert "scale: 0 5 11\n" in drafted
    assert not check(parse(drafted)).faults


def test_relatives_are_one_click_away(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        page.focus("#facts-tab")
        page.keyboard.press("ArrowRight")
        assert page.evaluate("document.activeElement.id") == "near-tab"
        for words, title in (
            ("E phrygian", "E phrygian"),
            ("A aeolian", "A natural minor"),
            ("D aeolian", "D natural minor"),
            ("D harmonic minor", "D harmonic minor"),
        ):
            # A mode by its name, another, the fourth above as a root, and the seventh raised.
            called = [f"#near-panel a[aria-label='{one}'], #near-panel a:text-is('{one}')" for one in (words, title)]
            link = page.locator(", ".join(called)).first
            expect(link).to_be_visible(timeout=15_000)
            link.press("Enter")
            explored(page, title)
            # The relatives are those of the new scale before one of them is chosen.
            expect(page.locator("#near-panel")).to_contain_text(re.compile(rf"(?:{title}|{words})[\d\s]*this one"))
        page.click("#undo")
        explored(page, "D natural minor")
        href = page.locator("#near-panel a:text-is('C mixolydian'), #near-panel a:text-is('C dorian')").first
        assert "scale=C+D" in str(href.get_attribute("href")), "it can be opened in a tab of its own"


def test_a_scale_is_kept_and_compared(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major#beside") as page:
        explored(page, "C major")
        page.click("#keep")
        expect(page.locator("#beside-said")).to_contain_text("C major is kept")
        page.click(".rung[data-step='5']")
        page.click(".rung[data-step='6']")
        explored(page, "C lydian")
        expect(page.locator("#both .pairs").first).to_contain_text("F♯ to F", timeout=15_000)
        assert page.evaluate("document.querySelectorAll('#other-tones circle').length") == 7
        assert page.evaluate("document.querySelector('img.both').decode().then(() => true)")
        expect(page.locator("#both table").first).to_contain_text("2 2 2 1 2 2 1")
        page.select_option("#speed", "0.24")
        page.evaluate(LIT)
        page.click("text=Hear one after the other")
        # Up both scales with the octave, the second with F instead of F sharp.
        for _ in range(150):
            if len(seen := page.evaluate("window.seen")) >= 15:
                break
            page.wait_for_timeout(100)
        assert " ".join(seen) == "C D E F♯ G A B C D E F G A B C"
        page.click("#facts-tab")
        assert page.evaluate("document.querySelectorAll('#other-tones circle').length") == 0
        page.click("#beside-tab")
        page.fill("#other", "X y")
        page.keyboard.press("Enter")
        expect(page.locator("#beside-said")).to_contain_text("X", timeout=15_000)


def test_the_catalogue_is_searched(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=D+dorian#find") as page:
        explored(page, "D dorian")
        page.click("#help summary")
        page.click("text=Two sizes of every interval")
        expect(page.locator("#find-said")).to_contain_text("scales, page 1 of", timeout=15_000)
        assert page.input_value("#condition").startswith("is_myhill")
        first = page.locator("#found tbody th").first.text_content()
        page.click("#found >> text=Later")
        expect(page.locator("#find-said")).to_contain_text("page 2 of", timeout=15_000)
        assert page.locator("#found tbody th").first.text_content() != first
        # The modes of the diatonic set: as many as it has tones (Forte 1973, 7-35), here from D.
        page.fill("#condition", "forte_label = '7-35'")
        page.keyboard.press("Enter")
        expect(page.locator("#find-said")).to_have_text("7 scales.", timeout=15_000)
        page.select_option("#sort", "semitone_steps")
        page.click("#found a:text-is('D E F♯ G A B C♯')")
        explored(page, "D major")
        expect(page.locator("#find-tab")).to_have_attribute("aria-selected", "true")
        page.fill("#column", "tritones")
        page.click("#columns >> text=Tritones")
        expect(page.locator("#condition")).to_have_value("forte_label = '7-35' AND tritones = 1")
        page.fill("#condition", "tritone = = 1")
        page.keyboard.press("Enter")
        expect(page.locator("#find-said")).to_contain_text("character 11", timeout=15_000)
        page.fill("#condition", "cardinality = 13")
        page.keyboard.press("Enter")
        expect(page.locator("#find-said")).to_contain_text("No scale meets this", timeout=15_000)


def test_a_catalogue_that_is_missing_is_built_with_progress_and_cancelled(context: BrowserContext, studio: Studio):
    told = {"divisions": 24, "state": "missing", "share": 0.0, "left": None, "message": "", "is_quick": False}
    asked: list[str] = []

    def answer(route: Route) -> None:
        asked.append(f"{route.request.method} {route.request.url.rsplit('/', 1)[-1]}")
        if asked[-1] == "POST build":
            told.update(state="building", share=0.25, left=21.3)
        if asked[-1] == "POST cancel":
            told.update(state="failed", message="It was cancelled.")
        route.fulfill(json=told)

    with opened(context, studio, "/explore?scale=0+5+11&divisions=24") as page:
        page.route("**/api/catalogue/24**", answer)
        explored(page, "3 of 24")
        assert asked == [], "large catalogues are not built unasked"
        page.click("#find-tab")
        expect(page.locator("#find-said")).to_contain_text("takes up to a minute")
        page.click("#build")
        expect(page.locator("#find-said")).to_contain_text("about 22 seconds are left")
        assert page.evaluate("document.querySelector('#built').value") == 0.25
        page.click("#stop")
        expect(page.locator("#find-said")).to_contain_text("It was cancelled.")
        told.update(state="building", share=0.9, left=1.0, message="")
        page.click("#build")
        told.update(state="ready", share=1.0)
        expect(page.locator("#find-said")).to_contain_text("is ready")
        expect(page.locator("#building")).to_be_hidden()


def test_counts_follow_when_they_are_ready(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore") as page:
        explored(page, "D dorian")
        state = {"divisions": 12, "state": "building", "share": 0.5, "left": 1.0, "message": ""}
        page.route("**/api/catalogue/12", lambda route: route.fulfill(json=state))
        page.route(
            "**/api/scale**",
            lambda route: route.fulfill(json=_uncounted(route.fetch().json(), is_counted=state["state"] == "ready")),
        )
        page.click(".rung[data-step='4']")
        expect(page.locator("#counted")).to_contain_text("is being counted")
        expect(page.locator("#facts")).not_to_contain_text("of the scales with")
        state["state"] = "ready"
        expect(page.locator("#facts")).to_contain_text("of the scales with", timeout=15_000)
        page.unroute_all(behavior="ignoreErrors")


def _uncounted(told: dict[str, Any], *, is_counted: bool) -> dict[str, Any]:
    if is_counted:
        return told
    return told | {"counts": "building", "facts": [fact | {"rare": "", "count": ""} for fact in told["facts"]]}


def test_a_late_answer_overwrites_nothing(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        held: list[Route] = []
        page.route("**/api/scale?bits=101011110101*", lambda route: held.append(route))  # noqa: PLW0108 - a list has no marks of its own
        page.click(".rung[data-step='6']")
        page.click(".rung[data-step='5']")
        explored(page, "C lydian")
        for route in held:
            route.fulfill(json=route.fetch().json())
        page.wait_for_timeout(200)
        explored(page, "C lydian")
        assert tones(page) == "C D E F♯ G A B"


def test_the_root_is_held_softly(context: BrowserContext, studio: Studio):
    context.add_init_script(HEARD)
    with opened(context, studio, "/explore?scale=A+B+C%23+E+F%23") as page:
        explored(page, "A major pentatonic")
        page.check("#drone")
        # An octave below the A at or above middle C, which is 440 Hz (ISO 16).
        assert page.evaluate("window.heard") == [220.0]
        # Together with what is played it stays below a quarter of full scale.
        assert sum(page.evaluate("window.levels")) + 0.16 <= 0.25
        page.click("#near-tab")
        page.click("#near-panel a:text-is('E')")
        explored(page, "E major pentatonic")
        assert page.evaluate("window.heard.length") == 1, "the one tone moves"
        page.uncheck("#drone")
        assert page.evaluate("window.ended") == 1


def test_what_is_typed_stays_text(context: BrowserContext, studio: Studio):
    hostile = "<img src=x onerror='window.broken = 1'>"
    with opened(context, studio, f"/explore?scale={hostile}&beside={hostile}#beside") as page:
        expect(page.locator("#said")).to_contain_text("<img", timeout=15_000)
        page.fill("#text", "D dorian")
        page.keyboard.press("Enter")
        explored(page, "D dorian")
        expect(page.locator("#beside-said")).to_contain_text("<img", timeout=15_000)
        page.click("#find-tab")
        page.fill("#condition", hostile)
        page.keyboard.press("Enter")
        expect(page.locator("#find-said")).to_contain_text("<img", timeout=15_000)
        assert page.evaluate("window.broken") is None
        assert page.locator("main img").count() == 0


def test_what_is_pressed_before_its_part_has_come_is_done_once_it_has(context: BrowserContext, studio: Studio):
    held: list[Route] = []
    context.route("**/comparing.js", lambda route: held.append(route))  # noqa: PLW0108 - a list has no marks of its own
    with opened(context, studio, "/explore?scale=C+major#beside") as page:
        explored(page, "C major")
        page.click("#keep")
        while not held:
            page.wait_for_timeout(20)
        held[0].continue_()
        expect(page.locator("#beside-said")).to_contain_text("C major is kept")


def test_parts_that_do_not_come_are_told_of(context: BrowserContext, studio: Studio):
    context.route("**/searching.js", lambda route: route.abort("connectionrefused"))
    with opened(context, studio, "/explore?scale=C+major") as page:
        explored(page, "C major")
        expect(page.locator("#said")).to_contain_text("load this page anew")


def test_the_first_load_is_small(context: BrowserContext, studio: Studio):
    page = context.new_page()
    sizes: list[int] = []
    page.on("response", lambda answer: sizes.append(int(answer.headers.get("content-length", 0))))
    page.goto(studio.at("/explore"))
    explored(page, "D dorian")
    page.wait_for_load_state("networkidle")
    assert 0 < sum(sizes) < FIRST_LOAD_BYTES
    page.close()


@pytest.mark.parametrize(("shade", "widths"), VIEWS)
def test_every_part_is_for_everybody(browser: Browser, studio: Studio, shade: str, widths: tuple[int, ...]):
    # The check of axe-core is evaluated in the page, which the studio's policy forbids.
    context = entered(browser, studio, color_scheme=shade, bypass_csp=True)
    page = context.new_page()
    page.goto(studio.at("/explore?scale=E+flat+acoustic&beside=C+harmonic+minor"))
    explored(page, "E flat acoustic")
    for panel in PANELS:
        page.click(f"#{panel}-tab")
        if panel == "near":
            expect(page.locator("#near-panel a").first).to_be_visible(timeout=15_000)
        if panel == "beside":
            expect(page.locator("#both table").first).to_be_visible(timeout=15_000)
        if panel == "find":
            page.fill("#condition", "cardinality = 7")
            page.keyboard.press("Enter")
            expect(page.locator("#found table")).to_be_visible(timeout=15_000)
            page.click("#help summary")
        for width in widths:
            page.set_viewport_size({"width": width, "height": 900})
            found = Axe().run(page)
            assert found.violations_count == 0, f"{panel} at {width}: {found.generate_report()}"
            page.evaluate("document.documentElement.style.setProperty('font-size', '200%')")
            assert too_wide(page) <= 0, f"{panel} at {width}"
            assert [one for one in cut_off(page) if "<t" not in one] == [], f"{panel} at {width}"
            page.evaluate("document.documentElement.style.removeProperty('font-size')")
    context.close()
