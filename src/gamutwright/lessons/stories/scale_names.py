"""How a sentence calls a scale, and another one beside it.

Conventions: a scale is called by its root and its first name. The two commonest scales go by the names that everybody
uses, major and natural minor, and not by those of the modes they are.
"""

from __future__ import annotations

from gamutwright.phrasing.claim_marks import marked
from gamutwright.phrasing.engine import Wording
from gamutwright.phrasing.values import spoken_rooted_scale
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names
from gamutwright.theory.systematic import systematic_name

__all__ = ["COMMON_NAMES", "shown_relative", "spoken_name", "spoken_relative"]

COMMON_NAMES = {"ionian": "major", "aeolian": "natural minor"}
"""What the two commonest scales are called outside lessons on modes."""


def spoken_name(scale: Scale, wording: Wording) -> str:
    """Call a scale by root and name, as a sentence does.

    Parameters
    ----------
    scale : Scale
        The scale.
    wording : Wording
        The wording of the language.

    Returns
    -------
    str
        Its first traditional name, else its systematic name, after the root; a general phrase outside twelve divisions.

    Examples
    --------
    >>> from gamutwright.phrasing.engine import wording_for
    >>> spoken_name(Scale.of(3, 5, 6, 8, 10, 0, 1), wording_for("en"))
    'E flat dorian'
    >>> spoken_name(Scale.of(9, 11, 0, 2, 4, 5, 7), wording_for("de"))
    'a-Moll'
    """
    if scale.divisions != 12:
        return wording.name("scale-unnamed")
    records = names_of(scale)
    name = records[0].name if records else systematic_name(scale)
    return spoken_relative(f"{tone_names(scale)[0]} {COMMON_NAMES.get(name, name)}", wording)


def spoken_relative(text: str, wording: Wording) -> str:
    """Call a scale that an attribute names as a sentence does.

    Parameters
    ----------
    text : str
        Root and name, such as `E natural minor`.
    wording : Wording
        The wording of the language.

    Returns
    -------
    str
        The name.

    Examples
    --------
    >>> from gamutwright.phrasing.engine import wording_for
    >>> spoken_relative("Bb natural minor", wording_for("en")), spoken_relative("Bb major", wording_for("de"))
    ('B flat natural minor', 'B-Dur')
    """
    return spoken_rooted_scale(text, wording.language)


def shown_relative(text: str, wording: Wording) -> str:
    """Call a scale that an attribute names as a sentence does, and show it beside the lesson's own.

    Parameters
    ----------
    text : str
        Root and name, such as `E natural minor`.
    wording : Wording
        The wording of the language.

    Returns
    -------
    str
        Markup.

    Examples
    --------
    >>> from gamutwright.phrasing.engine import wording_for
    >>> shown_relative("Bb major", wording_for("en"))
    '[B flat major]{show=comparison with="Bb major"}'
    """
    return marked(spoken_relative(text, wording), show="comparison", with_=text)
