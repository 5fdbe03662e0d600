"""Scales as the screens name them: by bits in a request, in a few words in an answer; and shares in words.

Conventions: bits are a string of ones and noughts from the root upwards, one sign for each step of the octave. A scale
has a title, a text that reads back to it, its bits and its root.
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any, Final

from gamutwright.errors import InputError, told
from gamutwright.inputs.forms import to_text
from gamutwright.music.pitches import names_of_steps
from gamutwright.phrasing.spoken_numbers import count_to_words
from gamutwright.series.contents import read_rooted_scale
from gamutwright.series.examining import lesson_title
from gamutwright.studio.tongue import say, tongue
from gamutwright.theory.scale import Scale
from gamutwright.theory.tuning import tone_frequencies

if TYPE_CHECKING:
    from gamutwright.catalogue.shares import Share

__all__ = ["MOST_DIVISIONS", "card", "frequencies", "from_bits", "scale_asked", "share_in_words", "title_of"]

MOST_DIVISIONS: Final = 24
"""Beyond, a ring of buttons is too dense to be hit; the command line has all of them."""
FEW: Final = 10
"""Shares down to one in so many are told by the nearest simple fraction."""
TENS: Final = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def from_bits(bits: str, root: int) -> Scale:
    """Read a scale out of an address.

    Parameters
    ----------
    bits : str
        Its tones.
    root : int
        Pitch class of its root.

    Returns
    -------
    Scale
        The scale, its root among its tones.

    Raises
    ------
    InputError
        If it is none.

    Examples
    --------
    >>> from_bits("101101010110", 2).pitch_classes
    (2, 4, 5, 7, 9, 11, 0)
    """
    is_row = 2 <= len(bits) <= MOST_DIVISIONS and set(bits) <= {"0", "1"}
    if not is_row or bits[0] != "1" or not 0 <= root < len(bits):
        raise InputError(
            told("the tones {bits} from {root}", bits=bits, root=root),
            told("they begin on the root, one sign for each step"),
            told("Set the scale again."),
        )
    return Scale.from_bits(bits, root)


def scale_asked(text: str, bits: str, root: int, divisions: int) -> Scale:
    """Read a scale that is named by its bits, or else by words.

    Parameters
    ----------
    text : str
        Words, in any input form; used where there are no bits.
    bits : str
        Its tones, or "".
    root : int
        Pitch class of its root, beside the bits.
    divisions : int
        Equal divisions of the octave, beside the words.

    Returns
    -------
    Scale
        The scale, its root among its tones.

    Raises
    ------
    InputError
        If it is none, or has too many divisions.
    """
    return from_bits(bits, root) if bits else read_rooted_scale(text, divisions)


def title_of(scale: Scale) -> str:
    """Call a scale.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.

    Returns
    -------
    str
        Its name in twelve divisions, how many tones of how many elsewhere.

    Examples
    --------
    >>> title_of(Scale.of(2, 4, 5, 7, 9, 11, 0)), title_of(Scale.of(0, 7, 11, divisions=19))
    ('D dorian', '3 of 19')
    """
    return (
        lesson_title(scale, tongue().tag)
        if scale.divisions == 12
        else say("{some} of {all}", some=scale.cardinality, all=scale.divisions)
    )


def card(scale: Scale) -> dict[str, Any]:
    """Tell of a scale in a few words.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.

    Returns
    -------
    dict
        Plain data: its title, a text that reads back to it, its divisions, bits, root, step pattern and tones.

    Examples
    --------
    >>> told = card(Scale.of(2, 4, 5, 7, 9, 11, 0))
    >>> told["text"], told["steps"], told["tones"]
    ('D E F G A B C', '2 1 2 2 2 1 2', 'D E F G A B C')
    """
    names = names_of_steps(scale)
    return {
        "title": title_of(scale),
        "text": to_text(scale, "notes" if scale.divisions == 12 else "pcs").partition(": ")[2],
        "divisions": scale.divisions,
        "bits": scale.bits,
        "root": scale.root,
        "steps": " ".join(map(str, scale.step_pattern)),
        "tones": " ".join(names[tone] for tone in scale.tones),
    }


def frequencies(scale: Scale) -> list[float]:
    """Give every step of the octave above the root, the octave itself last.

    Parameters
    ----------
    scale : Scale
        The scale; its own tones do not matter.

    Returns
    -------
    list of float
        Hz, from the root at or above middle C.
    """
    every = tone_frequencies(Scale((1 << scale.divisions) - 1, scale.divisions, scale.root))
    return [round(freq_hz, 3) for freq_hz in (*every, 2 * every[0])]


def share_in_words(share: Share) -> str:
    """Say how common a value is.

    Parameters
    ----------
    share : Share
        How many scales of the same size have it.

    Returns
    -------
    str
        Such as `one in twenty-two of the scales with seven tones`; with `about` in front where it is rounded.

    Examples
    --------
    >>> from gamutwright.catalogue.family import Family
    >>> from gamutwright.catalogue.shares import Share
    >>> share_in_words(Share(Family(12, 7, 462, 66), 21, 3))
    'one in twenty-two of the scales with seven tones'
    >>> share_in_words(Share(Family(12, 7, 462, 66), 300, 40))
    'about two in three of the scales with seven tones'
    """
    tones, of_scales = share.family.tones, share.of_scales
    size = say("{count} tones", count=_number(tones)) if tones != 1 else say("one tone")
    if of_scales == 1:
        return say("all scales with {size}", size=size)
    if share.scales_alike == 1:
        return say("no other scale with {size}", size=size)
    near = of_scales.limit_denominator(FEW) if of_scales >= Fraction(1, FEW) else Fraction(1, round(1 / of_scales))
    if near == 1:
        return say("nearly all scales with {size}", size=size)
    numbers = {"some": _number(near.numerator), "all": _number(near.denominator), "size": size}
    if near == of_scales:
        return say("{some} in {all} of the scales with {size}", **numbers)
    return say("about {some} in {all} of the scales with {size}", **numbers)


def _number(count: int) -> str:
    """Write a whole number: below a hundred in words where these need not agree with what follows, as in English."""
    return count_to_words(count, tongue().tag) if count < 100 and tongue().is_source else f"{count:,}"
