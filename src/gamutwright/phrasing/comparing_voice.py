"""Comparing with known scales, and saying how rare something is.

Conventions: as `voice`.
"""

from __future__ import annotations

from fractions import Fraction

from gamutwright.facts.model import Dtype, Fact, Value
from gamutwright.phrasing.claim_marks import as_sentences, bind_claims, marked
from gamutwright.phrasing.phrase_book import Voice
from gamutwright.phrasing.spoken_numbers import number_in_speech
from gamutwright.theory.scale import Scale

__all__ = ["ComparingVoice"]

_FEW = 12
_ONE_PERCENT = Fraction(1, 100)


class ComparingVoice(Voice):
    """A voice that sets a scale beside others."""

    def comparison(self, fact: Fact, mine: Value, theirs: Value, of: str, name: str, variant: int = 0) -> str:
        """Compare a value with that of a known scale.

        Parameters
        ----------
        fact : Fact
            The fact; one with a number and words for comparing, or a yes-or-no fact.
        mine, theirs : Value
            The value of this scale and of the other.
        of : str
            The other scale, as a script's attribute names it ("C major").
        name : str
            The other scale, as a sentence names it ("the major scale"), without note names.
        variant : int
            Which shape.

        Returns
        -------
        str
            A bound sentence; "" where the fact cannot be compared.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> fact = default_registry().fact("semitone_steps")
        >>> ComparingVoice("en").comparison(fact, 3, 2, "C major", "the major scale")
        'It has [more]{fact=semitone_steps than="C major"} semitone steps than the major scale.'
        """
        if isinstance(mine, bool) and isinstance(theirs, bool):
            key = "compare-alike" if mine == theirs else "compare-unlike"
            slots = {"other": name, "value": f"‹{self.value_in_words(fact, theirs, Scale(1))}›"}
            return bind_claims(self._phrase(key, variant, slots), fact.id, None, of=of)
        if fact.dtype is not Dtype.INT:
            return ""
        assert isinstance(mine, int)  # noqa: S101 - the dtype says so
        assert isinstance(theirs, int)  # noqa: S101 - as above
        way = "same" if mine == theirs else "more" if mine > theirs else "fewer"
        if self.has(fact, way):
            return bind_claims(self._messages.format(fact.message, way, {"other": name}), fact.id, None, than=of)
        if not self.has(fact, "noun"):
            return ""
        slots = {"other": name, "noun": self._messages.format(fact.message, "noun", {})}
        return bind_claims(self._phrase(f"compare-{way}", variant, slots), fact.id, None, than=of)

    def share_in_words(self, count: int, total: int) -> str:
        """Say a share: in percent, or as so many of so many where they are few.

        Parameters
        ----------
        count, total : int
            How many of how many; `count` from 1 to `total`.

        Returns
        -------
        str
            Words that `numbers.find_shares` reads.

        Examples
        --------
        >>> [ComparingVoice("en").share_in_words(*pair) for pair in ((6, 462), (231, 462), (77, 462), (1, 9))]
        ['six of 462', '50 percent', 'about 17 percent', 'one of nine']
        """
        share = Fraction(count, total)
        if count <= _FEW or share < _ONE_PERCENT:
            parts = [number_in_speech(number, self.language) for number in (count, total)]
            if count == 1:
                parts[0] = self._messages.format("share-words", "one", {})
            return f" {self._numerals.share_word} ".join(parts)
        percent = round(share * 100)
        hedge = "" if share * 100 == percent else f"{self._numerals.hedge} "
        return f"{hedge}{percent} {self._numerals.percent_word}"

    def rarity(self, fact: Fact, count: int, total: int, variant: int = 0, *, by_class: bool = False) -> str:
        """Say how rare a fact's value is among the scales of the same size.

        Parameters
        ----------
        fact : Fact
            The fact.
        count, total : int
            How many scales of how many have the value.
        variant : int
            Which shape.
        by_class : bool
            Whether transposition classes are counted instead of rooted scales.

        Returns
        -------
        str
            A sentence with the share bound.

        Examples
        --------
        >>> from gamutwright.facts.registry import default_registry
        >>> ComparingVoice("en").rarity(default_registry().fact("is_deep"), 7, 462)
        'Among all scales of this size, this holds for only [seven of 462]{rare=is_deep}.'
        """
        words = marked(self.share_in_words(count, total), rare=fact.id, by="class" if by_class else None)
        key = "rare" if Fraction(count, total) <= Fraction(1, 10) else "common"
        return as_sentences(self._phrase(f"{key}-classes" if by_class else key, variant, {"share": words}))
