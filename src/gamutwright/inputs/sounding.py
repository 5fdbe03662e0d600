"""What a piece of music sounds: how long each pitch class, which note first, last and lowest, and a guess at its root.

The guess is a ranking, not a theory of tonality: each pitch class gets its share of the sounding time, plus a quarter
each for being the first, the last and the lowest note. Ties go to the pitch class heard first.

Conventions: times are in quarter notes or ticks, whichever the file counts in; only their proportions matter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from gamutwright.errors import InputError
from gamutwright.inputs.reading import Reading, Request
from gamutwright.theory.notenames import note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import root_names, with_names

__all__ = ["Note", "rank_roots", "reading_of_notes"]

_BONUS = 0.25


@dataclass(frozen=True, slots=True)
class Note:
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


def rank_roots(notes: Sequence[Note]) -> tuple[tuple[int, float, str], ...]:
    """Rank the pitch classes as roots.

    Parameters
    ----------
    notes : sequence of Note
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
    total = sum(note.duration for note in notes) or 1.0
    first = min(notes, key=lambda note: (note.onset, note.pitch)).pitch % 12
    last = min(notes, key=lambda note: (-(note.onset + note.duration), note.pitch)).pitch % 12
    lowest = min(note.pitch for note in notes) % 12
    order = list(dict.fromkeys(note.pitch % 12 for note in sorted(notes, key=lambda note: (note.onset, note.pitch))))
    ranking = []
    for pitch_class in order:
        share = sum(note.duration for note in notes if note.pitch % 12 == pitch_class) / total
        roles = [
            role for role, holder in (("first", first), ("last", last), ("lowest", lowest)) if holder == pitch_class
        ]
        ranking.append(
            (pitch_class, share + _BONUS * len(roles), ", ".join([f"{100 * share:.0f} % of the time", *roles]))
        )
    return tuple(sorted(ranking, key=lambda row: -row[1]))


def reading_of_notes(notes: Sequence[Note], form: str, request: Request, remarks: tuple[str, ...] = ()) -> Reading:
    """Make a scale of sounding notes; the root is the stated one, or the first of the ranking.

    Parameters
    ----------
    notes : sequence of Note
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
            f"its notes are those of 12 divisions, and these are {request.divisions}",
            "Give pitch classes or steps instead.",
        )
    if not notes:
        raise InputError(f"a {form}", "it holds no pitched notes", "Check the file, or choose another.")
    names = _longest_names(notes)
    remarks = (*remarks, *_spelling_remarks(notes, names))
    if request.root:
        root = request.root.pitch_class
    else:
        ranking = rank_roots(notes)
        root = ranking[0][0]
        ranks = "; ".join(f"{names.get(pc) or root_names(pc)[-1]} ({reasons})" for pc, _, reasons in ranking[:3])
        remarks = (*remarks, f"the root is a guess: {ranks}; state another root if it is wrong")
    scale = Scale.of(*sorted({note.pitch % 12 for note in notes}), root=root)
    if len(names) == scale.cardinality:
        scale = with_names(scale, [names[pitch_class] for pitch_class in scale.pitch_classes])
    if not scale.is_rooted:
        remarks = (*remarks, "the root is not one of the notes")
    return Reading(scale, form, remarks)


def _longest_names(notes: Sequence[Note]) -> dict[int, str]:
    """For each pitch class the name that sounds longest."""
    times: dict[str, float] = {}
    for note in notes:
        if note.name:
            times[note.name] = times.get(note.name, 0.0) + note.duration
    ordered = sorted(times, key=lambda name: (times[name], name))
    return {note_name_to_pitch_class(name): name for name in ordered}


def _spelling_remarks(notes: Sequence[Note], names: dict[int, str]) -> tuple[str, ...]:
    others = sorted({note.name for note in notes if note.name} - set(names.values()))
    if not others:
        return ()
    kept = [names[note_name_to_pitch_class(name)] for name in others]
    pairs = ", ".join(f"{one} for {other}" for one, other in zip(kept, others, strict=True))
    return (f"keys spelled in two ways take the name that sounds longer: {pairs}",)
