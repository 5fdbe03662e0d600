"""A scale: a root and a set of pitch classes in an equal division of the octave.

Conventions: tones are counted in steps of the division above the root, so bit 0 of the mask is the root itself; only
`Scale.pitch_classes` speaks of fixed pitch classes (C = 0 in twelve divisions). Tones are always listed upwards from
the root. The set may lack its root: complements and arbitrary pitch-class sets use the same value. The mask is how a
set is kept, never what it is called: what leaves the program, `repr` and plain data too, has the bits, root first.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from gamutwright.errors import DomainError

__all__ = ["MAX_DIVISIONS", "MIN_DIVISIONS", "Scale", "rotated_mask"]

MIN_DIVISIONS = 1
MAX_DIVISIONS = 72


def rotated_mask(mask: int, steps: int, divisions: int) -> int:
    """Move every member of a set mask up by a number of steps, around the octave.

    Parameters
    ----------
    mask : int in [0, 2**divisions)
        The set.
    steps : int
        How far to move, in steps of the division; may be negative.
    divisions : int > 0
        Equal divisions of the octave.

    Returns
    -------
    int
        The mask of {x + steps mod divisions}.

    Examples
    --------
    >>> bin(rotated_mask(0b000010010001, 7, 12))
    '0b100010000100'
    """
    steps %= divisions
    full = (1 << divisions) - 1
    return ((mask << steps) | (mask >> (divisions - steps))) & full


@dataclass(frozen=True, slots=True, repr=False)
class Scale:
    """A root and a set of tones above it.

    Parameters
    ----------
    mask : int in [0, 2**divisions)
        Bit k is set where the tone k steps above the root belongs to the scale.
    divisions : int in [1, 72]
        Equal divisions of the octave.
    root : int in [0, divisions)
        Pitch class of the root; 0 is C in twelve divisions.
    names : tuple of str
        A spelling the teacher fixed, one ASCII name a tone (`Eb`, `F##`); empty where the spelling policy decides.

    Raises
    ------
    DomainError
        If a parameter lies outside its range, or the names are not as many as the tones.

    Examples
    --------
    >>> major = Scale.of(0, 2, 4, 5, 7, 9, 11)
    >>> major.tones
    (0, 2, 4, 5, 7, 9, 11)
    >>> Scale.of(2, 4, 5, 7, 9, 11, 0).tones
    (0, 2, 3, 5, 7, 9, 10)
    """

    mask: int
    divisions: int = 12
    root: int = 0
    names: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not MIN_DIVISIONS <= self.divisions <= MAX_DIVISIONS:
            raise DomainError(
                f"{self.divisions} divisions",
                f"the octave is divided into {MIN_DIVISIONS} to {MAX_DIVISIONS} equal steps",
                "Choose another division.",
            )
        if not 0 <= self.mask < 1 << self.divisions:
            raise DomainError(
                "a set of tones",
                f"the tones of {self.divisions} divisions lie 0 to {self.divisions - 1} steps above the root",
                "Check the tones or the number of divisions.",
            )
        if not 0 <= self.root < self.divisions:
            raise DomainError(
                f"root {self.root}",
                f"the root is a pitch class from 0 to {self.divisions - 1}",
                "Choose another root.",
            )
        if self.names and len(self.names) != self.cardinality:
            raise DomainError(
                f"{len(self.names)} names",
                f"a fixed spelling names each of the {self.cardinality} tones once",
                "Give one name a tone, or none.",
            )

    def __repr__(self) -> str:
        """Show the bits, the root and a fixed spelling."""
        names = f", names={self.names!r}" if self.names else ""
        return f"Scale.from_bits({self.bits!r}, root={self.root}{names})"

    @classmethod
    def from_bits(cls, bits: str, root: int = 0, names: tuple[str, ...] = ()) -> Scale:
        """Make a scale from a row of ones and noughts.

        Parameters
        ----------
        bits : str
            One sign for each step of the octave, the root first.
        root : int
            Pitch class of the root.
        names : tuple of str
            A fixed spelling, one name a tone.

        Returns
        -------
        Scale
            The scale; it has as many divisions as there are signs.

        Raises
        ------
        DomainError
            If a sign is neither, or a parameter lies outside its range.

        Examples
        --------
        >>> Scale.from_bits("100010010000", root=9).pitch_classes
        (9, 1, 4)
        """
        if set(bits) - {"0", "1"}:
            raise DomainError(f"bits {bits!r}", "bits are ones and noughts", "Write them like '101011010101'.")
        return cls(sum(1 << step for step, sign in enumerate(bits) if sign == "1"), len(bits), root, names)

    @classmethod
    def of(cls, *pitch_classes: int, divisions: int = 12, root: int | None = None) -> Scale:
        """Make a scale from pitch classes; the first is the root unless one is stated.

        Parameters
        ----------
        *pitch_classes : int in [0, divisions)
            The pitch classes, in any order, each once.
        divisions : int in [1, 72]
            Equal divisions of the octave.
        root : int in [0, divisions), optional
            The root; without it the first pitch class, or 0 for the empty set.

        Returns
        -------
        Scale
            The scale on that root.

        Raises
        ------
        DomainError
            If a pitch class is outside the division or given twice.

        Examples
        --------
        >>> Scale.of(9, 0, 2, 4, 7).root
        9
        """
        if root is None:
            root = pitch_classes[0] if pitch_classes else 0
        mask = 0
        for pitch_class in pitch_classes:
            if not 0 <= pitch_class < divisions:
                raise DomainError(
                    f"pitch class {pitch_class}",
                    f"pitch classes of {divisions} divisions run from 0 to {divisions - 1}",
                    "Reduce it by octaves, or choose another division.",
                )
            bit = 1 << (pitch_class - root) % divisions
            if mask & bit:
                raise DomainError(
                    f"pitch class {pitch_class}", "is given twice", "Give each pitch class once; leave out the octave."
                )
            mask |= bit
        return cls(mask, divisions, root)

    @property
    def bits(self) -> str:
        """The set as a row of ones and noughts, one sign for each step of the octave, the root first.

        Examples
        --------
        >>> Scale.of(9, 1, 4).bits
        '100010010000'
        """
        return "".join("1" if self.mask >> step & 1 else "0" for step in range(self.divisions))

    def as_plain(self) -> dict[str, object]:
        """Give what plain data hold of the scale: bits, root and, where one is fixed, the spelling.

        Examples
        --------
        >>> Scale.of(9, 1, 4).as_plain()
        {'bits': '100010010000', 'root': 9}
        """
        return {"bits": self.bits, "root": self.root} | ({"names": self.names} if self.names else {})

    @property
    def tones(self) -> tuple[int, ...]:
        """Tones in steps above the root, ascending.

        Examples
        --------
        >>> Scale(0b10010001).tones
        (0, 4, 7)
        """
        return tuple(k for k in range(self.mask.bit_length()) if self.mask >> k & 1)

    @property
    def cardinality(self) -> int:
        """Number of tones.

        Examples
        --------
        >>> Scale(0b10010001).cardinality
        3
        """
        return self.mask.bit_count()

    @property
    def pitch_classes(self) -> tuple[int, ...]:
        """Pitch classes upwards from the root.

        Examples
        --------
        >>> Scale(0b10010001, root=9).pitch_classes
        (9, 1, 4)
        """
        return tuple((tone + self.root) % self.divisions for tone in self.tones)

    @property
    def pitch_class_mask(self) -> int:
        """Mask of the pitch classes, wherever the root is: bit k is pitch class k.

        Examples
        --------
        >>> bin(Scale(0b10010001, root=9).pitch_class_mask)
        '0b1000010010'
        """
        return rotated_mask(self.mask, self.root, self.divisions)

    @property
    def is_rooted(self) -> bool:
        """Whether the root belongs to the set.

        Examples
        --------
        >>> Scale(0b10).is_rooted
        False
        """
        return bool(self.mask & 1)

    @property
    def step_pattern(self) -> tuple[int, ...]:
        """Steps from each tone up to the next, closing at the octave; they sum to the division.

        Examples
        --------
        >>> Scale.of(0, 2, 3, 5, 7, 9, 10).step_pattern
        (2, 1, 2, 2, 2, 1, 2)
        >>> Scale.of(0).step_pattern, Scale(0).step_pattern
        ((12,), ())
        """
        tones = self.tones
        if not tones:
            return ()
        upper = (*tones[1:], tones[0] + self.divisions)
        return tuple(high - low for low, high in zip(tones, upper, strict=True))

    def transposed(self, steps: int) -> Scale:
        """Move the whole scale, root included, up by a number of steps.

        Parameters
        ----------
        steps : int
            Steps of the division; may be negative.

        Returns
        -------
        Scale
            The same scale on another root, spelled by policy.

        Examples
        --------
        >>> Scale.of(0, 4, 7).transposed(-3).pitch_classes
        (9, 1, 4)
        """
        return replace(self, root=(self.root + steps) % self.divisions, names=())

    def mode(self, degree: int) -> Scale:
        """Take another tone of the scale as the root.

        Parameters
        ----------
        degree : int in [1, cardinality]
            The tone to start from; 1 is the root.

        Returns
        -------
        Scale
            The same pitch classes heard from that tone; a fixed spelling is kept.

        Raises
        ------
        DomainError
            If the scale has no such degree.

        Examples
        --------
        >>> Scale.of(0, 2, 4, 5, 7, 9, 11).mode(2).step_pattern
        (2, 1, 2, 2, 2, 1, 2)
        """
        tones = self.tones
        if not 1 <= degree <= len(tones):
            raise DomainError(
                f"degree {degree}", f"the scale has degrees 1 to {len(tones)}", "Choose one of its degrees."
            )
        tone = tones[degree - 1]
        return Scale(
            rotated_mask(self.mask, -tone, self.divisions),
            self.divisions,
            (self.root + tone) % self.divisions,
            self.names[degree - 1 :] + self.names[: degree - 1],
        )

    def complement(self) -> Scale:
        """Take the tones left out, counted from the same root.

        Returns
        -------
        Scale
            The complement; it holds the root exactly if this scale does not.

        Examples
        --------
        >>> Scale.of(0, 2, 4, 5, 7, 9, 11).complement().tones
        (1, 3, 6, 8, 10)
        """
        return Scale(((1 << self.divisions) - 1) ^ self.mask, self.divisions, self.root)

    def inverted(self) -> Scale:
        """Turn every interval above the root into the same interval below it.

        Returns
        -------
        Scale
            The image of the tones under x to -x about the root.

        Examples
        --------
        >>> Scale.of(0, 4, 7).inverted().tones
        (0, 5, 8)
        """
        mask = sum(1 << (-tone) % self.divisions for tone in self.tones)
        return Scale(mask, self.divisions, self.root)
