"""How a script becomes a film: look and voice, as chosen on the command line or written down for a whole course.

Conventions: plain data, so that it can be digested, and sent to another process; files are those of this machine.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

__all__ = ["SIZES", "Settings", "takes_folder"]

SIZES = {"1080p": (1920, 1080), "2160p": (3840, 2160), "720p": (1280, 720), "vertical": (1080, 1920)}


@dataclass(frozen=True, slots=True)
class Settings:
    """Look and voice.

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
    """

    size: str = "1080p"
    theme: str = "night"
    rate: float = 1.0
    pitch: int = 50
    piper: Path | None = None
    lexicon: Path | None = None

    @property
    def voice_files(self) -> tuple[Path, ...]:
        """The files that the voice needs: a Piper voice with its description, and the lexicon."""
        piper = (self.piper, self.piper.with_name(f"{self.piper.name}.json")) if self.piper else ()
        return (*piper, *((self.lexicon,) if self.lexicon else ()))

    def inputs(self, script: Path) -> tuple[Path, ...]:
        """List what settles a lesson: its script, what lies beside it and may be drawn upon, and the voice's files.

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
        return (script, takes_folder(script), *sorted(script.parent.glob("*.txt")), *self.voice_files)


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
