"""What stands on the stage of a film while it is planned, and how it changes: pictures, words beside them, light.

Pictures are drawn in the lesson's language. A change at a tick ends one shot and begins another; a change to what is
already there is none.

Conventions: ticks as in `ir.timeline`; tones as steps above the root.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial

from gamutwright.diagrams.atlas import draw_diagram
from gamutwright.diagrams.lighting import with_scale_lit, with_tones_lit
from gamutwright.diagrams.piece_staff import piece_staff
from gamutwright.diagrams.sketch import COMPARING, USUAL, Kind, Place, Sketch
from gamutwright.diagrams.staff import bare_staff
from gamutwright.errors import GamutwrightError
from gamutwright.facts.model import Fact
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import Registry
from gamutwright.ir.figure import Figure
from gamutwright.ir.sound import Mark as SoundMark
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import Clip, Panel, Shot, ShotKind, Speech, frame_at
from gamutwright.lessons.example_sounds import SoundKey
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.music.asking import asked
from gamutwright.music.pieces import piece_of
from gamutwright.music.pitches import Register
from gamutwright.phrasing.card_words import CardWords
from gamutwright.phrasing.engine import wording_for
from gamutwright.theory.scale import Scale

__all__ = ["INSET", "RUNS", "Stage", "is_octave", "sounding_steps", "source_in_short"]

INSET = (656.0, 260.0)
"""Size of the staff on a title, in units."""
RUNS = frozenset({"scale", "up", "down", "drone"})
"""Phrases that sound one tone after another; only the tone that sounds is lit."""
_ONE_TONE = frozenset({Kind.TONE, Kind.MODE})
_SEVERAL_TONES = frozenset({Kind.STEP, Kind.INTERVAL, Kind.CHORD, Kind.TONES})


def source_in_short(fact: Fact) -> str:
    """Name the first source of a fact as a picture's corner has room for it.

    Parameters
    ----------
    fact : Fact
        The fact.

    Returns
    -------
    str
        At most two surnames and the year; "" where no person is named.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> source_in_short(default_registry().fact("spectra"))
    'Clough & Myerson 1985'
    """
    citation = fact.sources[0]
    if not citation.source.author:
        return ""
    surnames = [name.split()[-1] for name in citation.source.author.split(",")]
    return f"{' & '.join(surnames[:2])} {citation.source.year}".strip()


def is_octave(sound: Sound, moment: SoundMark) -> bool:
    """Say whether what a mark begins with lies an octave above where its item lies first.

    Parameters
    ----------
    sound : Sound
        The sound.
    moment : SoundMark
        One of its marks.

    Returns
    -------
    bool
        Whether it does.
    """
    own = [note for note in sound.notes if note.item == moment.item]
    begun = [note.freq_hz for note in own if note.start_tick == moment.tick]
    return bool(begun) and min(begun) > 1.9 * min(note.freq_hz for note in own)


def sounding_steps(scale: Scale, sound: Sound, moment: SoundMark) -> tuple[int, ...]:
    """Say which steps above the root begin to sound at a mark, of what its items are.

    Parameters
    ----------
    scale : Scale
        The scale of the lesson, equally tuned.
    sound : Sound
        The sound.
    moment : SoundMark
        One of its marks.

    Returns
    -------
    tuple of int
        Steps of the leading part, those below the root an octave or more higher; for a drum the tone of its item.

    Examples
    --------
    >>> from gamutwright.diagrams.phrases import phrase
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> cadence = phrase("cadence", dorian)
    >>> [sounding_steps(dorian, cadence, mark) for mark in cadence.marks]
    [(0, 3, 7), (0, 5, 9), (0, 3, 7)]
    """
    n, root_hz = scale.divisions, Register(scale).freq_hz(0)
    begun = [note for note in sound.notes if note.start_tick == moment.tick and note.item]
    steps = {round(n * math.log2(note.freq_hz / root_hz)) for note in begun}
    if not begun and any(stroke.item and stroke.start_tick == moment.tick for stroke in sound.strokes):
        steps = {scale.tones[moment.item - 1]}
    return tuple(sorted({step if step >= 0 else step % n for step in steps}))


def _looks_like(one: Figure | None, other: Figure | None) -> bool:
    return one is other or (one is not None and other is not None and one.shapes == other.shapes)


@dataclass(slots=True)
class Stage:
    """What is on the stage, and the shots so far."""

    scale: Scale
    registry: Registry
    language: str
    speeches: Mapping[str, Speech]
    sounds: Mapping[SoundKey, Sound]
    words: CardWords
    title: str
    clips: list[Clip] = field(default_factory=list)
    shots: list[Shot] = field(default_factory=list)
    start: int = 0
    kind: ShotKind = ShotKind.TITLE
    figure: Figure | None = None
    drawing: str = USUAL
    panel: Panel = field(default_factory=Panel)
    chapter: int = -1
    chapter_title: str = ""
    is_still: bool = False
    fact: Fact | None = None
    diagram: str = USUAL
    other: Scale | None = None
    about: Scale | None = None
    only: tuple[Place, ...] | None = None

    @property
    def subject(self) -> Scale:
        """The scale that the picture is of: the lesson's own, but for a claim about another."""
        return self.about or self.scale

    @property
    def has_guest(self) -> bool:
        """Whether the picture shows another scale that only the words beside it name."""
        return self.about is not None or (self.other is not None and self.diagram == "clock")

    def cut(self, tick: int) -> None:
        """End the current shot at a tick, if it has lasted a frame."""
        tick = frame_at(tick)
        if tick > self.start:
            self.shots.append(
                Shot(
                    self.start, tick, self.kind, self.figure, self.panel, self.chapter, self.drawing,
                    is_still=self.is_still,
                )
            )  # fmt: skip
            self.start = tick

    def change(
        self,
        tick: int,
        *,
        figure: Figure | None = None,
        panel: Panel | None = None,
        kind: ShotKind = ShotKind.STAGE,
        is_still: bool = False,
    ) -> None:
        """Begin another shot at a tick; a figure is the one of `diagram`, a question or a card has none."""
        is_bare = kind in {ShotKind.QUESTION, ShotKind.END}
        shown = None if is_bare else figure or self.figure
        words = panel if panel is not None else self.panel
        if (words, kind) == (self.panel, self.kind) and _looks_like(shown, self.figure):
            return
        self.cut(tick)
        if figure is not None:
            self.drawing = self.diagram
        self.drawing = "" if is_bare else self.drawing
        self.kind, self.figure, self.panel, self.is_still = kind, shown, words, is_still

    def go_home(self) -> None:
        """Choose the usual picture of the scale as what is drawn next."""
        self.choose(None, USUAL)

    def choose(
        self,
        fact: Fact | None,
        diagram: str,
        *,
        other: Scale | None = None,
        about: Scale | None = None,
        only: tuple[Place, ...] | None = None,
    ) -> None:
        """Choose what is drawn next: `other` beside it, `about` instead of the lesson's scale, `only` of its places."""
        self.fact, self.diagram, self.about, self.only = fact, diagram, about, only
        self.other = other if diagram in COMPARING else None

    def come_back(self, tick: int) -> None:
        """Leave the picture of another scale for that of the lesson's own, unlit, under the chapter's heading."""
        if self.about is not None:
            self.go_home()
            self.change(tick, figure=self.drawn(0), panel=self.opening(self.chapter_title))

    def opening(self, title: str) -> Panel:
        """Give the words of the opening of a chapter, or of talk that is about no fact."""
        return Panel(heading=title or self.title)

    def telling(self, heading: str, value: str = "", sentence: str = "", source: str = "") -> Panel:
        """Give the words about a fact, under the chapter's title."""
        above = self.chapter_title if self.chapter_title != heading else ""
        return Panel(heading, value, sentence, source, above)

    def drawn(self, lit: int | None) -> Figure | None:
        """Draw what is on the stage with so many places lit; what was there where it cannot be drawn."""
        try:
            return draw_diagram(self.diagram, replace(self._sketch(), lit=lit))
        except GamutwrightError:
            if self.about is None:
                return self.figure
            # The picture that stays would be of the lesson's scale, under words about another.
            self.choose(None, USUAL, about=self.about)
            return self.plain(USUAL, self.about)

    def _sketch(self) -> Sketch:
        sketch = Sketch(self.subject) if self.fact is None else sketch_of(self.fact, self.subject, "", self.diagram)
        if self.only is not None:
            sketch = replace(sketch, places=self.only, is_counted=False)
        if self.other is not None:
            sketch = replace(sketch, other=self.other)
        if sketch.other is not None:
            # Side by side, scales go by their names: a lesson's title may be about anything.
            own = self.title if self.about is None and self.scale.divisions != 12 else self.name_of(self.subject)
            sketch = replace(sketch, beside=(own, self.name_of(sketch.other)))
        # The title tells pictures of different facts apart, also for whoever reads the film back.
        title = self.words.title(self.fact) if self.fact else self.title
        return replace(
            sketch, title=f"{title}: {self.name_of(self.about)}" if self.about else title, words=self.words.inside
        )

    def name_of(self, scale: Scale) -> str:
        """Name a scale that is not the lesson's: by root and name, or by its size where there are no names."""
        if scale.divisions == 12:
            return spoken_name(scale, wording_for(self.language))
        return self.words.say("unnamed", size=scale.cardinality, divisions=scale.divisions)

    def plain(self, diagram: str, scale: Scale) -> Figure:
        """Draw any scale with nothing marked, as the pictures of this lesson look."""
        return draw_diagram(diagram, Sketch(scale, title=self.title, words=self.words.inside))

    def title_staff(self) -> Figure | None:
        """Draw the staff of the title; None where there is no staff for the scale."""
        try:
            return bare_staff(Sketch(self.scale, title=self.title), *INSET)
        except GamutwrightError:
            return None

    def with_tones(self, figure: Figure, tones: tuple[int, ...]) -> Figure:
        """Light tones in a figure of the diagram on the stage."""
        return with_tones_lit(figure, self.diagram, self.subject, tones)

    def written(self, key: SoundKey) -> Callable[[int], Figure] | None:
        """Give the staff of a piece by the number of the note that sounds; None where it cannot be written."""
        if self.scale.divisions != 12:
            return None
        piece = piece_of(key.kind, self.scale, asked(key.options)[0])
        return partial(piece_staff, self._sketch(), piece)

    def sounding(self, plain: Figure, kind: str, place: Place, sound: Sound, moment: SoundMark) -> Figure:
        """Light in an unlit figure what sounds from a mark on."""
        if place.kind is Kind.SCALE:
            return with_scale_lit(plain, moment.item) if self.diagram == "comparison" else plain
        if place.kind in _ONE_TONE:
            octave = self.scale.divisions if kind in RUNS and is_octave(sound, moment) else 0
            return self.with_tones(plain, (place.parts[0][0] % self.scale.divisions + octave,))
        if place.kind in _SEVERAL_TONES:
            tones = {tone % self.scale.divisions for part in place.parts for tone in part}
            return self.with_tones(plain, tuple(sorted(tones)))
        return plain
