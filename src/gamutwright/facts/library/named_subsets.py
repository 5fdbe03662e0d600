"""The traditionally named scales made of some of the scale's tones, each with the degree it starts on.

Conventions: each starts on a tone of the scale and leaves at least one tone out. A set with several names is listed
under one of them. The melakartas, numbered by rule, are left out, so that a list stays short enough to say.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
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
from gamutwright.theory.naming import subsets_named
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import degree_names

__all__ = ["FACT", "named_subsets"]

RUDIMENTS = Citation(PRACTICE, "pentatonic scales inside the major scale", Evidence.PRACTICE)


def _labels(scale: Scale) -> tuple[str, ...]:
    degrees = dict(zip(scale.tones, degree_names(scale), strict=True))
    return tuple(f"{record.name} on {degrees[tone]}" for tone, record in subsets_named(scale))


def named_subsets(scale: Scale) -> tuple[str, ...]:
    """List the scales by name.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of str
        Name and degree, such as `minor pentatonic on 6`; empty where there is none.

    Examples
    --------
    >>> named_subsets(Scale.of(0, 3, 5, 6, 7, 10))
    ('minor pentatonic on 1', 'major pentatonic on b3', 'yo on b7')
    """
    return _labels(scale)


def witnesses(scale: Scale) -> tuple[Witness, ...]:
    """Give the tones of each, counted from the root of the scale at hand.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Witness
        A scale each, upwards from its own first tone.

    Examples
    --------
    >>> witnesses(Scale.of(0, 3, 5, 6, 7, 10))[1].parts
    ((3, 5, 7, 10, 0),)
    """
    return tuple(
        Witness(
            WitnessKind.SCALE,
            (tuple((other + tone) % 12 for other in record.scale.tones),),
            label,
        )
        for (tone, record), label in zip(subsets_named(scale), _labels(scale), strict=True)
    )


FACT = Fact(
    id="named_subsets",
    title="Named scales inside",
    doc=__doc__,
    group=Group.RELATIVES,
    dtype=Dtype.TEXTS,
    level=Level.FURTHER,
    scope=Scope.ROOTED,
    value=named_subsets,
    witnesses=witnesses,
    domain=Domain(
        tones=(1, 11),
        divisions=(12, 12),
        rooted=True,
        rule="the names held are those of twelve divisions, and the chromatic scale contains them all",
    ),
    needs=("traditional_names",),
    picture=Picture("comparison"),
    sound=Phrase("witnesses"),
    roles=Roles(reader=Reader.SCALES, longest=4, part=Part.RELATIVES, rank=4),
    sources=(RUDIMENTS,),
    worked=(
        Worked(
            Scale.of(0, 3, 5, 6, 7, 10),
            ("minor pentatonic on 1", "major pentatonic on b3", "yo on b7"),
            RUDIMENTS,
        ),
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), ("major pentatonic on 1",), RUDIMENTS, refutes=True),
        Worked(Scale.of(0, 4, 7), (), RUDIMENTS),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), (), RUDIMENTS),
    ),
)
