"""All facts of one scale, and set classes of all sets against music21."""

from __future__ import annotations

import random
import statistics
import sys
from collections.abc import Iterator

from measure import Row, median_seconds, seconds, timed
from music21 import chord

from gamutwright.facts.profile import profile
from gamutwright.facts.registry import default_registry
from gamutwright.theory.pcset import forte_label, interval_class_vector, prime_form
from gamutwright.theory.scale import Scale

SETS = [Scale(mask) for mask in range(1, 4096)]
NAMED = {
    "all facts with witnesses, twelve tones (chromatic)": Scale(4095),
    "all facts with witnesses, eleven tones": Scale(0b110111111111),
    "all facts with witnesses, seven tones (acoustic)": Scale.of(7, 9, 11, 1, 2, 4, 5),
}


def forget() -> None:
    """Empty every cache that holds results for single scales; tables read from files stay, as in a warm process."""
    for module in [module for name, module in sys.modules.items() if name.startswith("gamutwright.")]:
        for function in vars(module).values():
            if hasattr(function, "cache_clear") and function.cache_parameters()["maxsize"] != 1:
                function.cache_clear()


def first_sight(scale: Scale) -> float:
    """Time the profile of a scale that nothing is known about yet."""
    forget()
    return seconds(lambda: profile(scale))


def rows() -> Iterator[Row]:
    yield Row("facts in the registry", str(len(default_registry().facts)))
    profile(Scale.of(0, 4, 7))
    for what, scale in NAMED.items():
        yield timed(what, statistics.median(first_sight(scale) for _ in range(11)), 0.025)
    sample = [Scale(random.Random(seed).getrandbits(12) | 1, root=seed % 12) for seed in range(100)]  # noqa: S311
    slowest = max(min(first_sight(scale) for _ in range(3)) for scale in sample)
    yield timed("slowest of 100 random rooted scales", slowest, 0.025)
    ours = median_seconds(
        lambda: [(forte_label(s), prime_form(s), interval_class_vector(s)) for s in SETS], runs=5, warmup=1
    )

    def theirs() -> list[object]:
        chords = [chord.Chord(list(scale.tones)) for scale in SETS]
        return [(c.forteClassTnI, c.primeForm, c.intervalVector) for c in chords]

    theirs_took = seconds(theirs)
    yield Row(
        "label, prime form and vector of all 4,095 sets",
        f"{ours * 1000:.0f} ms",
        against=f"music21: {theirs_took:.2f} s",
        ratio=f"{theirs_took / ours:.1f} x faster",
    )
