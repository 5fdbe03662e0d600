"""The page of a lesson: one file that opens from a disk, with film, transcript, pictures, tones to play, and a quiz.

Everything is inside: style, script, type, pictures and the pitches to play; only film and sounds lie beside it. A
policy in the page's head forbids everything else, so a name typed by anybody stays a name. Without scripts the words,
the pictures, the film and its captions remain.

**Conventions.** Texts that may hold numbers carry `data-from`, and `Page.printed` lists them. Frequencies are computed
here. File names of media are relative to the page.

References: WCAG 2.2 (W3C 2024); Web Audio API 1.0 (W3C 2021), from memory.
"""

from __future__ import annotations

import base64
import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import quote

from gamutwright.codec import Plain
from gamutwright.errors import DomainError
from gamutwright.ir.sound import TICKS_PER_SECOND, Sound
from gamutwright.publish.description import description
from gamutwright.publish.page.keys import LADDER_BOX, Tone, keys_of, place_rules, rungs_of, tones_of, tuning_in_words
from gamutwright.publish.page.letters import font_rules
from gamutwright.publish.page.music import Music, music_of
from gamutwright.publish.page.page_words import PageWords, Printer, Raw, Traced, page_words, tidy
from gamutwright.publish.page.plates import drawn, ladder_figure, note_texts, pictures_of
from gamutwright.publish.page.sections import asked_questions, cited_sources, names_told, timed_chapters, told_facts
from gamutwright.publish.page.shell import colours, embedded_json, kit_template, kit_text, policy
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.told_lesson import Lesson, clock_time
from gamutwright.render.caption_files import to_webvtt
from gamutwright.theory.tuning import Tuning

__all__ = ["Media", "Page", "page"]

_BESIDE = "media-src 'self' file: data:; img-src 'self' file:"


@dataclass(frozen=True, slots=True)
class Media:
    """Which files lie beside a page.

    Parameters
    ----------
    film : str
        Name of the film; "" for none.
    poster : str
        Its picture before it plays; "" for none.
    audio : str
        The lesson as sound alone, played where there is no film; "" for none.
    captions : str
        The captions as a file; "" for none. The page has them inside in any case.
    width, height : int
        Size of the film.
    files : tuple of (str, str)
        What a reader calls further files, and their names.
    address : str
        Where the page is going to be on the web, with a stroke at its end; "" where that is not known.

    Raises
    ------
    DomainError
        If a name is not that of a file beside the page.

    Examples
    --------
    >>> Media(film="film.mp4").has_player, Media().has_player
    (True, False)
    """

    film: str = ""
    poster: str = ""
    audio: str = ""
    captions: str = ""
    width: int = 1920
    height: int = 1080
    files: tuple[tuple[str, str], ...] = ()
    address: str = ""

    def __post_init__(self) -> None:
        for name in (self.film, self.poster, self.audio, self.captions, *(name for _, name in self.files)):
            if name and (name.startswith(("/", "\\")) or ".." in name.split("/") or ":" in name):
                raise DomainError(repr(name), "files of a page lie beside it", "Give a name relative to the page.")

    @property
    def has_player(self) -> bool:
        """Whether something can be played."""
        return bool(self.film or self.audio)


@dataclass(frozen=True, slots=True)
class Page:
    """The page of a lesson.

    Parameters
    ----------
    html : str
        The page.
    printed : tuple of (str, str)
        Every text of it that may hold a number: origin and text, in the order in which they are written.
    """

    html: str
    printed: tuple[tuple[str, str], ...]


@dataclass(slots=True)
class _Made:
    """A page while it is made."""

    lesson: Lesson
    words: PageWords
    media: Media
    printer: Printer = field(default_factory=Printer)


def page(
    lesson: Lesson,
    questions: tuple[Question, ...] = (),
    *,
    media: Media,
    sounds: Mapping[str, Sound] | None = None,
    tuning: Tuning | None = None,
    json_ld: str = "",
) -> Page:
    """Write the page of a lesson.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    questions : tuple of Question
        Its quiz.
    media : Media
        Which files lie beside the page.
    sounds : mapping of str to Sound, optional
        What questions ask to listen to, by their keys; the lesson's own sounds without it.
    tuning : Tuning, optional
        How the twelve keys are tuned; the equal division without it.
    json_ld : str
        A description of the lesson for machines, as JSON.

    Returns
    -------
    Page
        The page, and what it prints.

    Raises
    ------
    DomainError
        If a question asks for a sound that is not there, the description is no JSON, or the language has no words.
    """
    made = _Made(lesson, page_words(lesson.language), media)
    printer = made.printer
    asked = asked_questions(questions, made.words, printer)
    scores = [
        printer.note("quiz", made.words.say("score", right=right, total=len(asked))) for right in range(len(asked) + 1)
    ]
    tones = tones_of(lesson, made.words, tuning)
    music = music_of(lesson, made.words, printer, tuning)
    data = _data(made, tones, scores, questions, sounds or lesson.sounds) | dict(music.data)
    rungs, keys = rungs_of(lesson, ladder_figure(lesson), tones), keys_of(lesson, tones)
    context: dict[str, Any] = {
        "say": made.words.say,
        "language": lesson.language,
        "media": media,
        "url": lambda name: quote("./" + name, safe="/.-_~"),
        "captions_url": _data_url("text/vtt", to_webvtt(lesson.timeline.captions)),
        "questions": asked,
        "rungs": rungs,
        "keys": keys,
        "tuned": printer.text("tuning", tuning_in_words(lesson, made.words, tuning)),
        "json_ld": _embedded(json_ld),
        "shared": shared_as(lesson, media),
        "data": embedded_json(data),
        **_heading(made, tones),
        "music": music,
        **_told(made, tones, music),
        **_credits(made),
    }
    text = "".join(text for _, text in printer.printed)
    # A piano looks like one by day and by night.
    kit = [kit_text("page/kit", name) for name in ("base.css", "page.css", "music.css")]
    style = "\n".join([colours(".piano"), font_rules(text), *kit, place_rules(rungs, keys)])
    script = "\n".join(kit_text("page/kit", name) for name in ("base.js", "page.js", "music.js"))
    context |= {"style": Raw(style), "script": Raw(script), "policy": policy(style, script, _BESIDE)}
    return Page(kit_template("page/kit", "page.html.jinja").render(context), tuple(printer.printed))


def shared_as(lesson: Lesson, media: Media) -> tuple[tuple[str, str], ...]:
    """Say what is shown of a page where its address is shared, by the Open Graph protocol (ogp.me, from memory).

    Pictures and films are named with whole addresses, as the protocol asks; where the page's is not known they are
    named as files beside it.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    media : Media
        The files beside it.

    Returns
    -------
    tuple of (str, str)
        Properties and their content.
    """
    made = description(lesson)
    found = [
        ("og:type", "video.other" if media.film else "article"),
        ("og:title", made.title),
        ("og:description", made.text.split("\n\n")[0]),
        ("og:locale", lesson.language.replace("-", "_")),
        ("og:site_name", tidy(lesson.others.get("course", ""))),
        ("og:url", media.address),
    ]
    if media.poster:
        found += [("og:image", media.address + media.poster), ("og:image:alt", made.title)]
    if media.film:
        found += [
            ("og:video", media.address + media.film), ("og:video:type", "video/mp4"),
            ("og:video:width", str(media.width)), ("og:video:height", str(media.height)),
        ]  # fmt: skip
    return tuple((name, content) for name, content in found if content)


def _told(made: _Made, tones: dict[int, Tone], music: Music) -> dict[str, Any]:
    """Gather what the lesson tells and shows."""
    lesson, words, printer = made.lesson, made.words, made.printer
    n = lesson.scale.divisions
    alt = words.say("ladder-alt", divisions=n, tones=_tone_names(lesson, tones), steps=_steps(lesson))
    ladder = drawn(ladder_figure(lesson), alt, origin="scale", box=" ".join(f"{edge:g}" for edge in LADDER_BOX))
    note_texts((ladder,), printer)
    for tone in tones.values():
        for text in (tone.name, tone.spoken, tone.says):
            printer.note(f"tuning:{tone.step}", text)
    pictures = pictures_of(lesson, words, printer)
    names, has_other_tuning = names_told(lesson, words, printer)
    shared = dict(part for picture in (ladder, *pictures.values()) for part in picture.definitions)
    shared |= dict(sign for piece in music.pieces for sign in piece.definitions)
    return {
        "ladder": ladder,
        "ladder_label": words.say("ladder"),
        "keys_label": printer.text("scale", words.say("keys") if n == 12 else words.say("slabs", divisions=n)),
        "is_twelve": n == 12,
        "definitions": Raw("".join(shared.values())),
        "chapters": timed_chapters(lesson, words, printer),
        "facts": told_facts(lesson, pictures, words, printer),
        "sources": cited_sources(lesson, words, printer),
        "names": names,
        "has_other_tuning": has_other_tuning,
    }


def _credits(made: _Made) -> dict[str, Any]:
    """Gather who and what made the lesson, and what lies beside the page."""
    credits_, say, printer = made.lesson.credits, made.words.say, made.printer
    return {
        "siblings": [
            (say(f"sibling-{other.kind}"), printer.text("lesson", tidy(other.title), is_name=True), other)
            for other in made.lesson.siblings
        ],
        "supporters": [printer.text("lesson", name, is_name=True) for name in credits_.supporters],
        "voice": printer.text("lesson", credits_.voice, is_name=True),
        "is_recorded": credits_.is_recorded,
        "speaker": printer.text("lesson", tidy(made.lesson.others.get("speaker", "")), is_name=True),
        "licences": [(say(key), printer.text("licence", say(f"{key}-licence"))) for key in ("type", "signs")],
        "program": printer.text("licence", say("program-licence")),
        "files": [(printer.text("lesson", label, is_name=True), name) for label, name in made.media.files],
    }


def _heading(made: _Made, tones: dict[int, Tone]) -> dict[str, Traced | None]:
    """Gather what stands at the top, and what comes next."""
    lesson, say, printer = made.lesson, made.words.say, made.printer
    others = lesson.others

    def named(key: str) -> Traced | None:
        text = tidy(others.get(key, ""))
        return printer.text("lesson", text, is_name=True) if text else None

    number = tidy(others.get("lesson", ""))
    return {
        "title": printer.text("lesson", lesson.title, is_name=True),
        "course": named("course"),
        "number": printer.text("lesson", say("course-lesson", number=number), is_name=True) if number else None,
        "length": printer.text("time:film", say("length", time=clock_time(lesson.timeline.ticks))),
        # A sibling that follows is linked; what is only announced is named.
        "next": None if any(other.kind == "next" for other in lesson.siblings) else named("next"),
        "summary": printer.text(
            "scale", say("scale-line", tones=_tone_names(lesson, tones), steps=_steps(lesson))
        ),
    }  # fmt: skip


def _tone_names(lesson: Lesson, tones: dict[int, Tone]) -> str:
    return ", ".join(tones[step].name for step in lesson.scale.tones)


def _steps(lesson: Lesson) -> str:
    return " ".join(str(step) for step in lesson.scale.step_pattern)


def _data(
    made: _Made, tones: dict[int, Tone], scores: list[str], questions: tuple[Question, ...], sounds: Mapping[str, Sound]
) -> dict[str, Plain]:
    """Gather what the script of the page needs: pitches, the run up and down, what questions sound like."""
    n = made.lesson.scale.divisions
    up = [*made.lesson.scale.tones, n]
    heard: dict[str, Plain] = {}
    for key in dict.fromkeys(question.sound for question in questions if question.sound):
        if key not in sounds:
            raise DomainError(
                f"sound '{key}'",
                "a question asks for it and it is not among the sounds given",
                "Give the sounds of the quiz with its questions.",
            )
        heard[key] = [
            [
                round(note.start_tick / TICKS_PER_SECOND, 4),
                round(note.duration_ticks / TICKS_PER_SECOND, 4),
                note.freq_hz,
                note.velocity,
            ]
            for note in sounds[key].notes
        ]
    return {
        "tones": {str(tone.step): [tone.freq_hz, tone.says] for tone in tones.values()},
        "divisions": n,
        "run": [*up, *up[-2::-1]],
        "sounds": heard,
        "scores": list(scores),
        "words": {key: made.words.say(key) for key in ("play-up", "stop", "quiz-listen", "right", "not-right")},
    }


def _embedded(json_ld: str) -> Raw:
    if not json_ld:
        return Raw("")
    try:
        plain = json.loads(json_ld)
    except ValueError as error:
        raise DomainError(
            "the description of the lesson", f"it is no JSON ({error})", "Pass the text of one."
        ) from error
    return embedded_json(plain)


def _data_url(kind: str, text: str) -> str:
    return f"data:{kind};base64,{base64.b64encode(text.encode('utf-8', 'replace')).decode()}"
