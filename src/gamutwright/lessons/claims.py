"""Every statement of a script, held against what is computed.

A claim is words bound to a fact (`fact=`), to its witnesses (`each=`), to a comparison (`than=`), to a mode's ordinal
(`mode-of=`), to a share (`rare=`), or to a definition (`define=`). Numbers, ordinals, names of notes, chords and
intervals, negations and the terms of facts that stand outside such words are looked for too (`unbound`), because a
statement nobody can check is how mistakes get out.

Conventions: a verdict is `confirmed`, `contradicted`, `unbound` or `inapplicable`; words released by `opinion` or
`quote` are listed as `released` and not judged. Places are offsets in the script's source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache

from gamutwright.catalogue.shares import shares_of
from gamutwright.errors import GamutwrightError, InputError, UnknownFactError, told
from gamutwright.facts.model import Citation, Fact, Value, Witness
from gamutwright.facts.profile import Finding, find
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.languages import language_of
from gamutwright.lessons.attributes import BINDINGS
from gamutwright.lessons.cues import cue_faults
from gamutwright.lessons.prose import sentence_spans
from gamutwright.lessons.readings import Reading, read_comparison, read_ordinal, read_places, read_share, read_value
from gamutwright.lessons.script import Line, Mark, Passage, Script
from gamutwright.lessons.unbound import Mention, Surroundings, unbound_mentions
from gamutwright.phrasing.engine import Wording, wording_for
from gamutwright.theory.scale import Scale

__all__ = ["Checker", "Claim", "Report", "Verdict", "check"]


@lru_cache(maxsize=1024)
def _read(text: str, divisions: int) -> Scale:
    return read_scale(text, divisions=divisions).scale


@lru_cache(maxsize=4096)
def _finding(fact: Fact, scale: Scale) -> Finding:
    """Evaluate a fact once: a script is checked again after every few words."""
    return find(fact, scale)


class Verdict(StrEnum):
    """What became of a claim."""

    CONFIRMED = "confirmed"
    CONTRADICTED = "contradicted"
    UNBOUND = "unbound"
    INAPPLICABLE = "inapplicable"
    RELEASED = "released"


@dataclass(frozen=True, slots=True)
class Claim:
    """Words of a script and what became of them.

    Parameters
    ----------
    line_id : str
        The line they stand in.
    words : str
        The words.
    span : tuple of int
        Their place in the source.
    kind : str
        fact, each, comparison, mode, share, definition, explanation, opinion, quote, cue, or what stands unbound.
    verdict : Verdict
        What became of them.
    fact_id : str
        The fact they are bound to; "" for none.
    said : str
        What was understood.
    computed : Value or None
        What is so.
    expected : str
        Words that would agree.
    reason : str
        Why the verdict is not `confirmed`, as a clause.
    mend : str
        What to do, as a sentence.
    of : str
        The other scale it speaks of.
    witnesses : tuple of Witness
        The places that make the fact true.
    sources : tuple of Citation
        The fact's sources.
    """

    line_id: str
    words: str
    span: tuple[int, int]
    kind: str
    verdict: Verdict
    fact_id: str = ""
    said: str = ""
    computed: Value | None = None
    expected: str = ""
    reason: str = ""
    mend: str = ""
    of: str = ""
    witnesses: tuple[Witness, ...] = ()
    sources: tuple[Citation, ...] = ()


@dataclass(frozen=True, slots=True)
class Report:
    """What a check found.

    Parameters
    ----------
    script : Script
        The script.
    scale : Scale
        The scale it is about.
    claims : tuple of Claim
        Every claim, in the order of the text.
    registry : Registry
        The facts that they were held against; whatever is made from the script uses the same.
    """

    script: Script
    scale: Scale
    claims: tuple[Claim, ...]
    registry: Registry = field(compare=False, repr=False)

    @property
    def faults(self) -> tuple[Claim, ...]:
        """Claims that are contradicted, unbound or inapplicable."""
        well = {Verdict.CONFIRMED, Verdict.RELEASED}
        return tuple(claim for claim in self.claims if claim.verdict not in well)

    def count(self, verdict: Verdict) -> int:
        """Count the claims of one verdict."""
        return sum(claim.verdict is verdict for claim in self.claims)


@dataclass(frozen=True, slots=True)
class Checker:
    """Checks the lines of one script.

    Parameters
    ----------
    scale : Scale
        The scale of the lesson.
    wording : Wording
        The wording of its language.
    registry : Registry
        The facts on offer.
    """

    scale: Scale
    wording: Wording
    registry: Registry

    def finding(self, fact: Fact, scale: Scale) -> Finding:
        """Give what a fact says of a scale."""
        return _finding(fact, scale)

    def other(self, text: str) -> Scale:
        """Read another scale that an attribute names."""
        return _read(text, self.scale.divisions)

    def passage(self, passage: Passage) -> Iterator[Claim]:
        """Check a passage; the terms of all facts it is bound to may stand in any of its lines."""
        marks = [mark for line in passage.lines for mark in line.marks]
        bound = {mark.get(key) or "" for mark in marks for key in ("fact", "each", "rare", "define", "explain")}
        facts = tuple(self.registry.facts[fact_id] for fact_id in sorted(bound) if fact_id in self.registry.facts)
        for line in passage.lines:
            yield from self.line(line, facts)

    def line(self, line: Line, facts: Sequence[Fact] = ()) -> Iterator[Claim]:
        """Check one line.

        Parameters
        ----------
        line : Line
            The line.
        facts : sequence of Fact
            The facts its passage is bound to.

        Yields
        ------
        Claim
            The claims it makes, then what stands unbound in it, in the order of the text.
        """
        found = [claim for mark in line.marks if not mark.is_point for claim in self._mark(line, mark)]
        cues = [claim for mark in line.marks for claim in self._cues(line, mark)]
        makes_claims = any(claim.fact_id and claim.kind != "definition" for claim in found)
        others = [value for mark in line.marks for key in ("than", "of", "mode-of", "with") if (value := mark.get(key))]
        surroundings = Surroundings(tuple(facts), tuple(others), self.scale, makes_claims=makes_claims)
        mentions = unbound_mentions(line, surroundings, self.wording, self.registry)
        found.extend((*cues, *(self._unbound(line, mention) for mention in mentions)))
        retold = language_of(self.wording.language).retold
        for claim in sorted(found, key=lambda claim: claim.span):
            if claim.reason:
                yield replace(
                    claim, reason=retold(claim.reason), mend=retold(claim.mend), expected=retold(claim.expected)
                )
            else:
                yield claim

    def _unbound(self, line: Line, mention: Mention) -> Claim:
        return Claim(
            line.id,
            line.text[mention.start : mention.end],
            line.source_span(mention.start, mention.end),
            mention.kind,
            Verdict.UNBOUND,
            reason=told("{what} stands without a binding", what=mention.reason),
            mend=mention.mend,
        )

    def _cues(self, line: Line, mark: Mark) -> Iterator[Claim]:
        for fault in cue_faults(mark, self.scale, self.registry):
            yield Claim(
                line.id, f"{fault.key}={fault.value}", mark.whole, "cue", Verdict.UNBOUND,
                reason=fault.reason, mend=fault.mend,
            )  # fmt: skip

    def _mark(self, line: Line, mark: Mark) -> Iterator[Claim]:
        words = line.text[slice(*mark.words)]
        for kind in ("opinion", "quote"):
            if mark.get(kind) is not None:
                source = mark.get("source") or ""
                yield Claim(line.id, words, mark.span, kind, Verdict.RELEASED, said=source)
        for key in (*BINDINGS, "explain"):
            bound_to = mark.get(key)
            if bound_to is not None:
                try:
                    yield self._judge(line, mark, words, key, bound_to)
                except GamutwrightError as error:
                    yield Claim(
                        line.id, words, mark.span, key, Verdict.UNBOUND,
                        reason=told("{value}: {rule}", value=error.value, rule=error.rule), mend=error.next_step,
                    )  # fmt: skip

    def _judge(self, line: Line, mark: Mark, words: str, key: str, bound_to: str) -> Claim:
        if key == "mode-of":
            return self._mode(line, mark, words, bound_to)
        fact = self.registry.fact(bound_to)
        if not self.wording.speaks_of(fact):
            raise UnknownFactError(
                told("fact '{id}'", id=fact.id),
                told(
                    "its pack has no words for it in the language '{language}', so nothing can be said of it",
                    language=self.wording.language,
                ),
                told(
                    "Add them to the pack's wording/{language}.ftl, or take the binding away.",
                    language=self.wording.language,
                ),
            )
        if key == "explain":
            # Whether the words explain it well nobody can compute; what they state is looked at like all other words.
            return Claim(line.id, words, mark.span, "explanation", Verdict.RELEASED, fact.id)
        if key == "define":
            return self._definition(line, mark, words, fact)
        of = mark.get("of") or ""
        scale = self.other(of) if of else self.scale
        finding = self.finding(fact, scale)
        if finding.value is None:
            return Claim(
                line.id, words, mark.span, key, Verdict.INAPPLICABLE, fact.id, of=of,
                reason=told(
                    "{title} says nothing of this scale: {why}", title=self.wording.title(fact), why=finding.reason
                ),
                mend=told("Leave the statement out."), sources=fact.sources,
            )  # fmt: skip
        kind, reading, computed = self._read(mark, words, key, fact, finding, scale)
        verdict = Verdict.CONFIRMED if reading.is_true else Verdict.CONTRADICTED
        understood = (
            told("it says {said}", said=self._said(reading))
            if reading.said
            else told("the words state nothing that can be read")
        )
        so = told(
            "{understood}, but {title} is: {expected}",
            understood=understood,
            title=self.wording.title(fact),
            expected=reading.expected,
        )
        return Claim(
            line.id, words, mark.span, kind, verdict, fact.id, reading.said, computed, reading.expected,
            "" if reading.is_true else so,
            "" if reading.is_true else self._mend(reading, key), of or mark.get("than") or "",
            finding.witnesses if key == "each" else (), fact.sources,
        )  # fmt: skip

    def _mend(self, reading: Reading, key: str) -> str:
        if key == "each":
            if not reading.expected:
                return told("Point at each.")
            return told("Point at every place, or name them: {expected}.", expected=reading.expected)
        return told("Write: {expected}.", expected=reading.expected)

    def _said(self, reading: Reading) -> str:
        """Say what was understood; of a yes or no, in the language of the script."""
        language = language_of(self.wording.language)
        return {"yes": language.yes, "no": language.no}.get(reading.said, reading.said)

    def _read(
        self, mark: Mark, words: str, key: str, fact: Fact, finding: Finding, scale: Scale
    ) -> tuple[str, Reading, Value | None]:
        value, witnesses = finding.value, finding.witnesses
        assert value is not None  # noqa: S101 - the caller has asked
        place = int(mark.get("at") or 0)
        if key == "rare":
            return ("share", *self._share(mark, words, fact, scale))
        if key == "each":
            chosen = witnesses[place - 1 : place] if place else witnesses
            return "each", read_places(words, chosen, scale, self.wording), len(chosen)
        if place:
            if not isinstance(value, tuple) or place > len(value):
                raise InputError(
                    f"at={place}",
                    told("{title} has no entry of that number", title=self.wording.title(fact)),
                    told("Count its entries from one."),
                )
            return "fact", read_value(words, fact, value[place - 1 : place], scale, self.wording), value[place - 1]
        than = mark.get("than")
        if than is not None:
            theirs = self.finding(fact, self.other(than)).value
            if not isinstance(value, int | float | Fraction) or not isinstance(theirs, int | float | Fraction):
                raise InputError(
                    f"than={than}",
                    told("{title} is no number for both scales", title=self.wording.title(fact)),
                    told("Compare a number."),
                )
            return "comparison", read_comparison(words, value, theirs, self.wording), value
        return "fact", read_value(words, fact, value, scale, self.wording), value

    def _share(self, mark: Mark, words: str, fact: Fact, scale: Scale) -> tuple[Reading, Value]:
        shares = shares_of(scale.divisions)
        share = shares.of(fact, scale) if shares else None
        if share is None:
            raise InputError(
                f"rare={fact.id}",
                told("shares of this fact are not counted in {divisions} divisions", divisions=scale.divisions),
                told("State it as your opinion, or leave it out."),
            )
        by_class = mark.get("by") == "class"
        count = share.classes_alike if by_class else share.scales_alike
        total = share.family.classes if by_class else share.family.scales
        return read_share(words, count, total, self.wording), Fraction(count, total)

    def _mode(self, line: Line, mark: Mark, words: str, text: str) -> Claim:
        other = self.other(text)
        degrees = [k for k in range(1, other.cardinality + 1) if other.mode(k).mask == self.scale.mask]
        reading = read_ordinal(words, degrees, self.wording)
        so = told("as a mode of {other} this scale is: {expected}", other=text, expected=reading.expected)
        verdict = Verdict.CONFIRMED if reading.is_true else Verdict.CONTRADICTED
        return Claim(
            line.id, words, mark.span, "mode", verdict, "", reading.said, tuple(degrees), reading.expected,
            "" if reading.is_true else so,
            "" if reading.is_true else told("Write: {expected}.", expected=reading.expected), text,
        )  # fmt: skip

    def _definition(self, line: Line, mark: Mark, words: str, fact: Fact) -> Claim:
        plain = _plain(words)
        held = {
            _plain(text[start:end])
            for text in (self.wording.definition(fact, self.scale.divisions), fact.definition)
            for start, end in sentence_spans(text, self.wording.language)
        }
        if plain in held:
            return Claim(
                line.id, words, mark.span, "definition", Verdict.CONFIRMED, fact.id, expected=words,
                sources=fact.sources,
            )  # fmt: skip
        return Claim(
            line.id, words, mark.span, "definition", Verdict.UNBOUND, fact.id,
            reason=told("these are not the words in which {title} is defined here", title=self.wording.title(fact)),
            mend=told("Take the held definition, or stand by your own with {opinion} or {quote source=...}."),
            sources=fact.sources,
        )  # fmt: skip


def _plain(text: str) -> str:
    return " ".join(text.split()).strip(" .!?:").casefold()


def check(script: Script, registry: Registry | None = None) -> Report:
    """Check every statement of a script.

    Parameters
    ----------
    script : Script
        The script.
    registry : Registry, optional
        The facts on offer; those installed without it.

    Returns
    -------
    Report
        Every claim with its verdict.

    Raises
    ------
    InputError
        If the script's scale cannot be read.
    """
    offered = registry or default_registry()
    divisions = int(dict(script.front.others).get("divisions", "12"))
    try:
        scale = _read(script.front.scale, divisions)
    except GamutwrightError as error:
        error.retell(language_of(script.front.language).retold)
        raise
    checker = Checker(scale, wording_for(script.front.language), offered)
    claims = tuple(claim for passage in script.passages for claim in checker.passage(passage))
    return Report(script, scale, claims, offered)
