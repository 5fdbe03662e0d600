"""Slots in words: names in braces.

Conventions: what comes into a slot is not searched for slots again.
"""

from __future__ import annotations

import re

from gamutwright.errors import DomainError

__all__ = ["filled"]

_SLOT = re.compile(r"\{([a-z]+)\}")


def filled(text: str, **slots: str | int) -> str:
    """Fill the slots of a text, whatever stands in what fills them.

    Parameters
    ----------
    text : str
        With slots in braces.
    **slots : str or int
        What stands there; more than the text has are allowed.

    Returns
    -------
    str
        The text.

    Raises
    ------
    DomainError
        If a slot stays empty.

    Examples
    --------
    >>> filled("{a} and {b}", a="{b}", b=2)
    '{b} and 2'
    """
    missing = sorted(set(_SLOT.findall(text)) - slots.keys())
    if missing:
        raise DomainError(f"'{text}'", f"needs {', '.join(missing)}", "Fill every slot.")
    return _SLOT.sub(lambda slot: str(slots[slot[1]]), text)
