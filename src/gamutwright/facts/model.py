"""What a fact is: one property of a scale, with everything needed to say, show, play and prove it.

Conventions: a fact's definition is the first paragraph of its module's docstring and is written nowhere else. Its
value is pure and exact where the mathematics is (fractions stay fractions). `None` means that the notion does not
apply, and then nothing is said, drawn or sounded. Witnesses count tones in steps above the root; a fact that counts
(`counts=True`) has exactly as many witnesses as its value says.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction

from gamutwright.errors import told
from gamutwright.facts.roles import Roles
from gamutwright.facts.vocabulary import Dtype, Evidence, Group, Level, Scope, WitnessKind
from gamutwright.theory.scale import MAX_DIVISIONS, MIN_DIVISIONS, Scale

__all__ = [
    "Citation",
    "Domain",
    "Dtype",
    "Evidence",
    "Fact",
    "Group",
    "Level",
    "Phrase",
    "Picture",
    "Scope",
    "Source",
    "Value",
    "Witness",
    "WitnessKind",
    "Worked",
    "is_negative",
]

Value = bool | int | float | Fraction | str | tuple["Value", ...]


@dataclass(frozen=True, slots=True)
class Witness:
    """One place in the scale that makes a fact true.

    Parameters
    ----------
    kind : WitnessKind
        How `parts` is to be read.
    parts : tuple of tuple of int
        Tones in steps above the root.
    label : str
        What a reader would call it; may be empty where the place says everything.
    """

    kind: WitnessKind
    parts: tuple[tuple[int, ...], ...]
    label: str = ""


@dataclass(frozen=True, slots=True)
class Source:
    """A publication.

    Parameters
    ----------
    key : str
        Short key, unique among all packs, such as `forte1973`.
    author, year, title, where : str
        As a bibliography prints them; `where` is the journal, publisher or series.
    """

    key: str
    author: str
    year: str
    title: str
    where: str = ""


@dataclass(frozen=True, slots=True)
class Citation:
    """A place in a source, and how far it was checked.

    Parameters
    ----------
    source : Source
        The publication.
    locator : str
        Page, chapter, table or figure.
    evidence : Evidence
        How far it was checked.
    """

    source: Source
    locator: str
    evidence: Evidence = Evidence.MEMORY


@dataclass(frozen=True, slots=True)
class Worked:
    """A worked example: what the fact's value is, or must not be, for one scale, and who says so.

    Parameters
    ----------
    scale : Scale
        The scale.
    value : Value or None
        The expected value; None where the notion does not apply.
    citation : Citation
        Who says so.
    tolerance : float
        Largest absolute difference allowed in numbers, for printed roundings.
    refutes : bool
        True where `value` is a known mistake that the fact must *not* give.
    """

    scale: Scale
    value: Value | None
    citation: Citation
    tolerance: float = 0.0
    refutes: bool = False


def is_negative(example: Worked) -> bool:
    """Whether a worked example shows the property failing, absent, or a mistake refuted.

    Parameters
    ----------
    example : Worked
        The example.

    Returns
    -------
    bool
        True for a refutation, and for the values False, 0, None, "" and ().

    Examples
    --------
    >>> here = Citation(Source("x", "", "", ""), "")
    >>> is_negative(Worked(Scale(1), False, here)), is_negative(Worked(Scale(1), 3, here))
    (True, False)
    """
    return example.refutes or not example.value


@dataclass(frozen=True, slots=True)
class Picture:
    """Which diagram shows the fact, and what is marked in it.

    Parameters
    ----------
    diagram : str
        One of clock, keyboard, staff, ladder, fretboard, spectra, vector, pairs, fourier, chordgraph, modes,
        neighbours, comparison.
    marks : str
        `witnesses`, `value` or `none`.
    """

    diagram: str
    marks: str = "witnesses"


@dataclass(frozen=True, slots=True)
class Phrase:
    """What is played for the fact.

    Parameters
    ----------
    kind : str
        One of scale, witnesses, modes, chords, intervals, drone, alternation, path.
    """

    kind: str = "witnesses"


@dataclass(frozen=True, slots=True)
class Domain:
    """Where a notion applies.

    Parameters
    ----------
    tones : tuple of int
        Fewest and most tones.
    divisions : tuple of int
        Fewest and most divisions of the octave.
    rooted : bool
        Whether the root must be one of the tones.
    rule : str
        Why, in words, where a limit is not plain from the numbers.

    Examples
    --------
    >>> Domain(tones=(3, 72)).reason(Scale.of(0, 7))
    'it needs at least 3 tones'
    >>> Domain(divisions=(12, 12), rule="chord names are those of twelve divisions").reason(Scale(1, 19))
    'chord names are those of twelve divisions'
    """

    tones: tuple[int, int] = (1, MAX_DIVISIONS)
    divisions: tuple[int, int] = (MIN_DIVISIONS, MAX_DIVISIONS)
    rooted: bool = False
    rule: str = ""

    def reason(self, scale: Scale) -> str:
        """Say why the notion does not apply to a scale; empty where it does.

        Parameters
        ----------
        scale : Scale
            The scale.

        Returns
        -------
        str
            A clause without a full stop, or "".
        """
        fewest, most = self.tones
        if self.rooted and not scale.is_rooted:
            return told("the root is not one of the tones")
        if not self.divisions[0] <= scale.divisions <= self.divisions[1]:
            lowest, highest = self.divisions
            span = f"{lowest}" if lowest == highest else f"{lowest}–{highest}"
            return told(self.rule) if self.rule else told("it is defined for {span} divisions", span=span)
        if scale.cardinality < fewest:
            return told("it needs at least {fewest} tones", fewest=fewest) if fewest != 1 else told("it needs a tone")
        if scale.cardinality > most:
            return told(self.rule) if self.rule else told("it is defined up to {most} tones", most=most)
        return ""


def _no_witnesses(scale: Scale) -> tuple[Witness, ...]:
    del scale
    return ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Fact:
    """One property of a scale; two facts are the same only if they are one object, which makes them quick keys.

    Parameters
    ----------
    id : str
        Snake case, equal to the name of the module that holds it.
    title : str
        What a heading prints.
    doc : str
        The module's docstring; its first paragraph is the definition.
    group : Group
        The heading it stands under.
    dtype : Dtype
        Type of the value.
    unit : str
        Unit of the value, in words; "" for none.
    level : Level
        Who it is for.
    scope : Scope
        What leaves the value unchanged.
    value : callable
        Scale to value, or None where the notion does not apply; called only inside `domain`.
    sources : tuple of Citation
        Where the notion is published.
    worked : tuple of Worked
        At least three worked examples, one of them negative.
    witnesses : callable
        Scale to the places that make the value true.
    counts : bool
        Whether the value is the number of witnesses.
    domain : Domain
        Where the notion applies.
    none_when : str
        Why the value is None inside the domain, where it can be.
    needs : tuple of str
        Ids of facts to be explained before this one.
    roles : Roles
        What part it can play in lessons, publications and audits.
    terms : tuple of str
        Words that must not appear in a script without a binding to this fact.
    picture, sound : Picture, Phrase or None
        How it is shown and heard.
    kernel : str
        Dotted name of the module that computes the column for whole catalogues; "" for none.
    witnesses_name_sources : bool
        Whether each witness's label names a source of its own, so that no single one stands for the value.
    """

    id: str
    title: str
    doc: str | None
    group: Group
    dtype: Dtype
    level: Level
    scope: Scope
    value: Callable[[Scale], Value | None]
    sources: tuple[Citation, ...]
    worked: tuple[Worked, ...]
    unit: str = ""
    witnesses: Callable[[Scale], tuple[Witness, ...]] = _no_witnesses
    counts: bool = False
    domain: Domain = field(default=Domain())
    none_when: str = ""
    needs: tuple[str, ...] = ()
    roles: Roles = field(default=Roles())
    terms: tuple[str, ...] = ()
    picture: Picture | None = None
    sound: Phrase | None = None
    kernel: str = ""
    witnesses_name_sources: bool = False

    @property
    def message(self) -> str:
        """Id of the message with its sentences in the wording files of its pack."""
        return self.id.replace("_", "-")

    @property
    def definition(self) -> str:
        """First paragraph of the module's docstring, on one line."""
        return " ".join(inspect.cleandoc(self.doc or "").split("\n\n")[0].split())

    @property
    def notes(self) -> str:
        """Conventions and remarks: what follows the first paragraph of the docstring, a line for each paragraph."""
        return "\n\n".join(" ".join(part.split()) for part in inspect.cleandoc(self.doc or "").split("\n\n")[1:])

    def evaluate(self, scale: Scale) -> Value | None:
        """Compute the value, or None where the notion does not apply.

        Parameters
        ----------
        scale : Scale
            The scale.

        Returns
        -------
        Value or None
            The exact value.
        """
        return None if self.domain.reason(scale) else self.value(scale)

    def reason(self, scale: Scale) -> str:
        """Say why the fact has no value for a scale; empty where it has one.

        Parameters
        ----------
        scale : Scale
            The scale.

        Returns
        -------
        str
            A clause without a full stop, or "".
        """
        outside = self.domain.reason(scale)
        if outside:
            return outside
        return told(self.none_when) if self.value(scale) is None else ""

    def places(self, scale: Scale) -> tuple[Witness, ...]:
        """List the witnesses, none where the notion does not apply.

        Parameters
        ----------
        scale : Scale
            The scale.

        Returns
        -------
        tuple of Witness
            In the order in which a voice would point at them.
        """
        return () if self.domain.reason(scale) else self.witnesses(scale)
