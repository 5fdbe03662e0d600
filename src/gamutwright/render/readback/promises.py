"""The ledger beside a film: its digest, and what it says the film must show and sound.

Conventions: the digest is that of all entries but itself (`codec.digest`).
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.codec import digest, plain_from_json
from gamutwright.errors import DomainError, InputError
from gamutwright.ir.evidence import Evidence, evidence_from_plain
from gamutwright.render.readback.film_report import Check, Group, broken, held

__all__ = ["read_ledger"]

LARGEST = 1 << 28
NEXT_STEP = "Give the ledger.json that was written beside the film."


def read_ledger(path: Path) -> tuple[Evidence, Check]:
    """Read what a ledger says of its film.

    Parameters
    ----------
    path : Path
        The ledger.

    Returns
    -------
    Evidence
        What the film must show and sound.
    Check
        Whether the ledger is as it was written.

    Raises
    ------
    InputError
        If it cannot be read, is no ledger, or says nothing of a film.
    """
    try:
        if path.stat().st_size > LARGEST:
            raise InputError(f"file '{path}'", "it is far too large for a ledger", NEXT_STEP)
        plain = plain_from_json(path.read_bytes())
    except OSError as error:
        raise InputError(f"file '{path}'", f"it cannot be read ({error.strerror or error})", NEXT_STEP) from error
    except ValueError as error:
        if isinstance(error, InputError):
            raise
        raise InputError(f"file '{path}'", f"it is no JSON ({_short(error)})", NEXT_STEP) from error
    if not isinstance(plain, dict) or not str(plain.get("format", "")).startswith("gamutwright.ledger/"):
        raise InputError(f"file '{path}'", "it is no ledger", NEXT_STEP)
    if "film" not in plain:
        raise InputError(
            f"file '{path}'",
            "this ledger says nothing of a film",
            "Give the one that gamutwright render wrote; that of gamutwright check knows the script alone.",
        )
    try:
        made = digest({key: value for key, value in plain.items() if key != "digest"})
    except (DomainError, ValueError) as error:
        raise InputError(f"file '{path}'", "it holds what no ledger holds", NEXT_STEP) from error
    return evidence_from_plain(plain["film"]), _digest_check(made, plain.get("digest"))


def _short(error: Exception) -> str:
    return str(error)[:100] or type(error).__name__


def _digest_check(made: str, said: object) -> Check:
    expected = "the ledger is as it was written: its digest fits its entries"
    if made == said:
        return held(Group.LEDGER, "digest", expected, f"{made[:12]}")
    found = f"the entries give {made[:12]}, the ledger says {str(said)[:12]}"
    return broken(
        Group.LEDGER,
        "digest",
        expected,
        found,
        "Somebody changed the ledger: render the film again, or find the original.",
    )
