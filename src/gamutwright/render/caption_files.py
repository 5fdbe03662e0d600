r"""Caption and chapter files: WebVTT and SubRip, written from a timeline.

WebVTT as in the W3C recommendation: a header, then cues separated by blank lines, times with three decimals, `&`, `<`
and `>` escaped, no `-->` in the text. SubRip has no standard; the common form is a number from 1, times with a comma,
text, and a blank line (from memory).

Conventions: times are rounded to the millisecond; files are UTF-8 with `\n` (WebVTT) and `\r\n` (SubRip).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from gamutwright.ir.timeline import TICKS_PER_SECOND, Caption

__all__ = ["chapters_to_webvtt", "clock_time", "to_srt", "to_webvtt"]


def clock_time(tick: int, mark: str = ".") -> str:
    """Write a moment as hours, minutes, seconds and milliseconds.

    Parameters
    ----------
    tick : int >= 0
        The moment.
    mark : str
        What stands before the milliseconds.

    Returns
    -------
    str
        Such as 00:01:02.500.

    Examples
    --------
    >>> clock_time(62 * 48_000 + 24_000)
    '00:01:02.500'
    """
    milliseconds = (tick * 1000 + TICKS_PER_SECOND // 2) // TICKS_PER_SECOND
    seconds, rest = divmod(milliseconds, 1000)
    return f"{seconds // 3600:02d}:{seconds // 60 % 60:02d}:{seconds % 60:02d}{mark}{rest:03d}"


def _escaped(text: str) -> str:
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def to_webvtt(captions: Sequence[Caption]) -> str:
    """Write captions as WebVTT.

    Parameters
    ----------
    captions : sequence of Caption
        In order.

    Returns
    -------
    str
        The file.

    Examples
    --------
    >>> print(to_webvtt([Caption(0, 48_000, "Listen & sing.")]), end="")
    WEBVTT
    <BLANKLINE>
    1
    00:00:00.000 --> 00:00:01.000
    Listen &amp; sing.
    """
    cues = [
        f"{number}\n{clock_time(caption.start_tick)} --> {clock_time(caption.end_tick)}\n{_escaped(caption.text)}\n"
        for number, caption in enumerate(captions, 1)
    ]
    return "\n".join(["WEBVTT\n", *cues])


def to_srt(captions: Sequence[Caption]) -> str:
    r"""Write captions as SubRip.

    Parameters
    ----------
    captions : sequence of Caption
        In order.

    Returns
    -------
    str
        The file.

    Examples
    --------
    >>> to_srt([Caption(0, 48_000, "Listen.")])
    '1\r\n00:00:00,000 --> 00:00:01,000\r\nListen.\r\n'
    """
    cues = [
        f"{number}\n{clock_time(caption.start_tick, ',')} --> {clock_time(caption.end_tick, ',')}\n{caption.text}\n"
        for number, caption in enumerate(captions, 1)
    ]
    return "\n".join(cues).replace("\n", "\r\n")


def chapters_to_webvtt(spans: Iterable[tuple[int, int, str]]) -> str:
    """Write chapters as WebVTT.

    Parameters
    ----------
    spans : iterable of (int, int, str)
        From which tick to which each lasts, and its title; in order.

    Returns
    -------
    str
        The file; a cue for each chapter, none overlapping.

    Examples
    --------
    >>> chapters_to_webvtt([(0, 96_000, "Hear it")]).splitlines()[-1]
    'Hear it'
    """
    return to_webvtt([Caption(*span) for span in spans])
