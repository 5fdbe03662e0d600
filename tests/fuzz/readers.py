"""Every reader of texts and files that others write, with what it is tried on.

Conventions: a reader takes bytes and an empty folder that is its own; it either reads or raises one of the program's
own errors. Seeds lie in `seeds/<kind>/`.
"""

from __future__ import annotations

import contextlib
import functools
import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from fuzz.mutating import mutated
from gamutwright.catalogue.names import read_names
from gamutwright.catalogue.query import Catalogue
from gamutwright.errors import GamutwrightError
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.jobs.outfolder import CRATE, LIST, owned_files, published_on
from gamutwright.lessons.audit import audit
from gamutwright.lessons.auditing.transcript import decode as decode_text
from gamutwright.lessons.claims import check
from gamutwright.lessons.credits import read_supporters
from gamutwright.lessons.ledger import ledger
from gamutwright.lessons.parse import load
from gamutwright.publish.errata import errata
from gamutwright.render.choosing import chosen_take, earlier_choice
from gamutwright.render.lexicon import load_lexicon, respell
from gamutwright.render.readback.boxes import read_boxes, text_samples, tracks_of
from gamutwright.render.readback.promises import read_ledger
from gamutwright.render.readback.verifying import verify
from gamutwright.render.recording import decode, prepare
from gamutwright.render.takefile import read_take
from gamutwright.series.course import read_course
from gamutwright.series.published import packages_of
from gamutwright.series.turns import Turn

SEEDS = Path(__file__).parent / "seeds"

__all__ = ["READERS", "Reader"]


@dataclass(frozen=True)
class Reader:
    """A reader, its seeds, and words that mean something to it."""

    name: str
    read: Callable[[bytes, Path], object]
    kind: str = ""
    words: tuple[bytes, ...] = ()
    largest: int = 60_000

    @functools.cached_property
    def seeds(self) -> tuple[bytes, ...]:
        found = tuple(path.read_bytes() for path in sorted((SEEDS / (self.kind or self.name)).iterdir()))
        assert found
        return found

    def input(self, number: int) -> bytes:
        """Give one of its inputs; the first are the seeds as they are."""
        return (
            self.seeds[number]
            if number < len(self.seeds)
            else mutated(self.seeds, self.words, self.name, number, self.largest)
        )


def text_of(content: bytes) -> str:
    """What the command line hands over where an argument is no UTF-8."""
    return content.decode("utf-8", "surrogateescape").replace("\x00", "")


def scale(content: bytes, _folder: Path) -> object:
    text = text_of(content)
    for more in ({"divisions": 19}, {"root": "G#"}, {"names": "german"}, {"root": 3, "divisions": 7}):
        with contextlib.suppress(GamutwrightError):
            read_scale(text, **more)  # type: ignore[arg-type] # as the command line does
    return read_scale(text).scale


@functools.cache
def catalogue() -> Catalogue:
    return Catalogue(12)


def condition(content: bytes, _folder: Path) -> object:
    return catalogue().find(text_of(content), limit=2)


def script(content: bytes, folder: Path) -> object:
    path = folder / "script.md"
    path.write_bytes(content)
    return ledger(check(load(path), default_registry()), default_registry())


def audited(form: str) -> Callable[[bytes, Path], object]:
    def read(content: bytes, _folder: Path) -> object:
        source, remarks = decode_text(content)
        with contextlib.suppress(GamutwrightError):
            audit(source, language="de", form=form, remarks=remarks)
        return audit(source, scale="G acoustic", form=form, remarks=remarks)

    return read


def names(content: bytes, folder: Path) -> object:
    path = folder / "names.csv"
    path.write_bytes(content)
    return read_names(path)


def scale_file(ending: str) -> Callable[[bytes, Path], object]:
    def read(content: bytes, folder: Path) -> object:
        path = folder / f"piece.{ending}"
        path.write_bytes(content)
        return read_scale(str(path)).scale

    return read


def sound(content: bytes, folder: Path) -> object:
    path = folder / "line.wav"
    path.write_bytes(content)
    return prepare(decode(path), "There are two semitones.")


def film(content: bytes, folder: Path) -> object:
    path = folder / "film.mp4"
    path.write_bytes(content)
    file = read_boxes(path)
    return [text_samples(path, track) for track in tracks_of(file) if track.kind in {"text", "sbtl"}]


def film_decoded(content: bytes, folder: Path) -> object:
    path = folder / "film.mp4"
    path.write_bytes(content)
    return verify(path, SEEDS / "film-ledger" / "ledger.json")


def film_ledger(content: bytes, folder: Path) -> object:
    path = folder / "ledger.json"
    path.write_bytes(content)
    return read_ledger(path)


def published(content: bytes, folder: Path) -> object:
    place = folder / "out" / "dorian"
    place.mkdir(parents=True)
    (place / "ledger.json").write_bytes(content)
    (place / CRATE).write_text(json.dumps({"@graph": [{"@id": "./", "datePublished": "2026-03-04"}]}))
    found = packages_of(folder / "out", ["dorian"])
    (place / "script.md").write_bytes((SEEDS / "script" / "short.md").read_bytes())
    return [(one.scale, one.siblings) for one in found.values()], errata(place, default_registry())


def take(content: bytes, folder: Path) -> object:
    path = folder / "01.json"
    path.write_bytes(content)
    return read_take(path).is_stale("Other words.")


def chosen(content: bytes, folder: Path) -> object:
    line = folder / "horn"
    line.mkdir()
    for number in (1, 2):
        (line / f"0{number}.json").write_bytes((SEEDS / "take" / "01.json").read_bytes())
        (line / f"0{number}.flac").touch()
    (line / "chosen.json").write_bytes(content)
    return chosen_take(folder, "horn"), earlier_choice(folder, "horn")


def lists(content: bytes, folder: Path) -> object:
    for name in (LIST, CRATE):
        (folder / name).write_bytes(content)
    return owned_files(folder), published_on(folder)


def course(content: bytes, folder: Path) -> object:
    (folder / "series.toml").write_bytes(content)
    return read_course(folder)


def lexicon(content: bytes, folder: Path) -> object:
    path = folder / "words.toml"
    path.write_bytes(content)
    return respell("From E flat to No. 7, says Weitzmann.", load_lexicon("en", path))


def supporters(content: bytes, folder: Path) -> object:
    path = folder / "supporters.txt"
    path.write_bytes(content)
    return read_supporters(path)


def turns(content: bytes, folder: Path) -> object:
    with Turn(folder) as turn:
        (folder / "build.jsonl").write_bytes(content)
        return list(turn.heard())


JSON = (b'"times"', b'"take"', b'"@graph"', b'"@id"', b'"lesson"', b'"film"', b'"claims"', b"[[", b"]]", b"},")
_TABLE = """
scale: C# | Db | dorian | 7-35 | 0 2 4 |  on  | bits  | 1 2 b3 | W W H | 2212221 | x.mid
condition: cardinality |  AND  |  OR  | NOT  |  = |  IS NULL | list_contains(names,  | is_balanced | SELECT
condition:  ** |  IN ( | CASE WHEN  |  LIKE  | CAST( |  BETWEEN  | :: | -- | /* | */ | regexp_matches( | 'x' | names
script: {fact=cardinality} | {play=scale} | {each=semitone_steps} | {#id} | [seven] | {of="C major"} | {pause=1} | # A
script: scale:  | {define=cardinality} | {show=ring} | {quote source="x"} | {at=3} | {rare=cardinality} | {with=
front-matter: scale:  | level:  | minutes:  | language: de | divisions:  | title:  | supporters:  | : | date: 2026-03-01
audit-text: has seven notes | two semitones | # A | no tritones | C, D and E | <!-- | [a](b) | ```
audit-srt:  -->  | 00:00:01,000 | 99:99:99,999 | <i> | {\\an8} | two semitones
audit-vtt:  -->  | WEBVTT | 00:01.000 | NOTE  | <v Ada> | align:start | STYLE | <00:01.000>
names: pitch_classes | name | , | 0 2 4 5 | =HYPERLINK( | from memory
musicxml: <note> | </note> | <pitch> | <duration> | <alter>-1</alter> | <chord/> | <backup> | &b;
musicxml: <!DOCTYPE a [ | <![CDATA[ | <!ENTITY b 'c'> | <?xml version='1.0' encoding='utf-16'?> | <measure> | <octave>
mxl: META-INF/container.xml | rootfile | score.xml
film: moov | trak | mdat | stsz | stco | stts | udta | chpl | avcC | stsd
sound: RIFF | WAVE | fmt  | data | LIST | fLaC | OggS | ID3 | ftyp | moov
course: [[lesson]] | title =  | [film] | level =  | scale =  | [scales] | query =  | 1979-05-27 | [voice]
lexicon: [words] |  =  | [letters] | [[ | 1979-05-27 | phonemes
supporters: # a | \r\n
turns: {"event":  | {"built":  | "key"
"""
BYTES = {
    "midi": (b"MThd", b"MTrk", b"\xff\x2f\x00", b"\x90\x3c\x40", b"\xf0\x05", b"\xff\xff\xff\xff", b"\x00\xff\x51\x03"),
    "mxl": (b"PK\x03\x04", b"PK\x01\x02", b"PK\x05\x06"),
    "sound": (b"\xff\xfb", b"\x01\x00", b"\x03\x00", b"\x00\x00\x80\x7f", b"\xff\xff\xff\x7f"),
    "film": (b"\0\0\0\x01", b"\0\0\0\x01\x65", b"\xff" * 64),
}


def words(name: str) -> tuple[bytes, ...]:
    """Give the words of a format."""
    rows = [line.partition(": ") for line in _TABLE.strip().split("\n")]
    told = [word for key, _, row in rows if key == name for word in row.split(" | ")]
    return (*(word.encode() for word in told), *BYTES.get(name, ()))


READERS = (
    Reader("scale", scale, words=words("scale")),
    Reader("condition", condition, words=words("condition")),
    Reader("script", script, words=words("script")),
    Reader("front-matter", script, "front", words("front-matter")),
    Reader("audit-text", audited("text"), "talk", words("audit-text")),
    Reader("audit-srt", audited("srt"), "srt", words("audit-srt")),
    Reader("audit-vtt", audited("auto"), "vtt", words("audit-vtt")),
    Reader("names", names, words=words("names")),
    Reader("midi", scale_file("mid"), words=words("midi")),
    Reader("musicxml", scale_file("musicxml"), words=words("musicxml")),
    Reader("mxl", scale_file("mxl"), words=words("mxl")),
    Reader("sound", sound, words=words("sound")),
    Reader("film-boxes", film, "film", words("film"), 250_000),
    Reader("film-decoded", film_decoded, "film", words("film"), 250_000),
    Reader("film-ledger", film_ledger, words=JSON),
    Reader("ledger", published, words=JSON),
    Reader("take", take, words=JSON),
    Reader("chosen", chosen, words=JSON),
    Reader("lists", lists, words=JSON),
    Reader("course", course, words=words("course")),
    Reader("lexicon", lexicon, words=words("lexicon")),
    Reader("supporters", supporters, words=words("supporters")),
    Reader("turns", turns, words=words("turns")),
)
