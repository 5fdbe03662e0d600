"""The first version of a lesson's script: a story, and every number, name and property in it bound to a fact.

A story asks a question and answers it; here its scenes become sentences, as many as there is time for, and what time is
left goes to facts that a plan chooses. A term is explained the first time it is used, shapes of sentences change from
one to the next, every value is a claim the checker reads back, and pictures and sounds are cued at the words that need
them. The teacher's own words come after; a draft is something to start from.

Conventions: one sentence stands on one line of the file, so that changes are easy to see; every line has a lasting id.
The same scale, wish, language, stories and packs give the same text.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from gamutwright.catalogue.shares import Share, Shares
from gamutwright.errors import InputError
from gamutwright.facts.model import Fact, Level
from gamutwright.facts.profile import Finding, Profile, profile
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.facts.scale_comparison import can_differ
from gamutwright.inputs.forms import to_text
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.format import replace_words, stamp
from gamutwright.lessons.insertion import bound_definition, bound_statement
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import LEVELS, ChapterKind, Item, Plan, Wish, make_plan, plain_ideas
from gamutwright.lessons.stories.choosing import choose_story
from gamutwright.lessons.stories.material import material_of
from gamutwright.lessons.stories.own import Own
from gamutwright.lessons.stories.scale_names import shown_relative
from gamutwright.lessons.stories.story import Story
from gamutwright.lessons.stories.telling import Teller, ToldScene
from gamutwright.lessons.timing import lesson_seconds, telling_seconds
from gamutwright.phrasing.engine import Wording
from gamutwright.theory.character import nearest_relative
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_names

__all__ = ["ALLOWED_PART", "ALLOWED_SECONDS", "Draft", "draft", "outline", "scenes_within"]

NEARLY = 0.03
"""The part of the length asked for by which a draft may miss it before it is tried again."""
ALLOWED_PART = 0.05
ALLOWED_SECONDS = 10
"""A draft may miss the length asked for by this part, or by so many seconds, whichever is more."""
LEAST_SECONDS = 5.0
"""A gap too small for a fact."""
ATTEMPTS = 8
PRACTICE_RANK = 6
"""Scenes of this rank and later ones join when the facts that may be told are told."""
MOST_QUESTIONS = 3
QUESTION_PAUSE = 3
_PARTS = {
    "build": (ChapterKind.HEAR, ChapterKind.BUILD),
    "remarkable": (ChapterKind.REMARKABLE,),
    "harmony": (ChapterKind.HARMONY,),
    "relatives": (ChapterKind.RELATIVES,),
}


@dataclass(frozen=True, slots=True)
class Draft:
    """A drafted script.

    Parameters
    ----------
    source : str
        The script's text.
    story : Story
        What it tells.
    plan : Plan
        The facts it tells besides.
    minutes : float
        How long it lasts, spoken at the teaching rate, with pauses and sounds.
    """

    source: str
    story: Story
    plan: Plan
    minutes: float


@dataclass(slots=True)
class _Writer:
    """Turns planned facts into paragraphs; remembers the last shape, so that none comes twice in a row."""

    scale: Scale
    wording: Wording
    shares: Shares | None
    source: random.Random
    beside: tuple[str, Scale] | None = None
    shape: str = ""
    _last: dict[str, int] = field(default_factory=dict)

    def choose(self, key: str, count: int) -> int:
        """Choose a variant other than the last one of its kind."""
        options = [index for index in range(count) if index != self._last.get(key)] or [0]
        self._last[key] = self.source.choice(options)
        return self._last[key]

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

    def item(self, item: Item) -> str:
        """Tell a fact: its definition where it is new, its statement, and how rare it is where that is worth it."""
        statement = self.statement(item.finding)
        if not statement:
            return ""
        share = self.shares.of(item.fact, self.scale, item.finding.value) if self.shares and item.bits else None
        parts = (
            bound_definition(item.fact, self.wording, self.scale.divisions) if item.is_defined else "",
            statement,
            self.comparison(item.finding),
            self.rarity(item.fact, share) if share and item.is_deep else "",
        )
        return " ".join(part for part in parts if part)

    def comparison(self, finding: Finding) -> str:
        """Say how the familiar scale on the same root differs in this, where it can and does."""
        fact = finding.fact
        if not fact.roles.comparing or self.beside is None:
            return ""
        name, other = self.beside
        theirs = fact.evaluate(other)
        is_alike = fact.roles.of_one_size and self.scale.cardinality != other.cardinality
        if theirs is None or theirs == finding.value or is_alike or not can_differ(fact, self.scale, other):
            return ""
        assert finding.value is not None  # noqa: S101 - what is planned has a value
        variant = self.choose("compare", 2)
        return self.wording.comparison(fact, finding.value, theirs, name, shown_relative(name, self.wording), variant)

    def rarity(self, fact: Fact, share: Share) -> str:
        """Say how rare a value is; what many share is not worth a word."""
        if share.of_scales * 10 > 1:
            return ""
        variant = self.choose("rare", self.wording.phrase_variants("rare"))
        return self.wording.rarity(fact, share.scales_alike, share.family.scales, variant)

    def recap(self, told: Sequence[Item]) -> list[str]:
        """Ask for a few of the things told, and answer."""
        asked = [item for item in told if all(self.wording.has(item.fact, part) for part in ("ask", "answer"))]
        chosen = self.source.sample(asked, min(MOST_QUESTIONS, len(asked)))
        found = []
        for item in sorted(chosen, key=told.index):
            question = self.wording.question(item.fact, self.scale)
            answer = self.wording.answer(item.fact, item.finding, self.scale)
            if not self.is_new_shape(answer):
                answer = self.statement(item.finding)
            found += [f"{question} {{pause={QUESTION_PAUSE}}}", answer]
        return found


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


def outline(
    scale: Scale,
    wish: Wish,
    language: str = "en",
    *,
    registry: Registry,
    own: Own | None = None,
    found: Profile | None = None,
) -> tuple[Story, tuple[ToldScene, ...]]:
    """Choose the story of a lesson, and tell its scenes, whatever the length.

    Parameters
    ----------
    scale, wish, language, registry, own
        As for `draft`.
    found : Profile, optional
        What facts say of the scale, where that is known already.

    Returns
    -------
    (Story, tuple of ToldScene)
        The story and all of its scenes that have something to say.

    Raises
    ------
    InputError
        As for `draft`.
    """
    own = own or Own()
    wording, level = own.wording_for(language), Level(wish.level)
    findings = {finding.fact.id: finding for finding in found.findings} if found else {}
    material = material_of(scale, findings, registry, wording, level)
    story = choose_story(own.told(), material, wish.story)
    source = random.Random(wish.seed)  # noqa: S311 - a repeatable choice, no secret
    return story, Teller(material, wording, level, source, source.randrange(2), set(wish.known)).story(story)


def draft(
    scale: Scale,
    wish: Wish,
    language: str = "en",
    *,
    registry: Registry | None = None,
    shares: Shares | None = None,
    own: Own | None = None,
    others: Sequence[tuple[str, str]] = (),
) -> Draft:
    """Write a first version of a lesson about a scale.

    Parameters
    ----------
    scale : Scale
        The scale, its root among its tones.
    wish : Wish
        Level, length, story, what is known already, and the seed.
    language : str
        Language tag.
    registry : Registry, optional
        The facts on offer; those installed without it.
    shares : Shares, optional
        Counts of values in the division; without them nothing is told as rare.
    own : Own, optional
        A course's own stories and words, beside those that come with the program.
    others : sequence of (str, str)
        Further lines of its front matter, each value without a line end.

    Returns
    -------
    Draft
        The script, its story and its plan.

    Raises
    ------
    InputError
        If the story asked for is not on offer, or does not fit the scale.

    Examples
    --------
    >>> made = draft(Scale.of(4, 5, 7, 9, 11, 0, 2), Wish(minutes=2))
    >>> made.source.splitlines()[1], made.story.id
    ('scale: E F G A B C D', 'one-tone-apart')
    """
    offered, wording = registry or default_registry(), (own or Own()).wording_for(language)
    facts = (fact for fact in offered.facts.values() if wording.speaks_of(fact))
    ids = [fact.id for fact in facts if LEVELS.index(fact.level) <= LEVELS.index(wish.level)]
    found = profile(scale, ids, offered)
    findings = {finding.fact.id: finding for finding in found.findings}
    story, scenes = outline(scale, wish, language, registry=offered, own=own, found=found)
    others = [*others, ("story", story.id)]
    relative = nearest_relative(scale)
    front, cost = _front(scale, wish, wording.language, others), telling_seconds(wording, scale)

    def write(kept: Sequence[ToldScene], seconds: float) -> Draft:
        told = frozenset().union(*(scene.told for scene in kept))
        asked = replace(wish, minutes=max(seconds, 0.0) / 60)
        plan = make_plan(found, offered, asked, cost, shares, told)
        listed = _listed(kept, findings, {*wish.known, *plain_ideas(offered)}, seconds, cost)
        beside = (f"{tone_names(scale)[0]} {relative.familiar.name}", relative.scale) if relative else None
        writer = _Writer(scale, wording, shares, random.Random(wish.seed), beside)  # noqa: S311 - as above
        script = parse(_one_sentence_a_line(front + _written(writer, kept, plan, listed)))
        return Draft(stamp(script), story, plan, lesson_seconds(script, scale) / 60)

    return _of_length(scenes, wish.minutes * 60, write)


def scenes_within(scenes: Sequence[ToldScene], seconds: float) -> list[ToldScene]:
    """Take the scenes of a story that there is time for before any fact is told besides, the most needed first.

    Parameters
    ----------
    scenes : sequence of ToldScene
        All of them.
    seconds : float
        Length of the lesson.

    Returns
    -------
    list of ToldScene
        In the order of their ranks; those of rank 1 whatever their length.
    """
    kept: list[ToldScene] = []
    spent = 0.0
    for scene in sorted((scene for scene in scenes if scene.text), key=lambda scene: scene.rank):
        if scene.rank == 1 or (scene.rank < PRACTICE_RANK and spent + scene.seconds <= seconds):
            kept.append(scene)
            spent += scene.seconds
    return kept


def _of_length(
    scenes: Sequence[ToldScene], seconds: float, write: Callable[[Sequence[ToldScene], float], Draft]
) -> Draft:
    """Take as many scenes as there is time for, fill what is left with facts, and what then is left with practice."""
    kept = scenes_within(scenes, seconds)
    order = sorted((scene for scene in scenes if scene.text), key=lambda scene: scene.rank)
    waiting = [scene for scene in order if scene.rank >= PRACTICE_RANK]
    budget = seconds - sum(scene.seconds for scene in kept)
    is_listing = any(scene.facts for scene in scenes)
    best: tuple[float, Draft] | None = None
    for _ in range(ATTEMPTS):
        made = write([scene for scene in scenes if scene in kept or scene.tell or scene.facts], max(budget, 0.0))
        over = made.minutes * 60 - seconds
        if best is None or _is_better(over, best[0], seconds):
            best = over, made
        if abs(over) <= seconds * NEARLY:
            break
        is_full = over < 0 and made.plan.seconds < budget - LEAST_SECONDS and not is_listing
        if is_full and not _add(kept, waiting, -over + max(seconds * ALLOWED_PART, ALLOWED_SECONDS)):
            break
        if over > 0 and budget < LEAST_SECONDS and not _drop(kept):
            break
        if over > 0:
            budget = max((budget if is_listing else min(budget, made.plan.seconds)) - over, 0.0)
        elif not is_full:
            budget -= over
    assert best is not None  # noqa: S101 - written once at least
    return best[1]


def _add(kept: list[ToldScene], waiting: list[ToldScene], room: float) -> bool:
    """Take the scenes that there is room for, in the order of their ranks; say whether there was any."""
    fitting = []
    for scene in list(waiting):
        if scene.seconds <= room:
            room -= scene.seconds
            waiting.remove(scene)
            fitting.append(scene)
    kept += fitting
    return bool(fitting)


def _drop(kept: list[ToldScene]) -> bool:
    """Leave out the scene that is needed least; say whether there was one."""
    last = max(kept, key=lambda scene: scene.rank)
    if last.rank == 1:
        return False
    kept.remove(last)
    return True


def _is_better(over: float, best: float, seconds: float) -> bool:
    """Whether a length is better than the best so far: not too long, and then nearer."""
    allowed = max(seconds * ALLOWED_PART, ALLOWED_SECONDS)
    return (over > allowed, abs(over)) < (best > allowed, abs(best))


def _listed(
    scenes: Sequence[ToldScene],
    findings: Mapping[str, Finding],
    known: set[str],
    seconds: float,
    cost: Callable[[Finding, bool], float],
) -> dict[int, list[Item]]:
    """Turn the facts that scenes list into items; they are explained in their order for as long as there is time."""
    stated = frozenset().union(*(scene.told for scene in scenes))
    wanted = [
        (id(scene), findings[name])
        for scene in scenes
        for name in scene.facts
        if name in findings and findings[name].value is not None and name not in stated
    ]
    left = seconds - sum(cost(finding, False) for _, finding in wanted)  # noqa: FBT003 - the plan's own signature
    listed: dict[int, list[Item]] = {}
    for key, finding in wanted:
        price = cost(finding, True) - cost(finding, False)  # noqa: FBT003 - as above
        is_defined = finding.fact.id not in known and 0 < price <= left
        left -= price if is_defined else 0.0
        listed.setdefault(key, []).append(Item(finding, is_defined))
    return listed


def _written(writer: _Writer, scenes: Sequence[ToldScene], plan: Plan, listed: Mapping[int, Sequence[Item]]) -> str:
    """Write scenes and facts out, a paragraph on a line."""
    left = {chapter.kind: list(chapter.items) for chapter in plan.chapters}
    named = {kind for scene in scenes for kind in _PARTS.get(scene.tell, ())}
    told: list[Item] = []
    paragraphs, heading = [""], ""
    for scene in scenes:
        if scene.tell == "recap":
            texts = writer.recap(told)
        elif scene.tell:
            kinds = _PARTS.get(scene.tell) or tuple(kind for kind in ChapterKind if kind not in named)
            items = [item for kind in kinds for item in left.pop(kind, [])]
            told += items
            texts = [text for item in items if (text := writer.item(item))]
        else:
            texts = [scene.text] if scene.text else []
            texts += [text for item in listed.get(id(scene), []) if (text := writer.item(item))]
        if texts and scene.heading != heading:
            heading = scene.heading
            paragraphs.append(f"# {heading}")
        paragraphs += texts
    return "\n\n".join(paragraphs) + "\n"


def _one_sentence_a_line(source: str) -> str:
    """Break every paragraph between its sentences."""
    script = parse(source)
    breaks = []
    for chapter in script.chapters:
        for passage in chapter.passages:
            for before, after in zip(passage.lines, passage.lines[1:], strict=False):
                breaks.append((before.span[1], after.span[0], "\n"))
    return replace_words(script, breaks)
