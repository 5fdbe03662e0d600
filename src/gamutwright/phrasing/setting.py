"""How a value is set out in figures and signs: one way through its shape, for print and for the terminal.

Conventions: numbers stay exact where they are; rows of a table stand between bars.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from gamutwright.facts.model import Value

__all__ = ["Hand", "set_out"]


@dataclass(frozen=True, slots=True)
class Hand:
    """What differs between those who set out a value.

    Parameters
    ----------
    yes, no, none : str
        Answers, and what stands for an empty list.
    decimal : callable
        Writes a number with decimals.
    fraction : callable
        Joins an exact fraction and its decimal.
    joint : str
        What stands between numbers with decimals.
    """

    yes: str
    no: str
    none: str
    decimal: Callable[[float], str]
    fraction: Callable[[Fraction, str], str]
    joint: str


def set_out(value: Value, hand: Hand) -> str:
    """Set out a value.

    Parameters
    ----------
    value : Value
        The value.
    hand : Hand
        Whose hand it is.

    Returns
    -------
    str
        One line.

    Examples
    --------
    >>> plain = Hand("yes", "no", "none", str, lambda exact, decimal: f"{exact} = {decimal}", " ")
    >>> set_out(((1, 2), (3,)), plain), set_out(Fraction(1, 2), plain), set_out(("C", "D"), plain)
    ('1 2 | 3', '1/2 = 0.5', 'C, D')
    """
    match value:
        case bool():
            return hand.yes if value else hand.no
        case Fraction():
            return str(value) if value.denominator == 1 else hand.fraction(value, hand.decimal(float(value)))
        case float():
            return hand.decimal(value)
        case ():
            return hand.none
        case tuple() if isinstance(value[0], tuple):
            return " | ".join(set_out(row, hand) for row in value)
        case tuple():
            joint = ", " if isinstance(value[0], str) else hand.joint if isinstance(value[0], float) else " "
            return joint.join(set_out(item, hand) for item in value)
        case _:
            return str(value)
