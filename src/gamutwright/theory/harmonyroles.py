"""What the chords of a scale do: which is home, which carry its colour, and which symbols a player reads it from.

The *tonic* is the major triad on the root, else the minor one, else a seventh chord there, else the root with its
fifth, else the root alone. *Colour chords* are the other major and minor triads that hold a colour tone. They are
ordered by how many they hold; then come those with a colour tone as root or third before those that have it only as
fifth, the tone of a chord that is most readily left out; then the least total motion of voices from the tonic; then
the most tones in common with it; then the lower root. A *vamp* is the tonic and the first colour chord, a *cadence*
goes from the colour chord home.

A *chord symbol* fits where the chord on the root lies in the scale. Tones above it are tensions: ninth, eleventh and
thirteenth. One a whole tone above a chord tone is available; one a semitone above a chord tone is to be avoided, for
it is heard as a clash. Over a dominant seventh the flat and the sharp ninth and the flat thirteenth are available all
the same. The sixth above a minor seventh chord, as in dorian, makes a tritone with its third; some authors would
avoid it for that, here it is available by the rule.

Conventions: tones are steps above the root of the scale. In scales of seven tones the triads are those built of every
other tone, so that a triad is spelled in thirds; in other sizes, and where none of those is major or minor, every
triad present counts. Chord kinds are those of twelve divisions. In any other division chords stack every other tone,
and the chord beside the tonic is the least rough one by Sethares's measure.

References: Persichetti, Twentieth-Century Harmony (1961), chapter 2, primary triads of the modes: those that hold
what differs from major or minor, a summary read; Nettles and Graf, The Chord Scale Theory and Jazz Harmony (1997),
from memory; Kostka and Payne, Tonal Harmony, for the fifth that may be left out, from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.theory.character import colour_tones, tonic_triad
from gamutwright.theory.consonance import scale_sethares_roughness
from gamutwright.theory.harmony import CHORDS, TRIADS, Chord, chord_name, chords_present
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map
from gamutwright.theory.voiceleading import voice_leading_size

__all__ = [
    "ChordSymbol",
    "HarmonyKind",
    "Sonority",
    "Tension",
    "Vamp",
    "cadence",
    "chord_symbols",
    "colour_chords",
    "major_and_minor_chords",
    "stacked_chord",
    "tonic",
    "vamp",
]

_MAJOR_AND_MINOR = {"": TRIADS[""], "m": TRIADS["m"]}
_TONIC_SEVENTHS = ("7", "maj7", "m7", "mM7", "+M7", "7#5", "7b5", "m7b5", "dim7")
_WITH_FIFTH = ("maj7", "7", "m7", "mM7")
_WITHOUT_FIFTH = ("+M7", "7#5", "7b5", "m7b5", "dim7")
_SIMPLER = (("6", "m6"), ("", "m"), ("aug", "dim"))
_DOMINANTS = frozenset({"7", "7#5", "7b5"})
_TENSIONS = {1: "b9", 2: "9", 3: "#9", 4: "3", 5: "11", 6: "#11", 7: "5", 8: "b13", 9: "13", 10: "b7", 11: "7"}
_ALTERED = frozenset({1, 3, 8})


class HarmonyKind(StrEnum):
    """What a sonority is."""

    TRIAD = "triad"
    SEVENTH = "seventh chord"
    FIFTH = "fifth"
    ROOT = "root alone"
    STACKED = "chord of every other tone"


@dataclass(frozen=True, slots=True)
class Sonority:
    """Tones that sound together.

    Parameters
    ----------
    kind : HarmonyKind
        What they are.
    tones : tuple of int
        From its own root up, in steps above the root of the scale.
    chord : Chord, optional
        The chord with a name that it is.
    """

    kind: HarmonyKind
    tones: tuple[int, ...]
    chord: Chord | None = None

    @property
    def root(self) -> int:
        """Its root, in steps above the root of the scale."""
        return self.tones[0]

    def name(self, scale: Scale) -> str:
        """Name it in the spelling of a scale.

        Parameters
        ----------
        scale : Scale
            The scale that holds it.

        Returns
        -------
        str
            A chord's name; without one, `chord on degree 4` or the name of its only tone.

        Examples
        --------
        >>> whole_tone, fifth = Scale.of(0, 2, 4, 6, 8, 10), Scale.of(0, 1, 7)
        >>> tonic(whole_tone).name(whole_tone), tonic(fifth).name(fifth)
        ('C7#5', 'C5')
        """
        if self.chord:
            return chord_name(self.chord, tone_name_map(scale))
        if self.kind is HarmonyKind.STACKED:
            return f"chord on degree {scale.tones.index(self.root) + 1}"
        return tone_name_map(scale)[self.root]


@dataclass(frozen=True, slots=True)
class Vamp:
    """Two sonorities to go to and fro between.

    Parameters
    ----------
    home, away : Sonority
        The tonic and the other.
    has_colour : bool
        Whether the other is a colour chord.
    """

    home: Sonority
    away: Sonority
    has_colour: bool


@dataclass(frozen=True, slots=True)
class Tension:
    """A tone above a chord.

    Parameters
    ----------
    name : str
        Its interval above the chord's root, such as `9` or `#11`; for a tone that no symbol writes, its degree.
    tone : int
        The tone, in steps above the root of the scale.
    """

    name: str
    tone: int


@dataclass(frozen=True, slots=True)
class ChordSymbol:
    """A chord on the root that a player reads the scale from.

    Parameters
    ----------
    chord : Chord
        The chord.
    available, avoided : tuple of Tension
        Of the other tones of the scale those a whole tone above a tone of the chord, and those a semitone above one.
    """

    chord: Chord
    available: tuple[Tension, ...]
    avoided: tuple[Tension, ...]


def _sonority(chord: Chord) -> Sonority:
    kind = HarmonyKind.TRIAD if chord.suffix in TRIADS else HarmonyKind.SEVENTH
    return Sonority(kind, chord.tones, chord)


def _on_root(scale: Scale, suffixes: Sequence[str]) -> tuple[Chord, ...]:
    """List the chords of some kinds on the root that the scale holds, in the order given."""
    return tuple(Chord(0, suffix) for suffix in suffixes if all(scale.mask >> tone & 1 for tone in CHORDS[suffix]))


def stacked_chord(scale: Scale, degree: int, size: int = 3) -> Sonority:
    """Stack every other tone of a scale.

    Parameters
    ----------
    scale : Scale, at least three tones
        The scale.
    degree : int in [1, cardinality]
        Where to start.
    size : int >= 1
        How many tones; fewer where the stack comes round to its start.

    Returns
    -------
    Sonority
        The chord; with a name where it is one of twelve divisions that has one.

    Raises
    ------
    DomainError
        If the scale has fewer than three tones, or no such degree.

    Examples
    --------
    >>> stacked_chord(Scale.of(0, 2, 4, 5, 7, 9, 11), 2).chord
    Chord(root=2, suffix='m')
    >>> stacked_chord(Scale.of(0, 3, 6, 8, 11, 14, 17, divisions=19), 1).tones
    (0, 6, 11)
    """
    tones = scale.tones
    if len(tones) < 3 or not 1 <= degree <= len(tones):
        raise DomainError(
            f"a chord on degree {degree}",
            f"chords are stacked on a degree of a scale of three tones or more, and this one has {len(tones)}",
            "Choose one of its degrees, or a scale with more tones.",
        )
    members = tuple(dict.fromkeys(tones[(degree - 1 + 2 * place) % len(tones)] for place in range(size)))
    shape = tuple((tone - members[0]) % scale.divisions for tone in members)
    suffix = next((name for name, kind in CHORDS.items() if kind == shape), None) if scale.divisions == 12 else None
    return Sonority(HarmonyKind.STACKED, members, None if suffix is None else Chord(members[0], suffix))


def tonic(scale: Scale) -> Sonority | None:
    """Give what a scale has for a home.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Sonority or None
        The major triad, the minor triad, a seventh chord, the fifth or the root alone; outside twelve divisions the
        chord of every other tone. None without the root, and for fewer than three tones outside twelve divisions.

    Examples
    --------
    >>> str(tonic(Scale.of(2, 4, 5, 7, 9, 11, 0)).kind), tonic(Scale.of(11, 0, 2, 4, 5, 7, 9)).chord.suffix
    ('triad', 'm7b5')
    >>> str(tonic(Scale.of(0, 1, 7)).kind), str(tonic(Scale.of(0, 1, 6)).kind)
    ('fifth', 'root alone')
    """
    if not scale.is_rooted:
        return None
    if scale.divisions != 12:
        return stacked_chord(scale, 1) if scale.cardinality >= 3 else None
    triad = tonic_triad(scale)
    sevenths = _on_root(scale, _TONIC_SEVENTHS)
    if triad or sevenths:
        return _sonority(triad or sevenths[0])
    return Sonority(HarmonyKind.FIFTH, (0, 7), Chord(0, "5")) if 7 in scale.tones else Sonority(HarmonyKind.ROOT, (0,))


def major_and_minor_chords(scale: Scale) -> tuple[Chord, ...]:
    """List the major and minor triads that a scale's harmony has to choose from.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Chord
        Upwards from the root; none outside twelve divisions.

    Examples
    --------
    >>> phrygian_dominant = Scale.of(4, 5, 8, 9, 11, 0, 2)
    >>> [(chord.root, chord.suffix) for chord in major_and_minor_chords(phrygian_dominant)]
    [(0, ''), (1, ''), (5, 'm'), (10, 'm')]
    """
    if scale.divisions != 12:
        return ()
    present = chords_present(scale, _MAJOR_AND_MINOR)
    if scale.cardinality != 7:
        return present
    stacked = {stacked_chord(scale, degree).chord for degree in range(1, 8)}
    return tuple(chord for chord in present if chord in stacked) or present


def _motion(home: Sonority, chord: Chord) -> int:
    return int(voice_leading_size(home.tones, chord.tones))


@lru_cache(maxsize=128)
def colour_chords(scale: Scale, colour: tuple[int, ...] | None = None) -> tuple[Chord, ...]:
    """Give the chords that carry the colour of a scale, in their order.

    Parameters
    ----------
    scale : Scale
        The scale.
    colour : tuple of int, optional
        The tones that count as its colour; those of `character.colour_tones` without it.

    Returns
    -------
    tuple of Chord
        Major and minor triads other than the tonic; empty outside twelve divisions and where none holds a colour tone.

    Examples
    --------
    >>> dorian = Scale.of(2, 4, 5, 7, 9, 11, 0)
    >>> [chord_name(chord, tone_name_map(dorian)) for chord in colour_chords(dorian)]
    ['G', 'Em']
    """
    home = tonic(scale)
    tones = set(colour_tones(scale) if colour is None else colour)
    if home is None:
        return ()

    def order(chord: Chord) -> tuple[int, bool, int, int, int]:
        held = tones.intersection(chord.tones)
        shared = len(set(home.tones).intersection(chord.tones))
        return -len(held), held == {chord.tones[2]}, _motion(home, chord), -shared, chord.root

    found = (chord for chord in major_and_minor_chords(scale) if chord.root and tones.intersection(chord.tones))
    return tuple(sorted(found, key=order))


def vamp(scale: Scale) -> Vamp | None:
    """Give the tonic and the chord to go to and fro with.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    Vamp or None
        The tonic with the first colour chord; without one, with the major or minor triad nearest to it by total motion
        of voices; without that, with the least rough chord of every other tone on another degree. None without the root
        or for fewer than three tones.

    Examples
    --------
    >>> two = vamp(Scale.of(5, 7, 9, 11, 0, 2, 4))
    >>> two.home.chord, two.away.chord, two.has_colour
    (Chord(root=0, suffix=''), Chord(root=2, suffix=''), True)
    """
    home = tonic(scale)
    if home is None or scale.cardinality < 3:
        return None
    colours = colour_chords(scale)
    if colours:
        return Vamp(home, _sonority(colours[0]), has_colour=True)
    others = [chord for chord in major_and_minor_chords(scale) if chord.root]
    if others:
        nearest = min(others, key=lambda chord: (_motion(home, chord), chord.root))
        return Vamp(home, _sonority(nearest), has_colour=False)
    stacks = [stacked_chord(scale, degree) for degree in range(2, scale.cardinality + 1)]
    return Vamp(home, min(stacks, key=lambda stack: (_roughness(scale, stack), stack.root)), has_colour=False)


def _roughness(scale: Scale, stack: Sonority) -> float:
    """Give the roughness of a chord in close position above its own root; the same chord anywhere is equally rough."""
    mask = sum(1 << (tone - stack.root) % scale.divisions for tone in stack.tones)
    return round(scale_sethares_roughness(Scale(mask, scale.divisions)), 9)


def cadence(scale: Scale) -> tuple[Sonority, Sonority] | None:
    """Give the chord before the last, and the tonic that it goes home to.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Sonority or None
        The two of the vamp, home last.

    Examples
    --------
    >>> [chord.chord.root for chord in cadence(Scale.of(4, 5, 7, 9, 11, 0, 2))]
    [1, 0]
    """
    two = vamp(scale)
    return (two.away, two.home) if two else None


def chord_symbols(scale: Scale) -> tuple[ChordSymbol, ...]:
    """Give the chords on the root that a player reads the scale from, with the tones above them.

    Parameters
    ----------
    scale : Scale
        The scale.

    Returns
    -------
    tuple of ChordSymbol
        Seventh chords, with the perfect fifth where the scale has it; without any, sixth chords; without those, triads.
        None outside twelve divisions or where the root carries no such chord.

    Examples
    --------
    >>> fits = chord_symbols(Scale.of(0, 2, 4, 5, 7, 9, 11))[0]
    >>> fits.chord.suffix, [t.name for t in fits.available], [t.name for t in fits.avoided]
    ('maj7', ['9', '13'], ['11'])
    """
    if scale.divisions != 12 or not scale.is_rooted:
        return ()
    kinds = (_WITH_FIFTH if 7 in scale.tones else _WITHOUT_FIFTH, *_SIMPLER)
    chords = next((found for suffixes in kinds if (found := _on_root(scale, suffixes))), ())
    return tuple(_symbol(scale, chord) for chord in chords)


def _symbol(scale: Scale, chord: Chord) -> ChordSymbol:
    available, avoided = [], []
    for tone in scale.tones:
        if tone in chord.tones:
            continue
        if chord.suffix in _DOMINANTS and tone in _ALTERED:
            available.append(Tension(_TENSIONS[tone], tone))
        elif (tone - 1) % 12 in chord.tones:
            avoided.append(Tension(_TENSIONS[tone], tone))
        elif (tone - 2) % 12 in chord.tones:
            available.append(Tension(_TENSIONS[tone], tone))
    return ChordSymbol(chord, tuple(available), tuple(avoided))
