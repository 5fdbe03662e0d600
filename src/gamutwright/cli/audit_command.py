"""`gamutwright audit`: find the mistakes in a lesson that exists already."""

from __future__ import annotations

import json
from pathlib import Path

from gamutwright.errors import InputError
from gamutwright.files import write_text
from gamutwright.lessons.audit import audit
from gamutwright.lessons.auditing.audit_report import audit_to_markdown, audit_to_plain
from gamutwright.lessons.auditing.transcript import decode
from gamutwright.lessons.claims import Verdict

__all__ = ["run"]


def run(
    file: Path,
    *,
    scale: str | None = None,
    language: str = "en",
    form: str = "auto",
    divisions: int = 12,
    as_json: bool = False,
    output: Path | None = None,
) -> int:
    """Audit a file and print or write the report.

    Parameters
    ----------
    file : Path
        Plain text, Markdown, SRT or WebVTT.
    scale : str or None
        The scale it is about; the one it states without it.
    language : str
        Language of the text.
    form : str
        auto, text, srt or vtt.
    divisions : int in [2, 72]
        Equal divisions of the octave for the scale given.
    as_json : bool
        JSON instead of Markdown.
    output : Path or None
        File to write to; standard output without it.

    Returns
    -------
    int
        Exit code: 1 where anything is contradicted, else 0.

    Raises
    ------
    InputError
        If the file cannot be read, or gives no scale or time codes.
    FileError
        If the report cannot be written; what was there before stays.
    """
    try:
        content = file.read_bytes()
    except OSError as error:
        raise InputError(f"file '{file}'", f"cannot be read: {error.strerror}", "Check the path.") from error
    source, remarks = decode(content)
    found = audit(
        source, scale=scale, language=language, form=form, name=file.name, divisions=divisions, remarks=remarks
    )
    if as_json:
        report = json.dumps(audit_to_plain(found), ensure_ascii=False, indent=1) + "\n"
    else:
        report = audit_to_markdown(found)
    if output is None:
        print(report, end="")
    else:
        write_text(output, report)
    return int(bool(found.of(Verdict.CONTRADICTED)))
