"""A film whose examples are played by a SoundFont is read back like any other: every tone at its pitch, and in step.

The SoundFont is Debian's timgm6mb-soundfont, its flute and its piano: one with a vibrato, one that decays.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from gamutwright.lessons import assemble
from gamutwright.lessons.parse import parse
from gamutwright.packaging import make_package
from gamutwright.render.audiofile import audio_signal
from gamutwright.render.readback.film_report import Verdict
from gamutwright.render.readback.verifying import verify
from gamutwright.render.soundfont import players_of
from gamutwright.settings import Settings
from gamutwright.stages import Choices, FilmStyle, choices_of, make_film

FONT = Path("/usr/share/sounds/sf2/TimGM6mb.sf2")
SCRIPT = """---
scale: D E F G A B C
minutes: 1
---
# Along the quay

It has [seven]{fact=cardinality show=ladder play=scale} tones.
"""


@pytest.mark.parametrize("instrument", ["flute", "acoustic grand piano"])
def test_a_film_with_sampled_instruments_holds_what_it_promises(
    tmp_path: Path, instrument: str, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(assemble, "reading_ticks", lambda _: 48_000)
    choices = Choices(FilmStyle(320, 180), players=players_of(FONT, (f"tune={instrument}",)))
    made = make_film(parse(SCRIPT), tmp_path / "film", choices)
    report = verify(made.files[0], tmp_path / "film" / "ledger.json")
    held = {check.name: check.verdict for check in report.checks}
    for name in ("tones", "loudness", "true peak", "sound in step"):
        assert held[name] is Verdict.HELD, name


def test_settings_reach_the_film_and_the_package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(assemble, "reading_ticks", lambda _: 48_000)
    script = parse(SCRIPT)
    (tmp_path / "script.md").write_text(SCRIPT, encoding="utf-8")
    sounds = []
    for settings in (Settings(), Settings(soundfont=FONT, instruments=("oboe",))):
        choices = choices_of(settings, script, tmp_path / "script.md")
        folder = tmp_path / f"package{len(sounds)}"
        small = Choices(FilmStyle(320, 180), choices.voice, choices.home, choices.takes, players=choices.players)
        package = make_package(script, folder, small)
        (name,) = [one for one in package.files if one.endswith(".flac")]
        sounds.append(audio_signal(folder / name).samples())
    assert len(sounds[0]) == len(sounds[1])
    assert abs(sounds[0] - sounds[1]).max() > 0.05
