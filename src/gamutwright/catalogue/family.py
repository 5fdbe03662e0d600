"""The scales that a scale is compared with: equally many tones in the same division.

Conventions: rooted scales count every mode as one of its own; classes count all transpositions and modes of a set as
one.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import comb

from gamutwright.theory.counting import necklace_counts
from gamutwright.theory.scale import Scale

__all__ = ["Family", "family_of"]

_WORDS = """
no one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen
nineteen twenty
"""
NUMBER_WORDS = tuple(_WORDS.split())


@dataclass(frozen=True, slots=True)
class Family:
    """The scales that a scale is compared with.

    Parameters
    ----------
    divisions : int
        Equal divisions of the octave.
    tones : int
        How many tones each has.
    scales : int
        How many rooted scales there are.
    classes : int
        How many transposition classes.
    """

    divisions: int
    tones: int
    scales: int
    classes: int

    @property
    def scales_in_words(self) -> str:
        """Such as `the 462 rooted scales of seven tones in twelve divisions`."""
        return f"the {self.scales:,} rooted scales of {self._size}"

    @property
    def classes_in_words(self) -> str:
        """Such as `the 66 transposition classes of seven tones in twelve divisions`."""
        return f"the {self.classes:,} transposition classes of {self._size}"

    @property
    def _size(self) -> str:
        tones, divisions = (NUMBER_WORDS[n] if n < len(NUMBER_WORDS) else str(n) for n in (self.tones, self.divisions))
        return f"{tones} tone{'s' if self.tones != 1 else ''} in {divisions} divisions"


def family_of(scale: Scale) -> Family:
    """Count the scales that a scale is compared with.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Family
        Rooted scales and classes of equally many tones.

    Examples
    --------
    >>> family_of(Scale.of(0, 2, 4, 5, 7, 9, 11)).scales_in_words
    'the 462 rooted scales of seven tones in twelve divisions'
    """
    divisions, tones = scale.divisions, scale.cardinality
    return Family(divisions, tones, comb(divisions - 1, tones - 1), necklace_counts(divisions)[tones])
