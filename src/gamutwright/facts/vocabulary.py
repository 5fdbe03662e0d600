"""The words a fact is described with: types, levels, headings, scopes, kinds of witness, degrees of evidence."""

from __future__ import annotations

from enum import StrEnum

__all__ = ["Dtype", "Evidence", "Group", "Level", "Scope", "WitnessKind"]


class Dtype(StrEnum):
    """The type of a value, and of its column in a catalogue."""

    BOOL = "bool"
    INT = "int"
    FLOAT = "float"
    FRACTION = "fraction"
    TEXT = "text"
    INTS = "ints"
    FLOATS = "floats"
    FRACTIONS = "fractions"
    TEXTS = "texts"
    INT_ROWS = "int rows"


class Level(StrEnum):
    """Who a fact is for."""

    FOUNDATION = "foundation"
    FURTHER = "further"
    RESEARCH = "research"


class Group(StrEnum):
    """The heading a fact stands under, in reading order."""

    TONES = "Tones and steps"
    NAMES = "Spelling and names"
    CLASSES = "Set classes"
    SYMMETRY = "Modes and symmetry"
    INTERVALS = "Intervals and common tones"
    SPECTRA = "Spectra and evenness"
    COHERENCE = "Propriety and coherence"
    FOURIER = "Fourier and balance"
    HARMONY = "Chords"
    RELATIVES = "Relatives"
    CONSONANCE = "Consonance"
    TUNING = "Tuning"


class Scope(StrEnum):
    """What leaves a value unchanged; families of scales are counted by it."""

    SPELLED = "spelled"
    """Depends on the pitch class of the root and on the spelling."""
    ROOTED = "rooted"
    """Unchanged when scale and root move together."""
    TN = "Tn"
    """The same for every mode: unchanged under transposition of the set, whatever the root."""
    TNI = "TnI"
    """As `TN`, and unchanged under inversion."""


class WitnessKind(StrEnum):
    """What a witness points at, and how its parts are to be read."""

    TONE = "tone"
    """One part, one tone."""
    STEP = "step"
    """One part, the lower and the upper tone of a step between neighbours."""
    INTERVAL = "interval"
    """One part, the two tones, lower first as the fact counts it."""
    INTERVAL_PAIR = "interval pair"
    """Two parts, two intervals that are compared."""
    TONES = "tones"
    """One part, tones in their order, such as a run or a chain of one interval."""
    CHORD = "chord"
    """One part, the tones of a chord from its root up."""
    LINK = "link"
    """Two parts, two chords joined by voice leading."""
    PATH = "path"
    """A part for each chord in the order of the path."""
    AXIS = "axis"
    """One part, one number k: the reflection that sends x to k - x."""
    MODE = "mode"
    """One part, the tone taken as root."""
    SCALE = "scale"
    """One part, the tones of another scale counted from this root."""


class Evidence(StrEnum):
    """How far a quotation was checked by whoever wrote it here."""

    READ = "read"
    """The passage was read."""
    QUOTED = "as quoted in another text"
    """Read in a text or dataset that quotes the source; the locator names it."""
    MEMORY = "from memory"
    """Stated from memory of the source, not read again."""
    RECOMPUTED = "recomputed, no printed value found"
    """The definition is the source's; the value comes from a slow computation written apart from ours."""
    PRACTICE = "common practice, no source"
    """A fact of the trade."""
