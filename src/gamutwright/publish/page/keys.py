"""What can be played on a page: every step of the division with its name, its frequency, and where it is pressed.

Frequencies are computed here, not in the browser; a page sounds what the film sounds. What is pressed on the ladder are
the named places of the drawn one, so picture and sound cannot disagree.

**Conventions.** Steps count from the root in its register; the keyboard runs from the root to its octave, and begins or
ends one white key further where these are black. Places are percent of the picture or of the keyboard.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise

from gamutwright.ir.figure import Figure
from gamutwright.languages import language_of
from gamutwright.music.pitches import Register, names_of_steps
from gamutwright.phrasing.spoken_names import spoken_note
from gamutwright.publish.page.page_words import PageWords
from gamutwright.publish.told_lesson import Lesson
from gamutwright.theory.notenames import to_ascii
from gamutwright.theory.spelling import MAJOR
from gamutwright.theory.tuning import A4_HZ, Tuning

__all__ = ["LADDER_BOX", "Key", "Rung", "Tone", "keys_of", "place_rules", "rungs_of", "tones_of", "tuning_in_words"]

LADDER_BOX = (190.0, 4.0, 450.0, 792.0)
"""Left, top, width and height of the part of the ladder's figure that a page shows."""
_TALLEST_RUNG = 52.0
_WHITE = frozenset(MAJOR)
_BLACK_WIDTH = 0.62


@dataclass(frozen=True, slots=True)
class Tone:
    """One step that can be played.

    Parameters
    ----------
    step : int
        Steps above the root.
    name : str
        As it is printed.
    spoken : str
        As a screen reader says it, with its place in the scale.
    says : str
        What is read when it sounds.
    freq_hz : float
        Its frequency.
    is_tone : bool
        Whether it belongs to the scale.
    """

    step: int
    name: str
    spoken: str
    says: str
    freq_hz: float
    is_tone: bool


@dataclass(frozen=True, slots=True)
class Key:
    """A key.

    Parameters
    ----------
    tone : Tone
        What it plays.
    left, width : float
        Its place in percent of the keyboard; 0 for keys in rows.
    is_black : bool
        Whether it is a raised one.
    """

    tone: Tone
    left: float
    width: float
    is_black: bool


@dataclass(frozen=True, slots=True)
class Rung:
    """A tone on the ladder.

    Parameters
    ----------
    tone : Tone
        What it plays.
    left, top, width, height : float
        Its middle and its size in percent of the picture.
    """

    tone: Tone
    left: float
    top: float
    width: float
    height: float


def _number(value: float, language: str) -> str:
    return language_of(language).printed_number(value)


def tones_of(lesson: Lesson, words: PageWords, tuning: Tuning | None = None) -> dict[int, Tone]:
    """List the steps of the keyboard with all there is to know of them.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    tuning : Tuning, optional
        How twelve keys are tuned; the equal division without it.

    Returns
    -------
    dict of int to Tone
        By steps above the root, upwards.

    Raises
    ------
    DomainError
        If a tuning of twelve keys is asked for another division.
    """
    scale = lesson.scale
    n = scale.divisions
    register, names = Register(scale, tuning), names_of_steps(scale)
    low, high = 0, n
    if n == 12 and scale.root not in _WHITE:
        low, high = -1, 13
    tones = {}
    for step in range(low, high + 1):
        printed = names[step % n]
        if n == 12:
            name, spoken = lesson.card_words.note(printed), spoken_note(to_ascii(printed), lesson.language)
        else:
            name = printed
            spoken = words.say("step-name", step=step)
        is_tone = step % n in scale.tones and 0 <= step <= n
        freq_hz = register.freq_hz(step)
        cents = 1200 * math.log2(freq_hz / register.freq_hz(0))
        shown = name if n == 12 else spoken
        says = words.say(
            "sounding",
            name=shown,
            cents=_number(cents, words.language).replace("-", "−"),
            hz=_number(freq_hz, words.language),
        )
        if step in {0, n} and is_tone:
            spoken = words.say("root" if step == 0 else "octave", name=spoken)
        elif not is_tone:
            spoken = words.say("not-tone", name=spoken)
        tones[step] = Tone(step, name, spoken, says, freq_hz, is_tone)
    return tones


def rungs_of(lesson: Lesson, figure: Figure, tones: dict[int, Tone]) -> tuple[Rung, ...]:
    """Say where on the ladder each tone of the scale is pressed, the octave above a root too.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    figure : Figure
        Its ladder.
    tones : dict of int to Tone
        What is played.

    Returns
    -------
    tuple of Rung
        From the root upwards; as tall as they can be without meeting.
    """
    scale, (left, top, width, height) = lesson.scale, LADDER_BOX
    steps = (*scale.tones, *((scale.divisions,) if scale.is_rooted else ()))
    parts = {step: figure.part(f"tone {step}") for step in steps}
    nearest = min((low.y - high.y for low, high in pairwise(parts.values())), default=_TALLEST_RUNG)
    tall = min(_TALLEST_RUNG, nearest)
    return tuple(
        Rung(
            tones[step],
            round(100 * (part.x - left) / width, 2),
            round(100 * (part.y - top) / height, 2),
            round(100 * 2.3 * part.radius / width, 2),
            round(100 * tall / height, 2),
        )
        for step, part in parts.items()
    )


def keys_of(lesson: Lesson, tones: dict[int, Tone]) -> tuple[Key, ...]:
    """Lay out the keys: white and black in twelve divisions, equal ones in rows elsewhere.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    tones : dict of int to Tone
        What is played.

    Returns
    -------
    tuple of Key
        Upwards.
    """
    if lesson.scale.divisions != 12:
        return tuple(Key(tone, 0.0, 0.0, is_black=False) for tone in tones.values())
    root = lesson.scale.root
    whites = [step for step in tones if (root + step) % 12 in _WHITE]
    width = 100 / len(whites)
    keys = []
    for step, tone in tones.items():
        if step in whites:
            keys.append(Key(tone, round(width * whites.index(step), 3), round(width, 3), is_black=False))
        else:
            before = whites.index(step - 1)
            middle = width * (before + 1)
            share = width * _BLACK_WIDTH
            keys.append(Key(tone, round(middle - share / 2, 3), round(share, 3), is_black=True))
    return tuple(keys)


def place_rules(rungs: tuple[Rung, ...], keys: tuple[Key, ...]) -> str:
    """Write the places of rungs and keys as style rules, since a strict page allows no styles on elements.

    Parameters
    ----------
    rungs : tuple of Rung
        On the ladder.
    keys : tuple of Key
        On the keyboard.

    Returns
    -------
    str
        One rule each.
    """
    rules = [
        f"#rung{rung.tone.step}{{left:{rung.left}%;top:{rung.top}%;width:{rung.width}%;height:{rung.height}%}}"
        for rung in rungs
    ]
    rules += [f"#key{key.tone.step}{{left:{key.left}%;width:{key.width}%}}" for key in keys if key.width]
    return "\n".join(rules)


def tuning_in_words(lesson: Lesson, words: PageWords, tuning: Tuning | None) -> str:
    """Say how the tones are tuned.

    Parameters
    ----------
    lesson : Lesson
        The lesson.
    words : PageWords
        The words of the page.
    tuning : Tuning or None
        How twelve keys are tuned; None for the equal division.

    Returns
    -------
    str
        A sentence.
    """
    n = lesson.scale.divisions
    if tuning is not None:
        return words.say("tuned-other", title=tuning.title, hz=_number(A4_HZ, words.language))
    if n == 12:
        return words.say("tuned-equal", hz=_number(A4_HZ, words.language))
    middle_c = A4_HZ * math.exp2(-0.75)
    return words.say("tuned-divisions", divisions=n, hz=_number(middle_c, words.language))
