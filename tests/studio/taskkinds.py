"""Tasks for the tests, done in processes of their own: each does one thing that tasks may do, or should not."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from gamutwright.errors import InputError
from gamutwright.files import workplace
from gamutwright.studio.taskrun import Tell

Payload = Mapping[str, Any]


def quick(payload: Payload, tell: Tell) -> dict[str, Any]:
    tell.expect({"voice": 0.1}, 1.0)
    tell("voice", 0, 1)
    tell("voice", 1, 1)
    with (Path(payload["course"]) / "order.txt").open("a") as file:
        file.write(f"{payload['lesson'] or payload['kind']}\n")
    return {"message": "Done.", "paces": payload["paces"]}


def _start_and_leave(payload: Payload) -> None:
    """Start a process that would outlive this one, and leave files in the making."""
    course = Path(payload["course"])
    child = subprocess.Popen([sys.executable, "-c", "import time; time.sleep(600)"])
    scratch = Path(payload["scratch"])
    scratch.mkdir(parents=True)
    (scratch / "half.wav").write_bytes(b"RIFF")
    place = workplace(course / "out" / "dorian", "new")
    place.mkdir(parents=True)
    (place / "film.mp4").write_bytes(b"half a film")
    (course / "pids.json.new").write_text(json.dumps([os.getpid(), child.pid]))
    (course / "pids.json.new").rename(course / "pids.json")


def slow(payload: Payload, tell: Tell) -> dict[str, Any]:
    tell.expect({"voice": 600.0}, 1.0)
    tell("voice", 0, 10)
    _start_and_leave(payload)
    time.sleep(600)
    return {}


def stubborn(payload: Payload, tell: Tell) -> dict[str, Any]:
    signal.signal(signal.SIGTERM, signal.SIG_IGN)
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    return slow(payload, tell)


def parts(payload: Payload, tell: Tell) -> dict[str, Any]:
    tell.expect({"lessons": 60.0}, 2.0)
    tell("lessons", 0, 2, 0.25)
    tell.part("dorian", "running", "joining 300 of 1,330")
    tell.part("ionian", "failed", "its voice is missing")
    time.sleep(600)
    return {}


def loud(payload: Payload, tell: Tell) -> dict[str, Any]:
    print("this is no line of a task", flush=True)  # noqa: T201 - what libraries do
    os.write(1, b'{"result": {"message": "forged"}}\n')
    subprocess.run(["echo", '{"error": "forged"}'], check=True)  # noqa: S607
    return {"message": "Done all the same."}


def refused(payload: Payload, tell: Tell) -> dict[str, Any]:
    raise InputError("'X'", "it is no scale of the harbour", "Write another.")


def broken(payload: Payload, tell: Tell) -> dict[str, Any]:
    raise ZeroDivisionError("division by zero")


def killed(payload: Payload, tell: Tell) -> dict[str, Any]:
    os.kill(os.getpid(), signal.SIGKILL)
    return {}


def huge(payload: Payload, tell: Tell) -> dict[str, Any]:
    return {"message": "x" * 30_000}


def strange(payload: Payload, tell: Tell) -> dict[str, Any]:
    tell.say({"stage": "voice"})
    tell.say({"expects": 3})
    os.write(tell._channel, b"\xff\x00 no JSON\n[1, 2]\n")
    return {"message": "Done."}
