"""The ladder of steps, small enough for a list: rails, rungs, the root marked at both ends, no words.

It keeps the places of the large ladder (`diagrams.ladder`) and leaves out what nobody sees at the size of a thumbnail,
so that a course of hundreds stays one light page.

**Conventions.** The picture is a square of 80 units round the centre (0, 0); the root is the lowest rung, the highest,
drawn lighter, is its octave. Colours are the page's custom properties, given by the classes `r` (rails and the octave),
`s` (steps) and `p` (rungs).
"""

from __future__ import annotations

from gamutwright.publish.page.page_words import Raw

__all__ = ["little_ladder"]

_HALF, _REACH, _RAIL, _ROOT = 40, 34.0, 15.0, 3.4
_THICKEST, _THINNEST = 3.4, 1.2


def little_ladder(tones: tuple[int, ...], divisions: int) -> Raw:
    """Draw a scale as a small ladder.

    Parameters
    ----------
    tones : tuple of int
        Steps above the root.
    divisions : int
        Steps of the octave.

    Returns
    -------
    Raw
        An SVG element that says nothing to who cannot see: the tones stand beside it in words.

    Examples
    --------
    >>> little_ladder((0, 6), 12).count("h30")
    5
    """
    heard = tuple(sorted(set(tones)))
    unit = 2 * _REACH / divisions
    rails = "".join(f"M{_n(x)} {_n(_REACH + 3)}V{_n(-_REACH - 3)}" for x in (-_RAIL, _RAIL))
    parts = [f'<path class="r" d="{rails}{_rung(divisions, divisions) if 0 in heard else ""}"/>']
    steps = [
        f"M{_n(-_RAIL)} {_n(_height(low, divisions))}h{_n(2 * _RAIL)}V{_n(_height(high, divisions))}h{_n(-2 * _RAIL)}Z"
        for low, high in zip(heard, (*heard[1:], divisions), strict=True)
    ]
    if steps:
        parts.append(f'<path class="s" d="{"".join(steps)}"/>')
        width = max(_THINNEST, min(_THICKEST, 0.6 * unit))
        rungs = "".join(_rung(tone, divisions) for tone in heard)
        parts.append(f'<path class="p" stroke-width="{_n(width)}" d="{rungs}"/>')
    if 0 in heard:
        parts += [f'<circle class="o" cx="{_n(x)}" cy="{_n(_REACH)}" r="{_n(_ROOT)}"/>' for x in (-_RAIL, _RAIL)]
    box = f"{-_HALF} {-_HALF} {2 * _HALF} {2 * _HALF}"
    return Raw(f'<svg class="ladder" viewBox="{box}" aria-hidden="true">{"".join(parts)}</svg>')


def _height(step: float, divisions: int) -> float:
    return _REACH - 2 * _REACH * step / divisions


def _rung(step: int, divisions: int) -> str:
    return f"M{_n(-_RAIL)} {_n(_height(step, divisions))}h{_n(2 * _RAIL)}"


def _n(value: float) -> str:
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text
