"""The modes of the scale, each with the tone it starts from and its name.

Conventions: upwards from the root, each mode once. A mode takes its first traditional name in the table, or else its
systematic name, which says how it departs from a familiar scale.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import GLAREAN_1547, PRACTICE
from gamutwright.facts.model import (
    Citation,
    Domain,
    Dtype,
    Evidence,
    Fact,
    Group,
    Level,
    Phrase,
    Picture,
    Scope,
    Witness,
    WitnessKind,
    Worked,
)
from gamutwright.facts.roles import Part, Reader, Roles
from gamutwright.theory.modenames import named_modes
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map

__all__ = ["FACT", "mode_names"]

GLAREAN = Citation(GLAREAN_1547, "book 2; locrian by common practice")
TEACHING = Citation(PRACTICE, "modes of the pentatonic and melodic minor scales", Evidence.PRACTICE)


def mode_names(scale: Scale) -> tuple[str, ...] | None:
    """Name the modes.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of str or None
        Root and name of each, in the spelling of the scale; None where all tones make one mode.

    Examples
    --------
    >>> mode_names(Scale.of(0, 2, 4, 5, 7, 9, 11))[:3]
    ('C ionian', 'D dorian', 'E phrygian')
    """
    names = tone_name_map(scale)
    found = tuple(f"{names[tone]} {name}" for tone, name in named_modes(scale))
    return found if len(found) > 1 else None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Point at where the modes start.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    tuple of Witness
        A mode each, labelled with its name.

    Examples
    --------
    >>> [w.parts[0][0] for w in witnesses(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [0, 2, 4, 5, 7, 9, 11]
    """
    modes = named_modes(scale)
    return tuple(Witness(WitnessKind.MODE, ((tone,),), name) for tone, name in modes) if len(modes) > 1 else ()


FACT = Fact(
    id="mode_names",
    title="Modes by name",
    doc=__doc__,
    group=Group.SYMMETRY,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.SPELLED,
    value=mode_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the names held are those of twelve divisions"),
    none_when="all its tones make the same mode",
    needs=("mode_count",),
    picture=Picture("modes"),
    sound=Phrase("modes"),
    roles=Roles(reader=Reader.ROOTED_SCALES, longest=7, part=Part.RELATIVES, rank=3, names_scale=True),
    sources=(GLAREAN, TEACHING),
    worked=(
        Worked(
            Scale.of(0, 2, 4, 5, 7, 9, 11),
            ("C ionian", "D dorian", "E phrygian", "F lydian", "G mixolydian", "A aeolian", "B locrian"),
            GLAREAN,
        ),
        Worked(
            Scale.of(0, 1, 3, 4, 6, 7, 9, 10),
            ("C octatonic, semitone first", "Db octatonic, tone first"),
            TEACHING,
        ),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), None, TEACHING),
    ),
)
