"""`gamutwright sound`: any phrase of a scale in any tuning, as WAV, FLAC, AAC, MP3, MIDI or MusicXML file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from gamutwright.door.playing import sounded
from gamutwright.errors import DomainError, InputError
from gamutwright.inputs.text import read_scale
from gamutwright.ir.sound import Sound
from gamutwright.theory.scale import Scale

if TYPE_CHECKING:
    from gamutwright.render.audiofile import Written

__all__ = ["SoundOptions", "run"]

_MIDI_ENDINGS = {".mid", ".midi"}
_SCORE_ENDINGS = {".musicxml", ".xml"}


@dataclass(frozen=True, slots=True, kw_only=True)
class SoundOptions:
    """How a phrase sounds and where it goes.

    Parameters
    ----------
    divisions : int in [2, 72]
        Equal divisions of the octave.
    names : str
        Language of note names.
    root : str or None
        A root stated apart from the text.
    kind, fact : str or None
        Id of a phrase, and of the fact whose places are played.
    beside : str or None
        A second scale, to alternate with.
    timbre, tempo, tuning, metre, bars, version
        As for `sounded`.
    pitching : str
        For MIDI files: auto, plain, tuned or bent.
    soundfont : Path or None
        A SoundFont for FluidSynth, instead of our own synthesiser.
    instruments : tuple of str
        Its instruments for the parts, as `players_of` reads them.
    stems : Path or None
        A folder for a file of each part.
    loudness_lufs : float in [-40, -12]
        Loudness of the file.
    channels : int, 1 or 2
        Channels of the file.
    output : Path
        The file; its ending says the format.
    """

    output: Path
    divisions: int = 12
    names: str = "english"
    root: str | None = None
    kind: str | None = None
    fact: str | None = None
    beside: str | None = None
    timbre: str = "plucked"
    tempo: float | None = None
    tuning: str = "equal"
    metre: str | None = None
    bars: int | None = None
    version: int = 1
    pitching: str = "auto"
    soundfont: Path | None = None
    instruments: tuple[str, ...] = ()
    stems: Path | None = None
    loudness_lufs: float = -16.0
    channels: int = 2


def run(text: str, options: SoundOptions) -> None:
    """Read a scale, write a phrase and put it into a file.

    Parameters
    ----------
    text : str
        The scale as typed.
    options : SoundOptions
        How it sounds, and where it goes.

    Raises
    ------
    InputError
        If options do not go together.
    DomainError
        If a parameter lies outside its range.
    FileError
        If a file cannot be read or written.
    """
    first = read_scale(text, divisions=options.divisions, names=options.names, root=options.root).scale
    second = (
        read_scale(options.beside, divisions=options.divisions, names=options.names).scale if options.beside else None
    )
    if options.output.suffix.lower() in _SCORE_ENDINGS:
        _write_score(first, options)
        return
    sound = sounded(
        first,
        kind=options.kind,
        fact=options.fact,
        other=second,
        timbre=options.timbre,
        tempo=options.tempo,
        tuning=options.tuning,
        metre=options.metre,
        bars=options.bars,
        version=options.version,
    )
    if options.output.suffix.lower() in _MIDI_ENDINGS:
        asked = {"soundfont": options.soundfont, "instrument": options.instruments, "stems": options.stems}
        for name in (name for name, value in asked.items() if value):
            raise InputError(
                f"--{name} with a MIDI file", "such a file holds no samples", "Leave it out, or write a .wav file."
            )
        _write_midi(options.output, sound, options.pitching)
        print(f"{options.output}  {sound.seconds:.1f} s, {len(sound.notes)} notes")
        return
    _write_audio(sound, options)


def _write_score(scale: Scale, options: SoundOptions) -> None:
    from gamutwright.door.playing import scored
    from gamutwright.files import write_text

    text = scored(
        scale,
        options.kind,
        metre=options.metre,
        bars=options.bars,
        version=options.version,
        tempo=options.tempo,
    )
    write_text(options.output, text)
    print(
        f"{options.output}  {text.count('<part id=')} parts, {text.count('<measure ') // text.count('<part id=')} bars"
    )


def _write_midi(output: Path, sound: Sound, pitching: str) -> None:
    from gamutwright.publish.score.midi_writing import Pitching, write_midi

    if pitching not in set(Pitching):
        raise DomainError(f"pitching {pitching!r}", "there is none", f"Choose one of {', '.join(Pitching)}.")
    write_midi(output, sound, Pitching(pitching))


def _write_audio(sound: Sound, options: SoundOptions) -> None:
    from gamutwright.render.audiofile import export
    from gamutwright.render.soundfont import players_of
    from gamutwright.render.stems import write_stems

    players = players_of(options.soundfont, options.instruments)
    written = export(options.output, players.signal(sound), options.loudness_lufs, options.channels)
    _tell(written)
    if options.stems is not None:
        for stem in write_stems(options.stems, sound, players, options.output, options.channels):
            _tell(stem)


def _tell(written: Written) -> None:
    found = written.loudness
    print(
        f"{written.path}  {written.seconds:.1f} s, {found.integrated_lufs:.1f} LUFS, "
        f"true peak {found.true_peak_dbtp:.1f} dBTP, measured on the file"
    )
