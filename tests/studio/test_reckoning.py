"""Time left: runs of known length are played with a clock of the test's own, and what was told compared with them."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.studio.reckoning import NEARLY, Reckoning

PARTS = 20


def played(truth: dict[str, float], expected: dict[str, float], found: float = 0.0) -> list[tuple[float, float, float]]:
    """Play a run; give for each moment the time that is really left, the time told, and the share shown."""
    reckoning, now, told = Reckoning(), 1000.0, []
    end = now + sum(truth.values()) * (1 - found)
    reckoning.expect(expected)
    for name, seconds in truth.items():
        first = round(found * PARTS)
        reckoning.tell(name, first, PARTS, now)
        for part in range(first, PARTS):
            now += seconds / PARTS
            reckoning.tell(name, part + 1, PARTS, now)
            told.append((end - now, reckoning.left_s(now) or 0.0, reckoning.share(now)))
    return told


@pytest.mark.parametrize("wrong_by", [0.2, 1.0, 4.0])
def test_however_wrong_the_expectation_the_last_stage_is_told_rightly(wrong_by: float):
    truth = {"voice": 4.0, "making": 60.0, "film": 6.0}
    told = played(truth, {name: seconds * wrong_by for name, seconds in truth.items()})
    begun = [row for row in told if 12 < row[0] < 26]
    assert begun, "the second half of the long stage"
    for truly, left, _ in begun:
        assert left == pytest.approx(truly, abs=1e-6 + 6.0 * abs(1 - wrong_by))


def test_an_expectation_that_is_right_is_told_rightly_all_the_way():
    truth = {"voice": 4.0, "making": 60.0, "film": 6.0}
    for truly, left, share in played(truth, truth):
        assert left == pytest.approx(truly, abs=1e-6)
        assert share == pytest.approx(min(NEARLY, 1 - truly / 70), abs=1e-6)


def test_what_was_kept_from_an_earlier_run_does_not_count_as_speed():
    """Half was there at the beginning; the other half takes its 30 seconds, and not none."""
    for truly, left, _ in played({"making": 60.0}, {"making": 60.0}, found=0.5):
        assert left == pytest.approx(truly, abs=1e-6)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(st.floats(0.1, 100), st.floats(0.05, 20)), min_size=1, max_size=5), st.floats(0, 0.9))
def test_what_is_shown_never_goes_back_nor_comes_to_the_end(stages: list[tuple[float, float]], found: float):
    """Shares only grow, and stay below the end."""
    truth = {f"stage {k}": seconds for k, (seconds, _) in enumerate(stages)}
    expected = {f"stage {k}": seconds * factor for k, (seconds, factor) in enumerate(stages)}
    before = 0.0
    for _, left, share in played(truth, expected, found):
        assert before <= share <= NEARLY
        assert left >= 0
        before = share


def test_a_stage_that_says_nothing_for_long_is_not_told_as_nearly_done():
    """A stage was thought to take 10 s and tells nothing: after 60 s the share shown is far from the end."""
    reckoning = Reckoning()
    reckoning.expect({"seeing": 10.0})
    reckoning.tell("seeing", 0, 10, 0.0)
    shares = []
    for now in range(61):
        assert (reckoning.left_s(float(now)) or 0) >= min(10 - now, 10) or now > 10
        shares.append(reckoning.share(float(now)))
    assert reckoning.left_s(60.0) == pytest.approx(30.0)
    assert max(shares) <= 0.7


def test_nothing_is_told_where_nothing_is_known():
    reckoning = Reckoning()
    assert reckoning.left_s(0.0) is None
    reckoning.tell("voice", 0, 4, 0.0)
    assert reckoning.left_s(5.0) is None
    reckoning.tell("voice", 1, 4, 10.0)
    assert reckoning.left_s(10.0) == pytest.approx(30.0, rel=0.3)
