"""The names that musical traditions give to the scale, each with a source.

Conventions: a name belongs to the tones above the root. Where sources disagree about a name, each of the sets it stands
for bears it. Traditions that do not tune by twelve equal steps are shown by their nearest tones. Each is labelled with
the tradition, the source and how far the source was checked.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import GLAREAN_1547, MESSIAEN_1944, PRACTICE
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
from gamutwright.facts.roles import Basic, Part, Reader, Roles
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "traditional_names"]

GLAREAN = Citation(GLAREAN_1547, "book 2")
MESSIAEN = Citation(MESSIAEN_1944, "chapter XVI")
TEACHING = Citation(PRACTICE, "names of scales in rudiments teaching", Evidence.PRACTICE)


def traditional_names(scale: Scale) -> tuple[str, ...] | None:
    """List the names, each once.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of str or None
        The names; None where no source held names the scale.

    Examples
    --------
    >>> traditional_names(Scale.of(0, 2, 4, 6, 8, 10))
    ('whole-tone', 'Messiaen mode 1')
    """
    return tuple(dict.fromkeys(record.name for record in names_of(scale))) or None


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """List the sources, a place each.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        The scale itself for each source, labelled with name, tradition, source and evidence.

    Examples
    --------
    >>> witnesses(Scale.of(0, 3, 5, 6, 7, 10))[0].label
    'blues: jazz practice; jazz teaching, minor pentatonic with the flat fifth (common practice, no source)'
    """
    return tuple(
        Witness(
            WitnessKind.SCALE,
            (scale.tones,),
            f"{record.name}: {record.tradition}; {record.source}, {record.locator} ({record.evidence})",
        )
        for record in names_of(scale)
    )


FACT = Fact(
    id="traditional_names",
    title="Traditional names",
    doc=__doc__,
    group=Group.NAMES,
    dtype=Dtype.TEXTS,
    level=Level.FOUNDATION,
    scope=Scope.ROOTED,
    value=traditional_names,
    witnesses=witnesses,
    domain=Domain(divisions=(12, 12), rooted=True, rule="the names held are those of twelve divisions"),
    none_when="no source we hold names it",
    needs=("systematic_name",),
    terms=("traditional name",),
    picture=Picture("ladder", marks="none"),
    sound=Phrase("scale"),
    witnesses_name_sources=True,
    roles=Roles(reader=Reader.SCALES, longest=3, basic=Basic.NAMES, part=Part.HEAR, rank=2, names_scale=True),
    sources=(GLAREAN, MESSIAEN, TEACHING),
    worked=(
        Worked(Scale.of(2, 4, 5, 7, 9, 11, 0), ("dorian", "thaat kafi", "mela 22 Kharaharapriya"), GLAREAN),
        Worked(Scale.of(0, 2, 3, 4, 6, 7, 8, 10, 11), ("Messiaen mode 3",), MESSIAEN),
        Worked(Scale.of(0, 3, 5, 6, 7, 10), ("blues",), TEACHING),
        Worked(Scale.of(0, 1, 2, 3), None, TEACHING),
    ),
)
