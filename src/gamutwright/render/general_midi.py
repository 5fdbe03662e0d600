"""The instruments of General MIDI by their names: what the programs of most SoundFonts are.

**Conventions.** Programs count from 0. Names are those of General MIDI Level 1, in our spelling; where several words
say an instrument, a few of them will do as long as only one instrument has them all. Key numbers are those of the drum
kit.

Reference: MIDI Manufacturers Association, General MIDI System Level 1, 1991, sound set and percussion map, from memory.
"""

from __future__ import annotations

import difflib
import re

from gamutwright.errors import DomainError
from gamutwright.ir.playing import Drum, Part
from gamutwright.ir.sound import Timbre

__all__ = ["DRUM_BANK", "DRUM_KEYS", "NAMES", "PROGRAMS", "program_named", "usual_program"]

NAMES = (
    "acoustic grand piano", "bright acoustic piano", "electric grand piano", "honky-tonk piano", "electric piano 1",
    "electric piano 2", "harpsichord", "clavinet", "celesta", "glockenspiel", "music box", "vibraphone", "marimba",
    "xylophone", "tubular bells", "dulcimer", "drawbar organ", "percussive organ", "rock organ", "church organ",
    "reed organ", "accordion", "harmonica", "tango accordion", "nylon guitar", "steel guitar", "jazz guitar",
    "clean electric guitar", "muted electric guitar", "overdriven guitar", "distortion guitar", "guitar harmonics",
    "acoustic bass", "fingered electric bass", "picked electric bass", "fretless bass", "slap bass 1", "slap bass 2",
    "synth bass 1", "synth bass 2", "violin", "viola", "cello", "contrabass", "tremolo strings", "pizzicato strings",
    "orchestral harp", "timpani", "string ensemble 1", "string ensemble 2", "synth strings 1", "synth strings 2",
    "choir aahs", "voice oohs", "synth voice", "orchestra hit", "trumpet", "trombone", "tuba", "muted trumpet",
    "french horn", "brass section", "synth brass 1", "synth brass 2", "soprano saxophone", "alto saxophone",
    "tenor saxophone", "baritone saxophone", "oboe", "english horn", "bassoon", "clarinet", "piccolo", "flute",
    "recorder", "pan flute", "blown bottle", "shakuhachi", "whistle", "ocarina", "square lead", "sawtooth lead",
    "calliope lead", "chiff lead", "charang lead", "voice lead", "fifths lead", "bass and lead", "new age pad",
    "warm pad", "polysynth pad", "choir pad", "bowed pad", "metallic pad", "halo pad", "sweep pad", "rain effect",
    "soundtrack effect", "crystal effect", "atmosphere effect", "brightness effect", "goblins effect", "echoes effect",
    "sci-fi effect", "sitar", "banjo", "shamisen", "koto", "kalimba", "bagpipe", "fiddle", "shanai", "tinkle bell",
    "agogo", "steel drums", "woodblock", "taiko drum", "melodic tom", "synth drum", "reverse cymbal",
    "guitar fret noise", "breath noise", "seashore", "bird tweet", "telephone ring", "helicopter", "applause",
    "gunshot",
)  # fmt: skip
"""Names of the 128 programs."""

PROGRAMS = {Timbre.PLUCKED: 24, Timbre.STRUCK: 0, Timbre.SUSTAINED: 20}
"""Programs that stand for the timbres: nylon guitar, grand piano, reed organ. A church organ's stops often
have an octave below the pitch that is written."""

DRUM_BANK = 128
"""The bank of drum kits in SoundFonts."""
DRUM_KEYS = {Drum.BRUSH: 69, Drum.WOOD_BLOCK: 76}
"""Keys of the standard kit: a cabasa for the brush, which it has not, and the high wood block."""


def usual_program(part: Part, timbre: Timbre) -> int:
    """Say which program a part is played on where none was chosen.

    Parameters
    ----------
    part : Part
        Who plays.
    timbre : Timbre
        How the tune sounds.

    Returns
    -------
    int in [0, 127]
        The program; 0 for drums, the standard kit.

    Examples
    --------
    >>> [NAMES[usual_program(part, Timbre.PLUCKED)] for part in (Part.TUNE, Part.CHORD, Part.BASS, Part.DRONE)]
    ['nylon guitar', 'electric piano 1', 'acoustic bass', 'warm pad']
    """
    usual = {Part.CHORD: 24 if timbre is Timbre.STRUCK else 4, Part.BASS: 32, Part.DRONE: 89, Part.DRUM: 0}
    return PROGRAMS[timbre] if part is Part.TUNE else usual[part]


def program_named(text: str) -> int:
    """Find a program by its number or its name.

    Parameters
    ----------
    text : str
        A number from 0 to 127, or words of a name.

    Returns
    -------
    int in [0, 127]
        The program.

    Raises
    ------
    DomainError
        If there is none, or several have the words.

    Examples
    --------
    >>> program_named("flute"), program_named("nylon"), program_named("Grand-Piano acoustic"), program_named("73")
    (73, 24, 0, 73)
    """
    if text.strip().isdecimal() and text.isascii() and int(text) < len(NAMES):
        return int(text)
    words = _words(text)
    if exact := [number for number, name in enumerate(NAMES) if _words(name) == words]:
        return exact[0]
    found = [number for number, name in enumerate(NAMES) if words and words <= _words(name)]
    if len(found) == 1:
        return found[0]
    if found:
        several = ", ".join(NAMES[number] for number in found[:6])
        raise DomainError(
            f"the instrument {text!r}", f"several have these words ({several})", "Name one of them whole."
        )
    near = difflib.get_close_matches(text[:40].casefold(), NAMES, 1, 0.5)
    raise DomainError(
        f"the instrument {text[:40]!r}",
        "General MIDI has none of this name",
        f"Did you mean {near[0]}?" if near else "Give a name such as flute, or a number from 0 to 127.",
    )


def _words(text: str) -> frozenset[str]:
    return frozenset(re.findall(r"[a-z0-9]+", text.casefold()))
