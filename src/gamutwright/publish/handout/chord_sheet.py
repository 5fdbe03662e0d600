"""The chord sheet of a play-along: its chords bar by bar, on one page, as tagged PDF.

Conventions: bars that count in come first and have no number. Every bar names its chord; one that no symbol writes goes
by its tones. Chords are those of the piece, in concert pitch.
"""

from __future__ import annotations

from gamutwright.music.piece import Harmony, Piece, bar_length
from gamutwright.music.pitches import names_of_steps
from gamutwright.music.transposing import chord_suffix
from gamutwright.phrasing.card_words import card_words
from gamutwright.publish.handout.sheet_words import sheet_words
from gamutwright.publish.handout.typefaces import FAMILIES
from gamutwright.publish.handout.typesetting import BREAK, Texts, author_of, typeset
from gamutwright.publish.told_lesson import Lesson
from gamutwright.theory.notenames import to_symbols

__all__ = ["chord_sheet"]


def chord_sheet(lesson: Lesson, piece: Piece) -> tuple[bytes, tuple[tuple[str, str], ...]]:
    """Print the chords of a piece.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    piece : Piece
        The piece, of one scale.

    Returns
    -------
    bytes
        A PDF.
    tuple of (str, str)
        What it prints: origin and text.

    Raises
    ------
    MissingPartError
        If typst or a font is not installed.
    """
    texts, words, names = Texts(), sheet_words(lesson.language), names_of_steps(lesson.scale)
    inside = card_words(lesson.language)
    title = texts.put("lesson", words.say("along-title", title=lesson.title))
    length = bar_length(piece.metre)

    def tones_of(harmony: Harmony) -> str:
        return " ".join(inside.note(names[tone]) for tone in harmony.tones)

    def symbol_of(harmony: Harmony) -> str:
        is_written = lesson.scale.divisions == 12 and chord_suffix(harmony, lesson.scale) is not None
        return inside.note(to_symbols(harmony.symbol)) if is_written else tones_of(harmony)

    def symbol_at(bar: int) -> str:
        harmony = next((one for one in reversed(piece.harmonies) if one.start <= bar * length), None)
        return symbol_of(harmony) if harmony else ""

    tones = {symbol_of(one): tones_of(one) for one in piece.harmonies}
    counted = words.say("along-counted-one" if piece.counted_in == 1 else "along-counted", bars=piece.counted_in)
    data = {
        "language": words.language,
        "paper": "a4",
        "families": FAMILIES,
        "title": title,
        "document": title.replace(BREAK, ""),
        "author": author_of(lesson),
        "footer": texts.put("sheet", words.say("made-with")),
        "remark": texts.put(
            "music", words.say("along-remark", tempo=round(piece.tempo), metre=str(piece.metre)) + counted
        ),
        "chords": [
            texts.put("music", words.say("along-chord", chord=chord, tones=held))
            for chord, held in tones.items()
            if chord != held
        ],
        "bars": [
            {
                "number": texts.put("music", str(bar - piece.counted_in + 1)) if bar >= piece.counted_in else "",
                "symbol": texts.put("music", symbol_at(bar)),
            }
            for bar in range(piece.bars)
        ],
    }
    return typeset("chords.typ", data)[0], tuple(dict.fromkeys(texts.printed))
