"""From a fact to its picture: witnesses become places, values become columns or a second scale.

The diagrams know nothing of facts; this is the only file where the two meet.

Conventions: a fact that does not apply to a scale has no picture.
"""

from __future__ import annotations

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.sketch import USUAL, Kind, Place, Sketch
from gamutwright.errors import DomainError
from gamutwright.facts.model import Fact, Value, Witness
from gamutwright.ir.figure import Figure
from gamutwright.theory.naming import scales_called
from gamutwright.theory.scale import Scale
from gamutwright.theory.systematic import scale_from_systematic_name

__all__ = ["entry_places", "picture_of", "place_of", "sketch_of"]


def place_of(witness: Witness) -> Place:
    """Turn a witness into a place of a diagram.

    Parameters
    ----------
    witness : Witness
        The witness.

    Returns
    -------
    Place
        The same place.

    Examples
    --------
    >>> from gamutwright.facts.model import WitnessKind
    >>> place_of(Witness(WitnessKind.STEP, ((4, 5),))).kind.value
    'step'
    """
    return Place(Kind(witness.kind.value), witness.parts, witness.label)


def sketch_of(fact: Fact, scale: Scale, statement: str = "", diagram: str = "") -> Sketch:
    """Gather what the picture of a fact shows.

    Parameters
    ----------
    fact : Fact
        The fact.
    scale : Scale
        The scale.
    statement : str
        The fact in words, for the alt text; its title without it.
    diagram : str
        The diagram that is meant, where it is not the fact's own.

    Returns
    -------
    Sketch
        The scale with all places of the fact, none lit later than others.

    Raises
    ------
    DomainError
        If the fact does not apply to the scale.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> fact = default_registry().fact("semitone_steps")
    >>> [place.parts for place in sketch_of(fact, Scale.of(0, 2, 4, 5, 7, 9, 11)).places]
    [((4, 5),), ((11, 0),)]
    """
    value = fact.evaluate(scale)
    if value is None:
        raise DomainError(
            f"fact {fact.id}",
            f"it does not apply to this scale: {fact.reason(scale)}",
            "Choose another fact, or draw the figure without --mark.",
        )
    diagram = diagram or (fact.picture.diagram if fact.picture else USUAL)
    marks = fact.picture.marks if fact.picture else "witnesses"
    plain = Sketch(scale, title=fact.title, statement=statement)
    if marks == "value":
        return _with_value(plain, value, diagram)
    if marks == "none" and diagram == "comparison":
        return Sketch(scale, title=fact.title, statement=statement, other=_base(value, scale))
    places = tuple(place_of(witness) for witness in fact.places(scale)) if marks == "witnesses" else ()
    return Sketch(scale, places, title=fact.title, statement=statement)


def entry_places(fact: Fact, scale: Scale, number: int, diagram: str = "") -> tuple[Place, ...]:
    """Choose the places that one entry of a list is about.

    Parameters
    ----------
    fact : Fact
        A fact whose value is a list.
    scale : Scale
        The scale.
    number : int
        Which entry, counted from 1.
    diagram : str
        As for `sketch_of`.

    Returns
    -------
    tuple of Place
        As many as the entry counts where the entries count all intervals in turn; the place of that number where every
        entry has one; those that are labelled with what the entry lists where places come list by list. () where no
        place belongs to one entry alone.

    Raises
    ------
    DomainError
        If the fact does not apply to the scale.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> fact = default_registry().fact("degrees")
    >>> [place.label for place in entry_places(fact, Scale.of(0, 2, 4, 6, 7, 9, 11), 4)]
    ['#4']
    """
    places, value = sketch_of(fact, scale, "", diagram).places, fact.evaluate(scale)
    if not isinstance(value, tuple) or not 0 < number <= len(value):
        return ()
    counts = [entry if isinstance(entry, int) else -1 for entry in value]
    if min(counts) >= 0 and sum(counts) == len(places) and all(place.kind is Kind.INTERVAL for place in places):
        before = sum(counts[: number - 1])
        group = places[before : before + counts[number - 1]]
        labels = {place.label for place in group}
        # Numbers may add up by chance; then intervals of one label would fall to several entries.
        return group if sum(place.label in labels for place in places) == len(group) else ()
    if len(places) == len(value):
        return places[number - 1 : number]
    size = len(places) // len(value)
    group, entry = places[size * (number - 1) : size * number], value[number - 1]
    listed = {str(item) for item in entry} if isinstance(entry, tuple) else set()
    return group if size * len(value) == len(places) and listed == {place.label for place in group} else ()


def _with_value(plain: Sketch, value: Value, diagram: str) -> Sketch:
    """Show a value in the way a diagram can: columns, tones in order, another scale, or the weight."""
    scale, title, statement = plain.scale, plain.title, plain.statement
    n = scale.divisions
    if isinstance(value, str) and len(value) == n and set(value) <= {"0", "1"}:
        tones = tuple(Place(Kind.TONE, ((step,),)) for step, bit in enumerate(value) if bit == "1")
        return Sketch(scale, tones, title=title, statement=statement)
    if not isinstance(value, tuple) or not all(isinstance(number, int | float) for number in value):
        return plain
    numbers = tuple(float(number) for number in value if isinstance(number, int | float))
    if diagram in {"vector", "fourier"}:
        labels = tuple(str(index) for index in range(1, len(numbers) + 1))
        return Sketch(scale, values=numbers, value_labels=labels, title=title, statement=statement)
    if any(isinstance(number, float) for number in value):
        return Sketch(scale, title=title, statement=statement, is_weighed=True)
    steps = [int(number) for number in numbers]
    if set(steps) == set(scale.pitch_classes) and diagram == "clock":
        ordered = tuple(Place(Kind.TONE, (((step - scale.root) % n,),)) for step in steps)
        return Sketch(scale, ordered, title=title, statement=statement)
    other = Scale(sum(1 << step % n for step in set(steps)), n, scale.root)
    return Sketch(scale, other=other, title=title, statement=statement)


def _base(value: Value, scale: Scale) -> Scale | None:
    """Read the scale that a name means, or that a systematic name starts from; None for a value that is neither."""
    words = value.split() if isinstance(value, str) else []
    if words and (called := scales_called(" ".join(words))):
        return Scale(called[0].mask, scale.divisions, scale.root)
    for count in range(1, len(words) + 1):
        try:
            mask = scale_from_systematic_name(" ".join(words[:count]))
        except DomainError:
            continue
        return Scale(mask, scale.divisions, scale.root)
    return None


def picture_of(fact: Fact, scale: Scale, statement: str = "", diagram: str = "", lit: int | None = None) -> Figure:
    """Draw the picture of a fact.

    Parameters
    ----------
    fact, scale, statement, diagram
        As for `sketch_of`.
    lit : int, optional
        How many of its places are marked by now; all without it.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        If the fact does not apply to the scale.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> fact = default_registry().fact("tritones")
    >>> picture_of(fact, Scale.of(0, 2, 4, 5, 7, 9, 11)).title
    'Tritones'
    """
    sketch = sketch_of(fact, scale, statement, diagram)
    wanted = diagram or (fact.picture.diagram if fact.picture else USUAL)
    return draw_diagram(wanted, sketch if lit is None else sketch.upto(lit))
