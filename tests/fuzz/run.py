"""Many odd inputs for every reader: `make fuzz`, or `python -m fuzz.run --count 10000 scale sound` in the folder above.

Each reader runs in a process of its own, which is started again behind an input that it hangs in or dies of. An input
may be read or refused by one of the program's own errors; anything else is a fault: another exception, a signal, no
answer at all. How long readers take is measured in benchmarks (`bench_reading`). `--show NUMBER READER` writes out the
input of a fault.

Conventions: the same number gives the same input. Exit code 1 where there is a fault.
"""

from __future__ import annotations

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import threading
import traceback
from collections import Counter
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from gamutwright.errors import GamutwrightError

SILENT_S = 120.0
"""Wall time without a word of the next input; a busy machine may be slow, a reader that hangs is silent for ever."""
MEMORY = 8 << 30


def outcome(name: str, number: int) -> str:
    """Try one input: read, refused, or what went wrong."""
    from fuzz.readers import READERS  # noqa: PLC0415 - the parent starts without any reader

    reader = next(reader for reader in READERS if reader.name == name)
    content = reader.input(number)
    with tempfile.TemporaryDirectory() as folder:
        try:
            reader.read(content, Path(folder))
        except GamutwrightError as error:
            return "refused" if all(map(str.strip, (error.value, error.rule, error.next_step))) else f"mute {error!r}"
        except Exception:  # noqa: BLE001 - that is what is looked for
            return traceback.format_exc(limit=-4)
    return "read"


def try_out(name: str, first: int, last: int) -> None:
    """Be the process of a reader: say each number before it is tried, and what became of it."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    for number in range(first, last):
        print(json.dumps([number]), flush=True)  # noqa: T201 - to the parent
        print(json.dumps([number, outcome(name, number)]), flush=True)  # noqa: T201 - as above


def faults_of(name: str, count: int) -> tuple[Counter[str], dict[int, str]]:
    """Try a reader out, in as many processes as it takes."""
    counts: Counter[str] = Counter()
    faults: dict[int, str] = {}
    number = 0
    while number < count:
        words = [sys.executable, "-m", "fuzz.run", "--part", name, str(number), str(count)]
        with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, stdin=subprocess.DEVNULL) as child:  # noqa: S603 - ourselves
            number = _followed(child, number, counts, faults)
            if child.wait() == 0:
                return counts, faults
            faults[number] = f"the process ended with code {child.returncode}, or was silent for {SILENT_S:g} s"
            counts["fault"] += 1
            number += 1
    return counts, faults


def _followed(child: subprocess.Popen[str], number: int, counts: Counter[str], faults: dict[int, str]) -> int:
    """Note what a process tells, until it ends; give the number that it was at."""
    assert child.stdout is not None
    while True:
        watch = threading.Timer(SILENT_S, child.kill)
        watch.start()
        line = child.stdout.readline()
        watch.cancel()
        if not line.endswith("\n"):
            return number
        number, *found = json.loads(line)
        if found:
            is_fault = found[0] not in {"read", "refused"}
            counts["fault" if is_fault else found[0]] += 1
            if is_fault:
                faults[number] = found[0]


def main() -> int:
    from fuzz.readers import READERS  # noqa: PLC0415 - as above

    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--count", type=int, default=10_000, help="inputs for each reader")
    parser.add_argument("--at-once", type=int, default=2, help="readers at once")
    parser.add_argument("--part", nargs=3, help=argparse.SUPPRESS)
    parser.add_argument("--show", type=int, help="write one input of one reader to standard output")
    parser.add_argument("readers", nargs="*", help="all without any")
    asked = parser.parse_args()
    if asked.part:
        try_out(asked.part[0], int(asked.part[1]), int(asked.part[2]))
        return 0
    chosen = [reader for reader in READERS if not asked.readers or reader.name in asked.readers]
    if asked.show is not None:
        sys.stdout.buffer.write(chosen[0].input(asked.show))
        return 0
    is_well = True
    with ThreadPoolExecutor(asked.at_once) as pool:
        for reader, (counts, faults) in zip(
            chosen, pool.map(lambda reader: faults_of(reader.name, asked.count), chosen), strict=True
        ):
            is_well = is_well and not faults
            print(  # noqa: T201 - the report
                f"{reader.name:14} {sum(counts.values()):6} inputs: {counts['read']:6} read, "
                f"{counts['refused']:6} refused, {counts['fault']} faults", flush=True,
            )  # fmt: skip
            for number, what in list(faults.items())[:20]:
                print(f"  {reader.name} {number}: {what}", flush=True)  # noqa: T201 - as above
    return int(not is_well)


if __name__ == "__main__":
    sys.exit(main())
