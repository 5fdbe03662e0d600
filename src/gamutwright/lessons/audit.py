"""Lessons that others have written or spoken, held against what is computed: text, Markdown, SRT and WebVTT.

A script binds every statement to a fact; an existing text binds nothing. Here each sentence is matched to facts by the
patterns of the language's `heard.toml`, the context is carried from sentence to sentence, and every match is judged
as a claim would be. What is not understood is counted and listed, so that a clean report means what it says.

**Conventions.** The scale is the one given, or the first the text names with its root, or a list of five notes or more.
Verdicts are confirmed, contradicted or inapplicable; words that sound like a term are proposed, never replaced.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from gamutwright.errors import GamutwrightError, InputError
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.languages import language_of
from gamutwright.lessons.auditing.cues import Remark
from gamutwright.lessons.auditing.discussion import Listener
from gamutwright.lessons.auditing.heard_lexicon import Lexicon, lexicon_of
from gamutwright.lessons.auditing.identities import Discussion, Subject, scale_label
from gamutwright.lessons.auditing.judging import Judge
from gamutwright.lessons.auditing.marked import mark
from gamutwright.lessons.auditing.mishearing import mishearings
from gamutwright.lessons.auditing.records import Misheard, Statement, Unheard
from gamutwright.lessons.auditing.transcript import Sentence, Transcript, read_transcript
from gamutwright.lessons.claims import Checker, Verdict
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.theory.scale import Scale

__all__ = ["LONGEST_TEXT", "Audit", "audit", "stated_scale"]

LONGEST_TEXT = 120_000
"""Characters of words: a talk of two hours, and an audit of some seconds."""
LARGEST_SOURCE = 4_000_000


@dataclass(frozen=True, slots=True)
class Audit:
    """What an audit found.

    Parameters
    ----------
    name : str
        Name of the text.
    language : str
        Language tag.
    scale : Scale
        The scale the text was held against.
    scale_name : str
        What it was called.
    transcript : Transcript
        The text in sentences.
    statements : tuple of Statement
        Everything understood, in order.
    unheard : tuple of Unheard
        Sentences with numbers, names or terms that were not judged, or not wholly.
    misheard : tuple of Misheard
        Words that sound like terms.
    remarks : tuple of Remark
        What had to be guessed.
    """

    name: str
    language: str
    scale: Scale
    scale_name: str
    transcript: Transcript
    statements: tuple[Statement, ...]
    unheard: tuple[Unheard, ...]
    misheard: tuple[Misheard, ...]
    remarks: tuple[Remark, ...]

    def of(self, verdict: Verdict) -> tuple[Statement, ...]:
        """Give the statements of one verdict."""
        return tuple(statement for statement in self.statements if statement.verdict == verdict)

    @property
    def plain(self) -> tuple[Sentence, ...]:
        """Sentences without any number, name or term, and without words that sound like one."""
        spoken = {item.sentence for item in self.statements} | {item.sentence for item in self.unheard}
        spoken |= {item.sentence for item in self.misheard}
        return tuple(sentence for k, sentence in enumerate(self.transcript.sentences) if k not in spoken)

    @property
    def coverage(self) -> tuple[int, int]:
        """How many of the sentences with numbers, names or terms had something judged in them."""
        judged = {statement.sentence for statement in self.statements}
        return len(judged), len(judged | {item.sentence for item in self.unheard})


def stated_scale(transcript: Transcript, language: str) -> tuple[Scale, str, bool] | None:
    """Find the scale that a text says it is about.

    Parameters
    ----------
    transcript : Transcript
        The text.
    language : str
        Language tag.

    Returns
    -------
    tuple of (Scale, str, bool) or None
        The scale, the words that name it, and whether they name its root; None where none is named.

    Examples
    --------
    >>> found = stated_scale(read_transcript("Tonight: the G acoustic scale.", "en"), "en")
    >>> found[0].tones, found[1]
    ((0, 2, 4, 6, 7, 9, 10), 'G acoustic scale')
    """
    unrooted: tuple[Scale, str, bool] | None = None
    for sentence in transcript.sentences:
        marked = mark(sentence.text, language)
        for mention in marked.scales:
            scale = mention.scale("C")
            if scale is not None and mention.root:
                return scale, mention.text, True
            if scale is not None and unrooted is None:
                unrooted = (scale, mention.text, False)
        listed = lexicon_of(language).frames["note_list"][0].search(marked.signs)
        names = marked.notes_in(*listed.span("list")) if listed else []
        if len(names) >= 5 and unrooted is None:
            names = names[:-1] if names[0] == names[-1] else names
            try:
                return read_scale(" ".join(names)).scale, " ".join(names), True
            except GamutwrightError:
                continue
    return unrooted


def _terms(wording: Wording, registry: Registry) -> re.Pattern[str]:
    words = {term.casefold() for fact in registry.facts.values() for term in (*wording.terms(fact), *fact.terms)}
    listed = "|".join(re.escape(word) for word in sorted(words, key=lambda word: (-len(word), word)))
    endings = language_of(wording.language).claims.endings
    return re.compile(rf"(?<!\w)(?:{listed})(?:{endings})?(?!\w)", re.IGNORECASE)


def _subject(
    transcript: Transcript, scale: str | None, language: str, divisions: int
) -> tuple[Subject, bool, tuple[Remark, ...]]:
    if scale:
        read = read_scale(scale, divisions=divisions)
        return Subject(read.scale, scale, "home"), True, ()
    found = stated_scale(transcript, language)
    if found is None:
        raise InputError(
            "the text", "names no scale that can be read", "Say which scale it is about, as in --scale 'G acoustic'."
        )
    stated, words, is_rooted = found
    message = f"the text is taken to be about: {words}"
    if not is_rooted:
        message += "; it names no root, so notes by name are not judged"
    return Subject(stated, scale_label(stated) if is_rooted else words, "home"), is_rooted, (Remark(0, message),)


def _too_long(what: str, most: int) -> InputError:
    return InputError(f"a text of {what}", f"texts of up to {most:,} are read", "Audit it in parts.")


def audit(
    source: str,
    *,
    scale: str | None = None,
    language: str = "en",
    form: str = "auto",
    name: str = "text",
    divisions: int = 12,
    remarks: tuple[Remark, ...] = (),
) -> Audit:
    """Audit a text.

    Parameters
    ----------
    source : str
        Plain text, Markdown, SRT or WebVTT.
    scale : str, optional
        The scale it is about, in any form; the one it states without it.
    language : str
        Language of the text, one of `known_languages()`.
    form : str
        text, srt, vtt or auto.
    name : str
        Name of the text, for messages.
    divisions : int in [2, 72]
        Equal divisions of the octave for the scale given.
    remarks : tuple of Remark
        What had to be guessed before, such as the encoding.

    Returns
    -------
    Audit
        Statements with their verdicts, and what was not understood.

    Raises
    ------
    InputError
        If no scale is given or stated, subtitles have no readable time code, or the text is longer than `LONGEST_TEXT`.
    DomainError
        If the language has no patterns.

    Examples
    --------
    >>> found = audit("The C major scale has seven notes. It has three semitones. Enjoy!")
    >>> [(statement.words, statement.verdict.value) for statement in found.statements]
    [('has seven notes', 'confirmed'), ('three semitones', 'contradicted')]
    >>> len(found.plain)
    1
    """
    lexicon: Lexicon = lexicon_of(language)
    if len(source) > LARGEST_SOURCE:
        raise _too_long(f"{len(source):,} characters with its time codes", LARGEST_SOURCE)
    transcript = read_transcript(source, language, form, name)
    words = sum(len(sentence.text) for sentence in transcript.sentences)
    if words > LONGEST_TEXT:
        raise _too_long(f"{words:,} characters of words", LONGEST_TEXT)
    home, is_rooted, guesses = _subject(transcript, scale, language, divisions)
    registry = default_registry()
    wording = wording_for(language)
    judge = Judge(Checker(home.scale, wording, registry), lexicon)
    listener = Listener(judge, Discussion(home, lexicon, is_rooted), _terms(wording, registry))
    found: list[Statement | Unheard] = []
    for number, sentence in enumerate(transcript.sentences):
        found.extend(listener.hear(number, sentence))
    found.extend(listener.finish())
    statements = sorted((s for s in found if isinstance(s, Statement)), key=lambda s: (s.sentence, s.start))
    return Audit(
        name, language, home.scale, home.label, transcript, tuple(statements),
        tuple(item for item in found if isinstance(item, Unheard)),
        mishearings(transcript, lexicon), (*remarks, *transcript.remarks, *guesses),
    )  # fmt: skip
