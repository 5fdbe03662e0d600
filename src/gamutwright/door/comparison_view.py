"""Two scales side by side."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from gamutwright.facts import scale_comparison
from gamutwright.facts.model import Value

if TYPE_CHECKING:
    from gamutwright.door.scale_view import ScaleView

__all__ = ["ScaleComparison", "compare"]


@dataclass(frozen=True, slots=True, repr=False)
class ScaleComparison:
    """What two scales share and where they differ.

    Parameters
    ----------
    found : Comparison
        What was found.
    one_name, other_name : str
        What the scales are called.
    """

    found: scale_comparison.Comparison
    one_name: str
    other_name: str

    @property
    def relations(self) -> tuple[str, ...]:
        """How the second is related to the first, in words."""
        return tuple(self.found.relations)

    @property
    def differences(self) -> dict[str, tuple[Value | None, Value | None]]:
        """The facts whose values differ: id to the two values."""
        return {entry.fact.id: (entry.one, entry.other) for entry in self.found.differences}

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<{self.one_name} beside {self.other_name}: {len(self.differences)} facts differ>"

    def _repr_html_(self) -> str:
        rows = "".join(
            f"<tr><td>{escape(fact_id)}</td><td>{escape(str(one))}</td><td>{escape(str(other))}</td></tr>"
            for fact_id, (one, other) in self.differences.items()
        )
        head = f"<tr><th>Fact</th><th>{escape(self.one_name)}</th><th>{escape(self.other_name)}</th></tr>"
        return f"<table>{head}{rows}</table>"


def compare(one: ScaleView | str, other: ScaleView | str) -> ScaleComparison:
    """Hold two scales side by side.

    Parameters
    ----------
    one, other : ScaleView or str
        The scales, or what `scale` reads.

    Returns
    -------
    ScaleComparison
        What they share and where they differ.

    Raises
    ------
    InputError
        If one cannot be read, or their divisions differ.

    Examples
    --------
    >>> import gamutwright as gw
    >>> gw.compare("C major", "C lydian").differences["degrees"]
    (('1', '2', '3', '4', '5', '6', '7'), ('1', '2', '3', '#4', '5', '6', '7'))
    """
    from gamutwright.door.scale_view import scale  # noqa: PLC0415 - that module offers this function as a method

    first, second = (scale(given) if isinstance(given, str) else given for given in (one, other))
    return ScaleComparison(scale_comparison.compare(first.theory, second.theory), first.name, second.name)
