"""What a piece of music sounds: how long each pitch class, which note first, last and lowest, and a guess at its root.

The guess is a ranking, not a theory of tonality: each pitch class gets its share of the sounding time, plus a quarter
each for being the first, the last and the lowest note. Ties go to the pitch class heard first.

Conventions: times are in quarter notes or ticks, whichever the file counts in; only their proportions matter.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from math import inf
from typing import NamedTuple

from gamutwright.errors import InputError, told
from gamutwright.inputs.reading import Reading, Request
from gamutwright.theory.notenames import note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import root_names, with_names

__all__ = ["Note", "rank_roots", "reading_of_notes"]

_BONUS = 0.25


class Note(NamedTuple):
    """One sounding note.

    Parameters
    ----------
    onset, duration : float
        In the file's units of time.
    pitch : int
        MIDI key number, 60 being middle C.
    name : str
        ASCII name, where the file spells; else empty.
    """

    onset: float
    duration: float
    pitch: int
    name: str = ""


@dataclass(slots=True)
class _Heard:
    """What is kept of all notes."""

    time: dict[int, float] = field(default_factory=dict)
    """How long each pitch class sounds."""
    begins: dict[int, tuple[float, int]] = field(default_factory=dict)
    """Onset and pitch of the first note of each."""
    last: tuple[float, int] = (inf, 0)
    """End with a minus, and pitch, of the note that ends last."""
    lowest: int = 1 << 30
    named: dict[str, float] = field(default_factory=dict)
    """How long each name sounds."""


def _heard(notes: Iterable[Note]) -> _Heard:
    heard = _Heard()
    time, begins, named = heard.time, heard.begins, heard.named
    last, lowest = heard.last, heard.lowest
    for onset, duration, pitch, name in notes:
        pitch_class = pitch % 12
        time[pitch_class] = time.get(pitch_class, 0.0) + duration
        # Triplets add up to a beat but for the last digits.
        begun, end = round(onset, 6), round(onset + duration, 6)
        first = begins.get(pitch_class)
        if first is None or (begun, pitch) < first:
            begins[pitch_class] = (begun, pitch)
        last = min(last, (-end, pitch))
        lowest = min(lowest, pitch)
        if name:
            named[name] = named.get(name, 0.0) + duration
    heard.last, heard.lowest = last, lowest
    return heard


def rank_roots(notes: Iterable[Note]) -> tuple[tuple[int, float, str], ...]:
    """Rank the pitch classes as roots.

    Parameters
    ----------
    notes : iterable of Note
        At least one.

    Returns
    -------
    tuple of (int, float, str)
        Pitch class, score, and the reasons in words; highest score first.

    Examples
    --------
    >>> rank_roots([Note(0, 1, 60), Note(1, 1, 67), Note(2, 2, 60)])[0]
    (0, 1.5, '75 % of the time, first, last, lowest')
    """
    return _ranked(_heard(notes))


def _ranked(heard: _Heard) -> tuple[tuple[int, float, str], ...]:
    total = sum(heard.time.values()) or 1.0
    order = sorted(heard.begins, key=lambda pitch_class: heard.begins[pitch_class])
    holders = (("first", order[0]), ("last", heard.last[1] % 12), ("lowest", heard.lowest % 12))
    ranking = []
    for pitch_class in order:
        share = heard.time[pitch_class] / total
        roles = [role for role, holder in holders if holder == pitch_class]
        ranking.append(
            (pitch_class, share + _BONUS * len(roles), ", ".join([f"{100 * share:.0f} % of the time", *roles]))
        )
    return tuple(sorted(ranking, key=lambda row: -row[1]))


def reading_of_notes(notes: Iterable[Note], form: str, request: Request, remarks: tuple[str, ...] = ()) -> Reading:
    """Make a scale of sounding notes; the root is the stated one, or the first of the ranking.

    Parameters
    ----------
    notes : iterable of Note
        The notes.
    form : str
        What kind of file they come from.
    request : Request
        Divisions and root.
    remarks : tuple of str
        What the file's reader has to say.

    Returns
    -------
    Reading
        The scale, spelled as the notes are where they are spelled; remarks give the ranking.

    Raises
    ------
    InputError
        If there are no notes, or the division is not twelve.
    """
    if request.divisions != 12:
        raise InputError(
            f"a {form}",
            told("its notes are those of 12 divisions, and these are {divisions}", divisions=request.divisions),
            told("Give pitch classes or steps instead."),
        )
    heard = _heard(notes)
    if not heard.time:
        raise InputError(f"a {form}", told("it holds no pitched notes"), told("Check the file, or choose another."))
    names = _longest_names(heard.named)
    remarks = (*remarks, *_spelling_remarks(heard.named, names))
    if request.root:
        root = request.root.pitch_class
    else:
        ranking = _ranked(heard)
        root = ranking[0][0]
        ranks = "; ".join(f"{names.get(pc) or root_names(pc)[-1]} ({reasons})" for pc, _, reasons in ranking[:3])
        remarks = (*remarks, f"the root is a guess: {ranks}; state another root if it is wrong")
    scale = Scale.of(*sorted(heard.time), root=root)
    if len(names) == scale.cardinality:
        scale = with_names(scale, [names[pitch_class] for pitch_class in scale.pitch_classes])
    if not scale.is_rooted:
        remarks = (*remarks, "the root is not one of the notes")
    return Reading(scale, form, remarks)


def _longest_names(times: Mapping[str, float]) -> dict[int, str]:
    """For each pitch class the name that sounds longest."""
    ordered = sorted(times, key=lambda name: (times[name], name))
    return {note_name_to_pitch_class(name): name for name in ordered}


def _spelling_remarks(times: Mapping[str, float], names: Mapping[int, str]) -> tuple[str, ...]:
    others = sorted(set(times) - set(names.values()))
    if not others:
        return ()
    kept = [names[note_name_to_pitch_class(name)] for name in others]
    pairs = ", ".join(f"{one} for {other}" for one, other in zip(kept, others, strict=True))
    return (f"keys spelled in two ways take the name that sounds longer: {pairs}",)
