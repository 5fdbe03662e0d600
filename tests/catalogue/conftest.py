"""A cache folder for the whole run, so that each catalogue is built once, and no names of the user's own."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from gamutwright.catalogue.names import NAMES_VARIABLE
from gamutwright.catalogue.query import Catalogue
from gamutwright.files import CACHE_VARIABLE


@pytest.fixture(scope="session")
def catalogue_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    folder = tmp_path_factory.mktemp("cache")
    before = {name: os.environ.get(name) for name in (CACHE_VARIABLE, NAMES_VARIABLE, "XDG_CONFIG_HOME")}
    os.environ[CACHE_VARIABLE] = str(folder)
    os.environ["XDG_CONFIG_HOME"] = str(folder / "configuration")
    os.environ.pop(NAMES_VARIABLE, None)
    yield folder
    for name, value in before.items():
        os.environ.pop(name, None)
        if value is not None:
            os.environ[name] = value


@pytest.fixture(scope="session")
def twelve(catalogue_cache: Path) -> Iterator[Catalogue]:
    with Catalogue(12) as catalogue:
        yield catalogue


@pytest.fixture(scope="session")
def nineteen(catalogue_cache: Path) -> Iterator[Catalogue]:
    with Catalogue(19) as catalogue:
        yield catalogue
