"""The sounds of a script: which they are, and each of them written out.

Conventions: a sound is known by what its mark asks for, so that one asked for twice is written and rendered once.
"""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from gamutwright.diagrams.phrases import phrase
from gamutwright.diagrams.sketch import Place
from gamutwright.facts.picturing import place_of
from gamutwright.facts.registry import Registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.sound import Sound
from gamutwright.lessons.script import Mark, Script
from gamutwright.music.asking import asked, options_in_words
from gamutwright.theory.scale import Scale

__all__ = ["SoundKey", "sound_cues", "sound_key", "sound_of"]


class SoundKey(NamedTuple):
    """Which sound is played.

    Parameters
    ----------
    kind : str
        The kind of phrase.
    fact : str
        The fact whose places it plays; "" for none.
    other : str
        The other scale in it; "" for none.
    options : str
        What is asked of it, as `music.asking` writes it.
    """

    kind: str
    fact: str = ""
    other: str = ""
    options: str = ""

    @property
    def id(self) -> str:
        """One text for it.

        Examples
        --------
        >>> SoundKey("scale").id, SoundKey("tune", options="bars=8").id
        ('scale::', 'tune:::bars=8')
        """
        return ":".join(self if self.options else self[:3])


def sound_key(mark: Mark) -> SoundKey:
    """Say which sound a mark plays.

    Parameters
    ----------
    mark : Mark
        A mark that plays.

    Returns
    -------
    SoundKey
        The sound.
    """
    return SoundKey(
        mark.get("play") or "",
        mark.get("mark") or mark.get("fact") or "",
        mark.get("with") or "",
        options_in_words(dict(mark.attributes)),
    )


def sound_cues(script: Script) -> tuple[SoundKey, ...]:
    """List the sounds a script plays, each once.

    Parameters
    ----------
    script : Script
        The script.

    Returns
    -------
    tuple of SoundKey
        In order of their first appearance.
    """
    marks = (mark for line in script.lines for mark in line.marks)
    return tuple(dict.fromkeys(sound_key(mark) for mark in marks if mark.get("play")))


def sound_of(key: SoundKey, scale: Scale, registry: Registry) -> Sound:
    """Write a sound.

    Parameters
    ----------
    key : SoundKey
        Which.
    scale : Scale
        The scale of the lesson.
    registry : Registry
        The facts whose places are played.

    Returns
    -------
    Sound
        Its notes.

    Raises
    ------
    GamutwrightError
        If there is no such sound of this scale.

    Examples
    --------
    >>> from gamutwright.facts.registry import default_registry
    >>> sound_of(SoundKey("scale"), Scale.of(0, 4, 7), default_registry()).ticks / 48_000
    5.833333333333333
    """
    fact = registry.facts.get(key.fact)
    return _written(key, scale, tuple(place_of(witness) for witness in fact.places(scale)) if fact else ())


@lru_cache(maxsize=128)
def _written(key: SoundKey, scale: Scale, places: tuple[Place, ...]) -> Sound:
    beside = read_scale(key.other, divisions=scale.divisions).scale if key.other else None
    wish, performance = asked(key.options)
    return phrase(key.kind, scale, places, beside, performance, wish)
