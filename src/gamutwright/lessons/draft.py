"""The first version of a lesson's script: every number, name and property in it comes bound from a fact.

A plan says what is told; here it becomes sentences. A term is explained the first time it is used, shapes of sentences
change from one to the next, every value is a claim the checker reads back, and pictures and sounds are cued at the
words that need them. The teacher's own words come after; a draft is something to start from.

Conventions: one sentence stands on one line of the file, so that changes are easy to see; every line has a lasting id.
The same scale, wish, language and packs give the same text.
"""

from __future__ import annotations

import random
import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from gamutwright.catalogue.shares import Share, Shares
from gamutwright.diagrams.sketch import USUAL
from gamutwright.errors import InputError
from gamutwright.facts.model import Dtype, Fact
from gamutwright.facts.profile import Finding, profile
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.facts.scale_comparison import can_differ
from gamutwright.inputs.forms import to_text
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.format import replace_words, stamp
from gamutwright.lessons.insertion import bound_definition, bound_statement
from gamutwright.lessons.pace import measure_pace
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import LEVELS, ChapterKind, Item, Plan, PlannedChapter, Wish, make_plan
from gamutwright.lessons.timing import CUE_SECONDS, telling_seconds
from gamutwright.music.tune import FEWEST_TONES
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.phrasing.values import spoken_rooted_scale
from gamutwright.theory.character import nearest_relative
from gamutwright.theory.naming import names_of
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names
from gamutwright.theory.systematic import FAMILIAR, systematic_name

__all__ = ["Draft", "draft", "spoken_name"]

TOO_LONG = 1.05
ATTEMPTS = 4
MOST_COMPARED = 3
MOST_QUESTIONS = 3
SHORT_MINUTES = 3.5
"""A shorter lesson compares with nothing and asks a single question."""
_CHURCH_NAMES = {"major": "ionian", "natural minor": "aeolian"}
"""How scripts call the two commonest scales."""
QUESTION_PAUSE = 3


@dataclass(frozen=True, slots=True)
class Draft:
    """A drafted script.

    Parameters
    ----------
    source : str
        The script's text.
    plan : Plan
        What it tells.
    minutes : float
        How long it lasts, spoken at the teaching rate, with pauses and sounds.
    """

    source: str
    plan: Plan
    minutes: float


def spoken_name(scale: Scale, wording: Wording) -> str:
    """Call a scale by root and name, as a sentence does.

    Parameters
    ----------
    scale : Scale
        The scale.
    wording : Wording
        The wording of the language.

    Returns
    -------
    str
        Its first traditional name, else its systematic name, after the root; a general phrase outside twelve divisions.

    Examples
    --------
    >>> spoken_name(Scale.of(3, 5, 6, 8, 10, 0, 1), wording_for("en"))
    'E flat dorian'
    """
    if scale.divisions != 12:
        return wording.name("scale-unnamed")
    records = names_of(scale)
    name = records[0].name if records else systematic_name(scale)
    return spoken_rooted_scale(f"{tone_names(scale)[0]} {name}", wording.language)


@dataclass(slots=True)
class _Writer:
    """Turns a plan into paragraphs; remembers the last shape of each kind, so that none comes twice in a row."""

    scale: Scale
    wording: Wording
    registry: Registry
    findings: dict[str, Finding]
    shares: Shares | None
    source: random.Random
    name: str
    is_short: bool
    paragraphs: list[str] = field(default_factory=list)
    shape: str = ""
    _last: dict[str, int] = field(default_factory=dict)

    def choose(self, key: str, count: int) -> int:
        """Choose a variant other than the last one of its kind."""
        options = [index for index in range(count) if index != self._last.get(key)] or [0]
        self._last[key] = self.source.choice(options)
        return self._last[key]

    def phrase(self, key: str, **slots: str) -> str:
        """Say a connecting phrase in a shape not just used."""
        return self.wording.phrase(key, self.choose(key, self.wording.phrase_variants(key)), **slots)

    def calling(self, key: str) -> str:
        """Say a phrase that calls the scale by its name, or its twin for a scale that has none."""
        return self.phrase(key, name=self.name) if self.scale.divisions == 12 else self.phrase(f"{key}-unnamed")

    def paragraph(self, *parts: str) -> None:
        """End a paragraph."""
        text = " ".join(part for part in parts if part)
        if text:
            self.paragraphs.append(text)

    def heading(self, kind: ChapterKind) -> None:
        """Begin a chapter."""
        self.paragraphs.append(f"# {self.phrase(f'chapter-{kind.value}')}")

    def definition(self, fact: Fact) -> str:
        """Explain a fact, each sentence bound as its definition."""
        return bound_definition(fact, self.wording, self.scale.divisions)

    def statement(self, finding: Finding) -> str:
        """State a fact with its picture, and sound its places where they are few."""
        count = self.wording.variants(finding.fact)
        first = self.choose("statement", count)
        text = ""
        for variant in range(first, first + count):
            text = bound_statement(finding, self.scale, self.wording, variant)
            if self.is_new_shape(text):
                break
        return text

    def is_new_shape(self, text: str) -> bool:
        """Whether the last sentence that stated something had other words around its claim; remembers this one."""
        shape = re.sub(r"\[[^\]]*\]\{(?:fact|each)[^}]*\}", "#", text)
        is_new = shape != self.shape
        self.shape = shape
        return is_new

    def item(self, item: Item) -> None:
        """Tell a fact: its definition where it is new, its statement, and how rare it is where that is worth it."""
        statement = self.statement(item.finding)
        if not statement:
            return
        share = self.shares.of(item.fact, self.scale, item.finding.value) if self.shares and item.bits else None
        self.paragraph(
            self.definition(item.fact) if item.is_defined else "",
            statement,
            self.rarity(item.fact, share) if share and item.is_deep else "",
        )

    def rarity(self, fact: Fact, share: Share) -> str:
        """Say how rare a value is."""
        key = "rare" if share.of_scales * 10 <= 1 else "common"
        variant = self.choose(key, self.wording.phrase_variants(key))
        return self.wording.rarity(fact, share.scales_alike, share.family.scales, variant)


def _familiar(scale: Scale) -> tuple[str, Scale] | None:
    """Choose the familiar scale to compare with: the nearest on the same root, or else major or minor."""
    if scale.divisions != 12 or not scale.is_rooted:
        return None
    relative = nearest_relative(scale)
    if relative:
        name = relative.familiar.name
        return _CHURCH_NAMES.get(name, name), relative.scale
    base = "ionian" if 4 in scale.tones else "aeolian"
    return base, Scale(sum(1 << tone for tone in FAMILIAR[base]), 12, scale.root)


def _hear(writer: _Writer, chapter: PlannedChapter) -> None:
    writer.paragraph(writer.calling("say-open"))
    writer.paragraph(f"{writer.phrase('say-hear')} {{play=scale show={USUAL}}}")
    for item in chapter.items:
        writer.item(item)


def _compare(writer: _Writer, chapter: PlannedChapter) -> None:
    """Compare with a familiar scale on the same root, by what departs from it and by what can differ."""
    found = _familiar(writer.scale)
    if found is None:
        return
    base, other = found
    of = f"{tone_names(writer.scale)[0]} {base}"
    name = writer.wording.name(f"familiar-{base.replace(' ', '-')}")
    most = 0 if writer.is_short else MOST_COMPARED - len(chapter.items)
    told = [] if most < 1 else _comparisons(writer, other, of, name)[:most]
    if not told and not chapter.items:
        return
    writer.heading(ChapterKind.COMPARE)
    if not writer.is_short:
        other_shown = f'[{name}]{{show=comparison with="{of}"}}'
        beside = writer.phrase("say-compare", other=other_shown)
        if nearest_relative(writer.scale):
            writer.paragraph(beside, f"{writer.phrase('say-tune-changed')} {{play=tune-changed}}")
        else:
            writer.paragraph(f'{beside} {{play=alternation with="{of}"}}')
    for item in chapter.items:
        writer.item(item)
    writer.paragraph(*told)


def _comparisons(writer: _Writer, other: Scale, of: str, name: str) -> list[str]:
    """Compare number by number, what differs first; nothing that could not differ."""
    sentences = []
    compared = [fact for fact in writer.registry.facts.values() if fact.roles.comparing]
    for fact in sorted(compared, key=lambda fact: fact.roles.comparing):
        mine, theirs = writer.findings.get(fact.id), fact.evaluate(other)
        if mine is None or mine.value is None or theirs is None or not can_differ(fact, writer.scale, other):
            continue
        if fact.roles.of_one_size and writer.scale.cardinality != other.cardinality:
            continue
        sentence = writer.wording.comparison(fact, mine.value, theirs, of, name, writer.choose("compare", 2))
        if sentence:
            sentences.append((mine.value == theirs, sentence))
    return [sentence for _, sentence in sorted(sentences, key=lambda entry: entry[0])]


def _remarkable(writer: _Writer, chapter: PlannedChapter) -> None:
    writer.paragraph(writer.phrase("say-remarkable"))
    for place, item in enumerate(chapter.items, 1):
        writer.item(item)
        if item.is_deep and place < len(chapter.items):
            writer.paragraph(writer.phrase("say-remarkable-next"))


def _recap(writer: _Writer, told: Sequence[Item]) -> None:
    """Ask for a few of the things told, and answer."""
    asked = [item for item in told if writer.wording.has(item.fact, "ask") and writer.wording.has(item.fact, "answer")]
    if not asked:
        return
    chosen = writer.source.sample(asked, min(1 if writer.is_short else MOST_QUESTIONS, len(asked)))
    writer.heading(ChapterKind.RECAP)
    writer.paragraph(writer.phrase("say-recap"))
    for item in sorted(chosen, key=told.index):
        question = writer.wording.question(item.fact, writer.scale)
        answer = writer.wording.answer(item.fact, item.finding, writer.scale)
        if not writer.is_new_shape(answer):
            answer = writer.statement(item.finding)
        writer.paragraph(f"{question} {{pause={QUESTION_PAUSE}}}", answer)
    if writer.is_short or writer.scale.cardinality < FEWEST_TONES:
        writer.paragraph(f"{writer.phrase('say-hear-again')} {{play=scale show={USUAL}}}")
    else:
        picture = "staff" if writer.scale.divisions == 12 else USUAL
        writer.paragraph(f"{writer.phrase('say-tune')} {{play=tune show={picture}}}")
    writer.paragraph(writer.calling("say-close"))


def _reads_as(text: str, scale: Scale) -> bool:
    """Whether a text without a prefix is read as this scale."""
    try:
        return read_scale(text, divisions=scale.divisions).scale == scale
    except InputError:
        return False


def _front(scale: Scale, wish: Wish, language: str, others: Sequence[tuple[str, str]]) -> str:
    is_twelve = scale.divisions == 12
    written = to_text(scale, "notes" if is_twelve else "pcs")
    plain = written.partition(": ")[2]
    lines = ["---", f"scale: {plain if _reads_as(plain, scale) else written}"]
    if not is_twelve:
        lines.append(f"divisions: {scale.divisions}")
    lines += [f"level: {wish.level.value}", f"minutes: {wish.minutes:g}", f"language: {language}"]
    lines += [f"{key}: {value}" for key, value in others]
    return "\n".join([*lines, "---"])


def draft(
    scale: Scale,
    wish: Wish,
    language: str = "en",
    *,
    registry: Registry | None = None,
    shares: Shares | None = None,
    others: Sequence[tuple[str, str]] = (),
) -> Draft:
    """Write a first version of a lesson about a scale.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.
    wish : Wish
        Level, length, what is known already, and the seed.
    language : str
        Language tag.
    registry : Registry, optional
        The facts on offer; those installed without it.
    shares : Shares, optional
        Counts of values in the division; without them nothing is told as rare.
    others : sequence of (str, str)
        Further lines of its front matter, each value without a line end.

    Returns
    -------
    Draft
        The script and its plan.

    Examples
    --------
    >>> text = draft(Scale.of(0, 2, 4, 7, 9), Wish(minutes=2)).source
    >>> text.splitlines()[1]
    'scale: C D E G A'
    """
    offered, wording = registry or default_registry(), wording_for(language)
    limit = LEVELS.index(wish.level)
    facts = (fact for fact in offered.facts.values() if wording.speaks_of(fact))
    ids = [fact.id for fact in facts if LEVELS.index(fact.level) <= limit]
    found = profile(scale, ids, offered)
    cost = telling_seconds(wording, scale)
    budget, front = wish.minutes, _front(scale, wish, wording.language, others)
    for _ in range(ATTEMPTS):
        plan = make_plan(found, offered, replace(wish, minutes=budget), cost, shares)
        script = parse(_one_sentence_a_line(front + _written(plan, wish, wording, offered, shares)))
        minutes = measure_pace(script, cue_seconds=CUE_SECONDS).whole.minutes
        if minutes <= wish.minutes * TOO_LONG:
            break
        # What connects the facts takes its time too, so fewer of them fit than their own lengths say.
        budget *= wish.minutes / minutes
    return Draft(stamp(script), plan, minutes)


def _written(plan: Plan, wish: Wish, wording: Wording, registry: Registry, shares: Shares | None) -> str:
    """Write a plan out, a paragraph on a line."""
    scale = plan.profile.scale
    findings = {finding.fact.id: finding for finding in plan.profile.findings}
    source = random.Random(wish.seed)  # noqa: S311 - a repeatable choice, no secret
    name, is_short = spoken_name(scale, wording), wish.minutes < SHORT_MINUTES
    writer = _Writer(scale, wording, registry, findings, shares, source, name, is_short)
    told: list[Item] = []
    for chapter in plan.chapters:
        _write_chapter(writer, chapter, told)
    return "\n\n".join(["", *writer.paragraphs]) + "\n"


def _write_chapter(writer: _Writer, chapter: PlannedChapter, told: list[Item]) -> None:
    if chapter.kind is ChapterKind.COMPARE:
        _compare(writer, chapter)
        told.extend(chapter.items)
        return
    if chapter.kind is ChapterKind.RECAP:
        _recap(writer, told)
        return
    writer.heading(chapter.kind)
    if chapter.kind is ChapterKind.HEAR:
        _hear(writer, chapter)
    elif chapter.kind is ChapterKind.REMARKABLE:
        _remarkable(writer, chapter)
    else:
        writer.paragraph(writer.phrase(f"say-{chapter.kind.value}"))
        for item in chapter.items:
            writer.item(item)
    told.extend(item for item in chapter.items if item.fact.dtype is not Dtype.BOOL or item.is_deep)


def _one_sentence_a_line(source: str) -> str:
    """Break every paragraph between its sentences."""
    script = parse(source)
    breaks = []
    for chapter in script.chapters:
        for passage in chapter.passages:
            for before, after in zip(passage.lines, passage.lines[1:], strict=False):
                breaks.append((before.span[1], after.span[0], "\n"))
    return replace_words(script, breaks)
