"""Where the tones of a scale lie for the ear: frequencies in any tuning, a comfortable register, close voicings.

The ear names pitches best in the middle of its range, and small loudspeakers lose what lies below. So the root is the
lowest of its name at or above G3, and nothing that is played here goes beyond two octaves above it.

**Conventions.** Steps count from the root in the register, as any integer; n of them are an octave. Frequencies follow
`theory.tuning`: middle C is 261.626 Hz in every equal division; the tunings of twelve keys hang from A4 at 440 Hz.
The register is a habit of teaching (common practice, no source).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache

from gamutwright.errors import DomainError, told
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.scale import Scale
from gamutwright.theory.spelling import tone_name_map
from gamutwright.theory.tuning import A4_HZ, TUNINGS, Tuning

__all__ = [
    "EQUAL",
    "HIGHEST_HZ",
    "LOWEST_ROOT_HZ",
    "Register",
    "close_voicing",
    "led_voicing",
    "names_of_steps",
    "tuning_named",
]

EQUAL = "equal"
LOWEST_ROOT_HZ = 190.0
"""Half a semitone below G3, so that G is itself the lowest root in every tuning."""
HIGHEST_HZ = 2000.0


def tuning_named(name: str) -> Tuning | None:
    """Find a tuning by its id.

    Parameters
    ----------
    name : str
        `equal`, or the id of one of the tunings of twelve keys.

    Returns
    -------
    Tuning or None
        The tuning; None for the equal division.

    Raises
    ------
    DomainError
        If there is none of this name.

    Examples
    --------
    >>> tuning_named("vallotti").title, tuning_named("equal")
    ('Vallotti', None)
    """
    wanted = name.strip().lower().replace("-", "_").replace(" ", "_")
    if wanted == EQUAL:
        return None
    for tuning in TUNINGS:
        if tuning.id == wanted:
            return tuning
    raise DomainError(
        told("tuning {name}", name=repr(name)),
        told("there is none of this name"),
        told("Choose one of {list}.", list=", ".join([EQUAL, *(tuning.id for tuning in TUNINGS)])),
    )


@dataclass(frozen=True, slots=True)
class Register:
    """A scale at the height where it is played.

    Parameters
    ----------
    scale : Scale
        The scale; its root is step 0.
    tuning : Tuning or None
        How the keys are tuned; None for the equal division.

    Raises
    ------
    DomainError
        If a tuning of twelve keys is asked for another division.

    Examples
    --------
    >>> round(Register(Scale.of(7, 11, 2)).freq_hz(0), 3), round(Register(Scale.of(6, 10, 1)).freq_hz(12), 3)
    (195.998, 739.989)
    """

    scale: Scale
    tuning: Tuning | None = None
    lowest: int = field(init=False, default=0)

    def __post_init__(self) -> None:
        if self.tuning is not None and self.scale.divisions != 12:
            raise DomainError(
                told("{title} for {divisions} divisions", title=self.tuning.title, divisions=self.scale.divisions),
                told("these tunings have twelve keys"),
                told("Choose the equal tuning, or twelve divisions."),
            )
        if self.freq_hz(-self.scale.divisions) >= LOWEST_ROOT_HZ:
            object.__setattr__(self, "lowest", -self.scale.divisions)

    def freq_hz(self, step: int) -> float:
        """Give the frequency of a step.

        Parameters
        ----------
        step : int
            Steps above the root in this register.

        Returns
        -------
        float, Hz
            Its fundamental.
        """
        n = self.scale.divisions
        place = self.scale.root + self.lowest + step
        if self.tuning is None:
            return A4_HZ * math.exp2(place / n - 0.75)
        return self.tuning.frequency_hz(place % 12, 4 + place // 12)


def close_voicing(tones: tuple[int, ...], divisions: int, above: int = 0) -> tuple[int, ...]:
    """Stack tones upwards in their order, each as near above the one before as it gets.

    Parameters
    ----------
    tones : tuple of int
        Tones in steps above the root.
    divisions : int
        Equal divisions of the octave.
    above : int
        The lowest step the first may take.

    Returns
    -------
    tuple of int
        Rising steps.

    Examples
    --------
    >>> close_voicing((9, 0, 4), 12), close_voicing((4, 4), 12, above=12)
    ((9, 12, 16), (16, 28))
    """
    steps: list[int] = []
    for tone in tones:
        floor = steps[-1] + 1 if steps else above
        steps.append(floor + (tone - floor) % divisions)
    return tuple(steps)


def led_voicing(tones: tuple[int, ...], before: tuple[int, ...], divisions: int) -> tuple[int, ...]:
    """Voice a chord as near as possible to the one before, so that common tones stay.

    Parameters
    ----------
    tones : tuple of int
        Tones of the chord, in steps above the root.
    before : tuple of int
        Rising steps of the chord before; empty for none.
    divisions : int
        Equal divisions of the octave.

    Returns
    -------
    tuple of int
        Rising steps of a close voicing between the root and two octaves above it.

    Examples
    --------
    >>> led_voicing((4, 7, 11), (0, 4, 7), 12)
    (4, 7, 11)
    >>> led_voicing((9, 0, 4), (0, 4, 7), 12)
    (0, 4, 9)
    """
    turns = [tones[k:] + tones[:k] for k in range(len(tones))]
    if len(tones) != len(before):
        # The first chord lies a little above the root, so that those after it find room on either side.
        return min(close_voicing(turn, divisions, divisions // 4) for turn in turns)
    found = {close_voicing(turn, divisions, above) for turn in turns for above in (0, divisions)}
    inside = [steps for steps in found if steps[-1] <= 2 * divisions] or sorted(found)
    return min(inside, key=lambda steps: (_moved(before, steps), steps))


def _moved(before: tuple[int, ...], after: tuple[int, ...]) -> int:
    return sum(abs(high - low) for low, high in zip(before, after, strict=True))


@lru_cache(maxsize=256)
def names_of_steps(scale: Scale) -> tuple[str, ...]:
    """Name every step above the root: spelled where there are letters, numbers elsewhere.

    Parameters
    ----------
    scale : Scale
        The scale; its own spelling goes before that of the tones left out.

    Returns
    -------
    tuple of str
        One name a step.

    Examples
    --------
    >>> names_of_steps(Scale.of(2, 5, 9))[:4]
    ('D', 'E♭', 'E', 'F')
    """
    n = scale.divisions
    if n != 12:
        return tuple(str((step + scale.root) % n) for step in range(n))
    around = tone_name_map(Scale(0b111111111111, root=scale.root))
    named = around | tone_name_map(scale)
    return tuple(to_symbols(named[step]) for step in range(n))
