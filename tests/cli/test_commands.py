"""The commands as a teacher types them: text at 80 columns, JSON by the published schema, exit codes, no traceback."""

from __future__ import annotations

import json
import subprocess
import sys
from importlib import resources
from pathlib import Path

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from music21 import chord

from cli.typed import run, run_apart
from gamutwright.cli import doctor_command
from gamutwright.codec import digest
from gamutwright.facts.profile import profile
from gamutwright.facts.registry import default_registry
from gamutwright.theory.scale import Scale
from thinning import usually

SCHEMA = json.loads(resources.files("gamutwright.schemas").joinpath("describe.schema.json").read_text(encoding="utf-8"))


def described(*words: str) -> dict[str, object]:
    done = run("describe", *words, "--json")
    assert done.returncode == 0, done.stderr
    read: dict[str, object] = json.loads(done.stdout)
    jsonschema.validate(read, SCHEMA)
    return read


SCALES = {
    "a heptatonic scale": ["G", "acoustic"],
    "five tones": ["0", "2", "4", "7", "9"],
    "one tone": ["C"],
    "all twelve": ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"],
    "nineteen divisions": ["0", "3", "6", "8", "11", "14", "17", "-n", "19"],
    "seventy-two divisions": ["0", "7", "12", "19", "30", "42", "61", "-n", "72"],
}
USUAL = [SCALES["one tone"], SCALES["nineteen divisions"]]


@pytest.mark.parametrize("words", usually(SCALES.values(), *USUAL), ids=SCALES)
def test_the_json_follows_the_schema_and_accounts_for_every_fact(words: list[str]) -> None:
    read = described(*words)
    assert read["facts"].keys() | read["silent"].keys() == default_registry().facts.keys()
    assert not read["facts"].keys() & read["silent"].keys()
    claimed = read.pop("digest")
    assert claimed == digest(read)


@pytest.mark.parametrize("words", usually(SCALES.values(), *USUAL), ids=SCALES)
def test_the_text_stays_within_eighty_columns(words: list[str]) -> None:
    done = run("describe", *words)
    assert done.returncode == 0, done.stderr
    assert max(len(line) for line in done.stdout.splitlines()) <= 80
    titles = {fact["title"] for fact in described(*words)["facts"].values()}
    assert all(title.split()[0] in done.stdout for title in titles)


def test_values_are_unrounded_and_exact() -> None:
    facts = described("C", "major")["facts"]
    assert facts["coherence_quotient"]["value"] == 139 / 140
    assert facts["coherence_quotient"]["exact"] == "139/140"
    assert facts["step_pattern"]["value"] == [2, 2, 1, 2, 2, 2, 1]


def test_the_json_agrees_with_music21() -> None:
    """Vector, prime form and label of a scale against music21's chord object."""
    facts = described("0", "2", "3", "5", "7", "8", "11")["facts"]
    theirs = chord.Chord([0, 2, 3, 5, 7, 8, 11])
    assert facts["interval_class_vector"]["value"] == list(theirs.intervalVector)
    assert facts["prime_form"]["value"] == list(theirs.primeForm)
    assert facts["forte_label"]["value"] == theirs.forteClassTnI


def test_one_fact_in_full() -> None:
    done = run("describe", "D", "dorian", "--fact", "semitone-steps")
    assert done.returncode == 0
    assert "E–F, B–C" in done.stdout
    assert default_registry().fact("semitone_steps").definition.split(",")[0] in " ".join(done.stdout.split())


def test_levels_leave_out_what_is_above_them() -> None:
    few, many = described("C", "major", "--level", "foundation"), described("C", "major")
    assert {fact["level"] for fact in few["facts"].values()} == {"foundation"}
    assert len(few["facts"]) < len(many["facts"])


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["describe", "C", "D", "X"], "'X'"),
        (["describe", "1", "2", "3", "4", "5", "6", "7"], "degrees: 1 2 3 4 5 6 7"),
        (["describe", "C", "D", "--fact", "coherance"], "coherence"),
        (["describe", "C", "-n", "1"], "--divisions"),
        (["describe", "lighthouse.mid"], "lighthouse.mid"),
        (["describe"], "Missing argument"),
        (["compare", "C major", "0 3 6", "-n", "19"], "12"),
        (["facts", "quay_wall_7"], "gamutwright facts"),
        (["lighthouse"], "No such command"),
    ],
)
def test_bad_input_is_answered_in_words_with_exit_code_2(words: list[str], said: str) -> None:
    done = run(*words)
    assert done.returncode == 2
    assert said in done.stderr
    assert "Traceback" not in done.stderr
    assert not done.stdout


@settings(max_examples=12, deadline=None)
@given(
    st.lists(st.text(st.characters(blacklist_categories=["Cs"], blacklist_characters="\0"), max_size=12), max_size=4)
)
def test_no_text_ends_in_a_traceback(words: list[str]) -> None:
    done = run("describe", "--", *words)
    assert done.returncode in {0, 2}
    assert "Traceback" not in done.stderr


def test_compare_shows_what_moves() -> None:
    done = run("compare", "C major", "G major")
    assert done.returncode == 0, done.stderr
    assert "F → F♯ (+1)" in done.stdout
    read = json.loads(run("compare", "C major", "A minor", "--json").stdout)
    assert read["relations"] == ["the same pitch classes on another root"]
    assert read["measures"]["voice_leading_sum"]["value"] == 0


def test_facts_are_listed_and_explained() -> None:
    listed = run("facts").stdout
    assert all(fact_id in listed for fact_id in default_registry().facts)
    explained = run("facts", "coherence_quotient").stdout
    assert "worked examples" in explained
    assert "Carey" in explained
    assert json.loads(run("facts", "--json").stdout)["facts"].keys() == default_registry().facts.keys()


def test_doctor_reports_and_exits_0_when_nothing_needed_is_missing() -> None:
    done = run("doctor")
    assert done.returncode == 0
    assert "builtin" in done.stdout
    as_json = run_apart("doctor", "--json", CI="1")  # where pyfluidsynth prints as it loads (its published source)
    assert all(part["is_well"] for part in json.loads(as_json.stdout)["parts"] if part["is_needed"])


def test_a_terminal_without_symbols_does_not_end_the_program() -> None:
    done = run_apart("describe", "Eb", "dorian", PYTHONUTF8="0", LC_ALL="C", PYTHONIOENCODING="ascii")
    assert done.returncode == 0, done.stderr


def test_help_and_version_answer() -> None:
    assert "describe" in run("--help").stdout
    assert run("--version").stdout.startswith("gamutwright ")


def test_help_imports_nothing_heavy() -> None:
    code = "import sys, gamutwright.cli.app; print({'numpy', 'rich', 'mido', 'numba'} & sys.modules.keys())"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)  # noqa: S603
    assert done.stdout.strip() == "set()"


@pytest.mark.exhaustive
@pytest.mark.parametrize("part", usually(range(6), 0))
def test_every_set_of_twelve_has_a_profile_whose_counts_are_pointed_at(part: int) -> None:
    """All 4,096 sets: a counting fact's value is the number of its witnesses."""
    for mask in range(part, 4096, 6):
        for finding in profile(Scale(mask)).findings:
            if finding.fact.counts and finding.value is not None:
                assert finding.value == len(finding.witnesses), (finding.fact.id, mask)


def test_generated_pages_are_up_to_date() -> None:
    docs = Path(__file__).parents[2] / "docs"
    namespace: dict[str, object] = {"__file__": str(docs / "generate.py"), "__name__": "generate"}
    exec(compile((docs / "generate.py").read_text(encoding="utf-8"), "generate.py", "exec"), namespace)  # noqa: S102
    wanted = namespace["generated"]()  # type: ignore[operator]
    stale = [
        path.name for path, text in wanted.items() if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    assert not stale, "run: make docs"
    assert set((docs / "facts").glob("*.md")) <= wanted.keys()


def test_doctor_names_a_library_that_the_system_lacks(monkeypatch: pytest.MonkeyPatch) -> None:
    """FluidSynth comes from the system; pyfluidsynth alone does not load (its published source)."""

    def without(name: str) -> object:
        raise ImportError("Couldn't find the FluidSynth library.")

    monkeypatch.setattr(doctor_command.importlib, "import_module", without)
    (state,) = [state for state in doctor_command.examine() if state.part == "pyfluidsynth"]
    assert (state.is_well, state.is_needed) == (False, False)
    assert "does not load" in state.found
    assert "libfluidsynth3" in state.advice
