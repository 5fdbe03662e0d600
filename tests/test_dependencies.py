"""What the project depends on is pinned, bounded and named with its licence."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
LICENCES = (ROOT / "docs" / "licences.md").read_text(encoding="utf-8")
EXTRAS = PROJECT["optional-dependencies"]
# They number by date, or have stayed as they are for years.
UNBOUNDED = {
    "axe-playwright-python", "distributed", "espeakng-loader", "font-source-sans-pro", "font-source-serif-pro",
    "num2words", "towncrier", "webvtt-py",
}  # fmt: skip


def plain(name: str) -> str:
    """Write the name of a distribution as the index compares names (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def pins() -> dict[str, str]:
    lines = (ROOT / "constraints.txt").read_text(encoding="utf-8").split()
    return {plain(name): version for name, version in (line.split("==") for line in lines)}


WANTED = {
    plain(re.split(r"[<>=!~ ]", wish)[0]): wish
    for wish in (*PROJECT["dependencies"], *(wish for extra in EXTRAS.values() for wish in extra))
}


@pytest.mark.parametrize("name", sorted(WANTED | pins()))
def test_every_library_is_named_with_its_licence(name: str):
    assert name in {plain(word) for word in re.findall(r"[A-Za-z0-9][\w.-]*", LICENCES)}


@pytest.mark.parametrize("name", sorted(WANTED))
def test_every_library_is_pinned_within_its_bounds(name: str):
    version = pins()[name]
    lower, upper = re.search(r">=([\d.]+)", WANTED[name]), re.search(r"<([\d.]+)", WANTED[name])
    assert lower
    assert parts(version) >= parts(lower[1])
    assert (upper is None) == (name in UNBOUNDED)
    assert upper is None or parts(version) < parts(upper[1])


def parts(version: str) -> tuple[int, ...]:
    return tuple(int(part) for part in version.split(".") if part.isdigit())


def test_the_core_asks_for_neither_a_compiler_nor_arrow():
    core = " ".join(PROJECT["dependencies"])
    assert not {"numba", "llvmlite", "pyarrow", "scipy", "pandas"} & set(re.findall(r"[a-z]+", core))
    assert {re.split("[<>=]", wish)[0] for wish in EXTRAS["catalogues"]} == {"numba", "pyarrow"}
