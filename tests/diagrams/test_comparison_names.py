"""Each of two scales is labelled by its own spelling."""

from __future__ import annotations

from gamutwright.diagrams.sketch import Sketch
from gamutwright.diagrams.two_scales import comparison
from gamutwright.theory.scale import Scale


def test_the_raised_fourth_of_the_acoustic_scale_is_f_sharp() -> None:
    """Acoustic scale on C: C D E F♯ G A B♭ (Lendvai, from memory)."""
    figure = comparison(Sketch(Scale.of(0, 2, 4, 5, 7, 9, 11), other=Scale.of(0, 2, 4, 6, 7, 9, 10)))
    assert "only the second F♯ B♭" in figure.alt
    assert "G♭" not in figure.alt
