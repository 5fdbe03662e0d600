"""The word for a scale of so many tones, such as pentatonic for five and heptatonic for seven.

Conventions: Greek numerals as the literature uses them; nine is enneatonic (some authors write nonatonic). There is no
settled word beyond twelve.
"""

from __future__ import annotations

from gamutwright.facts.bibliography import PRACTICE
from gamutwright.facts.model import Citation, Domain, Dtype, Evidence, Fact, Group, Level, Picture, Scope, Worked
from gamutwright.facts.roles import Part, Roles
from gamutwright.theory.scale import Scale

__all__ = ["FACT", "WORDS", "cardinality_word"]

WORDS = (
    "monotonic", "ditonic", "tritonic", "tetratonic", "pentatonic", "hexatonic",
    "heptatonic", "octatonic", "enneatonic", "decatonic", "hendecatonic", "dodecatonic",
)  # fmt: skip
VOCABULARY = Citation(PRACTICE, "vocabulary of scale sizes", Evidence.PRACTICE)


def cardinality_word(scale: Scale) -> str:
    """Name the size of a scale.

    Parameters
    ----------
    scale : Scale, 1 to 12 tones
        The scale.

    Returns
    -------
    str
        An adjective.

    Examples
    --------
    >>> cardinality_word(Scale.of(0, 2, 4, 7, 9))
    'pentatonic'
    """
    return WORDS[scale.cardinality - 1]


FACT = Fact(
    id="cardinality_word",
    title="Word for the size",
    doc=__doc__,
    group=Group.TONES,
    dtype=Dtype.TEXT,
    level=Level.FOUNDATION,
    scope=Scope.TNI,
    value=cardinality_word,
    domain=Domain(tones=(1, 12), rule="there is no settled word for more than twelve tones"),
    needs=("cardinality",),
    terms=WORDS,
    picture=Picture("ladder", "none"),
    roles=Roles(part=Part.HEAR, rank=1),
    sources=(VOCABULARY,),
    worked=(
        Worked(Scale.of(0, 2, 4, 5, 7, 9, 11), "heptatonic", VOCABULARY),
        Worked(Scale.of(0, 1, 3, 4, 6, 7, 9, 10), "octatonic", VOCABULARY),
        Worked(Scale.of(0, 2, 4, 6, 8, 10), "heptatonic", VOCABULARY, refutes=True),
    ),
)
