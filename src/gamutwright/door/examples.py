"""A sound example that can be looked into, heard in a notebook, and saved."""

from __future__ import annotations

import base64
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from gamutwright.files import write_text
from gamutwright.ir.sound import Sound

__all__ = ["Example"]

LOUDNESS_LUFS = -20.0


@dataclass(frozen=True, slots=True, repr=False)
class Example:
    """A sound example.

    Parameters
    ----------
    sound : Sound
        Its notes in time.
    title : str
        What it is called.
    score : callable, optional
        Writes it as MusicXML.

    Examples
    --------
    >>> import gamutwright as gw
    >>> gw.scale("D dorian").sound("scale")
    <Example: D dorian, 15 notes, 11.2 s>
    """

    sound: Sound
    title: str = ""
    score: Callable[[], str] | None = field(default=None, compare=False)

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return self.sound.seconds

    def save(self, path: str | Path, *, loudness_lufs: float = LOUDNESS_LUFS, channels: int = 2) -> Path:
        """Write it to a file, whole or not at all.

        Parameters
        ----------
        path : str or Path
            Where; its ending says the format: .wav, .flac, .m4a, .mp3, .mid; .musicxml for what has bars.
        loudness_lufs : float in [-40, -12]
            Loudness of the file. Listen at a moderate level: a file cannot know how loud it is played.
        channels : int, 1 or 2
            Its channels.

        Returns
        -------
        Path
            The file.

        Raises
        ------
        DomainError
            For another ending, or a loudness out of range.
        FileError
            If it cannot be written.
        """
        place = Path(path)
        if place.suffix.lower() == ".musicxml" and self.score is not None:
            write_text(place, self.score())
            return place
        if place.suffix.lower() in {".mid", ".midi"}:
            from gamutwright.publish.score.midi_writing import write_midi  # noqa: PLC0415 - only such a file needs it

            write_midi(place, self.sound)
            return place
        from gamutwright.render.audiofile import export  # noqa: PLC0415 - it loads the encoders
        from gamutwright.render.signal import Signal  # noqa: PLC0415 - as above

        export(place, Signal.of_sound(self.sound), loudness_lufs, channels)
        return place

    def __repr__(self) -> str:
        """Say what it is in a line."""
        about = f"{self.title}, " if self.title else ""
        return f"<Example: {about}{len(self.sound.notes)} notes, {self.seconds:.1f} s>"

    def _repr_html_(self) -> str:
        """Show a player in a notebook."""
        with tempfile.TemporaryDirectory() as folder:
            content = self.save(Path(folder) / "example.m4a").read_bytes()
        data = base64.b64encode(content).decode()
        return f'<audio controls src="data:audio/mp4;base64,{data}"></audio>'
