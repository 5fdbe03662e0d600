"""Exercises on paper, computed from the scale, with their answers and why they are the answers.

Nothing here is looked up or written by hand: tasks and answers come from the same functions that the facts use, in any
division of the octave. A task that a scale has no answer for, such as chords in a scale without any, is left out.

- *staff*: write the tones on an empty staff (twelve divisions);
- *ring*: mark the tones on an empty ring and find the one step that is missing, which is what the others leave over;
- *steps*: mark the semitone steps, or the smallest steps outside twelve divisions;
- *chords*: write the tones of triads that stand in the scale in thirds; outside twelve divisions, and in scales
  without such a triad, take every other tone;
- *mode*: build the scale that begins on another tone;
- *root*: write the scale on another root, moved by an interval so that every tone keeps its letter distance.

Conventions: notes are ASCII names until `Exercise`, where they stand as the language prints them; outside twelve
divisions tones are the numbers of their steps. Thirds are three letters, the root's included (rudiments teaching).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from gamutwright.errors import DomainError
from gamutwright.music.pitches import names_of_steps
from gamutwright.phrasing.card_words import card_words
from gamutwright.publish.handout.sheet_words import sheet_words
from gamutwright.theory.harmony import TRIADS, triads
from gamutwright.theory.notenames import LETTERS, accidental, fifths_to_name, name_to_fifths, to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map, tone_names

__all__ = ["Exercise", "Row", "Tick", "exercises", "moved_scale", "moved_to", "stacked_triads"]

MOST_CHORDS = 4
_MOVES = (-1, 1, 2, -2, 3, -3, 4, -4, 5, -5)
"""Where else to write a scale, in fifths: the nearest roots first."""
_FLATTEST, _SHARPEST = -15, 19
"""F with two flats and B with two sharps, in fifths from C."""


@dataclass(frozen=True, slots=True)
class Row:
    """A row of places to write in.

    Parameters
    ----------
    answers : tuple of str
        What belongs in each place.
    label : str
        What stands before them; "" for nothing.
    given : tuple of int
        Indices of the places that are filled in already.
    """

    answers: tuple[str, ...]
    label: str = ""
    given: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Tick:
    """Something to tick, or not.

    Parameters
    ----------
    text : str
        What it says.
    is_right : bool
        Whether it is to be ticked.
    """

    text: str
    is_right: bool


@dataclass(frozen=True, slots=True)
class Exercise:
    """A task, its answer and why.

    Parameters
    ----------
    id : str
        staff, ring, steps, chords, mode or root.
    prompt : str
        What is to be done.
    why : str
        Why the answer is what it is, in a sentence.
    rows : tuple of Row
        Places to write in.
    ticks : tuple of Tick
        Things to tick.
    """

    id: str
    prompt: str
    why: str
    rows: tuple[Row, ...] = ()
    ticks: tuple[Tick, ...] = ()


@dataclass(frozen=True, slots=True)
class _Names:
    """Names of tones and fixed phrases of a language."""

    language: str

    def tones(self, scale: Scale) -> tuple[str, ...]:
        """Name the tones upwards from the root."""
        if scale.divisions != 12:
            steps = names_of_steps(scale)
            return tuple(steps[tone] for tone in scale.tones)
        return self.notes(tone_names(scale))

    def notes(self, names: tuple[str, ...]) -> tuple[str, ...]:
        words = card_words(self.language)
        return tuple(words.note(to_symbols(name)) for name in names)

    def say(self, key: str, **slots: str | int) -> str:
        return sheet_words(self.language).say(key, **slots)

    def chord(self, root: str, suffix: str) -> str:
        """Name a triad; German writes the root of a chord with a minor third small."""
        note = self.notes((root,))[0]
        small = note[:1].lower() + note[1:]
        return self.say(f"chord-{suffix or 'major'}", note=note, small=small)


def exercises(scale: Scale, language: str) -> tuple[Exercise, ...]:
    """Make the exercises on a scale.

    Parameters
    ----------
    scale : Scale
        The scale, with at least one tone.
    language : str
        Language tag.

    Returns
    -------
    tuple of Exercise
        In the order of the sheet; those the scale has no answer for are left out.

    Raises
    ------
    DomainError
        If the scale is empty.

    Examples
    --------
    >>> found = exercises(Scale.of(0, 2, 4, 5, 7, 9, 11), "en")
    >>> [exercise.id for exercise in found]
    ['staff', 'ring', 'steps', 'chords', 'mode', 'root']
    >>> [tick.text for tick in found[2].ticks if tick.is_right], found[5].rows[0].answers
    (['E–F', 'B–C'], ('F', 'G', 'A', 'B♭', 'C', 'D', 'E'))
    """
    if not scale.mask:
        raise DomainError("the empty set", "exercises need tones", "Choose a scale.")
    names = _Names(language)
    made = (
        _on_staff(scale, names),
        _on_ring(scale, names),
        _small_steps(scale, names),
        _chords(scale, names),
        _mode(scale, names),
        _other_root(scale, names),
    )
    return tuple(exercise for exercise in made if exercise is not None)


def _on_staff(scale: Scale, names: _Names) -> Exercise | None:
    if scale.divisions != 12:
        return None
    found = names.tones(scale)
    why = names.say("staff-why", tones=" ".join(found))
    prompt = names.say("staff" if scale.is_rooted else "staff-unrooted", root=found[0], count=len(found))
    return Exercise("staff", prompt, why)


def _on_ring(scale: Scale, names: _Names) -> Exercise:
    """Leave out the step in the middle; it is what the others leave of the octave."""
    steps, tones = scale.step_pattern, names.tones(scale)
    gap = len(steps) // 2
    given = tuple(index for index in range(len(steps)) if index != gap)
    others = sum(steps) - steps[gap]
    why = names.say("ring-why", all=scale.divisions, others=others, gap=steps[gap])
    row = Row(tuple(str(step) for step in steps), given=given)
    return Exercise("ring", names.say("ring", root=tones[0], all=scale.divisions), why, (row,))


def _small_steps(scale: Scale, names: _Names) -> Exercise | None:
    if scale.cardinality < 2:
        return None
    steps, tones = scale.step_pattern, names.tones(scale)
    wanted = 1 if scale.divisions == 12 else min(steps)
    around = (*tones, tones[0])
    ticks = tuple(
        Tick(f"{low}–{high}", size == wanted) for (low, high), size in zip(pairwise(around), steps, strict=True)
    )
    key = "semitones" if scale.divisions == 12 else "smallest"
    sizes = " ".join(map(str, steps))
    count = steps.count(wanted)
    why = names.say(f"{key}-why" if count else "semitones-none", sizes=sizes, count=count, size=min(steps))
    return Exercise("steps", names.say(key), why, ticks=ticks)


def stacked_triads(scale: Scale) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    """Find the triads of a scale that its own spelling writes in thirds.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of (str, str, tuple of str)
        Root, kind as in `theory.harmony.TRIADS`, and the three notes, ASCII.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> stacked_triads(Scale.of(0, 3, 4, 7))
    (('C', '', ('C', 'E', 'G')), ('C', 'm', ('C', 'Eb', 'G')))
    """
    spelled: Mapping[int, str] = tone_name_map(scale)
    found = []
    for chord in triads(scale):
        notes = tuple(spelled[tone] for tone in chord.tones)
        letters = [LETTERS.index(note[0]) for note in notes]
        if [(letter - letters[0]) % 7 for letter in letters] == [0, 2, 4]:
            found.append((notes[0], chord.suffix, notes))
    return tuple(found)


def _chords(scale: Scale, names: _Names) -> Exercise | None:
    found = stacked_triads(scale) if scale.divisions == 12 else ()
    if not found:
        return _every_other(scale, names)
    # Each kind once before any comes twice, so that a few chords show what the scale has.
    ranked = sorted(found, key=lambda chord: (sum(c[1] == chord[1] for c in found[: found.index(chord)]), chord[1]))
    chosen = [chord for chord in found if chord in ranked[:MOST_CHORDS]]
    rows = tuple(Row(names.notes(notes), names.chord(root, suffix)) for root, suffix, notes in chosen)
    kinds = [suffix for suffix in TRIADS if any(chord[1] == suffix for chord in chosen)]
    reasons = "; ".join(names.say(f"thirds-{suffix or 'major'}") for suffix in kinds)
    return Exercise("chords", names.say("chords"), names.say("chords-why", reasons=reasons), rows)


def _every_other(scale: Scale, names: _Names) -> Exercise | None:
    """Stack every other tone from the root and from the tone after it."""
    if scale.cardinality < 5:
        return None
    tones, n = names.tones(scale), scale.divisions
    rows, reasons = [], []
    for start in (0, 1):
        places = [(start + 2 * step) % scale.cardinality for step in range(3)]
        heights = [scale.tones[place] for place in places]
        rows.append(Row(tuple(tones[place] for place in places), names.say("from", tone=tones[start])))
        reasons.append(" + ".join(str((high - low) % n) for low, high in pairwise(heights)))
    why = names.say("every-other-why", first=reasons[0], second=reasons[1])
    return Exercise("chords", names.say("every-other"), why, tuple(rows))


def _mode(scale: Scale, names: _Names) -> Exercise | None:
    """Choose a tone whose mode differs from the scale; the fifth where there is one."""
    degrees = sorted(range(2, scale.cardinality + 1), key=lambda degree: (abs(degree - 5), degree))
    if not degrees:
        return None
    others = [degree for degree in degrees if scale.mode(degree).mask != scale.mask]
    degree = (others or degrees)[0]
    mode = scale.mode(degree)
    tones = names.tones(scale)[degree - 1 :] + names.tones(scale)[: degree - 1]
    key = "mode-why" if others else "mode-same"
    why = names.say(key, tone=tones[0], sizes=" ".join(map(str, mode.step_pattern)))
    prompt = names.say("mode", degree=degree, tone=tones[0])
    rows = (
        Row(tones, names.say("tones"), (0,)),
        Row(tuple(map(str, mode.step_pattern)), names.say("steps")),
    )
    return Exercise("mode", prompt, why, rows)


def moved_to(scale: Scale) -> tuple[str, ...]:
    """Write a scale of twelve divisions on another root, by an interval.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of str
        ASCII names upwards: a fourth, a fifth, a second and so on away, the first of these without double accidentals,
        or that with the fewest accidentals.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> moved_to(Scale.of(7, 9, 11, 1, 2, 4, 5))
    ('C', 'D', 'E', 'F#', 'G', 'A', 'Bb')
    """
    places = [name_to_fifths(name) for name in tone_names(scale)]
    moves = [move for move in _MOVES if min(places) + move >= _FLATTEST and max(places) + move <= _SHARPEST]
    options = [tuple(fifths_to_name(place + move) for place in places) for move in moves]
    for option in options:
        if all(abs(accidental(name)) <= 1 for name in option):
            return option
    # A spelling fixed by hand may reach so far that no move of it can be written; then it is spelled anew.
    options = options or [tone_names(scale.transposed(5))]
    return min(options, key=lambda option: sum(abs(accidental(name)) for name in option))


def moved_scale(scale: Scale) -> Scale:
    """Move a scale outside twelve divisions to the root that its own middle tone is.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Scale
        The same steps from there; from the next step where the scale has one tone.

    Examples
    --------
    >>> moved_scale(Scale.of(0, 3, 11, divisions=19)).pitch_classes
    (3, 6, 14)
    """
    middle = scale.tones[scale.cardinality // 2]
    return scale.transposed(middle or 1)


def _other_root(scale: Scale, names: _Names) -> Exercise | None:
    if scale.divisions == 12:
        tones = names.notes(moved_to(scale))
    elif scale.divisions > 1:
        tones = names.tones(moved_scale(scale))
    else:
        return None
    why = names.say("root-why", sizes=" ".join(map(str, scale.step_pattern)), tone=tones[0])
    return Exercise("root", names.say("root", tone=tones[0]), why, (Row(tones, given=(0,)),))
