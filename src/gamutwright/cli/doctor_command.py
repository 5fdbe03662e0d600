"""`gamutwright doctor`: what is installed, what is missing, what each missing part would enable."""

from __future__ import annotations

import importlib
import io
import json
import platform
from contextlib import redirect_stdout
from dataclasses import dataclass
from importlib import metadata, util

from rich.console import Console
from rich.text import Text

from gamutwright import __version__
from gamutwright.codec import to_plain
from gamutwright.errors import PackError
from gamutwright.facts.registry import default_registry

__all__ = ["PARTS", "Part", "State", "examine", "run"]


@dataclass(frozen=True, slots=True)
class Part:
    """A library that something depends on.

    Parameters
    ----------
    module : str
        Import name.
    distribution : str
        Name to install.
    enables : str
        What it is for.
    extra : str
        The extra that brings it; "" for a library the core needs.
    """

    module: str
    distribution: str
    enables: str
    extra: str = ""


@dataclass(frozen=True, slots=True)
class State:
    """What was found about a part.

    Parameters
    ----------
    part : str
        What it is.
    is_well : bool
        Whether it is there and usable.
    is_needed : bool
        Whether the core cannot do without it.
    found : str
        Version or fault.
    advice : str
        What to do; "" where nothing is.
    """

    part: str
    is_well: bool
    is_needed: bool
    found: str
    advice: str = ""


PARTS = (
    Part("typer", "typer", "the command line"),
    Part("rich", "rich", "readable tables"),
    Part("duckdb", "duckdb", "the catalogue"),
    Part("fluent.syntax", "fluent.syntax", "the wording of lessons"),
    Part("markdown_it", "markdown-it-py", "reading scripts"),
    Part("verovio", "verovio", "staves and accidentals"),
    Part("skia", "skia-python", "pictures as PNG and PDF"),
    Part("av", "av", "films and sound files"),
    Part("espeakng_loader", "espeakng-loader", "the built-in voice"),
    Part("mido", "mido", "sounds as MIDI files"),
    Part("pydantic", "pydantic", "reading series.toml"),
    Part("fastapi", "fastapi", "the studio"),
    Part("uvicorn", "uvicorn", "the studio's server"),
    Part("numba", "numba", "catalogues of more than 12 divisions", "catalogues"),
    Part("pyarrow", "pyarrow", "catalogues of more than 12 divisions, and frames", "catalogues"),
    Part("distributed", "distributed", "jobs on several machines", "cluster"),
    Part("fluidsynth", "pyfluidsynth", "the instruments of a SoundFont", "soundfont"),
)
_FROM_THE_SYSTEM = {
    "skia": "install the system's OpenGL libraries, on Debian: apt-get install libgl1 libegl1",
    "fluidsynth": "install the system's FluidSynth library, on Debian: apt-get install libfluidsynth3",
}
"""What loads a library that the system brings, and how to get that."""


def examine() -> list[State]:
    """Look at Python, every library and every pack of facts.

    Returns
    -------
    list of State
        One for each.

    Examples
    --------
    >>> examine()[0].part
    'python'
    """
    states = [State("python", is_well=True, is_needed=True, found=platform.python_version())]
    states.extend(_examine_part(part) for part in PARTS)
    try:
        packs = default_registry().packs
    except PackError as error:
        states.append(State("facts", is_well=False, is_needed=True, found=error.value, advice=str(error)))
    else:
        states.extend(
            State(f"facts: {pack.name}", is_well=True, is_needed=True, found=f"{pack.version}, {len(pack.facts)} facts")
            for pack in packs
        )
    return states


def _examine_part(part: Part) -> State:
    is_needed = not part.extra
    if util.find_spec(part.module) is None:
        install = f"gamutwright[{part.extra}]" if part.extra else part.distribution
        return State(
            part.distribution,
            is_well=False,
            is_needed=is_needed,
            found="not installed",
            advice=f"for {part.enables}: pip install '{install}'",
        )
    found = metadata.version(part.distribution)
    if part.module in _FROM_THE_SYSTEM:
        try:
            with redirect_stdout(io.StringIO()):  # pyfluidsynth tells where it found FluidSynth if CI is set
                importlib.import_module(part.module)
        except ImportError as error:
            return State(
                part.distribution,
                is_well=False,
                is_needed=False,
                found=f"{found}, but it does not load ({error})",
                advice=_FROM_THE_SYSTEM[part.module],
            )
    return State(part.distribution, is_well=True, is_needed=is_needed, found=found)


def run(*, as_json: bool) -> int:
    """Print the state of the installation.

    Parameters
    ----------
    as_json : bool
        JSON instead of text.

    Returns
    -------
    int
        Exit code: 1 where something needed is missing, else 0.
    """
    states = examine()
    failed = any(state.is_needed and not state.is_well for state in states)
    if as_json:
        print(json.dumps({"version": __version__, "parts": to_plain(states)}, indent=1))
        return int(failed)
    console = Console(highlight=False)
    console.print(f"gamutwright {__version__}", style="bold")
    for state in states:
        mark = "ok     " if state.is_well else "MISSING" if state.is_needed else "absent "
        console.print(Text(f"{mark}  {state.part:20} {state.found}"))
        if state.advice:
            console.print(Text(f"         {state.advice}", style="italic"))
    return int(failed)
