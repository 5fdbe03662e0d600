"""Odd inputs for every reader of texts and files: the slowest of some, whether it is read or refused.

The inputs are those of `make fuzz`. A reader that decodes in a process of its own is timed with it.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from measure import Row, seconds, timed

from gamutwright.errors import GamutwrightError

sys.path.insert(0, str(Path(__file__).parents[1] / "tests"))

from fuzz.readers import READERS, Reader

EACH = 40
SLOWEST_S = 10.0
"""What any input may take."""


def rows() -> Iterator[Row]:
    for reader in READERS:
        took = [seconds(lambda number=number, reader=reader: answered(reader, number)) for number in range(EACH)]
        yield timed(f"{reader.name}: slowest of {EACH} odd inputs", max(took), SLOWEST_S)


def answered(reader: Reader, number: int) -> None:
    """Have an input read or refused."""
    content = reader.input(number)
    with tempfile.TemporaryDirectory() as folder:
        try:
            reader.read(content, Path(folder))
        except GamutwrightError:
            return
