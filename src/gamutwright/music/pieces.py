"""Every piece that is made from a scale, by its name, with what may be asked of it.

**Conventions.** A piece that is not told its metre, length or version has its own. The same request gives the same
piece.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from gamutwright.errors import DomainError, told
from gamutwright.ir.playing import Drum, Metre, Part
from gamutwright.music.band import (
    counting,
    drone_under,
    harmonies,
    played_vamp,
    struck_chords,
    two_chords,
    vamp_plan,
)
from gamutwright.music.patterns import PATTERNS, practice
from gamutwright.music.performance import USUAL_TEMPO
from gamutwright.music.piece import QUARTER, Piece, Section, Tap, Tone, bar_length
from gamutwright.music.rules import Melody
from gamutwright.music.touch import played
from gamutwright.music.tune import BARS, METRES, plain_tune, played_in
from gamutwright.theory.character import Relation, nearest_relative
from gamutwright.theory.harmonyroles import Sonority
from gamutwright.theory.scale import Scale

__all__ = ["LONGEST_BARS", "PIECES", "Request", "melody_tones", "piece_of"]

LONGEST_BARS = 128
_ALONG_SECONDS = 84
_ROUNDS = 4


@dataclass(frozen=True, slots=True)
class Request:
    """What is asked of a piece.

    Parameters
    ----------
    metre : Metre, optional
        One of `tune.METRES`.
    bars : int, optional
        How many bars: those of the tune, of the vamp, of playing along.
    version : int > 0
        Another number gives another tune.
    tempo : float, optional
        Beats a minute, for what has to last so many seconds.
    """

    metre: Metre | None = None
    bars: int | None = None
    version: int = 1
    tempo: float | None = None

    @property
    def its_metre(self) -> Metre:
        """The metre; four quarters without one."""
        return self.metre or METRES["4/4"]


def melody_tones(melody: Melody, first: int = 0) -> list[Tone]:
    """Write a melody as tones of the tune.

    Parameters
    ----------
    melody : Melody
        The melody.
    first : int
        When it begins.

    Returns
    -------
    list of Tone
        Its notes.
    """
    notes = zip(melody.starts, melody.lengths, melody.degrees, strict=True)
    return [Tone(first + start, length, degree) for start, length, degree in notes]


def _melody(scale: Scale, request: Request) -> Melody:
    return plain_tune(scale, request.its_metre, request.bars or BARS[0], request.version)


def _tune(scale: Scale, request: Request) -> Piece:
    melody = _melody(scale, request)
    return Piece("a tune", melody.metre, melody.bars, (Section(0, scale),), tuple(melody_tones(melody)))


def _over_drone(scale: Scale, request: Request) -> Piece:
    plain = _tune(scale, request)
    return replace(
        plain, title="a tune over a drone", tones=(*plain.tones, *drone_under(scale, plain.metre, plain.bars))
    )


def _over_vamp(scale: Scale, request: Request) -> Piece:
    melody = _melody(scale, request)
    under = _over_plan(scale, vamp_plan(scale, melody.bars, melody), melody.metre)
    return replace(under, title="a tune over two chords", tones=(*melody_tones(melody), *under.tones))


def _tune_changed(scale: Scale, request: Request) -> Piece:
    relative = nearest_relative(scale)
    if relative is None:
        raise DomainError(
            told("a relative of this scale"),
            told("no familiar scale on the same root is like it"),
            told("Play a tune alone: tune."),
        )
    metre, bars = request.its_metre, request.bars or BARS[0]
    beside = relative.scale
    if relative.relation is Relation.LEFT_OUT:
        # The tune is one of the fuller scale, so that what is left out is missed.
        theirs = plain_tune(beside, metre, bars, request.version, relative.left_out[:2], scale)
        own = played_in(theirs, scale)
    else:
        own = _melody(scale, request)
        theirs = played_in(own, beside)
    # A bar of silence lies between the two.
    later = (bars + 1) * bar_length(metre)
    return Piece(
        "a tune, and again in its relative",
        metre,
        2 * bars + 1,
        (Section(0, scale), Section(later, beside)),
        (*melody_tones(own), *melody_tones(theirs, later)),
    )


def _vamp(scale: Scale, request: Request) -> Piece:
    return _over_plan(scale, vamp_plan(scale, request.bars or BARS[0]), request.its_metre)


def _over_plan(scale: Scale, plan: Sequence[Sonority], metre: Metre) -> Piece:
    """Play the chords of a plan, one a bar."""
    tones, taps = played_vamp(scale, plan, metre)
    chords = harmonies(scale, plan, metre)
    return Piece("two chords", metre, len(plan), (Section(0, scale),), tuple(tones), tuple(taps), chords)


def _cadence(scale: Scale, request: Request) -> Piece:
    two = two_chords(scale)
    plan = (two.home, two.away, two.home)
    return Piece(
        "away and home",
        request.its_metre,
        len(plan),
        (Section(0, scale),),
        tuple(struck_chords(scale, plan, request.its_metre)),
        (),
        harmonies(scale, plan, request.its_metre),
    )


def _along(scale: Scale, request: Request) -> Piece:
    metre = request.its_metre
    counted = 1 if metre.beats > 3 else 2
    a_minute = (request.tempo or USUAL_TEMPO) / metre.beats
    # Whole rounds of four bars, a minute to two of them in all.
    bars = request.bars or max(4, round(_ALONG_SECONDS / 60 * a_minute / 4) * 4)
    plan = (*vamp_plan(scale, bars - 1), two_chords(scale).home)
    tones, taps = played_vamp(scale, plan[:-1], metre, counted)
    last = (counted + bars - 1) * bar_length(metre)
    # It ends at home, struck once.
    tones += [replace(tone, start=tone.start + last) for tone in struck_chords(scale, plan[-1:], metre)]
    return Piece(
        "to play along with",
        metre,
        counted + bars,
        (Section(0, scale),),
        tuple(tones),
        (*counting(metre, range(counted)), *taps),
        harmonies(scale, plan, metre, counted),
        counted,
    )


def _call_and_answer(scale: Scale, request: Request) -> Piece:
    melody = _melody(scale, request)
    half = melody.bars // 2
    bar = bar_length(melody.metre)
    tones = melody_tones(melody)
    call = [tone for tone in tones if tone.start < half * bar]
    answer = [replace(tone, start=tone.start + half * bar) for tone in tones if tone.start >= half * bar]
    # The pulse goes on through the silence, so that nobody loses the beat.
    pulse = counting(melody.metre, range(half, 2 * half), 0.4, 0.28)
    return Piece(
        "call and answer",
        melody.metre,
        3 * half,
        (Section(0, scale),),
        (*call, *answer),
        tuple(pulse),
    )


def _step_rhythm(scale: Scale, request: Request) -> Piece:
    """Play the steps as durations on one drum, a bar for every round, over a pulse."""
    n, rounds = scale.divisions, request.bars or _ROUNDS
    metre, pulse = Metre(n, 8), QUARTER // 2
    every = n // metre.beats
    low = scale.tones[0]
    taps = []
    for number in range(rounds):
        begin = number * n * pulse
        taps += [
            Tap(begin + (tone - low) * pulse, Drum.WOOD_BLOCK, 0.66 if place == 1 else 0.54, place)
            for place, tone in enumerate(scale.tones, 1)
        ]
        taps += [Tap(begin + k * pulse, Drum.BRUSH, 0.26) for k in range(0, n, every)]
    # A round lasts as long in every division as one of twelve eighths, up to the quickest tempo.
    return Piece(
        "its steps as a rhythm",
        metre,
        rounds,
        (Section(0, scale),),
        (),
        tuple(taps),
        tempo=min(22.5 * metre.beats, 300.0),
    )


def _practised(name: str, scale: Scale, request: Request) -> Piece:
    return practice(scale, name, request.metre)


@dataclass(frozen=True, slots=True)
class _Kind:
    make: Callable[[Scale, Request], Piece]
    title: str
    bars: tuple[int, ...] | range = ()
    has_metre: bool = True
    has_versions: bool = False


_ANY_BARS = range(1, LONGEST_BARS + 1)
PIECES: Mapping[str, _Kind] = {
    "tune": _Kind(_tune, "a tune", BARS, has_versions=True),
    "tune-over-drone": _Kind(_over_drone, "a tune over a drone", BARS, has_versions=True),
    "tune-over-vamp": _Kind(_over_vamp, "a tune over two chords", BARS, has_versions=True),
    "tune-changed": _Kind(_tune_changed, "a tune, and the same in its nearest relative", BARS, has_versions=True),
    "vamp": _Kind(_vamp, "two chords in turn", _ANY_BARS),
    "cadence": _Kind(_cadence, "the chord of colour, and home"),
    **{name: _Kind(partial(_practised, name), pattern.title) for name, pattern in PATTERNS.items()},
    "call-and-answer": _Kind(_call_and_answer, "two bars, two of silence, the answer", BARS, has_versions=True),
    "step-rhythm": _Kind(_step_rhythm, "its steps as a rhythm", _ANY_BARS, has_metre=False),
    "play-along": _Kind(_along, "a minute or two to play along with", range(4, LONGEST_BARS + 1)),
}
"""Every piece by its name, in the order a teacher looks for them."""


def piece_of(name: str, scale: Scale, request: Request | None = None) -> Piece:
    """Make a piece.

    Parameters
    ----------
    name : str
        One of `PIECES`.
    scale : Scale
        The scale.
    request : Request, optional
        Metre, length and version.

    Returns
    -------
    Piece
        As a player would play it.

    Raises
    ------
    DomainError
        If the scale has no such piece, or it takes no such request.

    Examples
    --------
    >>> piece = piece_of("cadence", Scale.of(4, 5, 8, 9, 11, 0, 2))
    >>> [harmony.symbol for harmony in piece.harmonies]
    ['E', 'F', 'E']
    """
    wanted, request = PIECES[name], request or Request()
    _check(name, wanted, request)
    piece = wanted.make(scale, request)
    ordered = sorted(piece.tones, key=lambda tone: (tone.start, list(Part).index(tone.part), tone.degree))
    taps = sorted(piece.taps, key=lambda tap: (tap.start, tap.drum))
    return played(replace(piece, tones=tuple(ordered), taps=tuple(taps)))


def _check(name: str, wanted: _Kind, request: Request) -> None:
    if request.metre is not None and (not wanted.has_metre or str(request.metre) not in METRES):
        rule = (
            told("there are {list}", list=", ".join(METRES))
            if wanted.has_metre
            else told("{name} takes its metre from the scale", name=name)
        )
        raise DomainError(
            told("metre {metre}", metre=request.metre),
            rule,
            told("Choose one of these.") if wanted.has_metre else told("Leave it out."),
        )
    if request.bars is not None and request.bars not in wanted.bars:
        known = (
            f"{wanted.bars[0]}–{wanted.bars[-1]}" if isinstance(wanted.bars, range)
            else " or ".join(map(str, wanted.bars))
        )  # fmt: skip
        rule = (
            told("{name} has {known} bars", name=name, known=known)
            if wanted.bars
            else told("{name} is as long as it is", name=name)
        )
        raise DomainError(
            told("{bars} bars", bars=request.bars),
            rule,
            told("Choose one of these.") if wanted.bars else told("Leave bars out."),
        )
    if request.version < 1 or (request.version != 1 and not wanted.has_versions):
        rule = told("versions count from 1") if request.version < 1 else told("there is one {name}", name=name)
        raise DomainError(told("version {version}", version=request.version), rule, told("Leave it out."))
