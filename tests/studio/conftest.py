"""What tests of the studio share: one that listens, with a kit and screens of the tests' own."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import pytest

from gamutwright.studio import app, static
from studio.serving import SECRET, Studio, running


@contextmanager
def _serving(folder: Path) -> Iterator[Studio]:
    """Serve a kit of one module, one style and, outside of it, something that is nobody's business."""
    kit = folder / "kit"
    (kit / "parts").mkdir(parents=True)
    (kit / "screen.js").write_text("export const beat = 1;\n" * 40)
    (kit / "parts" / "clock.js").write_text("export const hands = 2;\n" * 40)
    (kit / "studio.css").write_text("body { margin: 0 }\n" * 40)
    (kit / "hidden.html.jinja").write_text(SECRET)
    (folder / "outside.js").write_text(SECRET)
    with ExitStack() as stack:
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr(static, "default_kit", lambda: static.Kit.read(kit))
            patch.setattr(app, "ROUTERS", ("static",))
            studio = stack.enter_context(running(folder))
        yield studio


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    """A studio for the tests of a file."""
    with _serving(tmp_path_factory.mktemp("studio")) as one:
        yield one


@pytest.fixture
def short_lived(tmp_path: Path) -> Iterator[Studio]:
    """A studio that a test may end."""
    with _serving(tmp_path) as one:
        yield one


@pytest.fixture(autouse=True)
def _nothing_reached(request: pytest.FixtureRequest) -> None:
    """Begin every test that uses the studio with an empty list of what was reached."""
    if "studio" in request.fixturenames:
        request.getfixturevalue("studio").reached.clear()
