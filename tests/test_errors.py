"""Every error says value, rule and next step, inherits its builtin, and crosses processes whole."""

from __future__ import annotations

import inspect
import pickle

import pytest

from gamutwright import errors

KINDS = [kind for _, kind in inspect.getmembers(errors, inspect.isclass) if issubclass(kind, errors.GamutwrightError)]


@pytest.mark.parametrize("kind", KINDS)
def test_an_error_tells_its_story_after_pickling(kind: type[errors.GamutwrightError]) -> None:
    error = pickle.loads(pickle.dumps(kind("'H'", "is no note name", "Add --names german.")))  # noqa: S301 - our own
    assert str(error) == "'H': is no note name. Add --names german."
    assert (error.value, error.rule, error.next_step) == ("'H'", "is no note name", "Add --names german.")


def test_readings_survive_pickling() -> None:
    error = errors.AmbiguousInputError("'1 2 3'", "has two readings", "Say which.", ("pcs: 1 2 3", "degrees: 1 2 3"))
    assert pickle.loads(pickle.dumps(error)).readings == error.readings  # noqa: S301 - our own


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind is not errors.GamutwrightError])
def test_every_child_also_inherits_a_builtin(kind: type[errors.GamutwrightError]) -> None:
    assert issubclass(kind, (ValueError, LookupError, ImportError, RuntimeError, OSError))


def test_the_public_names_are_the_errors() -> None:
    assert sorted([*(kind.__name__ for kind in KINDS), "Tellable", "slots_filled", "told"]) == errors.__all__
