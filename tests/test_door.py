"""The Python door: what is public is listed, documented, light to import, and does what its recipes say."""

from __future__ import annotations

import inspect
import re
import subprocess
import sys
from pathlib import Path

import pytest

import gamutwright as gw

RECIPES = Path(__file__).parents[1] / "docs" / "python.md"


def test_what_is_public_is_listed_and_nothing_else_is_offered():
    assert gw.__all__ == sorted(gw.__all__)
    assert dir(gw) == gw.__all__
    assert set(gw._HOMES) == set(gw.__all__) - {"__version__"}
    with pytest.raises(AttributeError, match="no attribute 'sclae'"):
        gw.sclae  # noqa: B018 - asking is the test


@pytest.mark.parametrize("name", sorted(set(gw.__all__) - {"__version__"}))
def test_every_public_name_is_documented_and_its_methods_too(name: str):
    found = getattr(gw, name)
    assert inspect.getdoc(found)
    if inspect.isfunction(found):
        assert ">>>" in (found.__doc__ or "")
    elif inspect.isclass(found) and not issubclass(found, Exception):
        own = [value for key, value in vars(found).items() if not key.startswith("_")]
        assert all(inspect.getdoc(value) for value in own if inspect.isfunction(value) or isinstance(value, property))


def test_importing_loads_nothing_heavy():
    """Only what the standard library has: a name is loaded when it is asked for."""
    code = (
        "import sys; before = set(sys.modules); import gamutwright; "
        "print(*sorted(set(sys.modules) - before - set(sys.stdlib_module_names)))"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)  # noqa: S603 - ours
    assert [name for name in told.stdout.split() if name.partition(".")[0] not in sys.stdlib_module_names] == [
        "gamutwright"
    ]


def test_objects_say_what_they_are_in_a_line_and_show_themselves():
    dorian = gw.scale("D dorian")
    shown = [dorian, dorian.facts, dorian.facts["tritones"], dorian.sound("scale"), gw.compare("D dorian", "D aeolian")]
    shown += [gw.find("cardinality = 3", limit=2), dorian.picture("keyboard")]
    for one in shown:
        assert len(repr(one)) < 120
        assert "\n" not in repr(one)
        assert "<" in (one._repr_svg_() if hasattr(one, "_repr_svg_") else one._repr_html_())
    assert 'src="data:audio/mp4;base64,' in dorian.sound("scale")._repr_html_()


def test_names_of_another_are_harmless_in_a_notebook():
    assert "<script>" not in gw.compare("C major", "C lydian")._repr_html_()


def test_a_table_goes_to_three_libraries():
    found = gw.find("cardinality = 7 AND is_maximally_even", sort=["bits"])
    bits = [row["bits"] for row in found]
    assert found.to_arrow().column("bits").to_pylist() == bits
    assert found.to_pandas()["bits"].tolist() == found.to_polars()["bits"].to_list() == bits


def test_the_recipes_run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    blocks = re.findall(r"```python\n(.*?)```", RECIPES.read_text(encoding="utf-8"), re.DOTALL)
    assert len(blocks) == 10
    monkeypatch.chdir(tmp_path)
    names: dict[str, object] = {}
    for block in blocks:
        exec(compile(block, "docs/python.md", "exec"), names)  # noqa: S102 - our own page
    assert {path.name for path in tmp_path.iterdir()} >= {"keys.svg", "tritones.png", "acoustic.flac", "nineteen.wav"}
    assert (tmp_path / "out" / "acoustic" / "film.mp4").is_file()
