"""`gamutwright errata`: what of a published lesson no longer holds."""

from __future__ import annotations

import json
from pathlib import Path

from gamutwright.codec import to_plain
from gamutwright.facts.registry import default_registry
from gamutwright.files import write_text
from gamutwright.publish.errata import errata, errata_page

__all__ = ["run_errata"]


def run_errata(folder: Path, output: Path | None, *, as_json: bool) -> int:
    """Check a published package again.

    Parameters
    ----------
    folder : Path
        The package.
    output : Path or None
        Where the note goes, as Markdown; it is printed without it.
    as_json : bool
        Print data instead.

    Returns
    -------
    int
        0 where everything still holds, 1 where something changed.
    """
    found = errata(folder, default_registry())
    note = errata_page(found)
    if output is not None:
        write_text(output, note)
    if as_json:
        print(json.dumps(to_plain(found), ensure_ascii=False, indent=1))
    elif output is None:
        print(note, end="")
    return int(bool(found.corrections or found.redefined))
