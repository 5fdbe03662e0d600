"""The state of a course as a page for its teacher: what to do next at the top, then lessons, checks and coverage.

What the audience hears wrongly comes first, then what keeps lessons from being built, then what only waits for a build.
The report is plain data; whatever is missing in it is left out of the page.

**Conventions.** Every state has a shape of its own beside its colour and its word. Texts of the report are kept apart
from the page's by `bdi` and never become markup. The page is one file that loads nothing.

References: WCAG 2.2 (W3C 2024), 1.4.1 for states that do not depend on colour.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from gamutwright.codec import Plain
from gamutwright.errors import told
from gamutwright.languages import base_tag, language_of
from gamutwright.phrasing.slots import filled
from gamutwright.publish.page.letters import font_rules
from gamutwright.publish.page.page_words import Raw, tidy
from gamutwright.publish.page.shell import colours, kit_template, kit_text, policy
from gamutwright.publish.site.state_data import length_of, moment_of, number_of, rows_of, text_of, texts_of

__all__ = ["state_page"]

_KIT = "site/kit"
_SHAPES = {
    "failed": "failed",
    "faults": "faults",
    "missing script": "missing",
    "to build": "ready",
    "built": "good",
    "broken": "faults",
    "not checked": "missing",
    "holds": "good",
}
_IN_A_ROW = 40
_AT_ONCE = 5
"""Of a kind of task, so many lessons stand there at once, and so many particulars of a lesson."""

_Row = Mapping[str, Plain]


def state_page(report: Mapping[str, Plain], language: str = "en") -> str:
    """Write the page of a course's state.

    Parameters
    ----------
    report : mapping of str to Plain
        `title`, `made`, `lessons`, `checks`, `totals` and `coverage`, any of which may be missing.
    language : str
        Language tag of the page.

    Returns
    -------
    str
        The page, as HTML.

    Raises
    ------
    DomainError
        If there are no words for the language.

    Examples
    --------
    >>> "There is no lesson yet." in state_page({})
    True
    """
    words = _Words(base_tag(language), language_of(language).table("site"))
    lessons = [_lesson(place, row, words) for place, row in enumerate(rows_of(report, "lessons"), 1)]
    by_slug = {lesson.slug: lesson for lesson in lessons if lesson.slug}
    checks = [_check(row, by_slug, words) for row in rows_of(report, "checks")]
    checks.sort(key=lambda check: ("broken", "not checked", "holds").index(check["order"]))
    tasks = _tasks(lessons, checks, words)
    waiting = sum(len(task["items"]) for task in tasks)
    context: dict[str, Any] = {
        "say": words.say,
        "language": words.language,
        "title": text_of(report, "title") or words.say("title"),
        "made": moment_of(text_of(report, "made")),
        "made_at": text_of(report, "made"),
        "tally": _tally(lessons, words),
        "pegs": [(lesson.shape, place % _IN_A_ROW, place // _IN_A_ROW) for place, lesson in enumerate(lessons)],
        "peg_box": (min(len(lessons), _IN_A_ROW), -(-len(lessons) // _IN_A_ROW)),
        "tasks": tasks,
        "waiting": _waiting(waiting, lessons, checks, words),
        "lessons": lessons,
        "checks": checks,
        "coverage": [_covered(row, words) for row in rows_of(report, "coverage")],
        "totals": _totals(report, words),
    }
    letters = "".join(_strings([report, *words.table.values()]))
    style = "\n".join([colours(), font_rules(letters), kit_text("page/kit", "base.css"), kit_text(_KIT, "state.css")])
    script = kit_text("page/kit", "base.js")
    context |= {"style": Raw(style), "script": Raw(script), "policy": policy(style, script)}
    return kit_template(_KIT, "state.html.jinja").render(context)


@dataclass(frozen=True, slots=True)
class _Words:
    """The words of the page."""

    language: str
    table: Mapping[str, Mapping[str, str]]

    def say(self, key: str, **slots: str | int) -> str:
        return filled(self.table["state"][key], **slots)

    def named(self, table: str, key: str) -> str:
        return self.table[table].get(key, key.replace("_", " "))


@dataclass(frozen=True, slots=True)
class _Lesson:
    """A lesson as a row of the table, and all that waits in it."""

    anchor: str
    slug: str
    number: str
    title: str
    state: str
    state_word: str
    shape: str
    detail: str
    length: str
    built: str
    notes: list[str]
    particulars: dict[str, list[str]] = field(default_factory=dict)


def _lesson(place: int, row: _Row, words: _Words) -> _Lesson:
    state = text_of(row, "state")
    particulars = {
        "errata": [_correction(part, words) for part in rows_of(row, "errata")],
        "faults": [_fault(part, words) for part in rows_of(row, "faults")],
        "stale": [_stale(part, words) for part in rows_of(row, "stale_takes")],
        "changed": [_changed(part, words) for part in rows_of(row, "changed_definitions")],
    }
    slug = text_of(row, "slug")
    return _Lesson(
        f"lesson-{place}",
        slug,
        text_of(row, "number"),
        text_of(row, "title") or slug or words.say("lesson", number=place),
        state,
        words.named("states", state) or "–",
        _SHAPES.get(state, "other"),
        text_of(row, "detail"),
        length_of(row.get("minutes")),
        moment_of(text_of(row, "built_at")),
        [words.say(f"note-{key}", number=len(parts)) for key, parts in particulars.items() if parts],
        particulars,
    )


def _joined(*parts: str) -> str:
    return ": ".join(part for part in parts if part)


def _correction(row: _Row, words: _Words) -> str:
    time, said, now = (text_of(row, key) for key in ("time", "said", "now"))
    change = words.say("said-now" if now else "said-gone", said=_quoted(said, words), now=_quoted(now, words))
    caption = text_of(row, "caption")
    told = _joined(words.say("at", times=time) if time else "", change)
    return told + (f". {words.say('caption')}: {_quoted(caption, words)}" if caption else "")


def _fault(row: _Row, words: _Words) -> str:
    line, column, said = (text_of(row, key) for key in ("line", "column", "words"))
    where = words.say("line-column" if column else "line", line=line, column=column) if line else ""
    return _joined(where, _quoted(said, words) if said else "", text_of(row, "reason"))


def _stale(row: _Row, words: _Words) -> str:
    line, text = text_of(row, "line"), text_of(row, "text")
    return _joined(words.say("line", line=line) if line else "", _quoted(text, words) if text else "")


def _changed(row: _Row, words: _Words) -> str:
    times = texts_of(row, "times")
    return " ".join(
        part for part in (text_of(row, "title"), words.say("at", times=", ".join(times)) if times else "") if part
    )


def _quoted(text: str, words: _Words) -> str:
    opening, closing = language_of(words.language).quotes
    return f"{opening}{text}{closing}"


def _check(row: _Row, by_slug: Mapping[str, _Lesson], words: _Words) -> dict[str, Any]:
    state = text_of(row, "state")
    return {
        "rule": language_of(words.language).retold(told(text_of(row, "rule"))),
        "state": state,
        "order": state if state in {"broken", "holds"} else "not checked",
        "word": words.named("verdicts", state) or words.named("verdicts", "not checked"),
        "shape": _SHAPES.get(state, "missing"),
        "detail": text_of(row, "detail"),
        "where": [_place(slug, by_slug) for slug in texts_of(row, "lessons")],
    }


def _place(slug: str, by_slug: Mapping[str, _Lesson]) -> tuple[str, str]:
    """Give where a lesson stands on the page, and what it is called there."""
    if slug not in by_slug:
        return "", slug
    lesson = by_slug[slug]
    return lesson.anchor, " · ".join(part for part in (lesson.number, lesson.title) if part)


def _tasks(lessons: list[_Lesson], checks: list[dict[str, Any]], words: _Words) -> list[dict[str, Any]]:
    """Gather what waits, the most urgent first: heard wrongly, cannot be built, only to be done."""

    def having(key: str) -> list[dict[str, Any]]:
        return [_item(lesson, lesson.particulars[key]) for lesson in lessons if lesson.particulars[key]]

    def standing(state: str) -> list[dict[str, Any]]:
        return [_item(lesson, [lesson.detail] if lesson.detail else []) for lesson in lessons if lesson.state == state]

    faulty = [
        _item(lesson, lesson.particulars["faults"] or ([lesson.detail] if lesson.detail else []))
        for lesson in lessons
        if lesson.particulars["faults"] or lesson.state == "faults"
    ]
    broken = [
        {"anchor": "", "number": "", "title": check["rule"], "where": check["where"], **_cut([check["detail"]])}
        for check in checks
        if check["state"] == "broken"
    ]
    kinds = (
        ("errata", "faults", having("errata")),
        ("faults", "faults", faulty),
        ("failed", "failed", standing("failed")),
        ("broken", "faults", broken),
        ("stale", "ready", having("stale")),
        ("missing", "missing", standing("missing script")),
        ("changed", "ready", having("changed")),
        ("build", "ready", standing("to build")),
    )
    return [
        {
            "title": words.say(f"do-{key}"),
            "why": words.say(f"why-{key}"),
            "shape": shape,
            "items": items,
            "first": items[:_AT_ONCE],
            "rest": items[_AT_ONCE:],
        }
        for key, shape, items in kinds
        if items
    ]


def _item(lesson: _Lesson, particulars: list[str]) -> dict[str, Any]:
    found = {"anchor": lesson.anchor, "number": lesson.number, "title": lesson.title, "where": []}
    return found | _cut(particulars)


def _cut(particulars: list[str]) -> dict[str, Any]:
    said = [part for part in particulars if part]
    return {"first": said[:_AT_ONCE], "rest": said[_AT_ONCE:]}


def _waiting(waiting: int, lessons: list[_Lesson], checks: list[dict[str, Any]], words: _Words) -> str:
    if waiting:
        return words.say("waiting-one") if waiting == 1 else words.say("waiting-many", number=waiting)
    is_done = all(lesson.state == "built" for lesson in lessons) and all(check["state"] == "holds" for check in checks)
    return words.say("nothing-known" if not lessons else "nothing" if is_done else "nothing-urgent")


def _tally(lessons: list[_Lesson], words: _Words) -> list[dict[str, Any]]:
    counts = Counter(lesson.state for lesson in lessons)
    order = [state for state in words.table["states"] if state in counts]
    order += sorted(state for state in counts if state not in words.table["states"])
    return [
        {"shape": _SHAPES.get(state, "other"), "word": words.named("states", state) or "–", "number": counts[state]}
        for state in order
    ]


def _covered(row: _Row, words: _Words) -> dict[str, Any]:
    shown, of = row.get("shown"), row.get("of")
    share = 0.0
    if isinstance(shown, int | float) and isinstance(of, int | float) and of > 0:
        share = min(1.0, max(0.0, shown / of))
    said = words.say("shown-of", shown=number_of(shown, words.language), of=number_of(of, words.language))
    return {"what": text_of(row, "what"), "said": said, "width": f"{100 * share:.1f}".removesuffix(".0")}


def _totals(report: Mapping[str, Plain], words: _Words) -> list[tuple[str, str]]:
    found = report.get("totals")
    if not isinstance(found, Mapping):
        return []
    told = [(words.named("totals", tidy(str(key))), number_of(value, words.language)) for key, value in found.items()]
    return [(name, number) for name, number in told if name and number]


def _strings(value: object) -> Iterable[str]:
    """Walk through everything that may be printed."""
    if isinstance(value, str):
        yield tidy(value)
    elif isinstance(value, Mapping):
        for part in value.values():
            yield from _strings(part)
    elif isinstance(value, list | tuple):
        for part in value:
            yield from _strings(part)
