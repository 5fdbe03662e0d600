"""The ways through all the major and minor triads of a scale by the moves P, L and R.

The triads of a scale and the moves between them form a graph, with at most three moves from each. A Hamiltonian path
visits every triad once; a Hamiltonian cycle also returns to where it began.

Conventions: twelve divisions. Triads are chords counted from the root of the scale. Paths and cycles are counted
without direction, a cycle also without a starting point. A path is written from its lower end, a cycle from its lowest
triad towards the lower of its neighbours, where triads are ordered by root and on one root major comes before minor.

The search extends a path triad by triad and gives up as soon as two triads could only be its end. Transpositions and
inversions that map the scale to itself map paths to paths, and no triad to itself, so one starting triad of each orbit
is enough.

References: Albini and Antonini, Hamiltonian Cycles in the Topological Dual of the Tonnetz (2009).
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from operator import itemgetter

from gamutwright.theory.harmony import Chord
from gamutwright.theory.pcset import inversion_stabiliser, transposition_stabiliser
from gamutwright.theory.scale import Scale
from gamutwright.theory.triadmoves import MOVES, major_and_minor_triads, moved_triad

__all__ = [
    "hamiltonian_cycle_count",
    "hamiltonian_cycles",
    "hamiltonian_path_count",
    "hamiltonian_path_tones",
    "hamiltonian_paths",
]

# A triad as one number: twice its root, and one more if it is minor. So bytes hold a path, and `translate` moves it.
_CHORDS = tuple(Chord(root, suffix) for root in range(12) for suffix in ("", "m"))
_NUMBERS = {chord: triad for triad, chord in enumerate(_CHORDS)}
_NEIGHBOURS = tuple(tuple(sorted(_NUMBERS[moved_triad(chord, move)] for move in MOVES)) for chord in _CHORDS)
_MOVE_BETWEEN = {
    pair: move
    for number, chord in enumerate(_CHORDS[::2])
    for move in MOVES
    for other in (_NUMBERS[moved_triad(chord, move)],)
    for pair in ((2 * number, other), (other, 2 * number))
}
_TONES = tuple(chord.tones for chord in _CHORDS)
_NEIGHBOUR_MASKS = tuple(sum(1 << other for other in others) for others in _NEIGHBOURS)


def _symmetries(scale: Scale) -> tuple[bytes, ...]:
    """Give the permutations of triads, as translation tables, by the symmetries of the scale; the identity first."""
    turns = [[(triad + 2 * k) % 24 for triad in range(24)] for k in transposition_stabiliser(scale)]
    flips = [
        # k - x turns the fifth of a triad into the root of a triad of the other mode.
        [2 * ((k - triad // 2 - 7) % 12) + 1 - triad % 2 for triad in range(24)]
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
    triads = [_NUMBERS[chord] for chord in major_and_minor_triads(scale)]
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


def _undirected_paths(scale: Scale) -> list[tuple[bytes, tuple[tuple[int, ...], ...], str]]:
    """Find every path from its lower end, with its tones and its moves, which the symmetries leave alone."""
    moved_triads = [(table, tuple(_TONES[triad] for triad in table[:24])) for table in _symmetries(scale)]
    found = []
    for orbit, paths in _starting_points(scale.mask):
        # Of a path and its reverse the one from the lower end is kept; which symmetries give it, both ends tell.
        from_below = {
            end: [moved for moved in moved_triads if moved[0][orbit[0]] <= moved[0][end]]
            for end in {path[-1] for path in paths}
        }
        for path in paths:
            moves = _moves(path)
            # One call for all triads of a path is twice as quick as a look-up for each.
            taken = itemgetter(*path) if len(path) > 1 else lambda tones, only=path[0]: (tones[only],)
            found += [(path.translate(table), taken(tones), moves) for table, tones in from_below[path[-1]]]
    return sorted(found)


def _moves(path: bytes) -> str:
    return "".join(_MOVE_BETWEEN[step] for step in pairwise(path))


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
    >>> [[chord.root for chord in path] for path in hamiltonian_paths(Scale.of(0, 2, 4, 5, 7, 9, 11))]
    [[2, 5, 9, 0, 4, 7]]
    """
    major_and_minor_triads(scale)
    return tuple(_chords(path) for path, _, _ in _undirected_paths(scale))


def hamiltonian_path_tones(scale: Scale) -> tuple[tuple[tuple[tuple[int, ...], ...], str], ...]:
    """List the same paths by the tones of their triads, with the moves; quick where there are thousands.

    Parameters
    ----------
    scale : Scale, 12 divisions
        The scale.

    Returns
    -------
    tuple of (tuple of tuple of int, str)
        The tones of each triad of a path from its root up, and a letter for each move.

    Raises
    ------
    DomainError
        If the scale is not one of twelve divisions.

    Examples
    --------
    >>> hamiltonian_path_tones(Scale.of(0, 3, 4, 7))
    ((((0, 4, 7), (0, 3, 7)), 'P'),)
    """
    major_and_minor_triads(scale)
    return tuple((tones, moves) for _, tones, moves in _undirected_paths(scale))


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
    >>> [[chord.root for chord in cycle] for cycle in hamiltonian_cycles(Scale.of(0, 3, 4, 7, 8, 11))]
    [[0, 0, 8, 8, 4, 4]]
    """
    major_and_minor_triads(scale)
    return tuple(_chords(path) for path in sorted(path for path in _directed_cycles(scale) if path[1] < path[-1]))
