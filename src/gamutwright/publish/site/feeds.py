"""What tells others of a course: news feeds for readers, and a map of the site for search engines.

**Conventions.** Entries are the newest first. A lesson is known by the address of its page; where the site's is not
known, by a UUID made from the course and the folder, and links are relative. Days begin at midnight UTC. Equal content
gives equal bytes.

References: RFC 4287 (Atom; read as quoted in the documentation of several readers of feeds), JSON Feed 1.1 (read),
the protocol of sitemaps.org 0.9 (read as quoted), RFC 9562 (name-based UUIDs) and RFC 9309 (robots.txt), from memory.
"""

from __future__ import annotations

import json
import uuid

from gamutwright.codec import Plain
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.publish.page.page_words import tidy
from gamutwright.publish.score.xml_parts import added, xml_bytes, xml_root
from gamutwright.publish.site.lesson_cards import Card, Site, lesson_path
from gamutwright.publish.told_lesson import clock_time

__all__ = ["atom_feed", "json_feed", "robots_file", "site_map"]

_ATOM = "http://www.w3.org/2005/Atom"
_SITEMAP = "http://www.sitemaps.org/schemas/sitemap/0.9"
_JSON_FEED = "https://jsonfeed.org/version/1.1"


def atom_feed(site: Site) -> bytes:
    """Write the news of a course as Atom.

    Parameters
    ----------
    site : Site
        The course, with at least one lesson: a feed says when it changed.

    Returns
    -------
    bytes
        The file `feed.xml`.
    """
    feed = xml_root("feed", _ATOM, **{"xml:lang": site.language})
    added(feed, "title", site.title)
    added(feed, "id", _site_id(site))
    added(feed, "updated", _instant(site.newest[0].date))
    added(added(feed, "author"), "name", _author(site))
    added(feed, "link", rel="alternate", type="text/html", href=site.url("index.html"))
    added(feed, "link", rel="self", type="application/atom+xml", href=site.url("feed.xml"))
    for card in site.newest:
        entry = added(feed, "entry", **{"xml:lang": card.language})
        added(entry, "title", _title(card))
        added(entry, "id", _lesson_id(site, card))
        added(entry, "published", _instant(card.date))
        added(entry, "updated", _instant(card.date))
        added(
            entry, "link", rel="alternate", type="text/html", hreflang=card.language, href=site.url(lesson_path(card))
        )
        if tidy(card.level):
            added(entry, "category", term=card.level)
        if card.summary.strip():
            added(entry, "summary", card.summary)
    return xml_bytes(feed)


def json_feed(site: Site) -> bytes:
    """Write the news of a course as a JSON Feed.

    Parameters
    ----------
    site : Site
        The course.

    Returns
    -------
    bytes
        The file `feed.json`.
    """
    feed: dict[str, Plain] = {"version": _JSON_FEED, "title": tidy(site.title)}
    if site.root:
        feed |= {"home_page_url": site.url("index.html"), "feed_url": site.url("feed.json")}
    feed |= {"language": site.language, "authors": [{"name": _author(site)}]}
    feed["items"] = [_item(site, card) for card in site.newest]
    return (json.dumps(feed, ensure_ascii=False, indent=2) + "\n").encode()


def _item(site: Site, card: Card) -> Plain:
    told = [f"{title}: {value}" for title, value in card.facts]
    text = "\n".join(tidy(line) for line in (card.summary, ", ".join(card.tones), *told))
    item: dict[str, Plain] = {"id": _lesson_id(site, card)}
    if site.root:
        item["url"] = site.url(lesson_path(card))
    item |= {"title": _title(card), "content_text": text.strip()}
    if card.summary.strip():
        item["summary"] = tidy(card.summary)
    item |= {"date_published": _instant(card.date), "language": card.language}
    item["tags"] = [tidy(tag) for tag in dict.fromkeys((card.level, *card.names)) if tidy(tag)]
    if card.seconds:
        item["_gamutwright"] = {"film": clock_time(int(card.seconds * TICKS_PER_SECOND))}
    return item


def site_map(site: Site) -> bytes:
    """List the pages of a site for search engines.

    Parameters
    ----------
    site : Site
        The course, with its address.

    Returns
    -------
    bytes
        The file `sitemap.xml`.
    """
    root = xml_root("urlset", _SITEMAP, f"{_SITEMAP} {_SITEMAP}/sitemap.xsd")
    pages = [(site.root, site.newest[0].date if site.cards else "")]
    pages += [(site.url(lesson_path(card)), card.date) for card in site.cards]
    for address, date in pages:
        page = added(root, "url")
        added(page, "loc", address)
        if date:
            added(page, "lastmod", date)
    return xml_bytes(root)


def robots_file(site: Site) -> bytes:
    """Say where the map of the site is; search engines read it at the top of a host only.

    Parameters
    ----------
    site : Site
        The course, with its address.

    Returns
    -------
    bytes
        The file `robots.txt`.
    """
    return f"User-agent: *\nAllow: /\n\nSitemap: {site.url('sitemap.xml')}\n".encode()


def _title(card: Card) -> str:
    return tidy(card.title) or card.slug


def _author(site: Site) -> str:
    return tidy(site.imprint) or tidy(site.title)


def _instant(date: str) -> str:
    return f"{date}T00:00:00Z"


def _uuid(*parts: str) -> str:
    return uuid.uuid5(uuid.NAMESPACE_URL, json.dumps(parts)).urn


def _site_id(site: Site) -> str:
    return site.root or _uuid(site.imprint, site.title)


def _lesson_id(site: Site, card: Card) -> str:
    return site.url(lesson_path(card)) if site.root else _uuid(site.imprint, site.title, card.slug)
