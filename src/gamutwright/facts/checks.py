"""The kit that examines a fact: the authors of packs run the same checks that the built-in library passes.

Each check returns complaints in words, none where all is well, so that a test can show them all at once::

    from gamutwright.facts.checks import complaints
    assert not complaints(FACT)

Conventions: values are compared exactly unless the worked example allows a tolerance, which then holds for every
number inside the value.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from gamutwright.codec import to_plain
from gamutwright.facts.model import Dtype, Evidence, Fact, Scope, Value, Worked, is_negative
from gamutwright.theory.scale import Scale

__all__ = ["complaints", "is_close", "is_of_dtype", "sample_scales"]

FEWEST_WORKED = 3


def is_close(value: Value | None, expected: Value | None, tolerance: float) -> bool:
    """Whether two values agree, number by number, within a tolerance.

    Parameters
    ----------
    value, expected : Value or None
        The values.
    tolerance : float >= 0
        Largest absolute difference of two numbers.

    Returns
    -------
    bool
        True where they agree.

    Examples
    --------
    >>> is_close((1.0, 2.5), (1.0, 2.4999), 0.001), is_close(True, 1, 0.5)
    (True, False)
    """
    if isinstance(value, tuple) and isinstance(expected, tuple):
        return len(value) == len(expected) and all(
            is_close(one, other, tolerance) for one, other in zip(value, expected, strict=True)
        )
    if isinstance(value, bool) or isinstance(expected, bool):
        return value is expected
    if tolerance and isinstance(value, int | float | Fraction) and isinstance(expected, int | float | Fraction):
        return abs(float(value) - float(expected)) <= tolerance
    return value == expected


def is_of_dtype(value: Value, dtype: Dtype) -> bool:
    """Whether a value has the type its fact declares.

    Parameters
    ----------
    value : Value
        The value.
    dtype : Dtype
        The declared type.

    Returns
    -------
    bool
        True where it fits.

    Examples
    --------
    >>> is_of_dtype((2, 1), Dtype.INTS), is_of_dtype(2.0, Dtype.INT)
    (True, False)
    """
    match dtype:
        case Dtype.BOOL:
            return isinstance(value, bool)
        case Dtype.INT:
            return isinstance(value, int) and not isinstance(value, bool)
        case Dtype.FLOAT:
            return isinstance(value, float)
        case Dtype.FRACTION:
            return isinstance(value, Fraction)
        case Dtype.TEXT:
            return isinstance(value, str)
        case Dtype.INTS | Dtype.FLOATS | Dtype.FRACTIONS | Dtype.TEXTS | Dtype.INT_ROWS:
            part = {
                Dtype.INTS: Dtype.INT,
                Dtype.FLOATS: Dtype.FLOAT,
                Dtype.FRACTIONS: Dtype.FRACTION,
                Dtype.TEXTS: Dtype.TEXT,
                Dtype.INT_ROWS: Dtype.INTS,
            }[dtype]
            return isinstance(value, tuple) and all(is_of_dtype(item, part) for item in value)


def sample_scales() -> tuple[Scale, ...]:
    """Give a spread of scales that a fact must survive: empty, single, full, symmetric, other divisions.

    Returns
    -------
    tuple of Scale
        Twelve divisions mostly; also 1, 5, 7, 19, 31 and 72.

    Examples
    --------
    >>> len(sample_scales()) > 20
    True
    """
    twelve = (
        (), (0,), (0, 7), (0, 6), (0, 4, 7), (0, 3, 7), (0, 4, 8), (0, 3, 6, 9), (0, 2, 4, 7, 9), (0, 1, 5, 7, 8),
        (0, 3, 5, 6, 7, 10), (0, 2, 4, 6, 8, 10), (0, 3, 4, 7, 8, 11), (0, 2, 4, 5, 7, 9, 11), (0, 2, 3, 5, 7, 8, 11),
        (0, 1, 2, 5, 7, 10, 11), (0, 2, 4, 6, 7, 9, 10), (0, 1, 2, 3, 4, 5, 6), (0, 1, 3, 4, 6, 7, 9, 10),
        (0, 2, 4, 5, 7, 9, 10, 11), (0, 2, 3, 4, 6, 7, 8, 10, 11), tuple(range(11)), tuple(range(12)),
    )  # fmt: skip
    return (
        *(Scale.of(*tones) for tones in twelve),
        Scale.of(6, 8, 10, 11, 1, 3, 5),
        Scale(0b10, root=3),
        Scale(1, 1),
        Scale.of(0, 2, 3, divisions=5),
        Scale.of(0, 2, 4, divisions=7),
        Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19),
        Scale.of(0, 5, 10, 13, 18, 23, 28, divisions=31),
        Scale.of(*range(0, 72, 4), divisions=72),
    )


def complaints(fact: Fact, scales: tuple[Scale, ...] | None = None) -> list[str]:
    """Examine a fact and say what is wrong with it.

    Parameters
    ----------
    fact : Fact
        The fact.
    scales : tuple of Scale, optional
        Scales to try it on; `sample_scales` without them.

    Returns
    -------
    list of str
        A complaint each; empty where all is well.
    """
    found = [*_about_words(fact), *_about_worked(fact)]
    for scale in sample_scales() if scales is None else scales:
        found.extend(f"{fact.id}, {scale}: {said}" for said in _about_scale(fact, scale))
    return found


def _about_words(fact: Fact) -> Iterator[str]:
    if not fact.definition.endswith("."):
        yield f"{fact.id}: the definition is a sentence with a full stop; it is the docstring's first paragraph"
    if not fact.title:
        yield f"{fact.id}: a title is missing"
    if not fact.sources:
        yield f"{fact.id}: a source is missing"
    for citation in fact.sources:
        if not citation.locator:
            yield f"{fact.id}: the citation of {citation.source.key} has no locator"
    if fact.counts and fact.dtype is not Dtype.INT:
        yield f"{fact.id}: a fact that counts has an int for a value"


def _about_worked(fact: Fact) -> Iterator[str]:
    if len(fact.worked) < FEWEST_WORKED:
        yield f"{fact.id}: {len(fact.worked)} worked examples, at least {FEWEST_WORKED} are due"
    if not any(is_negative(example) for example in fact.worked):
        yield f"{fact.id}: no worked example is negative"
    for example in fact.worked:
        yield from _about_example(fact, example)


def _about_example(fact: Fact, example: Worked) -> Iterator[str]:
    value = fact.evaluate(example.scale)
    agrees = is_close(value, example.value, example.tolerance)
    where = f"{fact.id} of {example.scale}: computed {value!r}"
    said = f"{example.citation.source.key}, {example.citation.locator}"
    if agrees and example.refutes:
        yield f"{where}, which {said} shows to be a mistake"
    if not agrees and not example.refutes:
        yield f"{where}, but {said} says {example.value!r}"
    if example.citation.evidence is Evidence.PRACTICE and not example.citation.locator:
        yield f"{fact.id}: an example from practice says in its locator which practice"


def _about_scale(fact: Fact, scale: Scale) -> Iterator[str]:
    value, places = fact.evaluate(scale), fact.places(scale)
    if value is None:
        if not fact.reason(scale):
            yield "no value and no reason; state it in none_when"
        if places:
            yield "witnesses without a value"
        return
    if not is_of_dtype(value, fact.dtype):
        yield f"the value {value!r} is no {fact.dtype}"
    to_plain(value)
    if fact.counts and value != len(places):
        yield f"the value is {value} but there are {len(places)} witnesses"
    for place in places:
        if place.kind.value != "axis" and any(not 0 <= t < scale.divisions for part in place.parts for t in part):
            yield f"the witness {place} leaves the octave"
    if fact.scope is not Scope.SPELLED and fact.value(scale.transposed(5)) != value:
        yield "the value changes when the scale is moved, so its scope is 'spelled'"
    if fact.scope is Scope.TNI and not is_close(fact.evaluate(scale.inverted()), value, 1e-9):
        yield "the value changes under inversion, so its scope is not TnI"
    if fact.scope in {Scope.TN, Scope.TNI} and scale.cardinality > 1 and scale.is_rooted:
        other = fact.evaluate(scale.mode(2))
        if not is_close(other, value, 1e-9):
            yield f"its second mode gives {other!r}, so its scope is 'rooted'"
