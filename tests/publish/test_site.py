"""The index of a course as text: every lesson there and harmless, rings at their angles, words folded as typed."""

from __future__ import annotations

import base64
import dataclasses
import hashlib
import json
import re
from urllib.parse import unquote

import pytest
from lxml import html

from gamutwright.errors import DomainError
from gamutwright.publish.site.course_site import Card, Site, site_files
from gamutwright.publish.site.search_index import folded, search_words, tone_words
from gamutwright.publish.site.small_ladder import little_ladder
from publish.courses import ADDRESS, GERMAN, NINETEEN, cards, course
from publish.markup import sound

HOSTILE = (
    "</title></script><script>alert(1)</script><img src=x onerror=alert(2)>",
    "\"' onmouseover=alert(3) x='",
    "{{ 7*7 }}{% raw %}",
    "\u202eהפוך\u0000\x07 Möwe 🎵",
    "]]><!--" + "x" * 300,
)


def index(site: Site) -> str:
    return site_files(site)["index.html"].decode()


def hostile(place: int) -> Card:
    text = HOSTILE[place]
    return dataclasses.replace(
        cards(5)[place],
        slug=f"a b'\"<{place}>&#?",
        title=text,
        level=text,
        tones=(text, text),
        names=(text,),
        facts=((text, text),),
        summary=text,
    )


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("count", [0, 1, 12])
def test_markup_is_sound(language: str, count: int):
    document = sound(index(course(count, language, more=(GERMAN, NINETEEN)[: count // 6])))
    assert document.get("lang") == language
    assert len(document.find_class("card")) == count + count // 6
    assert bool(document.xpath("//*[@role='search']")) == (count > 0)


def test_every_lesson_stands_there_in_order_with_all_it_has():
    site = course(12, more=(GERMAN, NINETEEN))
    document = html.document_fromstring(index(site))
    shown = document.find_class("card")
    assert len(shown) == 14
    for card, entry in zip(site.cards, shown, strict=True):
        text = " ".join(entry.text_content().split())
        for told in (card.title, *card.names, card.summary, " ".join(card.tones), card.date):
            assert told in text
        for title, value in card.facts:
            assert title in text
            assert value in text
        (link,) = entry.xpath(".//a")
        assert unquote(link.get("href")) == f"{card.slug}/index.html"
        assert (entry.find_class("number")[0].text or "") == ("" if card.number is None else str(card.number))
    assert "5:12 minutes" in shown[12].text_content()
    assert "of 19 equal steps" in shown[13].text_content()
    assert "minutes" not in shown[13].text_content()


def test_what_is_in_another_language_says_so():
    """WCAG 2.2, 3.1.2: the language of each part can be found out."""
    document = html.document_fromstring(index(course(2, more=(GERMAN,))))
    *english, german = document.find_class("card")
    assert all(not entry.xpath(".//*[@lang]") for entry in english)
    marked = german.xpath(".//*[@lang='de']")
    assert {element.tag for element in marked} == {"a", "p", "dl"}
    assert "Übermäßige Sekunden" in next(e for e in marked if e.tag == "dl").text_content()


def test_nothing_typed_becomes_markup():
    site = Site(HOSTILE[0], "en", HOSTILE[0], ADDRESS, tuple(hostile(place) for place in range(5)))
    text = index(site)
    document = sound(text)
    assert [script.get("type") for script in document.iter("script")] == ["application/json", "module"]
    assert not document.xpath("//img")
    assert not [name for element in document.iter() for name in element.attrib if name.startswith("on")]
    assert document.xpath("string(//h1)") == HOSTILE[0]
    assert "{{ 7*7 }}" in document.text_content()
    assert not re.search("[\u202a-\u202e\u2066-\u2069\x00-\x08]", text)
    assert len(json.loads(document.get_element_by_id("data").text)["lessons"]) == 5
    links = [link.get("href") for link in document.xpath("//a")]
    assert all(re.fullmatch(r"#lessons|feed\.(xml|json)|[\w%.~-]+/index\.html", link) for link in links)


def test_the_policy_allows_this_style_and_this_script_alone():
    """A source expression is the SHA-256 of the element's text, base64 (CSP Level 3, from memory)."""
    text = index(course(3))
    rules = re.search(r'Content-Security-Policy" content="([^"]+)"', text)[1].replace("&#39;", "'")
    assert rules.startswith("default-src 'none';")
    assert "unsafe" not in rules
    assert "http" not in rules
    for kind, pattern in (("style", r"<style>(.*?)</style>"), ("script", r'<script type="module">(.*?)</script>')):
        (inside,) = re.findall(pattern, text, re.DOTALL)
        want = base64.b64encode(hashlib.sha256(inside.encode()).digest()).decode()
        assert f"{kind}-src 'sha256-{want}'" in rules
    assert not re.search(r"<[^>]+ style=", text)
    assert not re.search(r"""(src|href)=["'](https?:)?//""", text)


def test_index_is_light_and_always_the_same():
    files = site_files(course(300))
    assert len(files["index.html"]) < 1_500_000
    assert site_files(course(300)) == files


@pytest.mark.parametrize(
    ("tones", "divisions"), [((0, 2, 4, 5, 7, 9, 11), 12), ((0,), 12), ((3, 7), 12), (tuple(range(31)), 31)]
)
def test_rungs_of_the_ladder_stand_at_their_heights(tones: tuple[int, ...], divisions: int):
    """Step k of n stands at k/n of the way from the lowest rung to the octave."""
    text = little_ladder(tones, divisions)
    rungs = re.findall(r"M-15 (\S+?)h30", re.search(r'class="p"[^>]* d="([^"]+)"', text)[1])
    assert len(rungs) == len(tones)
    for tone, y in zip(tones, rungs, strict=True):
        assert (34 - float(y)) / 68 == pytest.approx(tone / divisions, abs=0.001)
    assert text.count("Z") == len(tones)
    assert text.count(' class="o"') == 2 * (0 in tones)


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ("Äolisch", "aolisch"),
        ("straße", "strasse"),
        ("STRASSE", "strasse"),
        ("mi bémol", "mi bemol"),
        ("F#", "f♯"),
        ("f♯", "f♯"),
        ("C## B♭♭", "c𝄪 b𝄫"),
        ("F sharp", "f sharp f♯"),
        ("g double flat", "g double flat g𝄫"),
        ("sharp", "sharp"),
        ("0.75, 3/4; 12.", "0.75 3/4 12"),
        ("⟨2 5 4 3 6 1⟩", "2 5 4 3 6 1"),
        ("...", ""),
    ],
)
def test_words_are_folded(typed: str, words: str):
    assert folded(typed) == words


@pytest.mark.parametrize(
    ("tone", "language", "said"),
    [
        ("F♯", "en", {"F♯", "F sharp", "Fis"}),
        ("Fis", "de", {"F♯", "F sharp", "Fis"}),
        ("B", "en", {"B", "H"}),
        ("B", "de", {"B", "B♭", "B flat"}),
        ("H", "de", {"H", "B"}),
        ("As", "de", {"A♭", "A flat", "As"}),
        ("11", "en", {"11"}),
    ],
)
def test_tones_are_found_as_english_and_german_say_them(tone: str, language: str, said: set[str]):
    """German H is B natural and B is B flat (common practice, no source)."""
    assert set(tone_words(tone, language)) == said


def test_tones_beside_each_other_are_no_name_together():
    card = dataclasses.replace(cards(1)[0], tones=("E", "B", "F"), title="t", names=(), summary="")
    assert " eb " not in search_words(card)[0]
    assert {"e", "b", "f", "h"} <= set(search_words(card)[0].split())


def test_what_is_wrong_is_refused():
    card = cards(1)[0]
    for slug in ("", "..", "a/b", "a\\b", ".hidden", "c:", "a\nb", " "):
        with pytest.raises(DomainError, match="folder"):
            dataclasses.replace(card, slug=slug)
    for date in ("", "4 March", "20260304", "2026-02-30"):
        with pytest.raises(DomainError, match="day"):
            dataclasses.replace(card, date=date)
    with pytest.raises(DomainError, match="octave"):
        dataclasses.replace(card, steps_up=(0, 12))
    with pytest.raises(DomainError, match="film"):
        dataclasses.replace(card, seconds=-1)
    with pytest.raises(DomainError, match="language tag"):
        dataclasses.replace(card, language='en" onclick="')
    for address in ("music.example", "ftp://music.example/", "https://", "https://a.example/?q", "javascript:alert(1)"):
        with pytest.raises(DomainError, match="web address"):
            course(1, address=address)
    with pytest.raises(DomainError, match="share"):
        course(1, more=(dataclasses.replace(card, slug=card.slug.upper()),))
    with pytest.raises(DomainError, match="lessons are worded in"):
        site_files(dataclasses.replace(course(1), language="fr"))


def test_what_is_shown_where_the_site_is_shared():
    """The Open Graph protocol (ogp.me, from memory)."""
    text = site_files(course(3))["index.html"].decode()
    found = dict(re.findall(r'<meta property="og:(\w+)" content="([^"]*)">', text))
    assert found["type"] == "website"
    assert found["title"]
    assert found["description"]
    assert "scrollbar-color" in text
