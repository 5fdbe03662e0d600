"""The rules of a plain tune, each a question that a melody answers with yes or no.

They are those of the cantus firmus, with a rhythm and two halves. The same functions find a tune and test it. Intervals
are counted in degrees of the scale, so that a step is a step in any scale of any division; sizes are compared with
those of twelve divisions. A leap is judged by both: how many letters it goes, and how far; so F to C sharp is an
augmented fifth and no minor sixth. The letters of a scale of seven tones are its degrees; those of fewer tones are read
off their names, spelled from C so that a tune is the same on every root; more tones than letters, and fewer than seven
in other divisions, are judged by how far they leap alone, and so are clusters of seven that have fewer than six other
leaps.

The interval between the two halves is dead: a singer breathes there, and no rule of leaps binds it.

References: Fux, Gradus ad Parnassum (1725), and Jeppesen, Counterpoint (1939), on the cantus firmus; Persichetti,
Twentieth-Century Harmony (1961), chapter 2, on the tone that colours a mode; Caplin, Classical Form (1998), on
antecedent and consequent; all from memory.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from gamutwright.ir.playing import Metre
from gamutwright.music.piece import QUARTER, bar_length, step_of
from gamutwright.music.written import pitch_of
from gamutwright.theory.notenames import LETTERS
from gamutwright.theory.scale import Scale

__all__ = [
    "MOST_HEARD",
    "RULES",
    "TENTH",
    "Melody",
    "Rule",
    "broken_rules",
    "caplin_answers_its_first_half",
    "common_begins_on_a_tone_of_the_tonic",
    "common_sounds_the_whole_scale",
    "common_turns_in_time",
    "fux_ends_at_home",
    "fux_keeps_within_a_tenth",
    "fux_leaps_by_singable_intervals",
    "is_singable",
    "is_strong",
    "is_sung_leap",
    "jeppesen_comes_home_by_step",
    "jeppesen_has_one_climax",
    "jeppesen_moves_mostly_by_step",
    "jeppesen_recovers_its_leaps",
    "jeppesen_repeats_no_tone",
    "persichetti_holds_its_colour_on_strong_beats",
]

TENTH = 16
"""Semitones of a major tenth."""
MOST_HEARD = 7
"""So many different tones are asked of a tune; scales with more are not walked through in a few bars."""
_ALL_LETTERS = 7
_FEWEST_LEAPS = 6
_LONGEST_WAY = 5
_SIZES: Mapping[int, tuple[float, float]] = {
    1: (0.5, 2.5), 2: (2.5, 4.5), 3: (4.5, 5.5), 4: (6.5, 7.5), 5: (7.5, 8.5), 7: (11.9, 12.1)
}  # fmt: skip
"""Semitones of what is sung, between these: by how many letters, from a second to an octave without the seventh."""
_SHARE_OF_LEAPS = 3


@dataclass(frozen=True, slots=True)
class Melody:
    """One voice.

    Parameters
    ----------
    scale : Scale
        Its scale.
    metre : Metre
        Its metre.
    bars : int, even
        How many bars it has; each half has as many.
    starts, lengths, degrees : tuple of int
        Its notes, as in `music.piece`.
    colour : tuple of int
        The tones it has to bring out, in steps above the root.
    """

    scale: Scale
    metre: Metre
    bars: int
    starts: tuple[int, ...]
    lengths: tuple[int, ...]
    degrees: tuple[int, ...]
    colour: tuple[int, ...] = ()

    @property
    def middle(self) -> int:
        """The number of the first note of the second half."""
        half = self.bars * bar_length(self.metre) // 2
        return sum(start < half for start in self.starts)

    @property
    def halves(self) -> tuple[tuple[int, ...], tuple[int, ...]]:
        """The degrees of either half."""
        return self.degrees[: self.middle], self.degrees[self.middle :]

    @property
    def tones(self) -> tuple[int, ...]:
        """The tone of each note, in steps above the root within the octave."""
        return tuple(step_of(self.scale, degree) % self.scale.divisions for degree in self.degrees)


def is_strong(metre: Metre, start: int) -> bool:
    """Say whether a beat is strong: the first of a bar, and its middle where that is a beat.

    Parameters
    ----------
    metre : Metre
        The metre.
    start : int
        When, in twelfths of a quarter note.

    Returns
    -------
    bool
        Whether it is.

    Examples
    --------
    >>> [start for start in range(0, 48, 6) if is_strong(Metre(4, 4), start)]
    [0, 24]
    >>> [start for start in range(0, 36, 6) if is_strong(Metre(3, 4), start)]
    [0]
    """
    bar = bar_length(metre)
    return start % (bar // 2 if metre.beats % 2 == 0 else bar) == 0


def is_singable(size: int, divisions: int) -> bool:
    """Say whether a leap is one that the old rules allow: no tritone, nothing from a major sixth on but the octave.

    Parameters
    ----------
    size : int
        Steps of the division, either way.
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    bool
        Whether it is.

    Examples
    --------
    >>> [size for size in range(1, 14) if is_singable(size, 12)]
    [1, 2, 3, 4, 5, 7, 8, 12]
    """
    semitones = 12 * abs(size) / divisions
    return semitones == 12 or (semitones <= 8.5 and abs(semitones - 6) > 0.4)


@lru_cache(maxsize=512)
def _letters(mask: int, divisions: int) -> tuple[int, ...]:
    """Give the place of each tone in the row of letters; nothing where letters say nothing."""
    scale = Scale(mask, divisions)
    if scale.cardinality == _ALL_LETTERS:
        degrees = tuple(range(_ALL_LETTERS))
        sung = sum(_is_pure(scale, degrees, low, low + by) for low in degrees for by in (2, 3, 4))
        return degrees if sung >= _FEWEST_LEAPS else ()
    if divisions != 12 or scale.cardinality > _ALL_LETTERS:
        return ()
    pitches = [pitch_of(scale, tone) for tone in scale.tones]
    return tuple(_ALL_LETTERS * pitch.octave + LETTERS.index(pitch.step) for pitch in pitches)


def is_sung_leap(scale: Scale, low: int, high: int) -> bool:
    """Say whether a leap is singable by its size, and neither augmented nor diminished by its letters.

    Parameters
    ----------
    scale : Scale
        The scale.
    low, high : int
        Its degrees, in any order.

    Returns
    -------
    bool
        Whether it is.

    Examples
    --------
    >>> acoustic = Scale.of(7, 9, 11, 1, 2, 4, 5)
    >>> is_sung_leap(acoustic, 6, 10), is_sung_leap(acoustic, 1, 6)
    (False, True)
    """
    size = abs(step_of(scale, high) - step_of(scale, low))
    if not is_singable(size, scale.divisions):
        return False
    letters = _letters(scale.mask, scale.divisions)
    return not letters or _is_pure(scale, letters, low, high)


def _is_pure(scale: Scale, letters: tuple[int, ...], low: int, high: int) -> bool:
    """Say whether an interval is perfect, major or minor by its letters, and sung."""
    size = abs(step_of(scale, high) - step_of(scale, low))
    one, other = (
        letters[place] + _ALL_LETTERS * octave
        for octave, place in (divmod(degree, scale.cardinality) for degree in (low, high))
    )
    least, most = _SIZES.get(abs(one - other), (1.0, 0.0))
    return least <= 12 * size / scale.divisions <= most


def _moves(melody: Melody) -> Iterator[tuple[int, int]]:
    """List the moves within either half."""
    for half in melody.halves:
        yield from pairwise(half)


def fux_ends_at_home(melody: Melody) -> bool:
    """Say whether the last note is the root, on a strong beat, and the longest of its bar."""
    end = melody.starts[-1] + melody.lengths[-1]
    bar = melody.starts[-1] // bar_length(melody.metre)
    beside = [
        length
        for start, length in zip(melody.starts, melody.lengths, strict=True)
        if start // bar_length(melody.metre) == bar
    ]
    return (
        melody.degrees[-1] % melody.scale.cardinality == 0
        and is_strong(melody.metre, melody.starts[-1])
        and melody.lengths[-1] == max(beside)
        and end == melody.bars * bar_length(melody.metre)
    )


def fux_keeps_within_a_tenth(melody: Melody) -> bool:
    """Say whether the lowest and the highest note are at most a major tenth apart."""
    low, high = (step_of(melody.scale, degree) for degree in (min(melody.degrees), max(melody.degrees)))
    return 12 * (high - low) <= TENTH * melody.scale.divisions


def fux_leaps_by_singable_intervals(melody: Melody) -> bool:
    """Say whether no leap is augmented or diminished, a major sixth, a seventh, or wider than an octave."""
    return all(is_sung_leap(melody.scale, low, high) for low, high in _moves(melody) if abs(high - low) > 1)


def jeppesen_comes_home_by_step(melody: Melody) -> bool:
    """Say whether the last note is reached by step."""
    return len(melody.degrees) > 1 and abs(melody.degrees[-1] - melody.degrees[-2]) == 1


def jeppesen_has_one_climax(melody: Melody) -> bool:
    """Say whether the highest note is heard once, and neither first nor last."""
    return melody.degrees.count(max(melody.degrees)) == 1 and max(melody.degrees) in melody.degrees[1:-1]


def jeppesen_moves_mostly_by_step(melody: Melody) -> bool:
    """Say whether at most a third of the moves are leaps."""
    moves = [abs(high - low) for low, high in _moves(melody)]
    return _SHARE_OF_LEAPS * sum(move > 1 for move in moves) <= len(moves)


def jeppesen_recovers_its_leaps(melody: Melody) -> bool:
    """Say whether after every leap the melody goes a step the other way."""
    for half in melody.halves:
        moves = [high - low for low, high in pairwise(half)]
        for move, after in zip(moves, [*moves, 0][1:], strict=True):
            if abs(move) > 1 and after != (-1 if move > 0 else 1):
                return False
    return True


def jeppesen_repeats_no_tone(melody: Melody) -> bool:
    """Say whether no note is repeated at once within a half."""
    return all(low != high for low, high in _moves(melody))


def common_turns_in_time(melody: Melody) -> bool:
    """Say whether it goes at most five moves one way: a tune is no scale."""
    for half in melody.halves:
        run, way = 0, 0
        for low, high in pairwise(half):
            run = run + 1 if (high > low) == (way > 0) and way else 1
            way = 1 if high > low else -1
            if run > _LONGEST_WAY:
                return False
    return True


def common_begins_on_a_tone_of_the_tonic(melody: Melody) -> bool:
    """Say whether it begins on the root, or two or four degrees above it."""
    return melody.degrees[0] % melody.scale.cardinality in {0, 2, 4}


def common_sounds_the_whole_scale(melody: Melody) -> bool:
    """Say whether every tone of the scale is heard; of more than seven, seven."""
    return len(set(melody.tones)) >= min(MOST_HEARD, melody.scale.cardinality)


def persichetti_holds_its_colour_on_strong_beats(melody: Melody) -> bool:
    """Say whether every tone of the colour is once on a strong beat, for a quarter note or longer."""
    held = {
        tone
        for start, length, tone in zip(melody.starts, melody.lengths, melody.tones, strict=True)
        if length >= QUARTER and is_strong(melody.metre, start)
    }
    return held.issuperset(melody.colour)


def caplin_answers_its_first_half(melody: Melody) -> bool:
    """Say whether the halves begin with one rhythm, and the first ends on a held note away from home."""
    bar, half = bar_length(melody.metre), melody.bars * bar_length(melody.metre) // 2
    notes = list(zip(melody.starts, melody.lengths, strict=True))
    first = [note for note in notes if note[0] < bar]
    second = [(start - half, length) for start, length in notes if half <= start < half + bar]
    middle = melody.middle
    return (
        first == second
        and 0 < middle < len(notes)
        and melody.degrees[middle - 1] % melody.scale.cardinality != 0
        and melody.lengths[middle - 1] >= QUARTER
        and notes[middle - 1][0] + notes[middle - 1][1] == half
    )


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule.

    Parameters
    ----------
    holds : callable
        Says of a melody whether it keeps it.
    source : str
        Where it is from.
    """

    holds: Callable[[Melody], bool]
    source: str

    @property
    def id(self) -> str:
        """The name of the function."""
        return self.holds.__name__

    @property
    def words(self) -> str:
        """What it asks, as a sentence."""
        text = (self.holds.__doc__ or "").partition("\n")[0].removeprefix("Say whether ")
        return text[:1].upper() + text[1:]


_FUX, _JEPPESEN = "Fux, Gradus ad Parnassum, 1725, from memory", "Jeppesen, Counterpoint, 1939, from memory"
RULES = (
    Rule(fux_ends_at_home, _FUX),
    Rule(fux_keeps_within_a_tenth, _FUX),
    Rule(fux_leaps_by_singable_intervals, _FUX),
    Rule(jeppesen_comes_home_by_step, _JEPPESEN),
    Rule(jeppesen_has_one_climax, _JEPPESEN),
    Rule(jeppesen_moves_mostly_by_step, _JEPPESEN),
    Rule(jeppesen_recovers_its_leaps, _JEPPESEN),
    Rule(jeppesen_repeats_no_tone, _JEPPESEN),
    Rule(
        persichetti_holds_its_colour_on_strong_beats,
        "Persichetti, Twentieth-Century Harmony, 1961, chapter 2, from memory",
    ),
    Rule(caplin_answers_its_first_half, "Caplin, Classical Form, 1998, from memory"),
    Rule(common_turns_in_time, "common practice, no source"),
    Rule(common_begins_on_a_tone_of_the_tonic, "common practice, no source"),
    Rule(common_sounds_the_whole_scale, "common practice, no source"),
)
"""Every rule of a plain tune."""


def broken_rules(melody: Melody) -> tuple[Rule, ...]:
    """List the rules that a melody breaks.

    Parameters
    ----------
    melody : Melody
        The melody.

    Returns
    -------
    tuple of Rule
        None of them for a plain tune.

    Examples
    --------
    >>> rising = Melody(Scale.of(0, 4, 7), Metre(4, 4), 2, (0, 48), (48, 48), (0, 1))
    >>> [rule.id for rule in broken_rules(rising)][:2]
    ['fux_ends_at_home', 'jeppesen_has_one_climax']
    """
    return tuple(rule for rule in RULES if not rule.holds(melody))
