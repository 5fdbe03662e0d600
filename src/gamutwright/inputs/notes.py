"""Note names: `C D Eb F G A B`, `C♯`, `E flat`, in English, German or solfège.

Conventions: the first note is the root; the spelling is kept where it departs from the policy. A final note that
repeats the first closes the octave.
"""

from __future__ import annotations

import re

from gamutwright.errors import told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, shortened
from gamutwright.theory.notenames import LANGUAGES, names_in, note_name_to_pitch_class
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names, with_names

__all__ = ["read_notes", "scale_from_names"]

_EXAMPLE = {
    "english": "C D Eb F G A B",
    "german": "C D Es F G A H",
    "solfege": "do re mib fa sol la si",
}
_TITLES = {"english": told("English"), "german": told("German"), "solfege": told("solfège")}
_ACCIDENTAL_WORD = re.compile(
    r"(?<=\w)[ \t-]+((?:double[ -]?)?(?:flat|sharp|natural|b[ée]mol|di[èe]se))\b", re.IGNORECASE
)


def read_notes(text: str, request: Request) -> tuple[Option, ...]:
    """Read note names.

    Parameters
    ----------
    text : str
        The names.
    request : Request
        Divisions, language and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If a word is no note name, or a note comes twice.
    """
    names = request.names
    example = told("Write notes like: {example}.", example=_EXAMPLE[names.language])
    joined = _ACCIDENTAL_WORD.sub(lambda found: "-" + found[1].replace(" ", "-"), text)
    words = [
        word for word in re.split(r"[\s,;|–]+|-(?!(?:double|flat|sharp|natural|b[ée]mol|di[èe]se))", joined) if word
    ]
    found: list[str] = []
    for word in words:
        name = names.read(word)
        if name is None:
            rule, is_foreign = _rule(word, names.language)
            fit = max(len(found) / len(words), 0.5 * is_foreign)
            raise NotThisFormError(shortened(word), rule, example, fit)
        found.append(name)
    if not found:
        raise NotThisFormError(shortened(text), told("there are no notes in it"), example)
    if request.divisions != 12:
        raise NotThisFormError(
            shortened(text),
            told("note names are those of 12 divisions, and these are {divisions}", divisions=request.divisions),
            told("Give pitch classes or steps instead."),
            0.95,
        )
    if len(found) > 1 and found[-1] == found[0]:
        found.pop()
    seen: dict[int, str] = {}
    for place, name in enumerate(found):
        pitch_class = note_name_to_pitch_class(name)
        if pitch_class in seen:
            other = seen[pitch_class]
            rule = (
                told("the note comes twice")
                if other == name
                else told("it is the same key as {part}", part=names.write(other))
            )
            raise NotThisFormError(f"'{names.write(name)}'", rule, told("Give each note once."), place / len(words))
        seen[pitch_class] = name
    scale, remarks = scale_from_names(found, request)
    written = " ".join(found)
    return (Option(Reading(scale, "notes", remarks), f"notes: {written}"),)


def _rule(word: str, language: str) -> tuple[str, bool]:
    """Say why a word is no note, and whether it is one in another language."""
    for other in LANGUAGES:
        if other != language and len(word) < 30 and names_in(other).read(word):
            told_apart = told(
                "it is no note name in {language}, but it is one in {other} (--names {names})",
                language=_TITLES[language], other=_TITLES[other], names=other,
            )  # fmt: skip
            return told_apart, True
    return told("it is no note name in {language}", language=_TITLES[language]), False


def scale_from_names(names: list[str], request: Request) -> tuple[Scale, tuple[str, ...]]:
    """Make a spelled scale from ASCII names; the first is the root unless one is stated.

    Parameters
    ----------
    names : list of str
        ASCII names, each pitch class once, in any order.
    request : Request
        The root, if stated.

    Returns
    -------
    tuple of (Scale, tuple of str)
        The scale and remarks.

    Examples
    --------
    >>> scale_from_names(["F#", "A#", "C#"], Request(12, names_in("english")))[0].names
    ('F#', 'A#', 'C#')
    """
    by_pitch_class = {note_name_to_pitch_class(name): name for name in names}
    root = request.root.pitch_class if request.root else next(iter(by_pitch_class))
    scale = Scale.of(*by_pitch_class, root=root)
    scale = with_names(scale, [by_pitch_class[pitch_class] for pitch_class in scale.pitch_classes])
    remarks = () if scale.is_rooted else ("the root is not one of the notes",)
    if scale.names:
        usual = " ".join(tone_names(Scale(scale.mask, 12, root)))
        remarks = (*remarks, f"your spelling is kept; the usual one would be {usual}")
    return scale, remarks
