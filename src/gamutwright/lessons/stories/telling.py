"""A story's scenes as sentences of a script.

Conventions: a sentence is told if its conditions hold, the language has words for it, and every slot in them has
something to say of this scale. Variants of a sentence are chosen by the seed.
"""

from __future__ import annotations

import random
import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from gamutwright.diagrams.sketch import COMPARING
from gamutwright.facts.model import Level
from gamutwright.lessons.stories.material import Material
from gamutwright.lessons.stories.story import Scene, Story, StoryLine, holds
from gamutwright.lessons.timing import markup_seconds
from gamutwright.phrasing.claim_marks import as_sentences, marked
from gamutwright.phrasing.engine import Wording

__all__ = ["Teller", "ToldScene"]

_LEVELS = tuple(Level)
_EXPLAINED = re.compile(r"‹(\w+): ([^|›]+?) \| ([^›]+)›")
_TURNS = "alternation"
_PAIRED = re.compile(r"-(?:ask|asked|answer)(?:-|$)")
_BOUND = re.compile(r"\{(?:fact|each)=(\w+)(?![^}]* of=)")


@dataclass(frozen=True, slots=True)
class ToldScene:
    """A scene as it is told of one scale.

    Parameters
    ----------
    rank : int
        How soon it joins.
    heading : str
        The heading of its chapter.
    text : str
        Its paragraph in markup; "" where only facts are told here.
    tell : str
        The part of a plan that is told here, or "".
    told : frozenset of str
        The facts it states.
    seconds : float
        About how long its paragraph lasts.
    facts : tuple of str
        Facts that are stated after it.
    """

    rank: int
    heading: str
    text: str
    tell: str
    told: frozenset[str]
    seconds: float
    facts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Teller:
    """Tells scenes of one scale in one language.

    Parameters
    ----------
    material : Material
        What there is to tell of the scale.
    wording : Wording
        The wording of the language.
    level : Level
        Who the lesson is for.
    source : random.Random
        Settles equal choices.
    turn : int
        Which variant a question and its answer have, so that they match.
    known : set of str
        The facts explained already; what is explained here joins them.
    """

    material: Material
    wording: Wording
    level: Level
    source: random.Random
    turn: int = 0
    known: set[str] = field(default_factory=set)

    def story(self, story: Story) -> tuple[ToldScene, ...]:
        """Tell a story.

        Parameters
        ----------
        story : Story
            The story.

        Returns
        -------
        tuple of ToldScene
            Its scenes in order; those of which nothing can be told are left out.
        """
        found: list[ToldScene] = []
        heading, chapter = "", ""
        for scene in story.scenes:
            if scene.chapter and scene.chapter != chapter:
                chapter, heading = scene.chapter, self.words(scene.chapter).rstrip(".")
            text = self.scene(scene)
            facts = scene.facts if all(holds(condition, self.material.measures) for condition in scene.fits) else ()
            if text or scene.tell or facts:
                told = frozenset((*_BOUND.findall(text), *(scene.tells if text else ())))
                seconds = markup_seconds(text, self.material.scale, self.wording.language) if text else 0.0
                found.append(ToldScene(scene.rank, heading, text, scene.tell, told, seconds, facts))
        return tuple(found)

    def scene(self, scene: Scene) -> str:
        """Tell a scene.

        Parameters
        ----------
        scene : Scene
            The scene.

        Returns
        -------
        str
            Paragraphs of markup; "" where nothing of it can be told. A line that only shows or sounds stands alone.
        """
        if not all(holds(condition, self.material.measures) for condition in scene.fits):
            return ""
        text = ""
        for line in scene.lines:
            told = self.line(line)
            if told:
                text += ("\n\n" if text and not line.say else " " if text else "") + told + ("" if line.say else "\n\n")
        return re.sub(r"\n\n[ \n]+", "\n\n", text).strip()

    def line(self, line: StoryLine) -> str:
        """Tell a line, with its cues; "" where it cannot be told."""
        is_for = _LEVELS.index(Level(line.level)) <= _LEVELS.index(self.level)
        if not is_for or not all(holds(condition, self.material.measures) for condition in line.fits):
            return ""
        cues = self._cues(line.cues)
        if cues is None:
            return ""
        if not line.say:
            return cues[0] + cues[1]
        text = self.words(line.say)
        return f"{cues[0]}{text}{' ' if cues[1] else ''}{cues[1]}" if text else ""

    def words(self, key: str) -> str:
        """Say a sentence of the wording, every slot filled; "" where the scale lacks what it speaks of."""
        told = self.wording.tellings(key, self.material.slots, self.material.measures)
        if not told:
            return ""
        return self._explained(told[self.turn % len(told)] if _PAIRED.search(key) else self.source.choice(told))

    def _explained(self, text: str) -> str:
        """Explain a term where it is new: of ‹fact: with an explanation | alone› take what is needed."""

        def taken(found: re.Match[str]) -> str:
            fact_id, new, old = found.groups()
            if fact_id in self.known:
                return old
            self.known.add(fact_id)
            return marked(new, explain=fact_id)

        return as_sentences(_EXPLAINED.sub(taken, text))

    def _cues(self, cues: Mapping[str, str]) -> tuple[str, str] | None:
        """Write the cues: what is shown before the sentence, what is heard after it; None where a scale is missing."""
        before, after = [], []
        beside = cues.get("with")
        if beside and beside not in self.material.scales:
            return None
        other = f' with="{self.material.scales[beside]}"' if beside else ""
        if "show" in cues:
            before.append(f"show={cues['show']}{other if cues['show'] in COMPARING else ''}")
        if "play" in cues:
            options = "".join(
                f" {key}={cues[key]}" for key in ("tempo", "metre", "bars", "version", "timbre") if key in cues
            )
            marked = f" mark={cues['mark']}" if "mark" in cues else ""
            after.append(f"play={cues['play']}{marked}{other if cues['play'] == _TURNS else ''}{options}")
        elif "mark" in cues:
            before.append(f"mark={cues['mark']}")
        if "pause" in cues:
            after.append(f"pause={cues['pause']}")
        return "".join(f"{{{cue}}}" for cue in before), f"{{{' '.join(after)}}}" if after else ""
