"""What happens on the stage while a sound is heard, tone by tone.

Places are lit one by one as the sound reaches them, exactly as often as there are places; of a scale that is played
only the tone that sounds is lit, of music what its leading part plays. On a staff music is written out, with an arrow
over the note that sounds; beside its relative the name of the scale is lit whose section it is.

Conventions: as `staging`.
"""

from __future__ import annotations

from gamutwright.diagrams.lighting import with_scale_lit
from gamutwright.diagrams.phrases import phrase_places
from gamutwright.diagrams.sketch import Place
from gamutwright.errors import GamutwrightError
from gamutwright.facts.picturing import place_of
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Figure
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import Clip, ClipKind
from gamutwright.lessons.example_sounds import SoundKey, sound_key
from gamutwright.lessons.script import Mark
from gamutwright.lessons.staging import RUNS, Stage, sounding_steps
from gamutwright.music.asking import asked
from gamutwright.music.pieces import PIECES

__all__ = ["play"]


def play(stage: Stage, mark: Mark, start: int) -> int:
    """Play a sound; what sounds is lit, and nothing else moves.

    Parameters
    ----------
    stage : Stage
        The stage.
    mark : Mark
        The mark that plays.
    start : int
        When the sound begins.

    Returns
    -------
    int
        When it ends.
    """
    key = sound_key(mark)
    sound = stage.sounds.get(key)
    if sound is None or not sound.ticks:
        return start
    stage.come_back(start)
    stage.clips.append(Clip(start, sound.ticks, ClipKind.SOUND, key.id))
    items = _items(stage, key)
    walks = stage.fact is not None and stage.fact.id == key.fact and key.kind not in RUNS and key.kind not in PIECES
    if walks and stage.only is None and stage.fact is not None and len(items) == len(stage.fact.places(stage.scale)):
        for moment in sound.marks:
            stage.change(start + moment.tick, figure=stage.drawn(moment.item), is_still=True)
        return start + sound.ticks
    plain = stage.drawn(0)
    if plain is None:
        return start + sound.ticks
    if key.kind in PIECES:
        _follow(stage, key, sound, start, plain)
    else:
        for moment in sound.marks:
            is_item = 0 < moment.item <= len(items)
            figure = stage.sounding(plain, key.kind, items[moment.item - 1], sound, moment) if is_item else plain
            stage.change(start + moment.tick, figure=figure, is_still=True)
    if sound.marks:
        stage.change(start + sound.ticks, figure=plain)
    return start + sound.ticks


def _items(stage: Stage, key: SoundKey) -> tuple[Place, ...]:
    """List what a sound walks through."""
    kind, fact_id, other, options = key
    fact = stage.registry.facts.get(fact_id)
    try:
        places = tuple(place_of(witness) for witness in fact.places(stage.scale)) if fact else ()
        beside = read_scale(other, divisions=stage.scale.divisions).scale if other else None
        return phrase_places(kind, stage.scale, places, beside, asked(options)[0])
    except GamutwrightError:
        return ()


def _follow(stage: Stage, key: SoundKey, sound: Sound, start: int, plain: Figure) -> None:
    """Follow music note by note."""
    score = stage.written(key) if stage.diagram == "staff" else None
    number = 0
    for moment in sound.marks:
        number += moment.item > 0
        if score is not None:
            figure = score(number if moment.item else 0)
        elif stage.diagram == "comparison":
            # The scale whose section it is, by the name over it.
            section = sum(gamut.tick <= moment.tick for gamut in sound.gamuts)
            figure = with_scale_lit(plain, section) if moment.item else plain
        else:
            steps = sounding_steps(stage.scale, sound, moment)
            figure = stage.with_tones(plain, steps) if moment.item else plain
        stage.change(start + moment.tick, figure=figure, is_still=True)
