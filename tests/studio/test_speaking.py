"""Recordings sent to the studio over the wire: taken in, chosen, thrown away, taken back; whatever is wrong, refused.

Sounds are made by another voice of the synthesiser, so that the words are really in them. The limits are those of
`gamutwright.render.recording`; the spellings of steps out of a folder are those that are usually tried (common
practice, no source). Ranges: RFC 9110 section 14, from memory.
"""

from __future__ import annotations

import io
import json
import os
import socket
import struct
import subprocess
import sys
import time
import wave
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import av
import numpy as np
import pytest

from gamutwright.lessons.parse import load
from gamutwright.render.audiofile import write_audio
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.recording import decode
from gamutwright.render.signal import Signal
from gamutwright.render.takes import chosen_take, list_takes
from gamutwright.settings import takes_folder
from gamutwright.studio import intake
from series.courses import course_in, script
from studio.serving import Answer, Studio, heard, running

LINE = "It has seven tones."
ID = "tones"


@pytest.fixture
def harbour(tmp_path: Path) -> Iterator[Studio]:
    course_in(tmp_path / "course", {"dorian": script()})
    with running(tmp_path / "course") as one:
        yield one


@pytest.fixture(scope="module")
def spoken(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """The line as somebody says it, with half a second of room on either side, as a WAV file."""
    said = EspeakVoice("en", 1.1, 70).speak(LINE).samples
    room = np.random.default_rng(5).standard_normal(len(said) + 48_000).astype(np.float32) * 2e-4
    room[24_000 : 24_000 + len(said)] += 0.5 * said / np.abs(said).max()
    path = tmp_path_factory.mktemp("spoken") / "line.wav"
    write_audio(path, Signal.of_samples(room))
    return path.read_bytes()


def course_of(studio: Studio) -> Path:
    return studio.place.course


def takes_of(studio: Studio) -> Path:
    return takes_folder(course_of(studio) / "lessons" / "dorian" / "script.md")


def send(
    studio: Studio, body: bytes, line: str = ID, slug: str = "dorian", name: str = "", kind: str = "audio/wav"
) -> Answer:
    path = f"/api/takes/{slug}/{line}" + (f"?name={name}" if name else "")
    return studio.ask("POST", path, body, content_type=kind)


def data(answer: Answer, status: int = 200) -> dict:
    assert answer.status == status, answer.body[:300]
    return json.loads(answer.body)


def lines(studio: Studio) -> list[dict]:
    told = data(studio.ask("GET", "/api/lesson/dorian/lines"))
    return [line for chapter in told["chapters"] for line in chapter["lines"]]


def row(studio: Studio, line: str = ID) -> dict:
    return next(one for one in lines(studio) if one["id"] == line)


def act(studio: Studio, method: str, rest: str, sent: object = None, status: int = 200) -> dict:
    body = None if sent is None else json.dumps(sent).encode()
    answer = studio.ask(method, f"/api/lesson/dorian/lines/{rest}", body, content_type="application/json")
    return data(answer, status)


def left_behind(studio: Studio) -> list[str]:
    """Files that are neither a take nor a script: parts of uploads, and anything outside of its place."""
    kept = course_of(studio) / ".gamutwright" / "incoming"
    return [str(path) for path in kept.rglob("*")] + [
        str(path) for path in takes_of(studio).rglob("*") if path.name.startswith(".")
    ]


def wav(samples: np.ndarray, rate: int = 48_000) -> bytes:
    file = io.BytesIO()
    with wave.open(file, "wb") as writer:
        writer.setparams((1, 2, rate, 0, "NONE", ""))
        writer.writeframes((np.clip(samples, -1, 1) * 32_767).astype("<i2").tobytes())
    return file.getvalue()


def test_a_recording_becomes_a_take_with_its_words(harbour: Studio, spoken: bytes) -> None:
    before = row(harbour)
    assert (before["state"], before["takes"], before["source"]) == (
        "none",
        [],
        "It has [seven]{fact=cardinality} tones.",
    )
    told = data(send(harbour, spoken), 201)
    assert told["take"] == 1
    assert (told["line"]["state"], told["line"]["chosen"]) == ("recorded", 1)
    take = told["line"]["takes"][0]
    assert take["faults"] == []
    with av.open(str(takes_of(harbour) / ID / "01.flac")) as file:
        stream = file.streams.audio[0]
        assert (file.format.name, stream.rate, stream.channels) == ("flac", 48_000, 1)
    assert take["seconds"] == pytest.approx(len(decode(takes_of(harbour) / ID / "01.flac").samples) / 48_000, abs=1e-3)
    found = list_takes(takes_of(harbour), ID)[0]
    assert [LINE[word.start_char : word.end_char] for word in found.times] == ["It", "has", "seven", "tones"]
    assert row(harbour) == told["line"] | {"unproved": []}
    assert left_behind(harbour) == []


def test_every_usual_kind_of_file_is_taken(harbour: Studio, spoken: bytes, tmp_path: Path) -> None:
    path = tmp_path / "line.wav"
    path.write_bytes(spoken)
    sound = Signal.of_samples(decode(path).samples)
    for ending, kind in ((".flac", "audio/flac"), (".mp3", "audio/mpeg"), (".m4a", "audio/mp4")):
        write_audio(path.with_suffix(ending), sound)
        told = data(send(harbour, path.with_suffix(ending).read_bytes(), kind=kind, name=f"mine{ending}"), 201)
        assert told["line"]["takes"][-1]["seconds"] == pytest.approx(told["line"]["takes"][0]["seconds"], abs=0.1)
    webm = io.BytesIO()
    with av.open(webm, "w", format="webm") as container:
        stream = container.add_stream("libopus", rate=48_000)
        frame = av.AudioFrame.from_ndarray(decode(path).samples[None, :], format="flt", layout="mono")
        frame.rate = 48_000
        container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    assert data(send(harbour, webm.getvalue(), kind="audio/webm;codecs=opus"), 201)["take"] == 4
    assert list_takes(takes_of(harbour), ID)[0].source == "mine.flac"


def test_a_line_without_an_id_gets_one_in_the_script_and_keeps_its_take(harbour: Studio, spoken: bytes) -> None:
    path = course_of(harbour) / "lessons" / "dorian" / "script.md"
    path.write_text(path.read_text("utf-8").replace(" {#tones}", ""), encoding="utf-8")
    line = load(path).lines[1]
    assert not line.has_own_id
    data(send(harbour, spoken, line.id), 201)
    assert f"tones. {{#{line.id}}}\n" in path.read_text("utf-8")
    # The text as it was is kept, as for every other save.
    kept = data(harbour.ask("GET", "/api/lesson/dorian/history"))
    assert len(kept) == 1
    told = act(harbour, "PUT", line.id, {"before": "It has [seven]{fact=cardinality} tones.", "after": "It has many."})
    assert told["id"] == line.id
    assert row(harbour, line.id)["state"] == "stale"


def test_takes_are_numbered_chosen_and_taken_back(harbour: Studio, spoken: bytes) -> None:
    for number in (1, 2, 3):
        assert data(send(harbour, spoken), 201)["take"] == number
    act(harbour, "PUT", f"{ID}/choice", {"take": 1})
    now = act(harbour, "PUT", f"{ID}/choice", {"take": 2})
    assert (now["chosen"], now["earlier"]) == (2, 1)
    assert act(harbour, "DELETE", f"{ID}/choice")["chosen"] == 1
    assert act(harbour, "DELETE", f"{ID}/choice")["chosen"] == 3
    assert act(harbour, "PUT", f"{ID}/choice", {"take": 9}, 422)["rule"].startswith("there is no such take")
    for wrong in ({"take": "1"}, {"take": 0}, {"take": 1.5}, {}, {"take": 1, "x": 1}, [1], None):
        answer = harbour.ask(
            "PUT", f"/api/lesson/dorian/lines/{ID}/choice", json.dumps(wrong).encode(), content_type="application/json"
        )
        assert answer.status == 422
    assert row(harbour)["chosen"] == 3


def test_a_take_that_is_thrown_away_comes_back_under_its_number(harbour: Studio, spoken: bytes) -> None:
    for _ in range(2):
        send(harbour, spoken)
    act(harbour, "PUT", f"{ID}/choice", {"take": 1})
    send(harbour, spoken)
    sound = (takes_of(harbour) / ID / "03.flac").read_bytes()
    now = act(harbour, "DELETE", f"{ID}/takes/3")
    assert [take["number"] for take in now["takes"]] == [1, 2]
    assert [take["number"] for take in now["discarded"]] == [3]
    assert now["chosen"] == 1, "the one that was chosen before"
    # Its number is not given to another.
    assert data(send(harbour, spoken), 201)["take"] == 4
    now = act(harbour, "PUT", f"{ID}/takes/3")
    assert ([take["number"] for take in now["takes"]], now["discarded"]) == ([1, 2, 3, 4], [])
    assert (takes_of(harbour) / ID / "03.flac").read_bytes() == sound
    act(harbour, "DELETE", f"{ID}/takes/9", status=422)
    act(harbour, "PUT", f"{ID}/takes/3", status=422)
    for number in (1, 2, 3, 4):
        now = act(harbour, "DELETE", f"{ID}/takes/{number}")
    assert (now["state"], now["chosen"]) == ("none", None)


def test_words_change_in_place_and_make_the_take_stale(harbour: Studio, spoken: bytes) -> None:
    send(harbour, spoken)
    source = row(harbour)["source"]
    told = act(harbour, "PUT", ID, {"before": source, "after": "It has\n [eight]{fact=cardinality} tones. "})
    assert told["id"] == ID
    now = row(harbour)
    assert (now["state"], now["text"], now["unproved"]) == ("stale", "It has eight tones.", ["eight"])
    assert (now["takes"][0]["is_stale"], now["takes"][0]["said"]) == (True, LINE)
    refused = act(harbour, "PUT", ID, {"before": source, "after": "It has none."}, 412)
    assert refused["now"]["source"] == "It has [eight]{fact=cardinality} tones."
    for words in ("", "  ", "# Steps", "- tones", "It has [seven]{fact=cardinality tones.", "<b>", "Two. {#other}"):
        answer = act(harbour, "PUT", ID, {"before": now["source"], "after": words}, 422)
        assert answer["next_step"]
    assert row(harbour) == now
    act(harbour, "PUT", ID, {"before": now["source"], "after": source})
    assert row(harbour)["state"] == "recorded"


def test_a_part_of_a_take_is_given(harbour: Studio, spoken: bytes) -> None:
    send(harbour, spoken)
    whole = harbour.ask("GET", f"/api/takes/dorian/{ID}/1")
    assert (whole.status, whole.headers["content-type"], whole.body[:4]) == (200, "audio/flac", b"fLaC")
    part = harbour.ask("GET", f"/api/takes/dorian/{ID}/1", range="bytes=10-19")
    assert (part.status, part.body) == (206, whole.body[10:20])
    assert part.headers["content-range"] == f"bytes 10-19/{len(whole.body)}"
    assert harbour.ask("GET", f"/api/takes/dorian/{ID}/1", range=f"bytes={10**9}-").status == 416


@pytest.mark.parametrize(
    "rest", [f"{ID}/2", f"{ID}/0", f"{ID}/-1", f"{ID}/01.flac", f"{ID}/1/x", "count/1", "no/1", f"{ID}/"]
)
def test_a_take_that_is_not_there_is_not_there(harbour: Studio, spoken: bytes, rest: str) -> None:
    send(harbour, spoken)
    assert harbour.ask("GET", f"/api/takes/dorian/{rest}").status in {404, 405, 422}


STEPS = (
    "..", "%2e%2e", "..%2f..%2fionian", "%2e%2e%2f%2e%2e%2fionian%2fscript", "..%5c..", "%252e%252e%252f", ".%00",
    "tones%00", "%c0%ae%c0%ae", "tones%2f..", "/etc/passwd", "%2fetc%2fpasswd", "~", ".", "tones.flac", "%20tones",
    "x" * 300, "tones;x", "%0a", "TONES",
)  # fmt: skip


@pytest.mark.parametrize("step", STEPS)
def test_steps_out_of_the_course_reach_nothing(harbour: Studio, spoken: bytes, step: str) -> None:
    everything = sorted(path for path in course_of(harbour).parent.rglob("*") if path.is_file())
    for path in (f"/api/takes/dorian/{step}", f"/api/takes/{step}/{ID}", f"/api/takes/{step}/{step}"):
        assert harbour.ask("POST", path, spoken, content_type="audio/wav").status in {400, 404, 405, 409}
        assert harbour.ask("GET", f"{path}/1").status in {400, 404, 405, 409}
    for method in ("PUT", "DELETE"):
        assert harbour.ask(method, f"/api/lesson/dorian/lines/{step}/takes/1").status in {400, 404, 405, 409}
        assert harbour.ask(method, f"/api/lesson/{step}/lines/{ID}/takes/1").status in {400, 404, 405, 409}
    left = sorted(path for path in course_of(harbour).parent.rglob("*") if path.is_file())
    assert left == everything


def test_another_page_and_another_browser_reach_nothing(harbour: Studio, spoken: bytes) -> None:
    path = f"/api/takes/dorian/{ID}"
    kind = {"content_type": "audio/wav"}
    assert harbour.ask("POST", path, spoken, origin="http://evil.example", **kind).status == 403
    assert harbour.ask("POST", path, spoken, origin="", sec_fetch_site="cross-site", **kind).status == 403
    assert harbour.ask("POST", path, spoken, is_in=False, origin=f"http://{harbour.host}", **kind).status == 401
    assert harbour.ask("GET", f"{path}/1", is_in=False).status == 401
    assert not takes_of(harbour).exists()


def test_what_is_no_recording_is_refused_in_words(harbour: Studio, spoken: bytes) -> None:
    samples = np.frombuffer(spoken[44:], "<i2") / 32_768
    playlist = b"#EXTM3U\n#EXT-X-TARGETDURATION:3\n#EXTINF:3,\nfile:///etc/passwd\n#EXT-X-ENDLIST\n"
    other = f"ffconcat version 1.0\nfile {course_of(harbour) / 'series.toml'}\n".encode()
    for body, word in (
        (b"", "empty"), (b"not a sound at all", "read as sound"), (os.urandom(5000), "sound"), (bytes(5000), "sound"),
        (spoken[:20], "sound"), (wav(np.zeros(96_000)), "silent"), (wav(samples * 1e-4), "silent"), (playlist, "sound"),
        (other, "sound"), (wav(np.zeros(301 * 8_000), 8_000), "longer than 5 minutes"), (wav(np.zeros(0)), "s"),
    ):  # fmt: skip
        told = data(send(harbour, body), 422)
        assert word in told["rule"]
        assert told["next_step"]
        assert str(course_of(harbour)) not in json.dumps(told)
        assert "incoming" not in json.dumps(told)
    for kind in ("", "text/html", "application/json", "multipart/form-data; boundary=x"):
        assert data(send(harbour, spoken, kind=kind), 415)["next_step"]
    assert not list(takes_of(harbour).rglob("*.flac"))
    assert left_behind(harbour) == []
    assert row(harbour)["state"] == "none"


def test_faults_are_said_with_advice(harbour: Studio, spoken: bytes) -> None:
    samples = np.frombuffer(spoken[44:], "<i2") / 32_768
    cut = bytearray(spoken)
    cut[4:8] = struct.pack("<I", len(spoken) * 2)
    for body, fault in (
        (wav(samples * 30), "clipped"),
        (bytes(cut), "truncated"),
        (wav(samples[::6], 8_000), "low rate"),
    ):
        take = data(send(harbour, body), 201)["line"]["takes"][-1]
        assert fault in {found["name"] for found in take["faults"]}
        assert all(len(found["advice"]) > 20 for found in take["faults"])


def test_what_is_too_large_or_never_ends_leaves_nothing(
    harbour: Studio, spoken: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(intake, "TAKE_LIMIT", 300_000)
    monkeypatch.setattr(intake, "IDLE_S", 0.3)
    path = f"/api/takes/dorian/{ID}"
    answer = harbour.ask("POST", path, b"", content_length="300001", content_type="audio/wav", expect="100-continue")
    assert data(answer, 413)["next_step"]
    head = harbour.head(f"POST {path} HTTP/1.1", "transfer-encoding: chunked", "content-type: audio/wav")
    with socket.create_connection(("127.0.0.1", harbour.port), timeout=10) as line:
        line.sendall(head)
        try:
            for _ in range(200):  # an upload without end
                line.sendall(b"10000\r\n" + b"x" * 65_536 + b"\r\n")
                time.sleep(0.005)
        except OSError:
            pass
        heard(line)
    assert left_behind(harbour) == []
    head = harbour.head(f"POST {path} HTTP/1.1", "content-length: 200000", "content-type: audio/wav")
    assert b" 408 " in harbour.say(head + spoken[:1000], 5.0), "a sender that falls silent"
    with socket.create_connection(("127.0.0.1", harbour.port), timeout=10) as line:
        line.sendall(head + spoken[:1000])  # and one that leaves
    assert wait_for(lambda: left_behind(harbour) == [])
    assert not list(takes_of(harbour).rglob("*.flac"))
    assert harbour.ask("GET", "/api/lesson/dorian/lines").status == 200


def wait_for(condition: object, seconds: float = 5.0) -> bool:
    deadline = time.monotonic() + seconds
    while not condition() and time.monotonic() < deadline:
        time.sleep(0.02)
    return condition()


@pytest.mark.parametrize(
    "place", ["takes", "takes/tones", "takes/tones/chosen.json", "takes-discarded", "takes-discarded/tones"]
)
def test_a_link_out_of_the_course_is_not_followed(harbour: Studio, spoken: bytes, tmp_path: Path, place: str) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    target = outside / "mine.json" if place.endswith("json") else outside
    if place.endswith("json"):
        target.write_text("mine")
    link = course_of(harbour) / "lessons" / "dorian" / place
    link.parent.mkdir(parents=True, exist_ok=True)
    link.symlink_to(target)
    answer = data(send(harbour, spoken), 409)
    assert "leads out" in answer["rule"]
    act(harbour, "DELETE", f"{ID}/takes/1", status=409)
    assert harbour.ask("GET", f"/api/takes/dorian/{ID}/1").status == 409
    assert harbour.ask("GET", "/api/lesson/dorian/lines").status == 409
    assert [path.name for path in outside.iterdir()] == (["mine.json"] if place.endswith("json") else [])
    if place.endswith("json"):
        assert target.read_text() == "mine"


def test_a_link_to_another_sound_is_not_played(harbour: Studio, spoken: bytes, tmp_path: Path) -> None:
    send(harbour, spoken)
    sound = takes_of(harbour) / ID / "01.flac"
    elsewhere = tmp_path / "private.flac"
    sound.rename(elsewhere)
    sound.symlink_to(elsewhere)
    assert harbour.ask("GET", f"/api/takes/dorian/{ID}/1").status == 409


def test_recordings_sent_at_once_are_all_kept(harbour: Studio, spoken: bytes) -> None:
    with ThreadPoolExecutor(4) as pool:
        answers = list(pool.map(lambda _: send(harbour, spoken), range(4)))
    assert sorted(data(answer, 201)["take"] for answer in answers) == [1, 2, 3, 4]
    assert [take["number"] for take in row(harbour)["takes"]] == [1, 2, 3, 4]
    assert left_behind(harbour) == []


def test_a_recording_that_is_sent_again_is_the_same_take(harbour: Studio, spoken: bytes) -> None:
    name = "studio-20260304t180000-1a2b3c4d.wav"
    assert data(send(harbour, spoken, name=name), 201)["take"] == 1
    assert data(send(harbour, spoken, name=name), 201)["take"] == 1
    assert data(send(harbour, spoken, name=name.replace("1a", "9a")), 201)["take"] == 2
    # A file that somebody chooses twice is meant twice.
    assert data(send(harbour, spoken, name="mine.wav"), 201)["take"] == 3
    assert data(send(harbour, spoken, name="mine.wav"), 201)["take"] == 4
    act(harbour, "DELETE", f"{ID}/takes/1")
    data(send(harbour, spoken, name=name), 201)
    assert [take["number"] for take in row(harbour)["takes"]] == [2, 3, 4]


def test_a_recording_of_words_that_changed_meanwhile_is_stale_from_its_beginning(
    harbour: Studio, spoken: bytes
) -> None:
    said = "It%20has%20seven%20tones."
    data(harbour.ask("POST", f"/api/takes/dorian/{ID}?said={said}", spoken, content_type="audio/wav"), 201)
    assert row(harbour)["state"] == "recorded"
    act(harbour, "PUT", ID, {"before": row(harbour)["source"], "after": "It has [7]{fact=cardinality} tones in all."})
    told = data(harbour.ask("POST", f"/api/takes/dorian/{ID}?said={said}", spoken, content_type="audio/wav"), 201)
    assert (told["line"]["state"], told["line"]["takes"][1]["said"]) == ("stale", LINE)
    wordless = harbour.ask("POST", f"/api/takes/dorian/{ID}?said=%E2%80%A6", spoken, content_type="audio/wav")
    assert data(wordless, 422)["next_step"]


def test_a_name_is_words_and_never_a_place(harbour: Studio, spoken: bytes) -> None:
    data(send(harbour, spoken, name="..%2f..%2fseries.toml%00%0a%3Cscript%3E"), 201)
    assert chosen_take(takes_of(harbour), ID).source == "../../series.toml<script>"
    assert (course_of(harbour) / "series.toml").read_text("utf-8").startswith("title")


def test_what_a_killed_studio_leaves_is_cleared_away(harbour: Studio, spoken: bytes) -> None:
    folder = course_of(harbour) / ".gamutwright" / "incoming"
    folder.mkdir(parents=True)
    code = (
        "import os, signal\nfrom pathlib import Path\nfrom gamutwright.files import workplace\n"
        f"workplace(Path({str(folder)!r}) / 'take', 'abc').write_bytes(b'half a recording')\n"
        "os.kill(os.getpid(), signal.SIGKILL)\n"
    )
    subprocess.run([sys.executable, "-c", code], check=False)  # noqa: S603 - our own words
    assert len(left_behind(harbour)) == 1
    send(harbour, spoken)
    assert left_behind(harbour) == []


def test_lines_that_are_gone_are_told_with_their_takes(harbour: Studio, spoken: bytes) -> None:
    send(harbour, spoken)
    path = course_of(harbour) / "lessons" / "dorian" / "script.md"
    path.write_text("".join(path.read_text("utf-8").partition("It has")[:1]) + "Goodbye.\n", encoding="utf-8")
    told = data(harbour.ask("GET", "/api/lesson/dorian/lines"))
    assert told["lost"] == [{"id": ID, "text": LINE, "takes": [1]}]
    assert harbour.ask("GET", f"/api/takes/dorian/{ID}/1").status == 200, "it can still be heard"
    assert data(send(harbour, spoken), 404)["next_step"]
    path.write_text("---\nscale: D dorian\n---\n- a list\n", encoding="utf-8")
    assert data(harbour.ask("GET", "/api/lesson/dorian/lines"), 422)["problems"]
