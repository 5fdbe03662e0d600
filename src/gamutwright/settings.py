"""How a script becomes a film: look, voice and instruments, chosen on the command line or written down for a course.

Conventions: plain data, so that it can be digested, and sent to another process; files are those of this machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

__all__ = ["SIZES", "Settings", "takes_folder"]

SIZES = {"1080p": (1920, 1080), "2160p": (3840, 2160), "720p": (1280, 720), "vertical": (1080, 1920)}


@dataclass(frozen=True, slots=True)
class Settings:
    """Look, voice and instruments.

    Parameters
    ----------
    size : str
        A key of `SIZES`.
    theme : str
        Name of the theme.
    rate : float
        Speed of the voice.
    pitch : int
        Height of the built-in voice.
    piper : Path or None
        A Piper voice, instead of the built-in one.
    lexicon : Path or None
        A lexicon of one's own.
    soundfont : Path or None
        A SoundFont, instead of the built-in instruments.
    instruments : tuple of str
        Its instruments for the parts, as `render.soundfont.players_of` reads them.
    written_for : tuple of str
        Keys of transposing instruments that the handout is written for too.
    play_along : bool
        Whether the package has a minute or two to play along with.
    """

    size: str = "1080p"
    theme: str = "night"
    rate: float = 1.0
    pitch: int = 50
    piper: Path | None = None
    lexicon: Path | None = None
    soundfont: Path | None = None
    instruments: tuple[str, ...] = ()
    written_for: tuple[str, ...] = ()
    play_along: bool = True

    @property
    def voice_files(self) -> tuple[Path, ...]:
        """The files that the voice needs: a Piper voice with its description, and the lexicon."""
        piper = (self.piper, self.piper.with_name(f"{self.piper.name}.json")) if self.piper else ()
        return (*piper, *((self.lexicon,) if self.lexicon else ()))

    @property
    def instrument_files(self) -> tuple[Path, ...]:
        """The files that the instruments need: the SoundFont."""
        return (self.soundfont,) if self.soundfont else ()

    def inputs(self, script: Path) -> tuple[Path, ...]:
        """List what settles a lesson: its script, what lies beside it, and the files of voice and instruments.

        Parameters
        ----------
        script : Path
            The script.

        Returns
        -------
        tuple of Path
            Files and folders; they need not all be there.

        Examples
        --------
        >>> [path.name for path in Settings(lexicon=Path("words.toml")).inputs(Path("nowhere/script.md"))]
        ['script.md', 'takes', 'words.toml']
        """
        beside = sorted(script.parent.glob("*.txt"))
        return (script, takes_folder(script), *beside, *self.voice_files, *self.instrument_files)


def takes_folder(script: Path) -> Path:
    """Give the folder of a script's takes.

    Parameters
    ----------
    script : Path
        The script.

    Returns
    -------
    Path
        `takes` beside it.
    """
    return script.parent / "takes"
