"""Markup on words: claims bound to facts, and sentences made presentable.

Conventions: a wording file sets the words that state a value between ‹ and ›; here they become `[words]{fact=id}`.
"""

from __future__ import annotations

import re

__all__ = ["as_sentences", "bind_claims", "marked"]

_CLAIM = re.compile(r"‹([^‹›]*)›")
_OPENING = re.compile(r"(?:^|(?<=[.!?] ))([\[„“\"(]*)(\w)")
_PLAIN_ID = re.compile(r"[\w.-]+")


def marked(words: str, **attributes: str | int | None) -> str:
    """Put attributes on words, as a script writes them.

    Parameters
    ----------
    words : str
        The words.
    **attributes : str, int or None
        Attributes in the order wanted; None is left out, an underscore in a name stands for a hyphen, and one at its
        end is dropped (`of_`).

    Returns
    -------
    str
        The words in brackets with their attributes in braces; the words alone where there are no attributes.

    Examples
    --------
    >>> marked("more", fact="semitone_steps", than="C major")
    '[more]{fact=semitone_steps than="C major"}'
    """
    written = []
    for name, value in attributes.items():
        if value is None:
            continue
        text = str(value)
        if not _PLAIN_ID.fullmatch(text):
            quoted = text.replace("\\", "\\\\").replace('"', '\\"')
            text = f'"{quoted}"'
        written.append(f"{name.rstrip('_').replace('_', '-')}={text}")
    return f"[{words}]{{{' '.join(written)}}}" if written else words


def as_sentences(text: str) -> str:
    """Begin every sentence with a capital and let no blanks double.

    Parameters
    ----------
    text : str
        Sentences, with or without marks.

    Returns
    -------
    str
        The same, presentable.

    Examples
    --------
    >>> as_sentences("two  steps. [no]{fact=tritones} more.")
    'Two steps. [No]{fact=tritones} more.'
    """
    text = re.sub(r"\s+", " ", text).strip()
    return _OPENING.sub(lambda found: found[1] + found[2].upper(), text)


def _lifted(text: str) -> str:
    """Begin a sentence with a capital although a claim's mark stands before its first word."""
    return re.sub(r"(^\s*|[.!?] )‹(\w)", lambda found: f"{found[1]}‹{found[2].upper()}", text)


def bind_claims(text: str, fact_id: str, show: str | None = None, **more: str | None) -> str:
    """Turn words between ‹ and › into claims.

    Parameters
    ----------
    text : str
        Sentences of a wording file, their slots filled.
    fact_id : str
        Id of the fact they state.
    show : str, optional
        A diagram to show at the first claim.
    **more : str or None
        Further attributes of the claims, as `marked` takes them.

    Returns
    -------
    str
        Script markup, every sentence beginning with a capital.

    Examples
    --------
    >>> bind_claims("‹two› of them.", "tritones", "ladder")
    '[Two]{fact=tritones show=ladder} of them.'
    """
    shows = iter([show])
    bound = _CLAIM.sub(
        lambda found: marked(found[1], fact=fact_id, **more, show=next(shows, None)), as_sentences(_lifted(text))
    )
    if show and f"show={show}" not in bound:  # all claims are entries of a list, marked already
        bound = re.sub(r"(\{fact=[^}]*)\}", rf"\1 show={show}}}", bound, count=1)
    return bound
