"""Courses for the tests of the site: an evening course of a harbour town's music school, as long as a test wants it."""

from __future__ import annotations

import datetime as dt
from functools import cache

from gamutwright.codec import Plain
from gamutwright.publish.site.course_site import Card, Site
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_names

ADDRESS = "https://music.example/evening-course/"
DETAILS = {2: "the voice is ready", 4: "the disk was full while the film was written"}
ROOTS = (0, 7, 2, 9, 4, 11, 6, 1, 8, 3, 10, 5)


def card(place: int, mask: int, language: str = "en") -> Card:
    """A lesson on one scale of twelve divisions; facts are counted here, not asked of the library."""
    scale = Scale(mask, root=ROOTS[place % 12])
    names = tuple(name.name for name in names_of(scale))
    tones = tuple(to_symbols(name) for name in tone_names(scale))
    steps = scale.step_pattern
    semitones, tritones = steps.count(1), sum((tone + 6) % 12 in scale.tones for tone in scale.tones) // 2
    title = f"{tones[0]} {names[0]}" if names else f"The scale {' '.join(tones)}"
    return Card(
        slug=f"{place + 1:03d}-{(names[0] if names else 'scale').lower().replace(' ', '-')}",
        number=place + 1,
        title=title,
        language=language,
        level=("foundation", "further", "research")[place % 3],
        seconds=200 + 13 * (place % 17),
        date=(dt.date(2026, 1, 7) + dt.timedelta(days=place)).isoformat(),
        tones=tones,
        divisions=12,
        steps_up=scale.tones,
        names=names,
        facts=(
            ("Number of tones", str(len(tones))),
            ("Step pattern", " ".join(map(str, steps))),
            ("Semitone steps", str(semitones)),
            ("Tritones", str(tritones)),
            ("Interval-class vector", "⟨2 5 4 3 6 1⟩"),
            ("Propriety", "strictly proper" if semitones == 0 else "proper"),
            ("Major triads", f"{tones[0]} and {tones[-1]}"),
            ("Evenness", f"0.{90 + place % 10}"),
        ),
        summary=f"It climbs in {len(tones)} steps and has {semitones} semitones. It is number {place + 1}.",
    )


@cache
def cards(count: int) -> tuple[Card, ...]:
    """As many lessons: named scales first, then any of five tones or more."""
    masks = [mask for mask in range(1, 4096, 2) if mask.bit_count() >= 5]
    masks.sort(key=lambda mask: not names_of(Scale(mask)))
    return tuple(card(place, mask) for place, mask in enumerate(masks[:count]))


def course(count: int = 12, language: str = "en", address: str = ADDRESS, more: tuple[Card, ...] = ()) -> Site:
    """A course of so many lessons, and whatever a test adds."""
    title = {"en": "Scales on Wednesday evenings", "de": "Tonleitern am Mittwochabend"}[language]
    imprint = {"en": "Harbour Music School, evening course", "de": "Musikschule am Hafen, Abendkurs"}[language]
    return Site(title, language, imprint, address, (*cards(count), *more))


GERMAN = Card(
    slug="h-moll-harmonisch",
    number=901,
    title="H-Moll, harmonisch",
    language="de",
    level="further",
    seconds=312.4,
    date="2025-11-05",
    tones=("H", "Cis", "D", "E", "Fis", "G", "Ais"),
    divisions=12,
    steps_up=(0, 2, 3, 5, 7, 8, 11),
    names=("harmonisches Moll",),
    facts=(("Übermäßige Sekunden", "1: G zu Ais"), ("Schrittmuster", "2 1 2 2 1 3 1")),
    summary="Oben klafft eine übermäßige Sekunde.",
)
NINETEEN = Card(
    slug="nineteen steps",
    number=None,
    title="Seven of nineteen",
    language="en",
    level="research",
    seconds=0,
    date="2026-01-01",
    tones=("0", "3", "6", "8", "11", "14", "17"),
    divisions=19,
    steps_up=(0, 3, 6, 8, 11, 14, 17),
    names=(),
    facts=(),
    summary="",
)


def report(count: int = 24) -> dict[str, Plain]:
    """The state of a course in which a little of everything waits."""
    lessons: list[Plain] = []
    for place, one in enumerate(cards(count)):
        lessons.append(
            {
                "slug": one.slug,
                "number": one.number,
                "title": one.title,
                "state": "built" if place > 4 else ("missing script", "faults", "to build", "built", "failed")[place],
                "detail": DETAILS.get(place, ""),
                "minutes": one.seconds / 60,
                "built_at": f"2026-03-{place % 27 + 1:02d}T18:20:00+01:00" if place > 2 else "",
                "stale_takes": [{"line": "k3f", "text": "Seven of them are here."}] if place == 6 else [],
                "faults": [
                    {
                        "line": 12,
                        "column": 4,
                        "words": "three semitones",
                        "reason": "there are two, C♯ to D and E to F",
                    },
                    {"line": 31, "column": 9, "words": "the fourth mode", "reason": "it is the fifth"},
                ]
                if place == 1
                else [],
                "changed_definitions": [{"title": "Propriety", "times": ["1:23", "2:05"]}] if place == 8 else [],
                "errata": [
                    {"time": "1:04", "said": "strictly proper", "now": "proper", "caption": "It is strictly proper."}
                ]
                if place == 9
                else [],
            }
        )
    return {
        "title": "Scales on Wednesday evenings",
        "made": "2026-03-28T19:02:11Z",
        "lessons": lessons,
        "checks": [
            {"rule": "One name, one scale", "state": "holds", "detail": "48 names", "lessons": []},
            {
                "rule": "A notion is explained before it is used",
                "state": "broken",
                "detail": "Lesson 3 uses propriety, lesson 9 explains it.",
                "lessons": [cards(count)[2].slug, cards(count)[8].slug, "gone"],
            },
            {"rule": "Levels rise", "state": "not checked", "detail": "no order is set", "lessons": []},
        ],
        "totals": {"lessons": count, "built": count - 4, "minutes": 121.5, "facts": 96, "stale_takes": 1},
        "coverage": [
            {"what": "Facts of the library", "shown": 31, "of": 88},
            {"what": "Diatonic modes", "shown": 7, "of": 7},
            {"what": "Divisions other than twelve", "shown": 0, "of": 3},
        ],
    }
