"""What a story can say of a scale: its tones, chords and neighbours as words that are bound already.

A sentence of a story has slots. Here stands what fills them for one scale: markup that states something and is bound
to its fact (`new` is `[F]{fact=colour_tones at=1}`), names of scales that a picture on the same line shows, and the
plain words and numbers by which a sentence chooses between its variants. What a scale does not have is not there, and
a sentence that needs it is not told.

**Conventions.** Slots are those of `docs/stories.md`. Only rooted scales of twelve divisions have material beyond the
first few. A number or a word is no markup: it decides, and is never spoken.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from gamutwright.errors import InputError
from gamutwright.facts.model import Fact, Level
from gamutwright.facts.profile import Finding, find
from gamutwright.facts.registry import Registry
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.stories.scale_names import shown_relative, spoken_name
from gamutwright.phrasing.claim_marks import marked
from gamutwright.phrasing.engine import Wording
from gamutwright.phrasing.spoken_names import spoken_ordinal_degree
from gamutwright.phrasing.spoken_numbers import ordinal_to_words
from gamutwright.phrasing.values import entries_in_words, places_in_words
from gamutwright.theory.character import Relation, Relative, nearest_relative, tonic_triad
from gamutwright.theory.modenames import mode_of_named
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names
from gamutwright.theory.symmetry import transposition_count

__all__ = ["Material", "material_of"]

_LEVELS = tuple(Level)
_LARGE_STEP = 3
_DEGREES = 7
_LONGEST_CHAIN = 9
_USUAL_LINKS = (7, 5)
_TAUGHT_HERE = frozenset({
    "church modes", "tonal practice", "pentatonic scales", "jazz practice", "twentieth-century scales",
    "modes of limited transposition",
})  # fmt: skip
"""The traditions of names that mean no more than the tones of a keyboard."""


@dataclass(frozen=True, slots=True)
class Material:
    """What there is to tell of a scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    slots : mapping of str to str
        Bound words and names; a sentence with a slot that is not here is left out.
    measures : mapping of str to int or str
        What decides: counts, and words such as `up`; 0 or "" where a scale has nothing of the kind.
    scales : mapping of str to str
        Other scales by their part in the story, as a script's attributes name them.
    """

    scale: Scale
    slots: Mapping[str, str]
    measures: Mapping[str, int | str]
    scales: Mapping[str, str]


@dataclass(slots=True)
class _Gatherer:
    scale: Scale
    wording: Wording
    registry: Registry
    findings: Mapping[str, Finding]
    level: Level
    slots: dict[str, str] = field(default_factory=dict)
    measures: dict[str, int | str] = field(default_factory=dict)
    scales: dict[str, str] = field(default_factory=dict)

    def finding(self, fact_id: str) -> Finding | None:
        """Give what a fact says, None where it says nothing, or may not be spoken of at this level."""
        fact = self.registry.facts.get(fact_id)
        if fact is None or _LEVELS.index(fact.level) > _LEVELS.index(self.level) or not self.wording.speaks_of(fact):
            return None
        found = self.findings.get(fact_id) or find(fact, self.scale)
        return found if found.value is not None else None

    def value(self, slot: str, fact_id: str) -> None:
        """Offer a whole value, and its number as a measure."""
        found = self.finding(fact_id)
        if found is None:
            return
        value = found.value
        assert value is not None  # noqa: S101 - `finding` has asked
        number = len(value) if isinstance(value, tuple) else int(value) if isinstance(value, int) else 0
        self.measures[f"{slot}-count"] = number
        if value != ():
            self.slots[slot] = marked(self.wording.value_in_words(found.fact, value, self.scale), fact=fact_id)

    def places(self, slot: str, fact_id: str) -> None:
        """Offer the places of a fact by name."""
        found = self.finding(fact_id)
        if found is not None and found.witnesses:
            words = places_in_words(self.scale, found.witnesses, self.wording.language)
            if words:
                self.slots[slot] = marked(words, each=fact_id)

    def entry(self, slot: str, fact_id: str, place: int) -> None:
        """Offer one entry of a list, counted from 1."""
        found = self.finding(fact_id)
        if found is not None and isinstance(found.value, tuple) and 1 <= place <= len(found.value):
            words = entries_in_words(found.fact, found.value, self.wording.language)
            spoken = self.wording.words_of(found.fact).get(str(found.value[place - 1]), words[place - 1])
            self.slots[slot] = marked(spoken, fact=fact_id, at=place)

    def tone(self, slot: str, tone: int) -> None:
        """Offer a tone of the scale by its name."""
        if tone in self.scale.tones:
            self.entry(slot, "spelling", self.scale.tones.index(tone) + 1)

    def place(self, slot: str, fact_id: str, parts: tuple[tuple[int, ...], ...], scale: str = "") -> bool:
        """Offer one place of a fact, in this scale or in another of the story."""
        found = self.finding(fact_id) if not scale else _finding_of(self.registry.facts.get(fact_id), self.other(scale))
        if found is None:
            return False
        for number, witness in enumerate(found.witnesses, 1):
            if witness.parts == parts:
                about = self.other(scale) if scale else self.scale
                words = places_in_words(about, (witness,), self.wording.language)
                if not words:
                    return False
                self.slots[slot] = marked(words, each=fact_id, of_=self.scales.get(scale), at=number)
                return True
        return False

    def other(self, role: str) -> Scale:
        """Give another scale of the story."""
        return self._others[role]

    _others: dict[str, Scale] = field(default_factory=dict)

    def beside(self, role: str, scale: Scale, name: str) -> None:
        """Take in another scale: by name, and with its own picture."""
        self._others[role] = scale
        self.scales[role] = f"{tone_names(scale)[0]} {name}"
        self.slots[role] = shown_relative(self.scales[role], self.wording)


def _is_plain(text: str) -> bool:
    """Whether a name means a single scale."""
    try:
        read_scale(text)
    except InputError:
        return False
    return True


def _finding_of(fact: Fact | None, scale: Scale) -> Finding | None:
    found = find(fact, scale) if fact else None
    return found if found is not None and found.value is not None else None


def material_of(
    scale: Scale, findings: Mapping[str, Finding], registry: Registry, wording: Wording, level: Level
) -> Material:
    """Gather what there is to tell of a scale.

    Parameters
    ----------
    scale : Scale
        The scale.
    findings : mapping of str to Finding
        What is known of it already, by the ids of facts; the rest is looked up.
    registry : Registry
        The facts on offer.
    wording : Wording
        The wording of the lesson's language.
    level : Level
        Who the lesson is for; facts above it are not spoken of.

    Returns
    -------
    Material
        Slots, measures and scales.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> from gamutwright.phrasing.engine import wording_for
    >>> found = material_of(Scale.of(4, 5, 7, 9, 11, 0, 2), {}, default_registry(), wording_for("en"), Level.FURTHER)
    >>> found.slots["new"], found.slots["old"], found.measures["way"]
    ('[F]{fact=colour_tones at=1}', '[F sharp]{each=nearest_relative at=1}', 'down')
    >>> found.slots["pull"], found.scales["relative"]
    ('[F to E]{each=tendency_tones at=1}', 'E natural minor')
    """
    gather = _Gatherer(scale, wording, registry, findings, level)
    gather.slots["name"] = spoken_name(scale, wording)
    gather.measures |= {
        "size": scale.cardinality,
        "divisions": scale.divisions,
        "has-name": int(scale.divisions == 12),
        "shifts": transposition_count(scale),
        "kinds-of-steps": len(set(scale.step_pattern)),
        "level": level.value,
    }
    _tones_and_steps(gather)
    if scale.divisions == 12 and scale.is_rooted:
        _harmony(gather)
        _relative(gather)
        _family(gather)
        _shape(gather)
    return Material(scale, gather.slots, gather.measures, gather.scales)


def _tones_and_steps(gather: _Gatherer) -> None:
    for slot, fact_id in (
        ("size-words", "cardinality"), ("steps", "step_pattern"), ("tones", "spelling"), ("narrow", "semitone_steps"),
        ("tritones", "tritones"), ("modes", "mode_count"), ("shifts", "transposition_count"),
        ("runs", "semitone_runs"),
    ):  # fmt: skip
        gather.value(slot, fact_id)
    gather.places("narrow-places", "semitone_steps")
    gather.places("tritone-places", "tritones")
    gather.entry("root", "spelling", 1)
    gather.entry("first-step", "step_pattern", 1)
    gather.entry("last-step", "step_pattern", gather.scale.cardinality)


def _harmony(gather: _Gatherer) -> None:
    gather.value("home", "tonic")
    gather.measures["rests"] = int(tonic_triad(gather.scale) is not None)
    gather.value("chords", "colour_chords")
    gather.entry("chord", "colour_chords", 1)
    gather.entry("chord-2", "colour_chords", 2)
    gather.value("symbols", "chord_symbols")
    gather.entry("symbol", "chord_symbols", 1)
    gather.value("majors", "major_triads")
    gather.value("minors", "minor_triads")
    gather.places("major-places", "major_triads")
    gather.places("minor-places", "minor_triads")
    gather.places("pulls", "tendency_tones")
    found = gather.finding("tendency_tones")
    pulls = found.witnesses if found else ()
    gather.measures["pulls"] = len(pulls)
    triads = [*(gather.finding(name) for name in ("major_triads", "minor_triads"))]
    chords = [(name, witness.parts) for name, found in zip(("major_triads", "minor_triads"), triads, strict=True)
              if found for witness in found.witnesses]  # fmt: skip
    gather.measures["triads"] = len(chords)
    _two_triads(gather, chords)


def _two_triads(gather: _Gatherer, chords: list[tuple[str, tuple[tuple[int, ...], ...]]]) -> None:
    """Find two triads without a tone in common that hold all the scale's tones, the first on the root if one is."""
    tones = set(gather.scale.tones)
    if len(tones) != 6:
        return
    for one, (fact_id, parts) in enumerate(chords):
        for other_id, other_parts in chords[one + 1 :]:
            if set(parts[0]) | set(other_parts[0]) == tones:
                pair = sorted([(fact_id, parts), (other_id, other_parts)], key=lambda chord: chord[1][0][0] != 0)
                gather.place("half-1", *pair[0])
                gather.place("half-2", *pair[1])
                gather.measures["two-triads"] = 1
                return


def _relative(gather: _Gatherer) -> None:
    relative = nearest_relative(gather.scale)
    if relative is None:
        return
    gather.beside("relative", relative.scale, relative.familiar.name)
    gather.value("relative-name", "nearest_relative")
    gather.value("colours", "colour_tones")
    gather.places("olds", "nearest_relative")
    narrow = _finding_of(gather.registry.facts.get("semitone_steps"), relative.scale)
    gather.measures["relative-narrow"] = len(narrow.witnesses) if narrow else 0
    gather.measures["relation"] = relative.relation.name.lower().replace("_", "-")
    gather.measures["changes"] = len(relative.changes) + len(relative.left_out) + len(relative.added)
    found = _finding_of(gather.registry.facts.get("brightness"), gather.other("relative"))
    mine = gather.finding("brightness")
    if found and mine and relative.relation is Relation.CHANGED and found.value != mine.value:
        is_brighter = int(mine.value) > int(found.value)  # type: ignore[arg-type]
        gather.measures["light"] = "brighter" if is_brighter else "darker"
        words = gather.wording.name("word-higher" if is_brighter else "word-lower").strip("‹›")
        gather.slots["higher"] = marked(words, fact="brightness", than=gather.scales["relative"])
    if relative.relation is Relation.CHANGED:
        for number, change in enumerate(sorted(relative.changes, key=lambda change: change.tone), 1):
            _changed(gather, relative, number, change.tone, change.before, change.degree)
    for number, tone in enumerate(relative.added, 1):
        _added(gather, number, tone)


def _changed(gather: _Gatherer, relative: Relative, number: int, tone: int, before: int, degree: int) -> None:
    """Tell of a changed degree: where it was, where it leads, and which of its two steps is narrow or wide now."""
    scale, mark = gather.scale, "" if number == 1 else f"-{number}"
    gather.entry(f"new{mark}", "colour_tones", number)
    gather.place(f"old{mark}", "nearest_relative", ((before,),))
    found = gather.finding("degrees")
    place = scale.tones.index(tone) + 1
    if found is not None and isinstance(found.value, tuple) and scale.cardinality == _DEGREES:
        words = spoken_ordinal_degree(str(found.value[place - 1]), gather.wording.language)
        gather.slots[f"degree{mark}"] = marked(words, fact="degrees", at=place)
        gather.slots[f"place{mark}"] = marked(
            ordinal_to_words(degree, gather.wording.language), fact="degrees", of_=gather.scales["relative"], at=degree
        )
    gather.measures[f"way{mark}"] = "up" if tone > before else "down"
    gather.measures[f"by{mark}"] = abs(tone - before)
    size, tones = scale.divisions, (*scale.tones, scale.divisions)
    above = tones[place]
    below = tones[place - 2] if place > 1 else 0
    under = relative.scale.tones
    for name, low, high, was in (
        ("under", below, tone, before - (under[degree - 2] if degree > 1 else 0)),
        ("over", tone, above, (*under, size)[degree] - before),
    ):
        gather.measures[f"{name}{mark}"] = high - low
        gather.measures[f"{name}-was{mark}"] = was
        if high - low == 1:
            gather.place(f"{name}-narrow{mark}", "semitone_steps", ((low, high % size),))
        if high - low >= _LARGE_STEP:
            gather.tone(f"{name}-from{mark}", low)
            gather.tone(f"{name}-to{mark}", high % size)
            gather.entry(f"{name}-steps{mark}", "step_pattern", place if name == "over" else place - 1)
    _pull(gather, relative, mark, tone, before)
    _chord_before(gather, mark)


def _pull(gather: _Gatherer, relative: Relative, mark: str, tone: int, before: int) -> None:
    """Tell whether the tone leans on one of home's tones, and whether the old one did."""
    found = gather.finding("tendency_tones")
    goal = next((w.parts for w in found.witnesses if w.parts[0][0] == tone), None) if found else None
    gather.measures[f"pull{mark}"] = 0
    if goal and gather.place(f"pull{mark}", "tendency_tones", goal):
        target = goal[0][1]
        gather.measures[f"pull{mark}"] = "home" if target == 0 else "chord"
        is_up = (target - tone) % 12 == 1
        gather.measures[f"pull-way{mark}"] = "up" if is_up else "down"
        gather.place(f"pull-step{mark}", "semitone_steps", ((tone, target) if is_up else (target, tone),))
        gather.tone(f"target{mark}", target)
    theirs = _finding_of(gather.registry.facts.get("tendency_tones"), relative.scale)
    lost = next((w.parts for w in theirs.witnesses if w.parts[0][0] == before), None) if theirs else None
    gather.measures[f"lost{mark}"] = 0
    is_by_the_root = tone in {1, relative.scale.divisions - 1}
    if lost and not goal and not is_by_the_root and gather.place(f"lost{mark}", "tendency_tones", lost, "relative"):
        gather.measures[f"lost{mark}"] = "home" if lost[0][1] == 0 else "chord"


def _chord_before(gather: _Gatherer, mark: str) -> None:
    """Find what stood in the relative on the root of the first chord of colour."""
    found = gather.finding("colour_chords")
    if mark or found is None or not found.witnesses:
        return
    root = found.witnesses[0].parts[0][0]
    for fact_id in ("major_triads", "minor_triads", "diminished_triads", "augmented_triads"):
        theirs = _finding_of(gather.registry.facts.get(fact_id), gather.other("relative"))
        for witness in theirs.witnesses if theirs else ():
            if witness.parts[0][0] == root:
                gather.place("chord-was", fact_id, witness.parts, "relative")
                return


def _added(gather: _Gatherer, number: int, tone: int) -> None:
    """Tell between which two tones an added tone stands."""
    scale, mark = gather.scale, "" if number == 1 else f"-{number}"
    gather.entry(f"new{mark}", "colour_tones", number)
    place = scale.tones.index(tone)
    gather.tone(f"below{mark}", scale.tones[place - 1])
    gather.tone(f"above{mark}", (*scale.tones, 0)[place + 1])
    found = gather.finding("semitone_steps")
    for name, parts in (("in", (scale.tones[place - 1], tone)), ("out", (tone, (*scale.tones, 0)[place + 1]))):
        if found is not None:
            gather.place(f"{name}-narrow{mark}", "semitone_steps", (parts,))


def _family(gather: _Gatherer) -> None:
    """Tell whose mode it is, what it is called, and which modes it has."""
    mode = mode_of_named(gather.scale)
    if mode is not None:
        parent = gather.finding("same_tones")
        text = str(parent.value).partition(" of ")[2] if parent else ""
        if text and _is_plain(text):
            gather.scales["parent"] = text
            gather.slots["parent"] = shown_relative(text, gather.wording)
            words = ordinal_to_words(mode.ordinal, gather.wording.language)
            gather.slots["mode"] = marked(words, mode_of=text)
            gather.measures["has-parent"] = 1
            gather.tone("parent-root", parent.witnesses[0].parts[0][0])  # type: ignore[union-attr]
    records = names_of(gather.scale)
    if records:
        gather.entry("first-name", "traditional_names", 1)
        gather.measures["tradition"] = "ours" if records[0].tradition in _TAUGHT_HERE else "elsewhere"


def _shape(gather: _Gatherer) -> None:
    """Tell of tetrachords, chains and reflections."""
    halves = gather.finding("tetrachords")
    if halves is not None and isinstance(halves.value, tuple):
        gather.entry("lower", "tetrachords", 1)
        gather.entry("upper", "tetrachords", 2)
        gather.measures["halves"] = "alike" if halves.value[0] == halves.value[1] else "unlike"
        gather.tone("upper-root", 7)
        gather.tone("lower-top", 5)
    links = gather.finding("generators")
    if links is not None and isinstance(links.value, tuple) and links.value:
        values = list(links.value)
        best = next((values.index(size) for size in _USUAL_LINKS if size in values), 0)
        gather.entry("link", "generators", best + 1)
        gather.place("chain", "generators", links.witnesses[best].parts)
    mirror = gather.finding("is_palindromic")
    gather.measures["is-mirrored"] = int(mirror.value is True) if mirror else 0
    pattern = gather.scale.step_pattern
    is_turn = len(pattern) % 2 == 0 and len(set(pattern[::2])) == len(set(pattern[1::2])) == 1
    alternates, is_even = int(is_turn and len(set(pattern)) == 2), len(set(pattern)) == 1
    by_chain = int("chain" in gather.slots and not is_even and not alternates and len(pattern) <= _LONGEST_CHAIN)
    gather.measures |= {"alternates": alternates, "by-chain": by_chain}
    gather.measures["has-rule"] = int(bool(alternates or by_chain or is_even))
    alike = gather.measures.get("halves") == "alike"
    gather.measures["hidden-parts"] = int(alike or bool(gather.measures.get("two-triads")))
