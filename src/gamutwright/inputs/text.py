"""One door for everything a teacher may have: every reader tries the text, and what they found is compared.

Conventions: a prefix decides the form: `notes:`, `pcs:`, `steps:`, `degrees:`, `forte:`, `bits:`, `name:`, `file:`.
A root may follow as `on D`. Readings that give the same scale are one; several different scales are an error that lists
how to write each plainly. A run of digits is what the trade takes it for: steps where it sums to the octave, pitch
classes where it rises.
"""

from __future__ import annotations

import re

from gamutwright.errors import AmbiguousInputError, InputError, told
from gamutwright.inputs.bit_strings import read_bits
from gamutwright.inputs.degree_lists import read_degrees
from gamutwright.inputs.forte import read_forte
from gamutwright.inputs.notes import read_notes
from gamutwright.inputs.pitchclasses import read_pitch_classes
from gamutwright.inputs.reading import NotThisFormError, Option, Reader, Reading, Request, Root, read_root, shortened
from gamutwright.inputs.score_files import is_file_name, read_file_name
from gamutwright.inputs.steps import read_steps
from gamutwright.inputs.systematic_names import read_systematic_name
from gamutwright.inputs.traditional import read_traditional_name
from gamutwright.theory.notenames import names_in, to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names

__all__ = ["LONGEST_TEXT", "PREFIXES", "read_scale"]

LONGEST_TEXT = 5_000
"""Characters."""

PREFIXES: dict[str, tuple[Reader, ...]] = {
    "notes": (read_notes,),
    "pcs": (read_pitch_classes,),
    "steps": (read_steps,),
    "degrees": (read_degrees,),
    "forte": (read_forte,),
    "bits": (read_bits,),
    "name": (read_traditional_name, read_systematic_name),
    "file": (read_file_name,),
}
_PREFIX = re.compile(rf"\s*({'|'.join(PREFIXES)})\s*:(.*)", re.IGNORECASE | re.DOTALL)
_ON_ROOT = re.compile(r"(.*\S)\s+on\s+(\S.*?)\s*", re.IGNORECASE | re.DOTALL)


def read_scale(text: str, *, divisions: int = 12, names: str = "english", root: str | int | None = None) -> Reading:
    """Read a scale from whatever a teacher has.

    Parameters
    ----------
    text : str
        Note names, pitch classes, steps, degrees, a Forte label, bits, a name, or the path of a MIDI or MusicXML
        file.
    divisions : int in [1, 72]
        Equal divisions of the octave.
    names : str
        Language of note names: `english`, `german` or `solfege`.
    root : str or int, optional
        The root, a note name or a pitch class; it goes before one in the text.

    Returns
    -------
    Reading
        The scale, the form it was read in, and remarks.

    Raises
    ------
    AmbiguousInputError
        If the text gives several different scales.
    InputError
        If it gives none.
    DomainError
        If the division or the language is unknown.

    Examples
    --------
    >>> read_scale("C D Eb F# G A Bb").scale.tones
    (0, 2, 3, 6, 7, 9, 10)
    >>> read_scale("D dorian #4").scale.root, read_scale("0 3 6 8 11 14 17", divisions=19).scale.step_pattern
    (2, (3, 3, 2, 3, 3, 3, 2))
    >>> read_scale("2212221").form, read_scale("024579e").form
    ('steps', 'pitch classes')
    """
    Scale(0, divisions)
    request = Request(divisions, names_in(names))
    if len(text) > LONGEST_TEXT:
        raise InputError(
            told("a text of {text} characters", text=len(text)),
            told("a scale is written in at most {longest_text}", longest_text=LONGEST_TEXT),
            told("Give one scale, or the path of a file."),
        )
    if not text.strip():
        raise InputError(
            told("an empty text"), told("there is no scale in it"), told("Write one like: C D Eb F G A B.")
        )
    stated = None if root is None else read_root(str(root), request)
    prefixed = _PREFIX.fullmatch(text)
    body = prefixed[2] if prefixed else text
    is_file = prefixed[1].lower() == "file" if prefixed else is_file_name(text)
    if not is_file:
        body, stated = _with_root(body, stated, request)
    request = Request(divisions, request.names, stated, prefixed is not None)
    if prefixed:
        readers = PREFIXES[prefixed[1].lower()]
    elif is_file:
        readers = PREFIXES["file"]
    else:
        readers = tuple(reader for form, group in PREFIXES.items() if form != "file" for reader in group)
    return _decide(text, body, readers, request)


def _with_root(text: str, stated: Root | None, request: Request) -> tuple[str, Root | None]:
    """Take a final `on ROOT` off the text."""
    found = _ON_ROOT.fullmatch(text)
    if not found:
        return text, stated
    root = read_root(found[2], request)
    return found[1], stated or root


def _decide(text: str, body: str, readers: tuple[Reader, ...], request: Request) -> Reading:
    options: list[Option] = []
    refusals: list[NotThisFormError] = []
    for reader in readers:
        try:
            options.extend(reader(body, request))
        except NotThisFormError as refusal:
            refusals.append(refusal)
    firm = [option for option in options if not option.is_bare]
    different = _different(firm or options)
    if len(different) > 1 or (options and not firm):
        raise _ambiguous(text, different)
    if firm:
        return firm[0].reading
    nearest = max(refusals, key=lambda refusal: refusal.fit)
    if len(readers) == 1 or nearest.fit >= 0.8:
        raise InputError(nearest.value, nearest.rule, nearest.next_step)
    tried = told("notes, pitch classes, steps, degrees, Forte labels, bits and names")
    rule = (
        nearest.rule if request.is_explicit else told("{rule}; it was tried as {tried}", rule=nearest.rule, tried=tried)
    )
    raise InputError(nearest.value, rule, nearest.next_step)


def _different(options: list[Option]) -> list[Option]:
    found: dict[tuple[int, int], Option] = {}
    for option in options:
        scale = option.reading.scale
        found.setdefault((scale.mask, scale.root), option)
    return list(found.values())


def _ambiguous(text: str, options: list[Option]) -> AmbiguousInputError:
    readings = tuple(f"{option.plainly} ({option.reading.form}: {_shown(option.reading.scale)})" for option in options)
    if all(option.is_bare for option in options):
        rule = told("a bare row of noughts and ones is not taken for a scale")
    else:
        rule = told("it can be read as {options} different scales", options=len(options))
    return AmbiguousInputError(
        shortened(text), rule, told("Write one of these: {list}.", list="; ".join(readings)), readings
    )


def _shown(scale: Scale) -> str:
    if scale.divisions == 12:
        return to_symbols(" ".join(tone_names(scale)))
    return " ".join(map(str, scale.pitch_classes))
