"""Who may work: the workers of a cluster, compared with this machine before they are given anything.

A worker is refused if its environment differs, or if the folder of the store is shared by the others and not by it.

Conventions: a worker is named by its address.
"""

from __future__ import annotations

import uuid
from pathlib import Path

from gamutwright.errors import FileError, JobError
from gamutwright.jobs.dask_client import Connection, There, is_writable_here
from gamutwright.jobs.environment import differences, snapshot

__all__ = ["Members"]


class Members:
    """The workers of a cluster: those that may be given work, and those that are refused.

    Parameters
    ----------
    connection : Connection
        Through which they are seen.
    folder : Path
        That of the store.
    is_shared : bool, optional
        Whether workers must see that folder; None to find it out from the first that come.
    """

    def __init__(self, connection: Connection, folder: Path, *, is_shared: bool | None = None) -> None:
        self.connection, self.is_shared = connection, is_shared
        self._folder = folder
        self.there: dict[str, There] = {}
        self.refused: dict[str, tuple[There, str]] = {}

    @property
    def hands(self) -> int:
        """How many jobs they can work on at once."""
        return sum(worker.threads for worker in self.there.values())

    def changes(self) -> tuple[list[str], list[str]]:
        """Look who is there.

        Returns
        -------
        list of str
            Who left.
        list of str
            Who came, and may be given work.

        Raises
        ------
        FileError
            If the folder of the store cannot be written here.
        OSError
            If the scheduler is gone.
        """
        seen = self.connection.workers()
        left = [name for name, worker in self.there.items() if seen.get(name) != worker]
        for name in left:
            del self.there[name]
        self.refused = {name: about for name, about in self.refused.items() if seen.get(name) == about[0]}
        fresh = [name for name in seen if name not in self.there and name not in self.refused]
        came = []
        if fresh:
            for name, why in self._faults(fresh).items():
                if why:
                    self.refused[name] = (seen[name], why)
                else:
                    self.there[name] = seen[name]
                    came.append(name)
        return left, came

    def refuse(self, name: str, why: str) -> None:
        """Give a worker no more work.

        Parameters
        ----------
        name : str
            The worker.
        why : str
            Why.
        """
        worker = self.there.pop(name, None)
        if worker is not None:
            self.refused[name] = (worker, why)

    def refusal(self) -> JobError:
        """Say who was refused, and why.

        Returns
        -------
        JobError
            What to raise.
        """
        return JobError(
            "; ".join(f"worker {name}: {why}" for name, (_, why) in sorted(self.refused.items())),
            "what a worker makes must not differ from what would be made here",
            "Install the same versions there (the same constraints file), and start the workers again.",
        )

    def no_worker(self, address: str, seconds: float) -> JobError:
        """Say that there is nobody to work.

        Parameters
        ----------
        address : str
            Of the scheduler.
        seconds : float
            For how long.

        Returns
        -------
        JobError
            What to raise.
        """
        if self.refused:
            return self.refusal()
        return JobError(
            address,
            f"its scheduler has had no worker for {seconds:g} s",
            f"Start one on each machine: `dask worker {address} --nthreads 1`. What was finished is kept.",
        )

    def _faults(self, fresh: list[str]) -> dict[str, str]:
        """Say of each new worker why it cannot be used, "" where it can; leave out those that are gone again."""
        faults: dict[str, str] = {}
        for name, answer in self.connection.asked(snapshot, (), fresh).items():
            if isinstance(answer, OSError):
                continue
            if isinstance(answer, Exception):
                faults[name] = f"gamutwright cannot be used there ({type(answer).__name__}: {answer})"
            else:
                faults[name] = ", ".join(differences(snapshot(), answer))
        sound = [name for name, why in faults.items() if not why]
        if sound and self.is_shared is not False:
            seers = self._seers(sound)
            if self.is_shared is None:
                self.is_shared = len(seers) == len(sound)
            if self.is_shared:
                for name in set(sound) - seers:
                    faults[name] = f"it cannot read and write {self._folder}, which is shared"
        return faults

    def _seers(self, workers: list[str]) -> set[str]:
        """Give the workers that read and write the folder of the store."""
        folder = self._folder
        token, place = uuid.uuid4().hex, folder / f"shared-{uuid.uuid4().hex}"
        try:
            folder.mkdir(parents=True, exist_ok=True)
            place.write_text(token, encoding="ascii")
            asked = (str(folder.resolve()), place.name, token)
            answers = self.connection.asked(is_writable_here, asked, workers)
            place.unlink()
        except OSError as error:
            raise FileError(
                str(folder),
                f"intermediate results cannot be kept there ({error.strerror or error})",
                "Make room, or name another place with --store.",
            ) from error
        return {name for name, answer in answers.items() if answer is True}
