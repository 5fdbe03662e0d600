"""The page of music: a tune, two chords to play it over, practice patterns and the chord symbols the scale fits.

Conventions: pieces and staves are those of film and page, four bars to a line, in concert pitch or as instruments in a
key read them. Chord symbols stand where every chord of the tune has one. Only twelve divisions have a page, and only
scales of three tones or more, since fewer make no tune.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.diagrams.piece_staff import piece_strip
from gamutwright.diagrams.sketch import Sketch
from gamutwright.errors import DomainError
from gamutwright.music.piece import Piece, bar_length, step_of
from gamutwright.music.pieces import piece_of
from gamutwright.music.sounding import leading_part
from gamutwright.music.transposing import chord_suffix, written
from gamutwright.phrasing.card_words import card_words
from gamutwright.publish.handout.printed_figures import Plate, music_plate
from gamutwright.publish.handout.sheet_words import sheet_words
from gamutwright.theory.harmony import chord_name
from gamutwright.theory.harmonyroles import chord_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import to_symbols, tone_name_map, tone_names

__all__ = ["BARS", "Bar", "Line", "MusicPage", "has_music", "music_page"]

BARS = 4
"""How many bars a line has."""
_PATTERNS = ("thirds", "groups-of-three")


@dataclass(frozen=True, slots=True)
class Line:
    """A line of music.

    Parameters
    ----------
    title : str
        What it is called.
    plate : Plate
        The staff.
    share : float in (0, 1]
        How much of the width of a full line it takes, so that notes are about as large in each.
    """

    title: str
    plate: Plate
    share: float


@dataclass(frozen=True, slots=True)
class Bar:
    """A bar of the chart.

    Parameters
    ----------
    symbol : str
        Its chord; "" where no symbol writes it.
    tones : str
        The tones of the chord.
    """

    symbol: str
    tones: str


@dataclass(frozen=True, slots=True)
class MusicPage:
    """A page of music.

    Parameters
    ----------
    key : str
        The key of the instruments; "" for concert pitch.
    heading, remark, tones : str
        For whom it is written, how, and its tones.
    lines : tuple of Line
        Tune and patterns.
    chart : tuple of Bar
        Two chords in turn; empty where the scale has none.
    chords : str
        The chord symbols that the scale fits; "" where there are none.
    """

    key: str
    heading: str
    remark: str
    tones: str
    lines: tuple[Line, ...]
    chart: tuple[Bar, ...]
    chords: str


def has_music(scale: Scale) -> bool:
    """Say whether a scale has a page of music.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    bool
        False outside twelve divisions, where there is no staff, and for fewer than three tones.

    Examples
    --------
    >>> has_music(Scale.of(0, 4, 7)), has_music(Scale.of(0, 7))
    (True, False)
    """
    return scale.divisions == 12 and scale.cardinality >= 3


def music_page(scale: Scale, language: str, key: str = "") -> MusicPage:
    """Write a page of music.

    Parameters
    ----------
    scale : Scale
        The scale as it sounds, one that `has_music`.
    language : str
        Language tag.
    key : str
        The key of the instruments, one of `music.transposing.KEYS`; "" for concert pitch.

    Returns
    -------
    MusicPage
        What stands on it.

    Raises
    ------
    DomainError
        If there is no such key, or the scale has no such page.

    Examples
    --------
    >>> page = music_page(Scale.of(2, 4, 5, 7, 9, 11, 0), "en", "Bb")
    >>> [bar.symbol for bar in page.chart], page.chords
    (['Em', 'A', 'Em', 'A'], 'Chords on the root that the scale fits: Em7.')
    """
    words = sheet_words(language)
    tune, octaves = _tune(scale, key)
    shown = tune.sections[0].scale
    lines = [_line(tune, octaves, language, "tune-over-chords" if tune.harmonies else "tune")]
    lines += [_line(*_for(piece_of(name, scale), key), language, name) for name in _PATTERNS]
    named = tone_name_map(shown)
    fitting = [_name(chord_name(symbol.chord, named), language) for symbol in chord_symbols(shown)]
    chords = words.say("music-chords", chords=", ".join(fitting)) if fitting else ""
    names = " ".join(_name(name, language) for name in tone_names(shown))
    return MusicPage(
        key,
        words.say(f"music-for-{key}" if key else "music-concert"),
        words.say(f"music-written-{key}" if key else "music-sounding"),
        words.say("tones-line", tones=names),
        tuple(lines),
        _chart(scale, key, language),
        chords,
    )


def _for(piece: Piece, key: str) -> tuple[Piece, int]:
    return written(piece, key) if key else (piece, 0)


def _name(name: str, language: str) -> str:
    return card_words(language).note(to_symbols(name))


def _tune(scale: Scale, key: str) -> tuple[Piece, int]:
    """Take the tune over chords where each has a symbol, else the tune alone."""
    try:
        piece = piece_of("tune-over-vamp", scale)
    except DomainError:
        # A set without its root has no home to go to.
        piece = None
    if piece is None or any(chord_suffix(harmony, scale) is None for harmony in piece.harmonies):
        piece = piece_of("tune", scale)
    return _for(piece, key)


def _chart(scale: Scale, key: str, language: str) -> tuple[Bar, ...]:
    try:
        piece, _ = _for(piece_of("vamp", scale), key)
    except DomainError:
        return ()
    shown = piece.sections[0].scale
    names, bars = tone_name_map(shown), []
    for bar in range(min(BARS, piece.bars)):
        harmony = next(one for one in reversed(piece.harmonies) if one.start <= bar * bar_length(piece.metre))
        has_symbol = chord_suffix(harmony, shown) is not None
        tones = " ".join(_name(names[tone], language) for tone in harmony.tones)
        bars.append(Bar(_name(harmony.symbol, language) if has_symbol else "", tones))
    return tuple(bars)


def _line(piece: Piece, octaves: int, language: str, name: str) -> Line:
    words, shown = sheet_words(language), min(BARS, piece.bars)
    title = words.say(f"music-{name}")
    if shown < piece.bars:
        title = words.say("music-first", title=title, bars=shown, all=piece.bars)
    sketch = Sketch(piece.sections[0].scale, title=title, words=card_words(language).inside)
    alt = words.say("alt-music", title=title, notes=_in_words(piece, shown, language))
    return Line(title, music_plate(name, piece_strip(sketch, piece, shown, octaves), alt), shown / BARS)


def _in_words(piece: Piece, bars: int, language: str) -> str:
    """Name chords and notes bar by bar, for whoever cannot see them."""
    scale, length, leader = piece.sections[0].scale, bar_length(piece.metre), leading_part(piece)
    names, rows = tone_name_map(scale), []
    for bar in range(bars):
        chord = [_name(one.symbol, language) for one in piece.harmonies if one.start // length == bar]
        notes = [
            _name(names[step_of(scale, tone.degree) % 12], language)
            for tone in piece.tones
            if tone.part is leader and tone.start // length == bar
        ]
        rows.append(": ".join([*chord[:1], " ".join(notes)]))
    return "; ".join(rows)
