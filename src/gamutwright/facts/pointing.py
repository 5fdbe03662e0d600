"""Short ways to make the witnesses that most facts need.

Conventions: tones are steps above the root, reduced to one octave; lists keep the order in which a voice points.
"""

from __future__ import annotations

from collections.abc import Iterable

from gamutwright.facts.model import Witness, WitnessKind

__all__ = ["at_intervals", "at_tones"]


def at_tones(tones: Iterable[int]) -> tuple[Witness, ...]:
    """Point at single tones.

    Parameters
    ----------
    tones : iterable of int
        Tones in steps above the root.

    Returns
    -------
    tuple of Witness
        One each.

    Examples
    --------
    >>> at_tones([11])[0].parts
    ((11,),)
    """
    return tuple(Witness(WitnessKind.TONE, ((tone,),)) for tone in tones)


def at_intervals(pairs: Iterable[tuple[int, int]], kind: WitnessKind = WitnessKind.INTERVAL) -> tuple[Witness, ...]:
    """Point at pairs of tones.

    Parameters
    ----------
    pairs : iterable of tuple of int
        The two tones of each interval, in steps above the root.
    kind : WitnessKind
        INTERVAL, or STEP for neighbours.

    Returns
    -------
    tuple of Witness
        One each.

    Examples
    --------
    >>> [witness.parts for witness in at_intervals([(5, 11)])]
    [((5, 11),)]
    """
    return tuple(Witness(kind, (pair,)) for pair in pairs)
