"""What drafts are like: how much of them is definitions, how alike they are, what is heard in them, how long they are.

Conventions: 40 scales, each at its three levels in turn with lengths of three to eight minutes, 120 drafts; words and
sentences as they are spoken. Two drafts share a sentence if its words are the same. The figures asked for are the
project's own, but for reading ease (`pace`).
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gamutwright.catalogue.shares import shares_of
from gamutwright.facts.model import Level
from gamutwright.facts.registry import default_registry
from gamutwright.lessons.draft import draft
from gamutwright.lessons.example_sounds import sound_key, sound_of
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.prose import word_spans
from gamutwright.lessons.timing import script_pace
from gamutwright.theory.character import colour_tones
from gamutwright.theory.scale import Scale

NAMED = (
    "101011010101", "101101010110", "110101011010", "101010110101", "101011010110", "101101011010", "110101101010",
    "101101011001", "101101010101", "101010110110", "110110101010", "110011011001", "101010101010", "110110110110",
    "101101101101", "101010010100", "100101010010", "100101110010", "110011010110", "101011011001",
)  # fmt: skip
"""The seven church modes and twelve more of the scales that courses teach, root first."""


@dataclass(frozen=True)
class Drafted:
    """A draft and what is counted in it."""

    story: str
    scale: Scale
    level: Level
    sentences: tuple[str, ...]
    words: int
    defining: int
    kinds: frozenset[str]
    sounding: float
    seconds: float
    asked: float
    names_colour: bool
    ease: float
    new_terms: int


def scales() -> list[Scale]:
    """Forty scales: the named ones, and twenty spread over all others."""
    named = [
        Scale(sum(1 << k for k, bit in enumerate(bits) if bit == "1"), 12, 7 * n % 12) for n, bits in enumerate(NAMED)
    ]
    spread = [Scale(mask | 1, 12, mask % 12) for mask in range(0b10110101, 4096, 197)][:20]
    return [*named, *spread]


def drafts(language: str) -> Iterator[Drafted]:
    """Draft the forty scales at three levels."""
    registry = default_registry()
    lengths = itertools.cycle((3.0, 4.0, 5.0, 6.0, 8.0))
    for seed, (scale, level) in enumerate(itertools.product(scales(), Level)):
        wish = Wish(level=level, minutes=next(lengths), seed=seed)
        made = draft(scale, wish, language, shares=shares_of(12))
        script = parse(made.source)
        pace = script_pace(script, scale, registry).whole
        lines = [line for line in script.lines if line.text]
        defining = [line for line in lines if any(mark.get("define") for mark in line.marks)]
        played = [mark for line in script.lines for mark in line.marks if mark.get("play")]
        yield Drafted(
            made.story.id,
            scale,
            level,
            tuple(line.text for line in lines),
            sum(len(word_spans(line.text)) for line in lines),
            sum(len(word_spans(line.text)) for line in defining),
            frozenset(mark.get("play") or "" for mark in played),
            sum(sound_of(sound_key(mark), scale, registry).ticks / 48_000 for mark in played),
            pace.minutes * 60,
            wish.minutes * 60,
            not colour_tones(scale) or "=colour_tones" in made.source,
            pace.reading_ease or 0.0,
            len({mark.get("define") for line in defining for mark in line.marks if mark.get("define")}),
        )


def shared(found: Sequence[Drafted]) -> tuple[list[float], list[float]]:
    """Give what part of the shorter one's sentences two scales share, for pairs on one story and pairs on two."""
    same, other = [], []
    for one, two in itertools.combinations(found, 2):
        if one.scale.mask == two.scale.mask:
            continue
        a, b = set(one.sentences), set(two.sentences)
        (same if one.story == two.story else other).append(len(a & b) / min(len(a), len(b)))
    return same, other


def figures(language: str) -> dict[str, float]:
    """Give every figure by its name."""
    found = list(drafts(language))
    same, other = shared(found)
    off = [abs(one.seconds - one.asked) / one.asked for one in found]
    return {
        "definitions, share of the words": sum(one.defining for one in found) / sum(one.words for one in found),
        "sentences shared, two scales, mean": statistics.mean([*same, *other]),
        "sentences shared, one story, mean": statistics.mean(same),
        "sentences shared, worst pair": max([*same, *other]),
        "sound, share of the time": sum(one.sounding for one in found) / sum(one.seconds for one in found),
        "kinds of sound, fewest": min(len(one.kinds) for one in found),
        "kinds of sound, mean": statistics.mean(len(one.kinds) for one in found),
        "colour tone named": statistics.mean(one.names_colour for one in found),
        "terms explained, most, foundation": max(one.new_terms for one in found if one.level is Level.FOUNDATION),
        "terms explained, most, further": max(one.new_terms for one in found if one.level is Level.FURTHER),
        "reading ease, foundation, mean": statistics.mean(one.ease for one in found if one.level is Level.FOUNDATION),
        "reading ease, further, mean": statistics.mean(one.ease for one in found if one.level is Level.FURTHER),
        "length, mean error": statistics.mean(off),
        "length, worst error": max(off),
        "stories told": len({one.story for one in found}),
    }


if __name__ == "__main__":
    import sys

    for language in sys.argv[1:] or ["en", "de"]:
        for name, value in figures(language).items():
            print(f"{language} {name:42} {value:.3f}")
