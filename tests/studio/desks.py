"""A desk for tests, with the kinds of tasks of `taskkinds`; as a program it begins one task and waits to be killed."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from gamutwright.studio import taskrun
from gamutwright.studio.taskdesk import Desk
from gamutwright.studio.tasks import State
from studio import taskkinds

OWN = ("quick", "slow", "stubborn", "parts", "loud", "refused", "broken", "killed", "huge", "strange")
TESTS = Path(taskkinds.__file__).parents[1]
DEADLINE_S = 60.0


def own_kinds() -> dict[str, taskrun.Kind]:
    kinds = {name: taskrun.Kind(f"studio.taskkinds:{name}") for name in OWN}
    return kinds | {"quick lesson": taskrun.Kind("studio.taskkinds:quick", is_of_lesson=True)}


def until(true: Callable[[], Any]) -> Any:  # noqa: ANN401 - whatever it is that is waited for
    """Wait until something is true, and give it."""
    deadline = time.monotonic() + DEADLINE_S
    while not (found := true()):
        assert time.monotonic() < deadline
        time.sleep(0.01)
    return found


def told(desk: Desk, task_id: str) -> dict[str, Any]:
    return next(task for task in desk.told() if task["id"] == task_id)


def ended(desk: Desk, task_id: str) -> dict[str, Any]:
    """Wait until a task has ended, and give what is told of it."""
    open_states = {State.WAITING.value, State.RUNNING.value}
    return until(lambda: (task := told(desk, task_id))["state"] not in open_states and task)


if __name__ == "__main__":
    taskrun.KINDS.update(own_kinds())  # type: ignore[attr-defined] # a dictionary
    Desk(Path(sys.argv[1])).start(*sys.argv[2:])
    time.sleep(600)
