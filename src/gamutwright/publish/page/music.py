"""Music to play along with on a page: tune, chords, patterns, call and answer, and questions for the ear.

Everything that sounds is computed here and written down as numbers; the page's script only plays it, at the tempo, in
the bars and at the height that the reader chooses. What is lit on staff, ladder and keyboard comes from the same rows.

**Conventions.** Times are twelfths of a quarter note. A row of a note is start, length, hertz, force and part; of a
stroke start, drum and force; of what is lit start, length, step and, on a staff, the middle of the note. Staves show
the leading part; outside twelve divisions there are none.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from gamutwright.codec import Plain
from gamutwright.diagrams.piece_staff import piece_strip
from gamutwright.diagrams.sketch import Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Figure
from gamutwright.ir.sound import TICKS_PER_SECOND, Sound
from gamutwright.music.piece import QUARTER, Piece, Tone, bar_length, step_of
from gamutwright.music.pieces import piece_of
from gamutwright.music.pitches import Register
from gamutwright.music.sounding import leading_part
from gamutwright.publish.page.page_words import PageWords, Printer, Raw, Traced
from gamutwright.publish.page.stave import HEAD_RIGHT, stave_markup
from gamutwright.publish.quiz.question import Question
from gamutwright.publish.quiz.selection import ear_training
from gamutwright.publish.told_lesson import Lesson
from gamutwright.render.engrave import expanded
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.tuning import Tuning

__all__ = ["PIECES", "Drill", "Music", "Playable", "music_of"]

PIECES = ("tune", "tune-over-vamp", "vamp", "thirds", "groups-of-three", "groups-of-four", "broken-triads",
          "call-and-answer")  # fmt: skip
"""What a page plays, where the scale has it."""
_TRANSPOSED = 6
_TEMPI = (50, 140)


@dataclass(frozen=True, slots=True)
class Playable:
    """A piece on a page.

    Parameters
    ----------
    id, title : str
        Its id, and what it is called.
    staff : Raw or None
        The leading part on a staff; None where there is none.
    definitions : tuple of (str, str)
        What the staff uses, by id.
    """

    id: str
    title: str
    staff: Raw | None
    definitions: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Drill:
    """A question for the ear.

    Parameters
    ----------
    id : str
        Its id.
    prompt : Traced
        What is asked.
    choices : tuple of (Traced, Traced, bool)
        Answers, why they are right or wrong, and whether they are right.
    """

    id: str
    prompt: Traced
    choices: tuple[tuple[Traced, Traced, bool], ...]


@dataclass(frozen=True, slots=True)
class Music:
    """What a page plays.

    Parameters
    ----------
    pieces : tuple of Playable
        The pieces.
    drills : tuple of Drill
        The questions for the ear.
    heights : tuple of (int, Traced)
        Steps by which a reader may transpose, and what they are called.
    data : mapping of str to plain data
        The rows, for the script.
    """

    pieces: tuple[Playable, ...]
    drills: tuple[Drill, ...]
    heights: tuple[tuple[int, Traced], ...]
    data: Mapping[str, Plain]


def music_of(lesson: Lesson, words: PageWords, printer: Printer, tuning: Tuning | None = None) -> Music:
    """Gather what a page plays.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    printer : Printer
        Keeps what is printed.
    tuning : Tuning, optional
        How twelve keys are tuned.

    Returns
    -------
    Music
        Without pieces that the scale has not.
    """
    pieces, rows = [], {}
    for name in PIECES:
        try:
            piece = piece_of(name, lesson.scale)
        except DomainError:
            # Two tones make no tune.
            continue
        title = words.say(f"piece-{name}")
        figure = _staff(lesson, piece, title)
        staff, signs = stave_markup(figure, words.say("staff-of", piece=title)) if figure else ("", ())
        pieces.append(Playable(name, title, Raw(staff) if staff else None, signs))
        rows[name] = _rows(piece, figure, Register(lesson.scale, tuning), words, printer)
    training = ear_training(lesson)
    drills = tuple(_drill(question, printer) for question in training.questions)
    heard: dict[str, Plain] = {f"ear-{key}": _heard(sound) for key, sound in training.sounds.items()}
    reach = range(_TRANSPOSED, -_TRANSPOSED - 1, -1)
    heights = tuple((steps, _height(steps, words, printer)) for steps in reach)
    tempi = [printer.note("music", words.say("tempo-at", tempo=tempo)) for tempo in range(_TEMPI[0], _TEMPI[1] + 1)]
    data: dict[str, Plain] = {
        "pieces": dict(rows),
        "ear": heard,
        "slug": lesson.slug,
        "tempi": [_TEMPI[0], *tempi],
        "said": {key: words.words[key] for key in ("music-play", "ear-score")},
    }
    return Music(tuple(pieces), drills, heights, data)


def _height(steps: int, words: PageWords, printer: Printer) -> Traced:
    if not steps:
        return printer.text("music", words.say("transposed-not"))
    key = "transposed-up" if steps > 0 else "transposed-down"
    return printer.text("music", words.say(key, steps=abs(steps)))


def _staff(lesson: Lesson, piece: Piece, title: str) -> Figure | None:
    if lesson.scale.divisions != 12:
        return None
    return expanded(piece_strip(Sketch(lesson.scale, title=title, words=lesson.card_words.inside), piece))


def _rows(piece: Piece, figure: Figure | None, register: Register, words: PageWords, printer: Printer) -> Plain:
    def step(tone: Tone) -> int:
        return step_of(piece.scale_at(tone.start), tone.degree)

    lit: list[Plain] = []
    leader = leading_part(piece)
    for number, (lowest, *_) in enumerate(piece.together(leader) if leader else (), 1):
        row: list[Plain] = [lowest.start, lowest.length, step(lowest)]
        if figure:
            part = figure.part(f"note {number}")
            # A part reaches further left than the head.
            row += [round(part.x + HEAD_RIGHT, 1), round(part.y, 1)]
        lit.append(row)
    bars: list[Plain] = []
    length = bar_length(piece.metre)
    for bar in range(piece.bars):
        chord = next((one.symbol for one in reversed(piece.harmonies) if one.start <= bar * length), "")
        key = "bar-chord" if chord else "bar-at"
        text = words.say(key, bar=bar + 1, bars=piece.bars, **({"chord": to_symbols(chord)} if chord else {}))
        bars.append(printer.note("music", text))
    return {
        "tempo": round(piece.tempo),
        "beat": int(QUARTER * piece.metre.quarters_per_beat),
        "bar": length,
        "bars": bars,
        "parts": [part.value for part in piece.parts],
        "notes": [
            [tone.start, round(tone.length * tone.share, 2), register.freq_hz(step(tone)), round(tone.force, 3),
             tone.part.value]
            for tone in piece.tones
        ],
        "taps": [[tap.start, tap.drum.value, round(tap.force, 3)] for tap in piece.taps],
        "lit": lit,
    }  # fmt: skip


def _drill(question: Question, printer: Printer) -> Drill:
    origin = f"ear:{question.id}"
    return Drill(
        f"ear-{question.id}",
        printer.text(origin, question.prompt),
        tuple(
            (printer.text(origin, choice.text), printer.text(origin, choice.why), choice.is_right)
            for choice in question.choices
        ),
    )


def _heard(sound: Sound) -> Plain:
    return [
        [note.start_tick / TICKS_PER_SECOND, note.duration_ticks / TICKS_PER_SECOND, note.freq_hz, note.velocity]
        for note in sound.notes
    ]
