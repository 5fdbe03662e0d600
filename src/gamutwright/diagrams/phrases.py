"""Phrases: a scale and its places as notes in time, with a mark at every place, so that pictures step with the sound.

Every phrase walks through *items*, numbered from 1: the tones of a scale on its way up and down, the places of a fact
one after another, chords, modes. `phrase_places` lists them in the form diagrams take; a mark names the item heard from
its tick on. So a picture that lights place number k when mark k passes cannot disagree with what is heard.

**Conventions.** One tone a beat, as a rule; runs that show a scale again take half a beat a tone. Chords are voiced
close, first broken, then struck. Tempo is in beats a minute. The order of things is a habit of teaching (common
practice, no source). What has bars is made in `music` and is played here by its name; the tones of the scale are its
items.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches

from gamutwright.diagrams.phrase_writer import Writer
from gamutwright.diagrams.sketch import Kind, Place
from gamutwright.errors import DomainError, told
from gamutwright.ir.sound import Sound
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import PIECES, Request, piece_of
from gamutwright.music.pitches import Register, led_voicing, names_of_steps
from gamutwright.music.sounding import piece_sound
from gamutwright.theory.harmony import triads
from gamutwright.theory.scale import Scale
from gamutwright.theory.triadgraph import hamiltonian_paths
from gamutwright.theory.triadmoves import triad_links

__all__ = ["PHRASES", "WALKS", "Walk", "Walked", "phrase", "phrase_places", "tones_of"]


@dataclass(frozen=True, slots=True)
class Walked:
    """What a phrase walks through.

    Parameters
    ----------
    scale : Scale
        The scale.
    places : tuple of Place
        Places that were named.
    other : Scale or None
        The second scale of an alternation.
    """

    scale: Scale
    places: tuple[Place, ...]
    other: Scale | None

    def of_kind(self, *kinds: Kind) -> tuple[Place, ...]:
        """Give the places that are of one of these kinds."""
        return tuple(place for place in self.places if place.kind in kinds)


def tones_of(request: Walked) -> tuple[Place, ...]:
    """Give the tones of the scale, from the root up.

    Parameters
    ----------
    request : Walked
        The scale.

    Returns
    -------
    tuple of Place
        A place for each.
    """
    names = names_of_steps(request.scale)
    return tuple(Place(Kind.TONE, ((tone,),), names[tone]) for tone in request.scale.tones)


def _witnesses(request: Walked) -> tuple[Place, ...]:
    return request.places or tones_of(request)


def _modes(request: Walked) -> tuple[Place, ...]:
    names = names_of_steps(request.scale)
    return request.of_kind(Kind.MODE) or tuple(
        Place(Kind.MODE, ((tone,),), names[tone]) for tone in request.scale.tones
    )


def _chords(request: Walked) -> tuple[Place, ...]:
    """Give the chords that were named, or the triads of the scale, or chords of every other tone."""
    scale = request.scale
    named = request.of_kind(Kind.CHORD)
    if named:
        return named
    tones = scale.tones
    if scale.divisions == 12:
        shapes = tuple(chord.tones for chord in triads(scale))
    elif len(tones) >= 5:
        shapes = tuple(tuple(tones[(k + skip) % len(tones)] for skip in (0, 2, 4)) for k in range(len(tones)))
    else:
        shapes = ()
    # What has no triad is heard whole; more than six tones at once would only be noise.
    return tuple(Place(Kind.CHORD, (shape,)) for shape in shapes or (tones[:6],))


def _intervals(request: Walked) -> tuple[Place, ...]:
    """Give the intervals that were named, or those of the lowest tone with each of the others, the octave last."""
    named = request.of_kind(Kind.INTERVAL, Kind.STEP, Kind.INTERVAL_PAIR)
    lowest, *others = request.scale.tones
    return named or tuple(Place(Kind.INTERVAL, ((lowest, tone),)) for tone in (*others, lowest))


def _alternation(request: Walked) -> tuple[Place, ...]:
    """Give the scales that were named, or the two that are compared."""
    scale, other = request.scale, request.other
    named = request.of_kind(Kind.SCALE, Kind.MODE)
    if other is None or named:
        if not named:
            raise DomainError(
                told("one scale alone"),
                told("an alternation needs a second one"),
                told("Name it: with= in a script, --with on the command line."),
            )
        return named
    turned = tuple(sorted((tone + other.root - scale.root) % scale.divisions for tone in other.tones))
    return (Place(Kind.SCALE, (scale.tones,)), Place(Kind.SCALE, (turned,)))


def _path(request: Walked) -> tuple[Place, ...]:
    """Give the triads of the path that was named, named chains of tones, or the first path through all triads."""
    for place in request.of_kind(Kind.PATH, Kind.LINK):
        return tuple(Place(Kind.CHORD, (part,)) for part in place.parts)
    chains = request.of_kind(Kind.TONES)
    if chains:
        return chains
    if request.scale.divisions == 12:
        for path in hamiltonian_paths(request.scale):
            return tuple(Place(Kind.CHORD, (chord.tones,)) for chord in path)
        for link in triad_links(request.scale):
            return tuple(Place(Kind.CHORD, (chord.tones,)) for chord in (link.major, link.minor))
    raise DomainError(
        told("this scale"),
        told("it has no path through major and minor triads"),
        told("Choose another phrase, such as chords or scale."),
    )


def _play_up(writer: Writer, request: Walked, *, ends: bool = True) -> None:
    scale = request.scale
    for number, tone in enumerate(scale.tones, 1):
        writer.mark(number)
        writer.tone(tone)
    writer.mark(1)
    writer.tone(scale.tones[0] + scale.divisions, 2 if ends else 1)


def _play_down(writer: Writer, request: Walked, *, begins: bool = True) -> None:
    scale = request.scale
    if begins:
        writer.mark(1)
        writer.tone(scale.tones[0] + scale.divisions)
    for number in range(scale.cardinality, 0, -1):
        writer.mark(number)
        writer.tone(scale.tones[number - 1], 2 if number == 1 else 1)


def _play_scale(writer: Writer, request: Walked) -> None:
    _play_up(writer, request, ends=False)
    _play_down(writer, request, begins=False)


def _play_drone(writer: Writer, request: Walked) -> None:
    """Play the scale over its own root; where the timbre fades the root is struck again every four beats."""
    scale = request.scale
    writer.drone(scale.tones[0] - scale.divisions, 2 * scale.cardinality + 2)
    _play_scale(writer, request)


def _play_places(writer: Writer, request: Walked, places: tuple[Place, ...]) -> None:
    for number, place in enumerate(places, 1):
        writer.mark(number, place.label)
        _PLAYERS[place.kind](writer, request.scale, place.parts)
        writer.rest(0.5)


def _play_path(writer: Writer, request: Walked, places: tuple[Place, ...]) -> None:
    if places[0].kind is not Kind.CHORD:
        _play_places(writer, request, places)
        return
    before: tuple[int, ...] = ()
    for number, place in enumerate(places, 1):
        writer.mark(number, place.label)
        before = led_voicing(place.parts[0], before, request.scale.divisions)
        writer.struck(before, 2 if number == len(places) else 1)


def _play_alternation(writer: Writer, request: Walked, places: tuple[Place, ...]) -> None:
    """Play the two scales twice in turn; or the first before each of several others."""
    names_own = places[0].parts[0] == request.scale.tones and len(places) == 2
    order = (1, 2, 1, 2) if names_own else tuple(n for k in range(len(places)) for n in (0, k + 1))
    for number in order:
        writer.mark(number, places[number - 1].label if number else "")
        if number:
            _PLAYERS[places[number - 1].kind](writer, request.scale, places[number - 1].parts)
        else:
            writer.run(request.scale.tones)
        writer.rest(0.5)


def _one_tone(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    writer.tone(parts[0][0] % scale.divisions)


def _intervals_apart_and_together(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    del scale
    for part in parts:
        steps = writer.close(part)
        writer.broken(steps)
        writer.struck(steps, 1)


def _a_chord(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    del scale
    steps = writer.close(parts[0])
    writer.broken(steps)
    writer.struck(steps, 1.5)


def _some_tones(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    """Play tones in their order; a chain that would climb beyond two octaves is folded into one."""
    n = scale.divisions
    rising = writer.close(parts[0])
    writer.broken(rising if rising[-1] <= 2 * n else tuple(tone % n for tone in parts[0]))


def _led_chords(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    before: tuple[int, ...] = ()
    for part in parts:
        before = led_voicing(part, before, scale.divisions)
        writer.struck(before, 1)


def _mirror(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    """Go up from the axis for half an octave, then down from it: the same steps are heard both ways."""
    n = scale.divisions
    index = parts[0][0] % n
    index += 2 * n if index < n else 0
    rising = [step for step in range((index + 1) // 2, (index + n) // 2 + 1) if scale.mask >> step % n & 1]
    falling = [index - step for step in rising]
    for way in (rising, falling):
        writer.broken(tuple(way))
        writer.rest(0.5)


def _a_mode(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    start = parts[0][0] % scale.divisions
    later = tuple(tone for tone in scale.tones if tone > start)
    earlier = tuple(tone + scale.divisions for tone in scale.tones if tone < start)
    writer.run((start, *later, *earlier))


def _a_scale(writer: Writer, scale: Scale, parts: tuple[tuple[int, ...], ...]) -> None:
    writer.run(tuple(sorted(tone % scale.divisions for tone in parts[0])))


_PLAYERS: Mapping[Kind, Callable[[Writer, Scale, tuple[tuple[int, ...], ...]], None]] = {
    Kind.TONE: _one_tone,
    Kind.STEP: _intervals_apart_and_together,
    Kind.INTERVAL: _intervals_apart_and_together,
    Kind.INTERVAL_PAIR: _intervals_apart_and_together,
    Kind.TONES: _some_tones,
    Kind.CHORD: _a_chord,
    Kind.LINK: _led_chords,
    Kind.PATH: _led_chords,
    Kind.AXIS: _mirror,
    Kind.MODE: _a_mode,
    Kind.SCALE: _a_scale,
}


@dataclass(frozen=True, slots=True)
class Walk:
    """A kind of phrase.

    Parameters
    ----------
    items : callable
        What it walks through.
    play : callable
        Plays these, and marks each with its number from 1.
    title : str
        What it is, after "the scale".
    """

    items: Callable[[Walked], tuple[Place, ...]]
    play: Callable[[Writer, Walked, tuple[Place, ...]], None]
    title: str


WALKS: dict[str, Walk] = {
    "scale": Walk(tones_of, lambda writer, request, _: _play_scale(writer, request), "up and down"),
    "up": Walk(tones_of, lambda writer, request, _: _play_up(writer, request), "up"),
    "down": Walk(tones_of, lambda writer, request, _: _play_down(writer, request), "down"),
    "witnesses": Walk(_witnesses, _play_places, "one place after another"),
    "modes": Walk(_modes, _play_places, "from each degree"),
    "chords": Walk(_chords, _play_places, "each chord broken and struck"),
    "intervals": Walk(_intervals, _play_places, "each interval"),
    "drone": Walk(tones_of, lambda writer, request, _: _play_drone(writer, request), "over its lowest tone"),
    "alternation": Walk(_alternation, _play_alternation, "two scales in turn"),
    "path": Walk(_path, _play_path, "from triad to triad"),
}
"""What walks through places one after another, by its id."""


class _Titles(Mapping[str, str]):
    """Titles of all that is offered now."""

    def __getitem__(self, name: str) -> str:
        return WALKS[name].title if name in WALKS else PIECES[name].title

    def __iter__(self) -> Iterator[str]:
        yield from (*WALKS, *PIECES)

    def __len__(self) -> int:
        return len(WALKS) + len(PIECES)


PHRASES = _Titles()
"""Title of every phrase by its id, in the order a reader looks for them."""


def _asked(kind: str, scale: Scale, places: tuple[Place, ...], other: Scale | None) -> Walked:
    if kind not in PHRASES:
        near, names = get_close_matches(kind, PHRASES, 1), ", ".join(PHRASES)
        raise DomainError(
            told("phrase {kind}", kind=repr(kind)),
            told("there is none of this name"),
            told("Did you mean {near}? There are {names}.", near=near[0], names=names)
            if near
            else told("Choose one of {names}.", names=names),
        )
    if not scale.tones:
        raise DomainError(
            told("a scale without tones"), told("it has nothing to play"), told("Give it a tone or more.")
        )
    if other is not None and (other.divisions != scale.divisions or not other.tones):
        raise DomainError(
            told("{divisions} beside {divisions2} divisions", divisions=other.divisions, divisions2=scale.divisions),
            told("two scales in one phrase divide the octave alike and have tones"),
            told("Choose two scales of one division."),
        )
    return Walked(scale, places, other)


def phrase_places(
    kind: str,
    scale: Scale,
    places: tuple[Place, ...] = (),
    other: Scale | None = None,
    wish: Request | None = None,
) -> tuple[Place, ...]:
    """List what a phrase walks through; its marks count these from 1.

    Parameters
    ----------
    kind, scale, places, other, wish
        As for `phrase`.

    Returns
    -------
    tuple of Place
        The items, as diagrams take them.

    Raises
    ------
    DomainError
        As for `phrase`.

    Examples
    --------
    >>> [place.parts for place in phrase_places("chords", Scale.of(0, 4, 7))]
    [((0, 4, 7),)]
    """
    request = _asked(kind, scale, places, other)
    if kind in PIECES:
        piece_of(kind, scale, wish)
        return tones_of(request)
    _refuse_wishes(kind, wish)
    return WALKS[kind].items(request)


def _refuse_wishes(kind: str, wish: Request | None) -> None:
    if wish is not None and (wish.metre or wish.bars or wish.version != 1):
        raise DomainError(
            told("metre, bars or version for {kind}", kind=kind),
            told("it has no bars"),
            told("Leave them out, or choose one of {list}.", list=", ".join(PIECES)),
        )


def phrase(
    kind: str,
    scale: Scale,
    places: tuple[Place, ...] = (),
    other: Scale | None = None,
    performance: Performance | None = None,
    wish: Request | None = None,
) -> Sound:
    """Write a phrase.

    Parameters
    ----------
    kind : str
        One of `PHRASES`.
    scale : Scale, at least one tone
        The scale.
    places : tuple of Place
        Places to walk through, where the phrase can take them; its own without them.
    other : Scale, optional
        The second scale of an alternation.
    performance : Performance, optional
        Timbre, tempo and tuning.
    wish : Request, optional
        Metre, length and version of what has bars.

    Returns
    -------
    Sound
        Notes, and a mark at the beginning of every item.

    Raises
    ------
    DomainError
        If there is no such phrase, the scale cannot play it, or it would last longer than half an hour.

    Examples
    --------
    >>> sound = phrase("up", Scale.of(0, 4, 7))
    >>> [round(note.freq_hz, 2) for note in sound.notes], [mark.item for mark in sound.marks]
    ([261.63, 329.63, 392.0, 523.25], [1, 2, 3, 1])
    >>> [symbol.text for symbol in phrase("cadence", Scale.of(2, 4, 5, 7, 9, 11, 0)).symbols]
    ['Dm', 'G', 'Dm']
    """
    request = _asked(kind, scale, places, other)
    performance = performance or Performance()
    if kind in PIECES:
        wish = wish or Request()
        return piece_sound(piece_of(kind, scale, replace(wish, tempo=performance.tempo)), performance)
    _refuse_wishes(kind, wish)
    wanted = WALKS[kind]
    writer = Writer(Register(scale, performance.tuning), performance)
    wanted.play(writer, request, wanted.items(request))
    return writer.sound(wanted.title)
