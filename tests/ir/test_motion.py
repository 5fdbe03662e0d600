"""States and changes: ends are exact, turns keep their radius, matched shapes move, others fade.

Checked against plane geometry, computed here with complex numbers.
"""

from __future__ import annotations

import cmath
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.diagrams.clock import clock
from gamutwright.diagrams.sketch import Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Dot, Figure, Fill, Group, Path, Role, Shape, Text, walk
from gamutwright.ir.motion import Change, Easing, Motion, State, blended, eased
from gamutwright.theory.scale import Scale


def figure(*shapes: Shape, pivot: tuple[float, float] | None = None):
    return Figure("a test", "Shapes of a test.", (Group(tuple(shapes), pivot),))


@given(st.floats(0, 1), st.sampled_from(Easing))
def test_easing_is_symmetric_and_stays_between(share: float, easing: Easing):
    assert 0 <= eased(share, easing) <= 1
    assert math.isclose(eased(share, easing) + eased(1 - share, easing), 1, abs_tol=1e-12)


@given(st.floats(0, 6.28), st.floats(-179, 179), st.floats(0, 1))
def test_a_turn_runs_along_its_circle(start: float, degrees: float, share: float):
    centre = 50 + 40j
    one = centre + cmath.rect(30, start)
    two = centre + cmath.rect(30, start + math.radians(degrees))
    wanted = centre + cmath.rect(30, start + math.radians(degrees) * share)
    states = [figure(Dot(place.real, place.imag, 2), pivot=(50.0, 40.0)) for place in (one, two)]
    (dot,) = walk(blended(*states, share).shapes)
    assert isinstance(dot, Dot)
    assert abs(complex(dot.x, dot.y) - wanted) < 1e-6


def test_a_turn_of_more_than_half_goes_the_way_it_is_told():
    states = [figure(Dot(x, 0, 2), pivot=(0.0, 0.0)) for x in (-10, 10)]
    for turn, height in ((180, -10), (-180, 10)):
        (dot,) = walk(blended(*states, 0.5, turn).shapes)
        assert isinstance(dot, Dot)
        assert dot.y == pytest.approx(height)


def test_shapes_are_matched_by_name_and_the_rest_fades():
    one = figure(Dot(0, 0, 1, name="a"), Dot(9, 9, 1, name="gone"))
    two = figure(Dot(10, 0, 3, name="a"), Dot(5, 5, 1, name="new"))
    dots = {dot.name: dot for dot in walk(blended(one, two, 0.25).shapes)}
    assert (dots["a"].x, dots["a"].radius) == (2.5, 1.5)
    assert dots["gone"].opacity == 0.75
    assert dots["new"].opacity == 0.25


def test_a_change_of_role_fades_across():
    one, two = (figure(Dot(0, 0, 1, Fill(role), name="a")) for role in (Role.INK, Role.NOW))
    dots = list(walk(blended(one, two, 0.25).shapes))
    assert [(dot.fill.role, dot.opacity) for dot in dots] == [(Role.INK, 0.75), (Role.NOW, 0.25)]


def test_words_fade_across_and_move_together():
    one, two = (figure(Text(x, 0, word, name="a")) for x, word in ((0, "one"), (10, "two")))
    texts = list(walk(blended(one, two, 0.5).shapes))
    assert [(text.text, text.x, text.opacity) for text in texts] == [("one", 5, 0.5), ("two", 5, 0.5)]


def test_times_hold_change_and_end():
    one, two = (figure(Dot(x, 0, 1)) for x in (0.0, 10.0))
    motion = Motion((State(one, 100), State(two, 50)), (Change(200),))
    assert motion.duration_ms == 350
    assert motion.at(-5) == motion.at(99) == one
    assert motion.at(300) == motion.at(9999) == two
    assert motion.at(200) == blended(one, two, 0.5)
    assert Motion((State(one, 10), State(two)), (Change(0),)).at(10) == two


def test_states_without_changes_are_refused():
    with pytest.raises(DomainError, match="a change between every two states"):
        Motion((State(figure()), State(figure())))


def test_a_mode_is_the_ring_turned():
    """Half way through the turn to another mode every peg is as far from the centre as before."""
    major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    one, two = clock(Sketch(major)), clock(Sketch(major.mode(5)))
    middle = blended(one, two, 0.5, turn=-210)
    pegs = [shape for shape in walk(middle.shapes) if isinstance(shape, Dot) and shape.name.startswith("peg")]
    assert len(pegs) == 7
    assert all(peg.opacity == 1 for peg in pegs)
    assert {round(math.dist((peg.x, peg.y), (500, 400)), 3) for peg in pegs} == {296}
    g = next(peg for peg in pegs if peg.name == "peg 7")
    angle = math.degrees(math.atan2(g.x - 500, 400 - g.y)) % 360
    assert angle == pytest.approx(105)


def test_path_numbers_must_fit_their_verbs():
    with pytest.raises(DomainError, match="take 4"):
        Path("ML", (1.0, 2.0, 3.0))


def test_figures_have_title_and_alt_text():
    with pytest.raises(DomainError, match="says in words"):
        Figure("a title", " ", ())


def test_unknown_parts_are_refused_with_those_there_are():
    with pytest.raises(DomainError, match="tone 0"):
        clock(Sketch(Scale.of(0, 4, 7))).part("tone 1")
