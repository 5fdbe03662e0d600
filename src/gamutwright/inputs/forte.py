"""Forte labels: `7-35`, `7-35 mode 2`, `7-32 inverted mode 3`, `6-Z29` or `6-29`.

Conventions: a label names a set class, not a scale. Here it stands for the prime form by the rule of Forte 1973, its
first tone being the root; `inverted` stands for the inversion of the prime form, moved to begin on 0; `mode 3` takes
the third tone of either as root. Only twelve divisions have labels.
"""

from __future__ import annotations

import re

from gamutwright.errors import DomainError, told
from gamutwright.inputs.reading import NotThisFormError, Option, Reading, Request, placed, shortened
from gamutwright.theory.pcset import class_from_label, forte_label
from gamutwright.theory.scale import Scale

__all__ = ["read_forte", "to_forte"]

_FORM = re.compile(r"([0-9]{1,2}-z?[0-9]{1,2})(\s+inverted)?(?:\s+mode\s+([0-9]{1,2}))?", re.IGNORECASE)
_EXAMPLE = told("Write a label like: 7-35, 7-35 mode 2 or 7-32 inverted mode 3.")


def _classes(label: str) -> tuple[Scale, Scale]:
    """Give the prime form and its inversion, both beginning on 0."""
    prime = class_from_label(label)
    return Scale.of(*prime), Scale.of(*sorted(prime[-1] - tone for tone in prime))


def read_forte(text: str, request: Request) -> tuple[Option, ...]:
    """Read a Forte label.

    Parameters
    ----------
    text : str
        The label, perhaps with `inverted` and `mode`.
    request : Request
        Divisions and root.

    Returns
    -------
    tuple of Option
        The one reading.

    Raises
    ------
    NotThisFormError
        If it is no label, or the class has no such mode.
    """
    text = " ".join(text.split())
    found = _FORM.fullmatch(text)
    if not found:
        has_label = re.match(r"[0-9]{1,2}-z?[0-9]{1,2}\s*([a-z].*)", text, re.IGNORECASE)
        rule = told(
            "a Forte label is a size, a hyphen and a number, then `inverted` and `mode` with a number if need be"
        )
        raise NotThisFormError(
            shortened(has_label[1] if has_label else text), rule, _EXAMPLE, 0.6 if has_label else 0.0
        )
    if request.divisions != 12:
        rule = told("Forte labels are those of 12 divisions, and these are {divisions}", divisions=request.divisions)
        raise NotThisFormError(shortened(text), rule, told("Give pitch classes or steps instead."), 0.9)
    try:
        prime, inverted = _classes(found[1].upper())
        scale = (inverted if found[2] else prime).mode(int(found[3] or 1))
    except DomainError as error:
        raise NotThisFormError(error.value, error.rule, error.next_step, 0.92) from error
    scale, remarks = placed(scale.mask, request)
    which = "the inversion of the prime form" if found[2] else "the prime form"
    remark = f"{which} (rule of Forte 1973), from its tone {found[3] or 1}"
    return (Option(Reading(scale, "Forte label", (remark, *remarks)), f"forte: {text}"),)


def to_forte(scale: Scale) -> str:
    """Write a rooted scale as a label in our plain form, without the root.

    Parameters
    ----------
    scale : Scale, 12 divisions, rooted
        The scale.

    Returns
    -------
    str
        The label, with `inverted` and `mode` where they are needed.

    Raises
    ------
    DomainError
        If the scale has no label or lacks its root.

    Examples
    --------
    >>> to_forte(Scale.of(0, 2, 4, 5, 7, 9, 11)), to_forte(Scale.of(0, 4, 7))
    ('7-35 mode 2', '3-11 inverted')
    """
    label = forte_label(scale)
    for word, form in zip(("", " inverted"), _classes(label), strict=True):
        for degree in range(1, form.cardinality + 1):
            if form.mode(degree).mask == scale.mask:
                return label + word + (f" mode {degree}" if degree > 1 else "")
    raise DomainError(
        told("a set without its root"),
        told("a label in this form begins on the root"),
        told("Write pitch classes instead."),
    )
