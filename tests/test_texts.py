"""Every text that other languages have words for stands in the English files, as it is in the sources."""

from __future__ import annotations

import pickle
import re
import sys
from pathlib import Path

import pytest

from gamutwright.errors import InputError, ScriptError, told
from gamutwright.languages import language_of
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse

sys.path.insert(0, str(Path(__file__).parents[1] / "tools"))

from texts import files


@pytest.mark.parametrize("path", files(), ids=lambda path: path.name)
def test_the_english_files_have_the_texts_of_the_sources(path: Path):
    assert path.read_text(encoding="utf-8") == files()[path], "run tools/texts.py"


KIT = Path(__file__).parents[1] / "src" / "gamutwright" / "studio" / "kit"
SHOWN = re.compile(
    r"""(?:\.(?:textContent|title|placeholder|alt)\s*=\s*|setAttribute\("aria-label",\s*|textContent:\s*)"""
    r"""["`][^"`$]*[A-Za-z]{3,}"""
)
WRITTEN = re.compile(r">[^<>]*[A-Za-z]{3,}[^<>]*<")
FILLED_IN = re.compile(r"\{\{.*?\}\}|\{%.*?%\}|\{#.*?#\}", re.DOTALL)


@pytest.mark.parametrize("path", sorted([*KIT.glob("*.js"), *KIT.glob("*.jinja")]), ids=lambda path: path.name)
def test_nothing_is_shown_in_the_studio_past_the_table(path: Path):
    """A text that a module or a template writes by itself would stay English in every language."""
    text = path.read_text(encoding="utf-8")
    assert (SHOWN.findall(text) if path.suffix == ".js" else WRITTEN.findall(FILLED_IN.sub("", text))) == []


@pytest.mark.parametrize("text", ['one.textContent = "Two words"', 'x.setAttribute("aria-label", `Take ${n}`)'])
def test_a_text_past_the_table_is_found(text: str):
    assert SHOWN.search(text)
    assert not SHOWN.search(text.replace('"Two', 'txt("Two').replace("`Take", "txt`Take"))


def test_a_told_text_survives_a_border_of_processes_and_is_retold():
    text = told("{what} stands without a binding", what=told("the number '{text}'", text="1,200 {text}"))
    assert text == "the number '1,200 {text}' stands without a binding"
    held = pickle.loads(pickle.dumps(text))  # noqa: S301 - our own bytes
    assert language_of("de").retold(held) == "die Zahl '1,200 {text}' steht ohne Bindung da"
    assert language_of("de").retold("what nobody told") == "what nobody told"
    assert language_of("de").retold(told("a text of {text} characters", text=1200)) == "ein Text von 1.200 Zeichen"


GERMAN = "---\nscale: {}\nlanguage: de\n---\n{}\n"


@pytest.mark.parametrize(
    ("sentence", "reason", "mend"),
    [
        ("Sie hat [drei]{fact=semitone_steps} Halbtöne.", "hier steht drei, aber", "Schreiben Sie: zwei."),
        ("Sie hat sieben Töne.", "die Zahl 'sieben' steht ohne Bindung da", "Binden Sie es"),
        ("Sie [ist chiral]{fact=is_chiral}.", "hier steht ja, aber Chiralität ist", "Schreiben Sie: ist nicht chiral."),
        ("So. {show=lader}", "es gibt kein Bild dieses Namens", "Meinten Sie ladder? Wählen Sie aus: clock"),
        ("[Zwei]{fact=tritons} davon.", "Tatsache 'tritons': kein installiertes", "Meinten Sie tritones"),
    ],
)  # fmt: skip
def test_a_german_script_is_told_its_faults_in_german(sentence: str, reason: str, mend: str):
    (fault, *_) = check(parse(GERMAN.format("C major", sentence))).faults
    assert fault.reason.startswith(reason)
    assert fault.mend.startswith(mend)


def test_a_german_script_that_cannot_be_read_is_told_so_in_german():
    with pytest.raises(ScriptError, match="wird in diesem Absatz nicht geschlossen") as caught:
        parse(GERMAN.format("C major", "Sie hat [zwei Halbtöne.\n\n- eine Liste"))
    assert "Noch ein Fehler" in str(caught.value)
    assert "beginnt eine Liste" in caught.value.problems[1].message
    with pytest.raises(InputError, match="Schritte"):
        check(parse(GERMAN.format("2-2-2-2", "So.")))
