"""A scale as a teacher holds it: its tones and facts, its pictures and sounds, and a first draft of its lesson."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import partial
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.door.examples import Example
from gamutwright.facts.model import Citation, Fact, Value, Witness
from gamutwright.facts.profile import find
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.phrasing.terminal import citation_in_full, scale_in_words, value_in_words, witnesses_in_words
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import root_name, tone_names
from gamutwright.theory.systematic import systematic_name

if TYPE_CHECKING:
    from gamutwright.door.comparison_view import ScaleComparison
    from gamutwright.render.drawn import Drawn

__all__ = ["DraftView", "FactView", "ScaleView", "scale"]


def scale(text: str, *, divisions: int = 12, names: str = "english", root: str | int | None = None) -> ScaleView:
    """Read a scale from whatever a teacher has.

    Parameters
    ----------
    text : str
        Notes, pitch classes, steps, degrees, a Forte label, bits, a name, or the path of a MIDI or MusicXML file.
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : str
        Language of note names: `english`, `german` or `solfege`.
    root : str or int, optional
        The root; it goes before one in the text.

    Returns
    -------
    ScaleView
        The scale.

    Raises
    ------
    InputError
        If it cannot be read, or in several ways.

    Examples
    --------
    >>> import gamutwright as gw
    >>> gw.scale("G acoustic").tones
    ('G', 'A', 'B', 'C♯', 'D', 'E', 'F')
    """
    return ScaleView(read_scale(text, divisions=divisions, names=names, root=root).scale)


@dataclass(frozen=True, slots=True, repr=False)
class FactView:
    """A fact of a scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    fact : Fact
        The fact.

    Examples
    --------
    >>> import gamutwright as gw
    >>> found = gw.scale("C major").facts["tritones"]
    >>> found.value, found.places, found.sources[0]
    (1, 'F–B', 'Allen Forte (1973), The Structure of Atonal Music, ...')
    """

    scale: Scale
    fact: Fact

    @property
    def id(self) -> str:
        """Its id, by which `find` asks for it."""
        return self.fact.id

    @property
    def title(self) -> str:
        """What a heading prints."""
        return self.fact.title

    @property
    def definition(self) -> str:
        """What the notion means."""
        return self.fact.definition

    @property
    def value(self) -> Value | None:
        """The exact value; None where the notion does not apply."""
        return find(self.fact, self.scale).value

    @property
    def reason(self) -> str:
        """Why there is no value; "" where there is one."""
        return self.fact.reason(self.scale)

    @property
    def text(self) -> str:
        """The value as it is printed; "" where there is none."""
        value = self.value
        return "" if value is None else value_in_words(self.fact, value)

    @property
    def witnesses(self) -> tuple[Witness, ...]:
        """The places in the scale that make it true."""
        return self.fact.places(self.scale)

    @property
    def places(self) -> str:
        """The same in words."""
        return witnesses_in_words(self.scale, self.witnesses)

    @property
    def citations(self) -> tuple[Citation, ...]:
        """Where the notion is published."""
        return self.fact.sources

    @property
    def sources(self) -> tuple[str, ...]:
        """The same as a bibliography prints it, with how far each was checked."""
        return tuple(citation_in_full(citation) for citation in self.fact.sources)

    def picture(self, diagram: str | None = None, *, theme: str = "light") -> Drawn:
        """Draw the scale with these places marked.

        Parameters
        ----------
        diagram : str, optional
            Another diagram than the fact's own.
        theme : str
            light, night or print.

        Returns
        -------
        Drawn
            The picture.
        """
        return ScaleView(self.scale).picture(diagram, fact=self.id, theme=theme)

    def sound(self, kind: str | None = None) -> Example:
        """Play these places.

        Parameters
        ----------
        kind : str, optional
            Another phrase than the fact's own.

        Returns
        -------
        Example
            The sound.
        """
        return ScaleView(self.scale).sound(kind, fact=self.id)

    def __repr__(self) -> str:
        """Say what it is in a line."""
        places = f" ({self.places})" if self.places else ""
        return f"<{self.title}: {self.text or self.reason}{places}>"

    def _repr_html_(self) -> str:
        places = f" ({escape(self.places)})" if self.places else ""
        return (
            f"<p><strong>{escape(self.title)}: {escape(self.text or self.reason)}</strong>{places}<br>"
            f"{escape(self.definition)}<br><small>{escape('; '.join(self.sources))}</small></p>"
        )


@dataclass(frozen=True, slots=True, repr=False)
class _Facts(Mapping[str, FactView]):
    """The facts of a scale by id, in reading order; each is computed when it is asked for."""

    scale: Scale

    def __getitem__(self, fact_id: str) -> FactView:
        return FactView(self.scale, default_registry().fact(fact_id))

    def __iter__(self) -> Iterator[str]:
        return iter(default_registry().facts)

    def __len__(self) -> int:
        return len(default_registry().facts)

    def __repr__(self) -> str:
        return f"<{len(self)} facts of {scale_in_words(self.scale)}>"

    def _repr_html_(self) -> str:
        rows = "".join(
            f"<tr><td>{escape(found.title)}</td><td>{escape(found.text)}</td><td>{escape(found.places)}</td></tr>"
            for found in self.values()
            if found.value is not None
        )
        return f"<table><tr><th>Fact</th><th>Value</th><th>Places</th></tr>{rows}</table>"


@dataclass(frozen=True, slots=True, repr=False)
class DraftView:
    """A first version of a lesson's script.

    Parameters
    ----------
    text : str
        The script.
    minutes : float
        How long it lasts, spoken at the teaching rate, with pauses and sounds.
    """

    text: str
    minutes: float

    def save(self, path: str | Path, *, replaces: bool = False) -> Path:
        """Write the script to a file, whole or not at all.

        Parameters
        ----------
        path : str or Path
            Where; a folder that is missing is made.
        replaces : bool
            Whether a file that is there may be replaced.

        Returns
        -------
        Path
            The file; `gamutwright.lessons` opens it.

        Raises
        ------
        FileError
            If there is a file already, or it cannot be written.
        """
        from gamutwright.errors import FileError  # noqa: PLC0415 - only a refusal needs it
        from gamutwright.files import make_folder, write_text  # noqa: PLC0415 - only saving needs it

        place = Path(path)
        if place.exists() and not replaces:
            raise FileError(
                str(place), "it is there already, and may hold your work", "Choose another name, or say replaces=True."
            )
        make_folder(place.parent)
        write_text(place, self.text)
        return place

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<Draft: {len(self.text.split())} words, {self.minutes:.1f} minutes>"

    def __str__(self) -> str:
        """Give the script."""
        return self.text


@dataclass(frozen=True, slots=True, repr=False)
class ScaleView:
    """A scale.

    Parameters
    ----------
    theory : Scale
        The value behind it.

    Examples
    --------
    >>> import gamutwright as gw
    >>> gw.scale("2-1-2-2-2-1-2", root="D")
    <Scale: D dorian, D E F G A B C>
    """

    theory: Scale

    @property
    def name(self) -> str:
        """Root and name; the size and the division where there are no letters."""
        if self.theory.divisions != 12:
            return f"{self.theory.cardinality} tones in {self.theory.divisions} divisions"
        from gamutwright.languages import source_language  # noqa: PLC0415 - as above
        from gamutwright.lessons.stories.scale_names import spoken_name  # noqa: PLC0415 - it loads the words of a language
        from gamutwright.phrasing.engine import wording_for  # noqa: PLC0415 - as above

        if not self.theory.is_rooted:
            return to_symbols(f"{root_name(self.theory)} {systematic_name(self.theory)}")
        return spoken_name(self.theory, wording_for(source_language().tag))

    @property
    def tones(self) -> tuple[str, ...]:
        """Names of its tones from the root up; pitch classes outside twelve divisions."""
        if self.theory.divisions == 12:
            return tuple(map(to_symbols, tone_names(self.theory)))
        return tuple(map(str, self.theory.pitch_classes))

    @property
    def steps(self) -> tuple[int, ...]:
        """Sizes of its steps, in steps of the division."""
        return self.theory.step_pattern

    @property
    def bits(self) -> str:
        """Which places of the octave it has, the root first."""
        return self.theory.bits

    @property
    def divisions(self) -> int:
        """Equal divisions of the octave."""
        return self.theory.divisions

    @property
    def facts(self) -> Mapping[str, FactView]:
        """Everything there is to say of it, by id."""
        return _Facts(self.theory)

    def mode(self, degree: int) -> ScaleView:
        """Give its mode on a degree.

        Parameters
        ----------
        degree : int in [1, number of tones]
            Which tone becomes the root.

        Returns
        -------
        ScaleView
            The mode.
        """
        return ScaleView(self.theory.mode(degree))

    def picture(
        self,
        diagram: str | None = None,
        *,
        fact: str | None = None,
        beside: ScaleView | None = None,
        theme: str = "light",
    ) -> Drawn:
        """Draw the scale.

        Parameters
        ----------
        diagram : str, optional
            Id of a diagram, such as `keyboard` or `staff`; the usual one, or that of the fact, without it.
        fact : str, optional
            Id of the fact whose places are marked.
        beside : ScaleView, optional
            A second scale, for comparisons.
        theme : str
            light, night or print.

        Returns
        -------
        Drawn
            The picture: `.svg`, `.save("x.pdf")`, and it shows itself in a notebook.

        Raises
        ------
        DomainError
            If the diagram or the fact does not apply.

        Examples
        --------
        >>> import gamutwright as gw
        >>> gw.scale("D dorian").picture("keyboard").svg[:4]
        '<svg'
        """
        from gamutwright.door.drawing import drawn  # noqa: PLC0415 - it loads what draws

        other = beside.theory if beside else None
        return drawn(self.theory, figure=diagram, mark=fact, other=other, theme=theme)

    def sound(  # noqa: PLR0913 - each is something a listener may ask for
        self,
        kind: str | None = None,
        *,
        fact: str | None = None,
        beside: ScaleView | None = None,
        tempo: float | None = None,
        timbre: str = "plucked",
        tuning: str = "equal",
        metre: str | None = None,
        bars: int | None = None,
        version: int = 1,
    ) -> Example:
        """Play the scale, or the places of a fact.

        Parameters
        ----------
        kind : str, optional
            Id of a phrase; up and down, or that of the fact, without it.
        fact : str, optional
            Id of the fact whose places are played.
        beside : ScaleView, optional
            A second scale, to alternate with.
        tempo : float in [20, 300], optional
            Beats a minute; what suits the phrase without it.
        timbre : str
            plucked, struck or sustained.
        tuning : str
            equal, or the id of a tuning of twelve keys.
        metre : str, optional
            4/4, 3/4 or 6/8, for what has bars.
        bars : int, optional
            How many, for what has them.
        version : int
            Another number gives another tune.

        Returns
        -------
        Example
            The sound: `.save("x.wav")`, and it shows a player in a notebook.

        Raises
        ------
        DomainError
            If the phrase, the timbre or the tuning does not exist, or there is nothing to hear.
        """
        from gamutwright.door.playing import scored, sounded  # noqa: PLC0415 - it loads what sounds

        other = beside.theory if beside else None
        sound = sounded(
            self.theory, kind=kind, fact=fact, other=other, timbre=timbre, tempo=tempo, tuning=tuning, metre=metre,
            bars=bars, version=version,
        )  # fmt: skip
        written = partial(scored, self.theory, kind, metre=metre, bars=bars, version=version, tempo=tempo)
        return Example(sound, self.name, written if sound.metre else None)

    def draft(
        self, minutes: float = 6.0, *, level: str = "further", language: str = "en", seed: int = 0, story: str = ""
    ) -> DraftView:
        """Write a first version of its lesson, every statement bound to its proof.

        Parameters
        ----------
        minutes : float
            Length aimed at.
        level : str
            foundation, further or research.
        language : str
            Language tag.
        seed : int
            Settles equal choices.
        story : str
            The story to tell; "" for the one that fits best.

        Returns
        -------
        DraftView
            The script.

        Raises
        ------
        DomainError
            If the language is not known.
        InputError
            If there is no such story, or it does not fit.
        """
        from gamutwright.catalogue.shares import shares_of  # noqa: PLC0415 - only drafts need it
        from gamutwright.facts.model import Level  # noqa: PLC0415 - as above
        from gamutwright.lessons.draft import draft  # noqa: PLC0415 - as above
        from gamutwright.lessons.plan import Wish  # noqa: PLC0415 - as above

        wish = Wish(Level(level), minutes, (), seed, story)
        made = draft(self.theory, wish, language, shares=shares_of(self.divisions))
        return DraftView(made.source, made.minutes)

    def compare(self, other: ScaleView) -> ScaleComparison:
        """Hold it beside another scale.

        Parameters
        ----------
        other : ScaleView
            The other.

        Returns
        -------
        ScaleComparison
            What they share and where they differ.
        """
        from gamutwright.door.comparison_view import compare  # noqa: PLC0415 - only comparisons need it

        return compare(self, other)

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<Scale: {self.name}, {' '.join(self.tones)}>"

    def _repr_html_(self) -> str:
        picture = self.picture().svg if self.theory.mask else ""
        return f"<p><strong>{escape(self.name)}</strong>: {escape(' '.join(self.tones))}</p>{picture}"
