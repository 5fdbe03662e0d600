"""Writing a scale so that it can be read again: each form with its prefix and, where it needs one, its root.

Conventions: `read_scale(to_text(scale, form), divisions=scale.divisions).scale == scale`. Notes and degrees keep any
spelling; the other forms keep the spelling that the policy gives from the root's name.
"""

from __future__ import annotations

from gamutwright.errors import DomainError, told
from gamutwright.inputs.forte import to_forte
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import name_to_degree, root_name, tone_names
from gamutwright.theory.systematic import systematic_name

__all__ = ["FORMS", "FORMS_OF_TWELVE", "to_text"]

FORMS = ("notes", "pcs", "steps", "degrees", "forte", "bits", "name")
FORMS_OF_TWELVE = ("notes", "degrees", "forte", "name")


def to_text(scale: Scale, form: str) -> str:
    """Write a scale in a form that reads back to the same scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    form : str
        One of `FORMS`; those in `FORMS_OF_TWELVE` belong to twelve divisions.

    Returns
    -------
    str
        The text, with its prefix.

    Raises
    ------
    DomainError
        If the form cannot say this scale.

    Examples
    --------
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> to_text(dorian, "notes"), to_text(dorian, "steps"), to_text(dorian, "name")
    ('notes: D E F G A B C', 'steps: 2-1-2-2-2-1-2 on D', 'name: dorian on D')
    """
    if form not in FORMS:
        raise DomainError(
            told("form '{form}'", form=form),
            told("scales are written in the forms {list}", list=", ".join(FORMS)),
            told("Choose one."),
        )
    if form in FORMS_OF_TWELVE and scale.divisions != 12:
        raise DomainError(
            told("form '{form}'", form=form),
            told("it belongs to 12 divisions, and these are {divisions}", divisions=scale.divisions),
            told("Use pcs, steps or bits."),
        )
    if form != "bits" and not scale.mask:
        raise DomainError(told("form '{form}'", form=form), told("it cannot say the empty set"), told("Use bits."))
    if form in {"steps", "degrees", "forte", "name"} and not scale.is_rooted:
        raise DomainError(
            told("form '{form}'", form=form),
            told("it begins on the root, and the set lacks it"),
            told("Use notes, pcs or bits."),
        )
    needs_root = form not in {"notes", "pcs"} or not scale.is_rooted
    return f"{form}: {_body(scale, form)}" + (f" on {_root(scale)}" if needs_root else "")


def _root(scale: Scale) -> str:
    return root_name(scale) if scale.divisions == 12 else str(scale.root)


def _body(scale: Scale, form: str) -> str:
    match form:
        case "notes":
            return " ".join(tone_names(scale))
        case "pcs":
            return " ".join(map(str, scale.pitch_classes))
        case "steps":
            return "-".join(map(str, scale.step_pattern))
        case "degrees":
            root = root_name(scale)
            return " ".join(name_to_degree(name, root) for name in tone_names(scale))
        case "forte":
            return to_forte(scale)
        case "bits":
            return scale.bits
        case _:
            return systematic_name(scale)
