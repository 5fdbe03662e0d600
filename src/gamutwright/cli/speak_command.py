"""`gamutwright speak`, `takes` and `take`: a line said aloud, and lines in the teacher's own voice."""

from __future__ import annotations

import json
from pathlib import Path

import typer
from rich.console import Console
from rich.text import Text

from gamutwright.codec import to_plain
from gamutwright.errors import FileError, InputError
from gamutwright.files import write_text
from gamutwright.lessons.parse import load
from gamutwright.lessons.script import Line
from gamutwright.phrasing.spoken_names import note_places
from gamutwright.render.audiofile import write_audio
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.piper import PiperVoice
from gamutwright.render.signal import Signal
from gamutwright.render.takes import Take, choose_take, list_takes
from gamutwright.render.voice import Voice
from gamutwright.series.line_recordings import (
    LineState,
    add_recording,
    find_line,
    lost_lines,
    states_of_lines,
    with_id,
)
from gamutwright.settings import takes_folder

__all__ = ["add", "choose", "list_states", "run"]


def run(
    text: str,
    *,
    output: Path,
    language: str,
    rate: float,
    pitch: int,
    piper: Path | None,
    words: Path | None,
    as_json: bool,
    is_forced: bool,
) -> None:
    """Speak a line into a sound file.

    Parameters
    ----------
    text : str
        The line.
    output : Path
        A file ending in .wav, .flac, .m4a or .mp3.
    language : str
        Its language.
    rate : float in [0.7, 3]
        Speed.
    pitch : int in [0, 99]
        Height of the built-in voice.
    piper : Path or None
        A Piper voice, instead of the built-in one.
    words : Path or None
        A lexicon of one's own.
    as_json : bool
        Print the times of the words as JSON.
    is_forced : bool
        Whether a file that is there may be replaced.
    """
    if output.exists() and not is_forced:
        raise FileError(str(output), "it is there already", "Choose another name, or add --force.")
    voice: Voice = (
        PiperVoice(piper, language, rate, own_words=words)
        if piper
        else EspeakVoice(language, rate, pitch, own_words=words)
    )
    spoken = voice.speak(text, note_places(text, language))
    if not spoken.words:
        raise InputError(repr(text), "it has no words", "Give a sentence.")
    write_audio(output, Signal.of_samples(spoken.samples))
    if as_json:
        words_told = [{"text": text[word.start_char : word.end_char], **_fields(word)} for word in spoken.words]
        print(json.dumps({"seconds": round(spoken.seconds, 3), "words": words_told}, ensure_ascii=False, indent=1))
        return
    typer.echo(f"{output}: {spoken.seconds:.1f} s, {len(spoken.words)} words", err=True)


def _fields(record: object) -> dict[str, object]:
    plain = to_plain(record)
    return dict(plain) if isinstance(plain, dict) else {}


def list_states(path: Path, *, as_json: bool) -> int:
    """List the lines of a script with the state of their takes.

    Parameters
    ----------
    path : Path
        The script.
    as_json : bool
        Print JSON instead of a list.

    Returns
    -------
    int
        1 where a take is stale, else 0.
    """
    script = load(path)
    folder = takes_folder(path)
    rows = [_row(state) for state in states_of_lines(script, folder)]
    lost = lost_lines(script, folder)
    if as_json:
        print(json.dumps({"lines": rows, "without_a_line": lost}, ensure_ascii=False, indent=1))
    else:
        _print_states(rows, lost, folder)
    return int(any(row["state"] == "stale" for row in rows))


def _row(state: LineState) -> dict[str, object]:
    take = state.chosen
    return {
        "number": state.number,
        "id": state.line.id,
        "text": state.line.text,
        "state": state.state.value,
        "take": take.number if take else None,
        "takes": len(state.takes),
        "seconds": take.seconds if take else None,
        "faults": ", ".join(fault.value for fault in take.faults) if take else "",
    }


_COLOURS = {"none": "dim", "stale": "bold yellow", "recorded": "green"}


def _print_states(rows: list[dict[str, object]], lost: tuple[str, ...], folder: Path) -> None:
    console = Console(highlight=False, soft_wrap=True)
    for row in rows:
        state = str(row["state"])
        text = Text(f"{row['number']:>3}  {row['id']}  ").append(f"{state:8}", style=_COLOURS[state])
        about = f"take {row['take']} of {row['takes']}, {row['seconds']} s" if row["take"] else ""
        if row["faults"]:
            about += f", {row['faults']}"
        console.print(text.append(f"  {row['text']}").append(f"  [{about}]" if about else "", style="dim"))
    done = sum(row["state"] == "recorded" for row in rows)
    console.print(Text(f"{done} of {len(rows)} lines recorded", style="bold"))
    for line_id in lost:
        takes = list_takes(folder, line_id)
        words = f': "{takes[-1].text}"' if takes else ""
        console.print(Text(f"{folder / line_id}: takes of a line that is no longer there{words}", style="yellow"))


def add(path: Path, name: str, recording: Path) -> None:
    """Take a recording in for a line; a line without a written id gets the one it is known by.

    Parameters
    ----------
    path : Path
        The script.
    name : str
        Id or number of the line.
    recording : Path
        The recording.
    """
    script = load(path)
    _, line = find_line(script, name)
    take = add_recording(script, line, takes_folder(path), recording)
    if not line.has_own_id:
        write_text(path, with_id(script, line))
        typer.echo(f"{path}: {{#{line.id}}} written behind the line, so that it keeps its takes", err=True)
    _report(line, take)


def choose(path: Path, name: str, number: int) -> None:
    """Choose which take of a line is spoken.

    Parameters
    ----------
    path : Path
        The script.
    name : str
        Id or number of the line.
    number : int
        Number of the take.
    """
    _, line = find_line(load(path), name)
    _report(line, choose_take(takes_folder(path), line.id, number))


def _report(line: Line, take: Take) -> None:
    words = len(take.times)
    typer.echo(
        f"{take.path}: {take.seconds:.1f} s, {words} words, {take.words_per_minute:.0f} a minute, "
        f"{take.loudness_lufs:.1f} LUFS, peak {take.peak_dbtp:.1f} dBTP, noise {take.noise_dbfs:.0f} dBFS"
    )
    for fault in take.faults:
        typer.secho(f"  {fault.value}: {fault.advice}", fg="yellow")
    if take.is_stale(line.text):
        typer.secho("  stale: the words of the line have changed since. Record it again.", fg="yellow")
