"""The web site of a course: an index that opens from a disk, with a search, and what tells others of new lessons.

The index is one file that loads nothing; each lesson's own page lies in the folder of its slug. Without scripts all
lessons stand there in order. With them a reader finds a lesson by its title, names, tones, facts or values while
typing, and the search is in the address, so that it can be passed on.

**Conventions.** Words of the site are in the site's language; what a lesson says is in the lesson's, and says so by
`lang`. Nothing that was typed becomes markup. Equal content gives equal bytes.

References: WCAG 2.2 (W3C 2024), 2.1.4 for the key that leads to the search.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from typing import Any

from gamutwright.codec import Plain
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.languages import base_tag, language_of
from gamutwright.phrasing.slots import filled
from gamutwright.publish.page.letters import font_rules
from gamutwright.publish.page.page_words import Raw, tidy
from gamutwright.publish.page.shell import colours, embedded_json, kit_template, kit_text, policy
from gamutwright.publish.site.feeds import atom_feed, json_feed, robots_file, site_map
from gamutwright.publish.site.lesson_cards import Card, Site, lesson_path
from gamutwright.publish.site.search_index import search_words
from gamutwright.publish.site.small_ladder import little_ladder
from gamutwright.publish.told_lesson import clock_time

__all__ = ["Card", "Site", "site_files"]

_KIT = "site/kit"
_LEVELS = ("foundation", "further", "research")


def site_files(site: Site) -> dict[str, bytes]:
    """Write the files of a course's site; the pages of its lessons lie in their folders.

    Parameters
    ----------
    site : Site
        The course.

    Returns
    -------
    dict of str to bytes
        `index.html`; `feed.xml` and `feed.json` where there are lessons; `sitemap.xml` and `robots.txt` where the
        address is known.

    Raises
    ------
    DomainError
        If there are no words for the site's language.

    Examples
    --------
    >>> sorted(site_files(Site("Scales", "en", "Harbour Music School", "https://music.example/", ())))
    ['index.html', 'robots.txt', 'sitemap.xml']
    """
    files = {"index.html": _index(site).encode()}
    if site.cards:
        files |= {"feed.xml": atom_feed(site), "feed.json": json_feed(site)}
    if site.root:
        files |= {"sitemap.xml": site_map(site), "robots.txt": robots_file(site)}
    return files


@dataclass(frozen=True, slots=True)
class _Words:
    """The words of the site."""

    table: Mapping[str, Mapping[str, str]]

    def say(self, key: str, **slots: str | int) -> str:
        return filled(self.table["site"][key], **slots)

    def counted(self, key: str, number: int) -> str:
        return self.say(f"{key}-one") if number == 1 else self.say(f"{key}-many", number=number)

    def level(self, level: str) -> str:
        return self.table["levels"].get(level, tidy(level))

    def language(self, language: str) -> str:
        return self.table["languages"].get(base_tag(language), language)


def _index(site: Site) -> str:
    words = _Words(language_of(site.language).table("site"))
    cards = [_card(site, card, words) for card in site.cards]
    data: dict[str, Plain] = {
        "words": {key: words.table["site"][key] for key in ("count", "count-all")},
        "lessons": [_sought(card) for card in site.cards],
    }
    context: dict[str, Any] = {
        "site": site,
        "say": words.say,
        "title": tidy(site.title),
        "imprint": tidy(site.imprint),
        "summary": _summary(site, words),
        "cards": cards,
        "choices": _choices(site, words),
        "data": embedded_json(data),
    }
    shown = [text for card in cards for text in card["letters"]]
    letters = "".join([tidy(site.title), tidy(site.imprint), *words.table["site"].values(), *shown])
    style = "\n".join([colours(), font_rules(letters), kit_text("page/kit", "base.css"), kit_text(_KIT, "site.css")])
    script = "\n".join([kit_text("page/kit", "base.js"), kit_text(_KIT, "site.js")])
    context |= {"style": Raw(style), "script": Raw(script), "policy": policy(style, script)}
    return kit_template(_KIT, "site.html.jinja").render(context)


def _summary(site: Site, words: _Words) -> str:
    if not site.cards:
        return ""
    lessons = words.counted("lessons", len(site.cards))
    seconds = sum(card.seconds for card in site.cards)
    if not seconds:
        return words.say("summary-silent", lessons=lessons)
    hours, minutes = divmod(max(1, round(seconds / 60)), 60)
    length = words.say("hours", hours=hours, minutes=minutes) if hours else words.say("minutes", time=minutes)
    return words.say("summary", lessons=lessons, time=length)


def _time(seconds: float) -> str:
    return clock_time(int(seconds * TICKS_PER_SECOND))


def _sought(card: Card) -> Plain:
    """Give what the script filters by: words at once seen, words told, level, language, number of tones."""
    head, told = search_words(card)
    return [head, told, tidy(card.level), base_tag(card.language), str(len(set(card.steps_up)))]


def _card(site: Site, card: Card, words: _Words) -> dict[str, Any]:
    is_other = base_tag(card.language) != base_tag(site.language)
    size = words.counted("tone-count", len(set(card.steps_up)))
    if card.divisions != 12:
        size = f"{size} {words.say('divisions', number=card.divisions)}"
    sizes = [size, words.say("minutes", time=_time(card.seconds))] if card.seconds else [size]
    facts = [(tidy(title), tidy(value)) for title, value in card.facts]
    shown: dict[str, Any] = {
        "id": "lesson-" + "".join(f"_{ord(c):x}_" if c.isspace() else c for c in card.slug),
        "number": "" if card.number is None else str(card.number),
        "ladder": little_ladder(card.steps_up, card.divisions),
        "href": lesson_path(card),
        "lang": Raw(f' lang="{escape(card.language)}"') if is_other else "",
        "title": tidy(card.title) or tidy(card.slug),
        "names": list(dict.fromkeys(tidy(name) for name in card.names)),
        "summary": tidy(card.summary),
        "facts": facts,
        "told": words.counted("told", len(facts)),
        "tones": tidy(" ".join(card.tones)),
        "sizes": sizes,
        "kinds": [kind for kind in (words.level(card.level), words.language(card.language)) if kind],
        "date": card.date,
    }
    told = [text for fact in facts for text in fact]
    shown["letters"] = [shown["title"], *shown["names"], shown["summary"], shown["tones"], *shown["kinds"], *told]
    return shown


def _choices(site: Site, words: _Words) -> list[dict[str, Any]]:
    """List what lessons can be filtered by; a list with one value helps nobody and is left out."""
    levels = Counter(level for card in site.cards if (level := tidy(card.level)))
    languages = Counter(base_tag(card.language) for card in site.cards)
    sizes = Counter(len(set(card.steps_up)) for card in site.cards)
    ranked = sorted(levels, key=lambda level: (_LEVELS.index(level) if level in _LEVELS else len(_LEVELS), level))
    found = [
        ("level", 2, [(level, words.level(level), levels[level]) for level in ranked]),
        ("language", 3, [(tag, words.language(tag), languages[tag]) for tag in sorted(languages)]),
        ("tones", 4, [(str(size), str(size), sizes[size]) for size in sorted(sizes)]),
    ]
    return [
        {
            "key": key,
            "at": at,
            "label": words.say(key),
            "options": [(value, words.say("option", value=text, number=number)) for value, text, number in options],
        }
        for key, at, options in found
        if len(options) > 1
    ]
