"""The moves P, L and R between major and minor triads, and the ways through all triads of a scale.

The moves P (parallel), L (leading-tone exchange) and R (relative) each hold two tones of a major or minor triad and
move the third; each undoes itself. The triads of a scale and the moves between them form a graph, at most three moves
from each. A Hamiltonian path visits every triad once; a Hamiltonian cycle also returns to where it began.

Conventions: twelve divisions. Triads are chords counted from the root of the scale. Paths and cycles are counted
without direction, a cycle also without a starting point. A path is written from its lower end, a cycle from its lowest
triad towards the lower of its neighbours, where triads are ordered by root and on one root major comes before minor.

The search extends a path triad by triad and gives up as soon as two triads could only be its end. Transpositions and
inversions that map the scale to itself map paths to paths, and no triad to itself, so one starting triad of each orbit
is enough.

References: Cohn, Journal of Music Theory 41 (1997); Douthett and Steinbach, Journal of Music Theory 42 (1998), 241-263;
Albini and Antonini, Hamiltonian Cycles in the Topological Dual of the Tonnetz (2009).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from gamutwright.errors import DomainError
from gamutwright.theory.harmony import TRIADS, Chord, chords_present
from gamutwright.theory.pcset import inversion_stabiliser, transposition_stabiliser
from gamutwright.theory.scale import Scale

__all__ = [
    "Link",
    "hamiltonian_cycle_count",
    "hamiltonian_cycles",
    "hamiltonian_path_count",
    "hamiltonian_paths",
    "leading_tone_exchange",
    "major_and_minor_triads",
    "parallel",
    "path_moves",
    "relative",
    "triad_links",
]

_MAJOR_AND_MINOR = {suffix: TRIADS[suffix] for suffix in ("", "m")}
_MOVES = {0: "P", 4: "L", 9: "R"}
# A triad as one number: twice its root, and one more if it is minor. So bytes hold a path, and `translate` moves it.
_CHORDS = tuple(Chord(root, suffix) for root in range(12) for suffix in ("", "m"))


@dataclass(frozen=True, slots=True)
class Link:
    """Two triads joined by one of the moves.

    Parameters
    ----------
    major, minor : Chord
        The triads.
    move : str
        P, L or R.
    """

    major: Chord
    minor: Chord
    move: str


def _moved(triad: Chord, up: int) -> Chord:
    """Change a triad's mode; the root of the minor one lies `up` steps above that of the major one."""
    if triad.suffix == "":
        return Chord((triad.root + up) % 12, "m")
    if triad.suffix == "m":
        return Chord((triad.root - up) % 12, "")
    raise DomainError(f"{triad}", "P, L and R move major and minor triads", "Give one of those.")


def parallel(triad: Chord) -> Chord:
    """Apply P: hold root and fifth, change the third.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.

    Returns
    -------
    Chord
        The triad of the other mode on the same root.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> parallel(Chord(0, ""))
    Chord(root=0, suffix='m')
    """
    return _moved(triad, 0)


def leading_tone_exchange(triad: Chord) -> Chord:
    """Apply L: hold the minor third and exchange the remaining tone for the one a semitone away.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.

    Returns
    -------
    Chord
        From a major triad the minor one a major third above it, and back.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> leading_tone_exchange(Chord(2, ""))
    Chord(root=6, suffix='m')
    """
    return _moved(triad, 4)


def relative(triad: Chord) -> Chord:
    """Apply R: hold the major third and move the remaining tone by a whole tone.

    Parameters
    ----------
    triad : Chord
        A major or minor triad.

    Returns
    -------
    Chord
        From a major triad the minor one a minor third below it, and back.

    Raises
    ------
    DomainError
        If the triad is neither major nor minor.

    Examples
    --------
    >>> relative(Chord(0, ""))
    Chord(root=9, suffix='m')
    """
    return _moved(triad, 9)


def triad_links(scale: Scale) -> tuple[Link, ...]:
    """Find the pairs of major and minor triads of a scale that one move joins.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Link
        By the root of the major triad upwards, then P, L, R.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [(link.major.root, link.move) for link in triad_links(Scale.of(0, 3, 4, 7, 9))]
    [(0, 'P'), (0, 'R')]
    """
    minor = set(chords_present(scale, {"m": TRIADS["m"]}))
    return tuple(
        Link(chord, other, move)
        for chord in chords_present(scale, {"": TRIADS[""]})
        for up, move in _MOVES.items()
        if (other := _moved(chord, up)) in minor
    )


def path_moves(path: tuple[Chord, ...]) -> str:
    """Name the moves along a path of triads.

    Parameters
    ----------
    path : tuple of Chord
        Major and minor triads, each joined to the next.

    Returns
    -------
    str
        One letter a move.

    Examples
    --------
    >>> path_moves((Chord(0, ""), Chord(9, "m"), Chord(5, "")))
    'RL'
    """
    return "".join(
        _MOVES[(after.root - before.root if before.suffix == "" else before.root - after.root) % 12]
        for before, after in pairwise(path)
    )


def major_and_minor_triads(scale: Scale) -> tuple[Chord, ...]:
    """Find the triads that the moves join.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of Chord
        Upwards from the root; on one root major before minor.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [(chord.root, chord.suffix) for chord in major_and_minor_triads(Scale.of(0, 3, 4, 7))]
    [(0, ''), (0, 'm')]
    """
    return chords_present(scale, _MAJOR_AND_MINOR)


_NEIGHBOURS = tuple(tuple(sorted(_CHORDS.index(_moved(chord, up)) for up in _MOVES)) for chord in _CHORDS)
_NEIGHBOUR_MASKS = tuple(sum(1 << other for other in others) for others in _NEIGHBOURS)


def _symmetries(scale: Scale) -> tuple[bytes, ...]:
    """Give the permutations of triads, as translation tables, by the symmetries of the scale; the identity first."""
    turns = [
        [_CHORDS.index(Chord((c.root + k) % 12, c.suffix)) for c in _CHORDS] for k in transposition_stabiliser(scale)
    ]
    flips = [
        # k - x turns the fifth of a triad into the root of a triad of the other mode.
        [_CHORDS.index(Chord((k - c.root - 7) % 12, "" if c.suffix else "m")) for c in _CHORDS]
        for k in inversion_stabiliser(scale)
    ]
    return tuple(bytes(table).ljust(256, b"\0") for table in (*turns, *flips))


def _paths_from(start: int, present: int) -> tuple[bytes, ...]:
    """Find all Hamiltonian paths from one triad through those of a mask."""
    found: list[bytes] = []
    path = [start]

    def extend(here: int, left: int, end: int) -> None:
        if not left:
            found.append(bytes(path))
            return
        for there in _NEIGHBOURS[here]:
            if not left >> there & 1:
                continue
            # The triads passed by lose a neighbour; with one left they can be reached but not left again.
            last = end
            for passed in _NEIGHBOURS[here]:
                if passed != there and left >> passed & 1:
                    ways = _NEIGHBOUR_MASKS[passed] & left
                    if not ways & (ways - 1):
                        if not ways or last not in {-1, passed}:
                            break
                        last = passed
            else:
                path.append(there)
                extend(there, left & ~(1 << there), last)
                path.pop()

    extend(start, present & ~(1 << start), -1)
    return tuple(found)


@lru_cache(maxsize=64)
def _starting_points(mask: int) -> tuple[tuple[bytes, tuple[bytes, ...]], ...]:
    """Give for each orbit of triads its members, the lowest first, and the paths from that one."""
    scale = Scale(mask)
    triads = [_CHORDS.index(chord) for chord in major_and_minor_triads(scale)]
    present = sum(1 << triad for triad in triads)
    tables = _symmetries(scale)
    found = []
    seen: set[int] = set()
    for triad in triads:
        if triad not in seen:
            orbit = bytes(table[triad] for table in tables)
            seen.update(orbit)
            found.append((orbit, _paths_from(triad, present)))
    return tuple(found)


def hamiltonian_path_count(scale: Scale) -> int:
    """Count the paths through all major and minor triads of a scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Undirected paths; 1 for a single triad, the path without a move, and 0 for none.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> hamiltonian_path_count(Scale.of(0, 2, 4, 5, 7, 9, 11)), hamiltonian_path_count(Scale(0b111111111111))
    (1, 5640)
    """
    major_and_minor_triads(scale)
    directed = sum(len(orbit) * len(paths) for orbit, paths in _starting_points(scale.mask))
    return (directed + 1) // 2


def _chords(path: bytes) -> tuple[Chord, ...]:
    return tuple(_CHORDS[triad] for triad in path)


def hamiltonian_paths(scale: Scale) -> tuple[tuple[Chord, ...], ...]:
    """List the paths through all major and minor triads of a scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of tuple of Chord
        Each path from its lower end, in ascending order.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [path_moves(path) for path in hamiltonian_paths(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    ['RLRLR']
    """
    major_and_minor_triads(scale)
    tables = _symmetries(scale)
    directed = (
        path.translate(table) for _, paths in _starting_points(scale.mask) for path in paths for table in tables
    )
    return tuple(_chords(path) for path in sorted(path for path in directed if path[0] <= path[-1]))


def _directed_cycles(scale: Scale) -> tuple[bytes, ...]:
    """Find the directed cycles from the lowest triad: the paths from it that end beside it."""
    orbits = _starting_points(scale.mask)
    if not orbits:
        return ()
    orbit, paths = orbits[0]
    beside = _NEIGHBOUR_MASKS[orbit[0]]
    return tuple(path for path in paths if len(path) > 2 and beside >> path[-1] & 1)


def hamiltonian_cycle_count(scale: Scale) -> int:
    """Count the cycles through all major and minor triads of a scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    int
        Cycles without direction or starting point.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> hamiltonian_cycle_count(Scale(0b111111111111)), hamiltonian_cycle_count(Scale.of(0, 2, 4, 5, 7, 9, 11))
    (62, 0)
    """
    major_and_minor_triads(scale)
    return len(_directed_cycles(scale)) // 2


def hamiltonian_cycles(scale: Scale) -> tuple[tuple[Chord, ...], ...]:
    """List the cycles through all major and minor triads of a scale.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of tuple of Chord
        Each from the lowest triad towards the lower of its neighbours in the cycle; the return is not written out.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> [path_moves((*cycle, cycle[0])) for cycle in hamiltonian_cycles(Scale.of(0, 3, 4, 7, 8, 11))]
    ['PLPLPL']
    """
    major_and_minor_triads(scale)
    return tuple(_chords(path) for path in sorted(path for path in _directed_cycles(scale) if path[1] < path[-1]))
