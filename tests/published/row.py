"""One row of the table of published values."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from gamutwright.theory.scale import Scale


@dataclass(frozen=True)
class Row:
    id: str
    property: str
    edo: str
    pcs: str
    expected: str
    source: str
    from_memory: str
    recomputed_ok: str

    @property
    def divisions(self) -> int:
        return int(self.edo)

    @property
    def numbers(self) -> tuple[int, ...]:
        return tuple(int(word) for word in self.pcs.split())

    @property
    def scale(self) -> Scale:
        return Scale.of(*self.numbers, divisions=self.divisions)

    @property
    def expected_ints(self) -> tuple[int, ...]:
        return tuple(int(word) for word in self.expected.split())

    @property
    def is_misprint(self) -> bool:
        return self.recomputed_ok == "no"


Handler = tuple[re.Pattern[str], Callable[[Row], None]]
