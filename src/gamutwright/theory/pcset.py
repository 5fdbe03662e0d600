"""Pitch-class sets: normal forms, prime forms, Forte labels, interval-class vectors, stabilisers.

Two rules for choosing the best rotation are in print, and they disagree on six set classes of twelve notes (5-20,
6-Z29, 6-31, 7-Z18, 7-20 and 8-26), so both are offered and the name says which:

* Forte 1973, chapter 1: smallest span, then the smallest intervals above the first tone, compared from the left.
* Rahn 1980: smallest span, then the smallest intervals above the first tone, compared from the right.

Conventions: `normal_form` lists absolute pitch classes; prime forms start at 0 and depend on neither root nor
transposition nor inversion. Where symmetry leaves rotations tied, the one on the lowest pitch class is taken. The
empty set has the form (). Labels are the historical ordinals of Forte 1973, Appendix 1, and exist in twelve divisions
only; `forte.csv` holds that table as transcribed in music21 10.5, which an independent transcription confirms.
"""

from __future__ import annotations

import csv
import re
from functools import lru_cache
from importlib import resources

from gamutwright.errors import DomainError
from gamutwright.theory.scale import Scale, rotated_mask

__all__ = [
    "class_from_label",
    "forte_label",
    "interval_class_vector",
    "inversion_stabiliser",
    "is_z_related",
    "normal_form",
    "normal_form_rahn",
    "prime_form",
    "prime_form_rahn",
    "transposition_stabiliser",
    "z_partner",
]

LABEL = re.compile(r"(\d{1,2})-[Zz]?(\d{1,2})")


def _rotations(pitch_classes: tuple[int, ...], divisions: int) -> list[tuple[int, ...]]:
    """Every rotation as intervals above its first member."""
    count = len(pitch_classes)
    return [
        tuple((pitch_classes[(start + k) % count] - pitch_classes[start]) % divisions for k in range(count))
        for start in range(count)
    ]


def _from_left(shape: tuple[int, ...]) -> tuple[int, ...]:
    return shape[-1:] + shape


def _from_right(shape: tuple[int, ...]) -> tuple[int, ...]:
    return shape[::-1]


def normal_form(scale: Scale) -> tuple[int, ...]:
    """Give the normal form by the rule of Forte 1973.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        Absolute pitch classes, the best rotation first.

    Examples
    --------
    >>> normal_form(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (11, 0, 2, 4, 5, 7, 9)
    """
    pitch_classes = tuple(sorted(scale.pitch_classes))
    if not pitch_classes:
        return ()
    shapes = _rotations(pitch_classes, scale.divisions)
    best = min(range(len(shapes)), key=lambda k: _from_left(shapes[k]))
    return pitch_classes[best:] + pitch_classes[:best]


def normal_form_rahn(scale: Scale) -> tuple[int, ...]:
    """Give the normal form by the rule of Rahn 1980.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        Absolute pitch classes, the best rotation first.

    Examples
    --------
    >>> normal_form_rahn(Scale.of(0, 1, 3, 7, 8)), normal_form(Scale.of(0, 1, 3, 7, 8))
    ((7, 8, 0, 1, 3), (0, 1, 3, 7, 8))
    """
    pitch_classes = tuple(sorted(scale.pitch_classes))
    if not pitch_classes:
        return ()
    shapes = _rotations(pitch_classes, scale.divisions)
    best = min(range(len(shapes)), key=lambda k: _from_right(shapes[k]))
    return pitch_classes[best:] + pitch_classes[:best]


def _both_rotations(scale: Scale) -> list[tuple[int, ...]]:
    mirrored = tuple(sorted((-tone) % scale.divisions for tone in scale.tones))
    return [*_rotations(scale.tones, scale.divisions), *_rotations(mirrored, scale.divisions)]


def prime_form(scale: Scale) -> tuple[int, ...]:
    """Give the prime form by the rule of Forte 1973.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        The best of all rotations of the set and its inversion, moved to 0.

    Examples
    --------
    >>> prime_form(Scale.of(0, 1, 5, 6, 8))
    (0, 1, 3, 7, 8)
    """
    return min(_both_rotations(scale), key=_from_left, default=())


def prime_form_rahn(scale: Scale) -> tuple[int, ...]:
    """Give the prime form by the rule of Rahn 1980.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        The best of all rotations of the set and its inversion, moved to 0.

    Examples
    --------
    >>> prime_form_rahn(Scale.of(0, 1, 5, 6, 8))
    (0, 1, 5, 6, 8)
    """
    return min(_both_rotations(scale), key=_from_right, default=())


@lru_cache(maxsize=1)
def _labels_by_prime_form() -> dict[tuple[int, ...], str]:
    text = resources.files(__package__).joinpath("forte.csv").read_text(encoding="ascii")
    return {
        tuple(int(word) for word in row["prime_form"].split()): row["label"]
        for row in csv.DictReader(text.splitlines())
    }


@lru_cache(maxsize=1)
def _prime_forms_by_ordinal() -> dict[tuple[int, int], tuple[int, ...]]:
    forms = {}
    for form, label in _labels_by_prime_form().items():
        size, ordinal = label.replace("Z", "").split("-")
        forms[int(size), int(ordinal)] = form
    return forms


@lru_cache(maxsize=1)
def _z_partners() -> dict[str, str]:
    by_vector: dict[tuple[int, ...], list[str]] = {}
    for form, label in _labels_by_prime_form().items():
        if "Z" in label:
            by_vector.setdefault((len(form), *interval_class_vector(Scale.of(*form))), []).append(label)
    pairs = [tuple(labels) for labels in by_vector.values()]
    return dict([(one, other) for one, other in pairs] + [(other, one) for one, other in pairs])


def _require_twelve(scale: Scale) -> None:
    if scale.divisions != 12:
        raise DomainError(
            f"{scale.divisions} divisions",
            "Forte labels exist for twelve divisions only",
            "Use the prime form instead.",
        )


def forte_label(scale: Scale) -> str:
    """Look up the label of Forte 1973, Appendix 1.

    Parameters
    ----------
    scale : Scale, 12 divisions, 1 to 12 tones
        The set.

    Returns
    -------
    str
        Such as "7-35" or "6-Z29".

    Raises
    ------
    DomainError
        For another division or the empty set.

    Examples
    --------
    >>> forte_label(Scale.of(0, 2, 4, 5, 7, 9, 11))
    '7-35'
    """
    _require_twelve(scale)
    if not scale.mask:
        raise DomainError("the empty set", "Forte labels begin with one tone", "Give at least one tone.")
    return _labels_by_prime_form()[prime_form(scale)]


def class_from_label(label: str) -> tuple[int, ...]:
    """Look up the prime form that a label of Forte 1973 stands for.

    Parameters
    ----------
    label : str
        Size and ordinal, with or without the Z: "7-35", "6-Z29", "6-29".

    Returns
    -------
    tuple of int
        The prime form by Forte's rule.

    Raises
    ------
    DomainError
        If it is no label, or the table has no such entry.

    Examples
    --------
    >>> class_from_label("6-29")
    (0, 1, 3, 6, 8, 9)
    """
    match = LABEL.fullmatch(label.strip())
    if not match:
        raise DomainError(
            f"'{label}'", "a Forte label is a size, a hyphen and an ordinal", "Write it like 7-35 or 6-Z29."
        )
    size, ordinal = int(match[1]), int(match[2])
    forms = _prime_forms_by_ordinal()
    if (size, ordinal) not in forms:
        last = max((known for card, known in forms if card == size), default=0)
        rule = f"sets of {size} notes have the ordinals 1 to {last}" if last else "sizes run from 1 to 12"
        raise DomainError(f"'{label}'", rule, "Check the label in Forte 1973, Appendix 1.")
    return forms[size, ordinal]


def is_z_related(scale: Scale) -> bool:
    """Whether another set class has the same interval-class vector (12 divisions, 1 to 12 tones).

    Parameters
    ----------
    scale : Scale, 12 divisions
        The set.

    Returns
    -------
    bool
        True for the 46 classes that Forte marks with Z.

    Examples
    --------
    >>> is_z_related(Scale.of(0, 1, 4, 6)), is_z_related(Scale.of(0, 4, 7))
    (True, False)
    """
    return "Z" in forte_label(scale)


def z_partner(scale: Scale) -> str | None:
    """Give the label of the other set class with the same interval-class vector.

    Parameters
    ----------
    scale : Scale, 12 divisions, 1 to 12 tones
        The set.

    Returns
    -------
    str or None
        The partner's Forte label; None without one.

    Examples
    --------
    >>> z_partner(Scale.of(0, 1, 4, 6))
    '4-Z29'
    """
    return _z_partners().get(forte_label(scale))


def interval_class_vector(scale: Scale) -> tuple[int, ...]:
    """Count the unordered pairs of tones by interval class.

    Interval class n/2 counts each pair once; common tones under that transposition are therefore twice its entry.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        Entries for the classes 1 to floor(n/2); they sum to d(d-1)/2.

    Examples
    --------
    >>> interval_class_vector(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (2, 5, 4, 3, 6, 1)
    """
    n = scale.divisions
    common = [(scale.mask & rotated_mask(scale.mask, k, n)).bit_count() for k in range(1, n // 2 + 1)]
    if common and n % 2 == 0:
        common[-1] //= 2
    return tuple(common)


def transposition_stabiliser(scale: Scale) -> tuple[int, ...]:
    """List the transpositions that map the set onto itself.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        All k in [0, n) with T_k S = S; 0 is always one of them.

    Examples
    --------
    >>> transposition_stabiliser(Scale.of(0, 3, 6, 9))
    (0, 3, 6, 9)
    """
    n = scale.divisions
    return tuple(k for k in range(n) if rotated_mask(scale.mask, k, n) == scale.mask)


def inversion_stabiliser(scale: Scale) -> tuple[int, ...]:
    """List the inversions that map the set onto itself, counted from the root.

    Parameters
    ----------
    scale : Scale
        The set, in any division.

    Returns
    -------
    tuple of int
        All k in [0, n) such that sending each tone x to k - x gives the same set.

    Examples
    --------
    >>> inversion_stabiliser(Scale.of(0, 2, 3, 5, 7, 9, 10))
    (0,)
    """
    n = scale.divisions
    mirrored = scale.inverted().mask
    return tuple(k for k in range(n) if rotated_mask(mirrored, k, n) == scale.mask)
