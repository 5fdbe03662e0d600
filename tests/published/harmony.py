"""Rows about Fourier coefficients, triads, consonance, tunings and tuning words."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Callable
from fractions import Fraction

from gamutwright.theory.consonance import huron_consonance
from gamutwright.theory.fourier import fourier_magnitudes, is_balanced
from gamutwright.theory.harmony import Chord
from gamutwright.theory.miditune import word_to_freq_hz
from gamutwright.theory.ratios import euler_gradus, harmonicity, indigestibility, ratio_cents
from gamutwright.theory.roughness import (
    critical_bandwidth_hz,
    hutchinson_knopoff_curve,
    hutchinson_knopoff_roughness,
    inverse_harmonics,
    sethares_between,
    sethares_roughness,
    with_harmonics,
)
from gamutwright.theory.triadmoves import leading_tone_exchange, parallel, relative
from gamutwright.theory.tuning import (
    KIRNBERGER_III,
    PYTHAGOREAN,
    QUARTER_COMMA_MEANTONE,
    VALLOTTI,
    WERCKMEISTER_III,
    Tuning,
)
from published.row import Handler, Row

KEYS = {"C": 0, "C#": 1, "D": 2, "Eb": 3, "E": 4, "F": 5, "F#": 6, "G": 7, "G#": 8, "A": 9, "Bb": 10, "B": 11}
MOVES: dict[str, Callable[[Chord], Chord]] = {"P": parallel, "L": leading_tone_exchange, "R": relative}


def agrees(row: Row, ours: float, printed: str | None = None) -> None:
    """Ours equals the printed number to the places it is printed with; a misprint must not, beyond half a unit."""
    text = row.expected if printed is None else printed
    places = len(text.partition(".")[2])
    assert (abs(ours - float(text)) <= 0.5000001 * 10**-places) is not row.is_misprint, ours


def magnitude(row: Row) -> None:
    agrees(row, fourier_magnitudes(row.scale)[int(row.property[2:-1]) - 1])


def balanced(row: Row) -> None:
    assert is_balanced(row.scale) is (row.expected == "yes")


def orbit(moves: str) -> list[Chord]:
    chords = [Chord(0, "")]
    while len(chords) == 1 or chords[-1] != chords[0] or len(chords) % 2 == 0:
        chords.append(MOVES[moves[(len(chords) - 1) % 2]](chords[-1]))
    return chords[:-1]


def orbit_length(row: Row) -> None:
    assert row.numbers == Chord(0, "").tones
    assert len(orbit(row.property[-2:])) == int(row.expected)


def hexatonic_cycle(row: Row) -> None:
    assert tuple(sorted({tone for chord in orbit("PL") for tone in chord.tones})) == row.expected_ints


def huron(row: Row) -> None:
    assert huron_consonance(row.scale) == Fraction(row.expected)


def hutchinson_knopoff_g(row: Row) -> None:
    found = re.search(r"y=([\d.]+),cutoff=(None|[\d.]+)", row.property)
    assert found
    y, cutoff = found.groups()
    agrees(row, hutchinson_knopoff_curve(float(y), None if cutoff == "None" else float(cutoff)))


def bandwidth(row: Row) -> None:
    low_hz, high_hz = (float(number) for number in re.findall(r"\d+", row.property))
    agrees(row, critical_bandwidth_hz(low_hz, high_hz))


def hutchinson_knopoff_chord(row: Row) -> None:
    found = re.search(r"(\d+) harmonics", row.property)
    assert found
    freqs_hz = [440 * 2 ** ((int(key) - 69) / 12) for key in row.pcs.split()[1:]]
    agrees(row, hutchinson_knopoff_roughness(with_harmonics(freqs_hz, inverse_harmonics(int(found.group(1))))))


def sethares_program(row: Row) -> None:
    lists = [json.loads(text) for text in re.findall(r"\[.*?\]", row.pcs)]
    unit = sethares_roughness([(440.0, 1.0), (460.0, 1.0)])
    agrees(row, sethares_roughness(zip(*lists, strict=True)) / unit)


def minima_cents(ratios: list[float]) -> tuple[int, ...]:
    """Local minima, by whole cents, of the roughness between a sound of equal partials at 880 Hz and its copy above."""
    fixed = [(880 * ratio, 1.0) for ratio in ratios]
    curve = []
    for cents in range(1201):
        up = math.exp2(cents / 1200)
        curve.append(sethares_between(fixed, [(freq_hz * up, amplitude) for freq_hz, amplitude in fixed]))
    return tuple(cents for cents in range(1, 1200) if curve[cents - 1] >= curve[cents] <= curve[cents + 1])


def harmonic_minima(row: Row) -> None:
    assert minima_cents([float(place) for place in range(1, 10)]) == row.expected_ints


def stretched_minima(row: Row) -> None:
    """The timbre of the figure: partials on steps 0 9 14 18 21 25 27 30 of nine equal divisions."""
    assert minima_cents([2 ** (step / 9) for step in (0, 9, 14, 18, 21, 25, 27, 30)]) == row.expected_ints


def barlow_number(row: Row) -> None:
    found = re.search(r"\((\d+)\)", row.property)
    assert found
    assert indigestibility(int(found.group(1))) == Fraction(row.expected)


def barlow_interval(row: Row) -> None:
    lower, upper = (int(number) for number in row.property.split()[-1].split(":"))
    cents, size = row.expected.split()
    ratio = Fraction(upper, lower)
    agrees(row, ratio_cents(ratio), cents)
    agrees(row, abs(float(harmonicity(ratio))), size)


def gradus(row: Row) -> None:
    assert euler_gradus(*(int(number) for number in row.property.split()[-1].split(":"))) == int(row.expected)


def werckmeister_cents(row: Row) -> None:
    assert tuple(round(WERCKMEISTER_III.cents(key)) for key in range(12)) == row.expected_ints


def werckmeister_hz(row: Row) -> None:
    found = re.search(r"Hz ([A-G][b#]?)3", row.property)
    assert found
    agrees(row, WERCKMEISTER_III.frequency_hz(KEYS[found.group(1)], octave=3))


def key_cents(tuning: Tuning) -> Callable[[Row], None]:
    return lambda row: agrees(row, tuning.cents(KEYS[row.property.split()[1]]))


def tuning_word(row: Row) -> None:
    found = re.search(r"((?:[0-9A-F]{2} ){3})->", row.property)
    assert found
    key, high, low = (int(byte, 16) for byte in found.group(1).split())
    agrees(row, word_to_freq_hz((key, high, low)))


HANDLERS: list[Handler] = [
    (re.compile(pattern), check)
    for pattern, check in (
        (r"\|F\d\|", magnitude),
        (r"perfectly_balanced", balanced),
        (r"orbit length of alternating .*[PLR]{2}", orbit_length),
        (r"pcs of hexatonic cycle containing C major", hexatonic_cycle),
        (r"huron_adc .*", huron),
        (r"hutchinson_knopoff g\(.*\)", hutchinson_knopoff_g),
        (r"hutchinson_knopoff CBW\(.*\)", bandwidth),
        (r"hutchinson_knopoff roughness MIDI, \d+ harmonics 1/h", hutchinson_knopoff_chord),
        (r"sethares \(min model\) relative to 440\+460 Hz", sethares_program),
        (r"dissonance-curve minima \(cents\), 9 equal partials at 880 Hz", harmonic_minima),
        (r"dissonance-curve minima \(cents\), 9-EDO stretched timbre", stretched_minima),
        (r"barlow indigestibility xi\(\d+\)", barlow_number),
        (r"\|barlow harmonicity\| and cents of \d+:\d+", barlow_interval),
        (r"euler gradus [\d:]+", gradus),
        (r"Werckmeister III cents \(rounded\)", werckmeister_cents),
        (r"Werckmeister III Hz .*", werckmeister_hz),
        (r"pythagorean \S+ cents", key_cents(PYTHAGOREAN)),
        (r"meantone4 \S+ cents", key_cents(QUARTER_COMMA_MEANTONE)),
        (r"kirnberger3 \S+ cents", key_cents(KIRNBERGER_III)),
        (r"vallotti \S+ cents", key_cents(VALLOTTI)),
        (r"MTS (bytes|corrected:) .*-> Hz", tuning_word),
    )
]
