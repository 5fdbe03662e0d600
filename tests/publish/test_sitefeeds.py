"""News feeds and the map of a site, by the rules of their formats, read back with lxml and json."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
import re
from urllib.parse import urljoin, urlsplit

import pytest
from lxml import etree

from gamutwright.publish.site.course_site import Site, site_files
from publish.courses import ADDRESS, GERMAN, NINETEEN, cards, course
from publish.test_site import HOSTILE, hostile

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
LANG = "{http://www.w3.org/XML/1998/namespace}lang"
INSTANT = r"\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})"  # RFC 3339, date-time, from memory
UUID = r"urn:uuid:[0-9a-f]{8}-[0-9a-f]{4}-5[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"  # RFC 9562, 5.5, from memory
SITES = {
    "known address": course(6, more=(GERMAN, NINETEEN)),
    "no address": course(6, address="", more=(GERMAN, NINETEEN)),
    "hostile": Site(HOSTILE[0], "en", HOSTILE[3], ADDRESS, tuple(hostile(place) for place in range(5))),
    "nameless": Site("Scales", "de", "", "", (dataclasses.replace(GERMAN, summary="", title="\u202e"),)),
}


@pytest.fixture(params=SITES)
def site(request: pytest.FixtureRequest) -> Site:
    return SITES[request.param]


def one(parent: etree._Element, name: str) -> etree._Element:
    (found,) = parent.findall(ATOM + name)
    return found


def test_feed_is_atom(site: Site):
    """RFC 4287, 4.1.1 and 4.1.2 (their lists read as quoted elsewhere); 3.3, 4.2.6, 4.2.7 from memory."""
    feed = etree.fromstring(site_files(site)["feed.xml"])
    assert feed.tag == ATOM + "feed"
    assert feed.get(LANG) == site.language
    entries = feed.findall(ATOM + "entry")
    assert len(entries) == len(site.cards)
    for parent in (feed, *entries):
        # exactly one id, title and updated; no more than one of these others
        assert one(parent, "title").text
        assert re.fullmatch(INSTANT, one(parent, "updated").text)
        assert all(len(parent.findall(ATOM + name)) <= 1 for name in ("published", "summary", "content", "rights"))
        # an id is a whole IRI, never a relative one
        assert re.fullmatch(r"(https?://|urn:)\S+", one(parent, "id").text)
        # one alternate link for each type and language, one at least where there is no content
        links = [link for link in parent.findall(ATOM + "link") if link.get("rel") == "alternate"]
        assert len({(link.get("type"), link.get("hreflang")) for link in links}) == len(links) >= 1
        assert all(re.fullmatch(r"[!-~]+", link.get("href")) for link in parent.findall(ATOM + "link"))
        known = {"author", "category", "id", "link", "title", "updated"}
        known |= {"entry", "subtitle"} if parent is feed else {"published", "summary"}
        assert {child.tag.removeprefix(ATOM) for child in parent} <= known
    # entries need no author where the feed has one; a person has exactly one name
    assert len([name for name in one(feed, "author") if name.tag == ATOM + "name" and name.text]) == 1
    assert [link.get("rel") for link in feed.findall(ATOM + "link")].count("self") == 1
    assert len({one(entry, "id").text for entry in entries}) == len(entries)
    assert all(category.get("term") for category in feed.iter(ATOM + "category"))


def test_newest_entry_is_first_and_dates_the_feed():
    feed = etree.fromstring(site_files(SITES["known address"])["feed.xml"])
    dates = [one(entry, "updated").text for entry in feed.findall(ATOM + "entry")]
    assert dates == sorted(dates, reverse=True)
    assert one(feed, "updated").text == dates[0] == "2026-01-12T00:00:00Z"
    assert dates[-1] == "2025-11-05T00:00:00Z"


def test_entries_say_what_the_lessons_say(site: Site):
    feed = etree.fromstring(site_files(site)["feed.xml"])
    by_day = sorted(site.cards, key=lambda card: card.date, reverse=True)
    for card, entry in zip(by_day, feed.findall(ATOM + "entry"), strict=True):
        assert entry.get(LANG) == card.language
        if card.title.isprintable():
            assert one(entry, "title").text == card.title
        (link,) = entry.findall(ATOM + "link")
        assert urlsplit(urljoin("https://music.example/", link.get("href"))).path.endswith("/index.html")


@pytest.mark.parametrize("name", ["known address", "no address"])
def test_ids_last_while_words_change(name: str):
    """RFC 4287, 4.2.6: an id must not change when a lesson is told anew (from memory)."""
    site = SITES[name]
    again = tuple(dataclasses.replace(card, title="New", summary="New", date="2026-05-05") for card in site.cards)
    before, after = (
        etree.fromstring(site_files(one_site)["feed.xml"])
        for one_site in (site, dataclasses.replace(site, cards=again))
    )
    ids = [{entry.findtext(ATOM + "id") for entry in feed.findall(ATOM + "entry")} for feed in (before, after)]
    assert ids[0] == ids[1]
    assert before.findtext(ATOM + "id") == after.findtext(ATOM + "id")
    pattern = UUID if name == "no address" else re.escape(ADDRESS) + r"\S+"
    assert all(re.fullmatch(pattern, found) for found in ids[0])


def test_json_feed_has_what_version_1_1_asks(site: Site):
    """JSON Feed 1.1 (jsonfeed.org, read): required members, types, and keys that are its own or begin with a stroke."""
    feed = json.loads(site_files(site)["feed.json"])
    assert feed["version"] == "https://jsonfeed.org/version/1.1"
    assert next(iter(feed)) == "version"
    assert isinstance(feed["title"], str)
    top = {"version", "title", "home_page_url", "feed_url", "language", "authors", "items"}
    assert set(feed) <= top
    assert ("home_page_url" in feed) == ("feed_url" in feed) == bool(site.address)
    assert all(author.get("name") for author in feed["authors"])
    own = {"id", "url", "title", "content_text", "summary", "date_published", "language", "tags"}
    for item in feed["items"]:
        assert isinstance(item["id"], str)
        assert isinstance(item["content_text"], str)
        assert all(key in own or re.fullmatch(r"_[a-zA-Z][^.]*", key) for key in item)
        assert re.fullmatch(INSTANT, item["date_published"])
        assert all(isinstance(tag, str) and tag for tag in item["tags"])
        assert item.get("url", "https://").startswith("https://")
    assert len({item["id"] for item in feed["items"]}) == len(feed["items"]) == len(site.cards)


def test_both_feeds_name_the_same_lessons(site: Site):
    files = site_files(site)
    atom = etree.fromstring(files["feed.xml"])
    items = json.loads(files["feed.json"])["items"]
    assert [entry.findtext(ATOM + "id") for entry in atom.findall(ATOM + "entry")] == [item["id"] for item in items]


def test_the_map_lists_every_page_once():
    """sitemaps.org 0.9 (read as quoted): `url` in `urlset`, `loc` in each, whole addresses of one host, W3C dates."""
    site = SITES["hostile"]
    root = etree.fromstring(site_files(site)["sitemap.xml"])
    assert root.tag == MAP + "urlset"
    places = []
    for url in root:
        assert url.tag == MAP + "url"
        names = [child.tag.removeprefix(MAP) for child in url]
        assert names in (["loc"], ["loc", "lastmod"])
        places.append(url.findtext(MAP + "loc"))
        dt.date.fromisoformat(url.findtext(MAP + "lastmod"))
    assert len(places) == len(set(places)) == len(site.cards) + 1
    assert all(place.startswith(ADDRESS) and len(place) < 2048 for place in places)
    assert all(re.fullmatch(r"[A-Za-z0-9\-._~:/?#\[\]@!$&'()*+,;=%]+", place) for place in places)  # RFC 3986
    assert site_files(site)["robots.txt"].decode().splitlines()[-1] == f"Sitemap: {ADDRESS}sitemap.xml"


def test_without_an_address_nothing_says_where_it_is():
    files = site_files(SITES["no address"])
    assert set(files) == {"index.html", "feed.xml", "feed.json"}
    assert b"https://music" not in b"".join(files.values())


def test_a_course_without_lessons_has_no_news():
    assert set(site_files(course(0))) == {"index.html", "sitemap.xml", "robots.txt"}


def test_other_letters_in_an_address_are_written_as_hosts_ask():
    """RFC 3492, 7.1: `Bücher` is `xn--bcher-kva` (from memory)."""
    site = Site("T", "de", "", "https://bücher.example:8080/kurs ä/", (cards(1)[0],))
    assert site.root == "https://xn--bcher-kva.example:8080/kurs%20%C3%A4/"


def test_bytes_are_always_the_same(site: Site):
    assert site_files(site) == site_files(dataclasses.replace(site))
