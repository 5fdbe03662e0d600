"""The commands and their options; each hands its work to a module of its own.

Conventions: a scale may be given as several words, so `gamutwright describe D dorian` needs no quotation marks. Errors
go to standard error as value, rule and next step, never as a traceback.
"""

from __future__ import annotations

import contextlib
import os
import sys
from pathlib import Path
from typing import Annotated, TextIO

import typer

from gamutwright import __version__
from gamutwright.cli import series_commands
from gamutwright.cli.options import (
    PORTRAIT_MINUTES,
    USUAL_MINUTES,
    AsJson,
    CatalogueDivisions,
    Divisions,
    FormName,
    FrameSize,
    FrameTheme,
    Instruments,
    Into,
    LevelName,
    Lexicon,
    Names,
    Nearness,
    NoteNames,
    OutFolder,
    Piper,
    Pitch,
    PitchingName,
    PlayAlong,
    Rate,
    Root,
    ScaleWords,
    ScriptFile,
    SizeName,
    SoundFont,
    StoreFolder,
    TellName,
    ThemeName,
    TimbreName,
    WordsAs,
    Workers,
    WrittenFor,
    is_a_file,
    or_printed,
)
from gamutwright.errors import FileError, GamutwrightError, InputError
from gamutwright.settings import Settings

__all__ = ["app", "main"]

BAD_INPUT = 2

app = typer.Typer(
    name="gamutwright",
    help="A workshop for people who teach scales: one scale in, a complete and checked lesson out.",
    epilog="Start with: gamutwright describe D dorian",
    no_args_is_help=True,
    add_completion=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)


def _version(*, wanted: bool) -> None:
    if wanted:
        typer.echo(f"gamutwright {__version__}")
        raise typer.Exit


@app.callback()
def options(
    *,
    version: Annotated[
        bool,
        typer.Option(
            "--version", callback=lambda wanted: _version(wanted=wanted), is_eager=True, help="Print the version."
        ),
    ] = False,
) -> None:
    """Take the options that belong to no command."""


@app.command(
    epilog="Examples:  gamutwright describe D dorian   |   gamutwright describe 0 2 3 7 8 --json   |   "
    "gamutwright describe 2-1-2-2-1-2-2 --root A --fact coherence_quotient"
)
def describe(
    scale: ScaleWords,
    *,
    divisions: Divisions = 12,
    names: Names = NoteNames.ENGLISH,
    root: Root = None,
    fact: Annotated[
        list[str] | None, typer.Option("--fact", "-f", metavar="ID", help="Only this fact, in full; may be repeated.")
    ] = None,
    level: Annotated[LevelName, typer.Option("--level", help="How far the profile goes.")] = LevelName.RESEARCH,
    as_json: AsJson = False,
) -> None:
    """Print every property of a scale, with places and sources."""
    from gamutwright.cli import describe_command

    describe_command.run(
        " ".join(scale), divisions=divisions, names=names, root=root, fact_ids=fact, level=level, as_json=as_json
    )


@app.command(
    epilog="Examples:  gamutwright compare 'C major' 'C acoustic'   |   gamutwright compare 'A minor' 'C major' --json"
)
def compare(
    one: Annotated[str, typer.Argument(metavar="A", help="One scale, in quotation marks where it has spaces.")],
    other: Annotated[str, typer.Argument(metavar="B", help="The other scale.")],
    *,
    divisions: Divisions = 12,
    names: Names = NoteNames.ENGLISH,
    as_json: AsJson = False,
) -> None:
    """Set two scales side by side.

    What they share, how far apart they are, which facts differ.
    """
    from gamutwright.cli import compare_command

    compare_command.run(one, other, divisions=divisions, names=names, as_json=as_json)


@app.command(
    epilog='Examples:  gamutwright find "cardinality = 6 AND tritones = 3 AND is_balanced"   |   '
    "gamutwright find --like 'G acoustic' --limit 5   |   gamutwright find --between 'C major' 'C acoustic'   |   "
    'gamutwright find "is_maximally_even" -n 19 --sort=-evenness --csv even.csv'
)
def find(
    condition: Annotated[str, typer.Argument(help="A condition over facts, as in SQL; all scales without one.")] = "",
    *,
    divisions: CatalogueDivisions = 12,
    names: Names = NoteNames.ENGLISH,
    like: Annotated[str | None, typer.Option("--like", metavar="SCALE", help="Nearest to this scale first.")] = None,
    by: Annotated[Nearness, typer.Option("--by", help="What nearness means.")] = Nearness.VOICE_LEADING,
    contains: Annotated[str | None, typer.Option("--contains", metavar="SCALE", help="Holding all its tones.")] = None,
    within: Annotated[str | None, typer.Option("--within", metavar="SCALE", help="Made of its tones.")] = None,
    any_root: Annotated[bool, typer.Option("--any-root", help="Contained or within on any root.")] = False,
    between: Annotated[
        tuple[str, str] | None, typer.Option("--between", metavar="A B", help="Chains of one-step changes from A to B.")
    ] = None,
    sort: Annotated[
        list[str] | None, typer.Option("--sort", metavar="FACT", help="Order; with a minus the largest first.")
    ] = None,
    limit: Annotated[int | None, typer.Option("--limit", min=0, help="How many rows; 0 for all.")] = None,
    columns: Annotated[str | None, typer.Option("--columns", metavar="A,B", help="Which columns.")] = None,
    names_file: Annotated[str | None, typer.Option("--names-file", metavar="CSV", help="Names of your own.")] = None,
    csv: Annotated[
        str | None, typer.Option("--csv", metavar="FILE", callback=is_a_file, help="Write the rows as CSV.")
    ] = None,
    parquet: Annotated[
        str | None, typer.Option("--parquet", metavar="FILE", callback=is_a_file, help="Write the rows as Parquet.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Find scales by any property, by nearness or by contents."""
    from gamutwright.cli import find_command

    if between:
        others = {"a condition": condition, "--like": like, "--contains": contains, "--within": within, "--sort": sort}
        clashing = [name for name, given in {**others, "--columns": columns, "--any-root": any_root}.items() if given]
        if clashing:
            raise InputError(
                f"--between with {' and '.join(clashing)}",
                "chains are found between two scales and nothing else",
                "Give --between alone, with --limit if you like.",
            )
        find_command.run_between(
            *between,
            divisions=divisions,
            names=names,
            limit=limit,
            own_names=names_file,
            as_json=as_json,
            csv_file=csv,
            parquet_file=parquet,
        )
        return
    options = find_command.FindOptions(
        divisions=divisions,
        names=names.value,
        nearest_to=like,
        by=by.value,
        contains=contains,
        within_scale=within,
        any_root=any_root,
        sort=sort or [],
        limit=limit,
        columns=columns,
        own_names=names_file,
        as_json=as_json,
        csv_file=csv,
        parquet_file=parquet,
    )
    find_command.run(condition, options)


@app.command(epilog="Examples:  gamutwright rare G acoustic   |   gamutwright rare 0 1 4 6 --json")
def rare(
    scale: ScaleWords,
    *,
    divisions: CatalogueDivisions = 12,
    names: Names = NoteNames.ENGLISH,
    root: Root = None,
    as_json: AsJson = False,
) -> None:
    """Say what is special about a scale, and how special."""
    from gamutwright.cli import rare_command

    rare_command.run(" ".join(scale), divisions=divisions, names=names, root=root, as_json=as_json)


@app.command(
    epilog="Examples:  gamutwright facts   |   gamutwright facts coherence_quotient   |   gamutwright facts --json"
)
def facts(
    ids: Annotated[
        list[str] | None, typer.Argument(metavar="[ID...]", help="Facts to explain; all are listed without.")
    ] = None,
    *,
    as_json: AsJson = False,
) -> None:
    """List the facts, or explain some of them.

    An explanation gives definition, conventions, sources and worked examples.
    """
    from gamutwright.cli import facts_command

    facts_command.run(ids or [], as_json=as_json)


@app.command(
    epilog="Examples:  gamutwright draft G acoustic -o acoustic.md   |   "
    "gamutwright draft D dorian --language de --level foundation --minutes 4   |   "
    "gamutwright draft C lydian --after dorian.md   |   gamutwright draft D dorian --stories   |   "
    "gamutwright draft D dorian --story another-home   |   gamutwright draft D dorian --tell all --minutes 11"
)
def draft(
    scale: ScaleWords,
    *,
    divisions: Divisions = 12,
    names: Names = NoteNames.ENGLISH,
    root: Root = None,
    level: Annotated[LevelName, typer.Option("--level", help="Who the lesson is for.")] = LevelName.FURTHER,
    minutes: Annotated[
        float | None,
        typer.Option("--minutes", min=1, max=60, help="Length of the film aimed at; 6 without it, 12 for a portrait."),
    ] = None,
    language: Annotated[str, typer.Option("--language", "-l", help="Language of the lesson.")] = "en",
    seed: Annotated[int, typer.Option("--seed", help="Another seed, another wording.")] = 0,
    story: Annotated[str, typer.Option("--story", metavar="NAME", help="The story to tell; the best without it.")] = "",
    tell: Annotated[
        TellName | None, typer.Option("--tell", help="all: the complete portrait, for all that can be said.")
    ] = None,
    stories: Annotated[bool, typer.Option("--stories", help="List the stories that fit, and write nothing.")] = False,
    course: Annotated[
        Path | None, typer.Option("--course", metavar="FOLDER", help="A course whose stories and words are used.")
    ] = None,
    after: Annotated[
        list[Path] | None, typer.Option("--after", metavar="SCRIPT", help="An earlier lesson; may be repeated.")
    ] = None,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", metavar="FILE", callback=or_printed, help="Where the script goes.")
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Replace a file that is there.")] = False,
) -> None:
    """Write a first version of a lesson's script."""
    from gamutwright.cli import draft_command

    draft_command.run(
        " ".join(scale),
        divisions=divisions,
        names=names,
        root=root,
        level=LevelName.RESEARCH if tell else level,
        minutes=minutes or (PORTRAIT_MINUTES if tell else USUAL_MINUTES),
        language=language,
        seed=seed,
        story="portrait" if tell else story,
        is_listing=stories,
        course=course,
        after=after or [],
        output=output,
        is_forced=force,
    )


@app.command(
    epilog="Examples:  gamutwright check acoustic.md   |   gamutwright check lessons/*/script.md --json   |   "
    "gamutwright check acoustic.md --fix   |   gamutwright check acoustic.md --ledger ledger.json --pace"
)
def check(
    scripts: Annotated[list[Path], typer.Argument(metavar="SCRIPT...", help="Scripts to check.")],
    *,
    fix: Annotated[bool, typer.Option("--fix", help="Offer to mend what is contradicted.")] = False,
    yes: Annotated[bool, typer.Option("--yes", help="With --fix: mend without asking.")] = False,
    ledger: Annotated[
        Path | None, typer.Option("--ledger", metavar="FILE", callback=is_a_file, help="Write the ledger here.")
    ] = None,
    pace: Annotated[bool, typer.Option("--pace", help="Report pace and plainness too.")] = False,
    as_json: AsJson = False,
) -> None:
    """Prove or refute every statement of a script."""
    from gamutwright.cli import check_command

    if ledger and len(scripts) > 1:
        raise InputError(
            f"--ledger with {len(scripts)} scripts", "a ledger is of one script", "Give one, or use --json."
        )
    if fix and as_json and not yes:
        raise InputError("--fix with --json", "mending asks questions", "Add --yes, or leave out --json.")
    raise typer.Exit(check_command.run(scripts, as_json=as_json, ledger_file=ledger, fix=fix, yes=yes, pace=pace))


@app.command(
    epilog="Examples:  gamutwright audit lesson.srt   |   "
    "gamutwright audit notes.md --scale 'G acoustic' -o report.md   |   "
    "gamutwright audit folge.vtt --language de --json"
)
def audit(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="Plain text, Markdown, SRT or WebVTT.")],
    *,
    scale: Annotated[str | None, typer.Option("--scale", metavar="SCALE", help="The scale it is about.")] = None,
    language: Annotated[str, typer.Option("--language", "-l", help="Language of the text.")] = "en",
    form: Annotated[FormName, typer.Option("--form", help="What kind of file it is.")] = FormName.AUTO,
    divisions: Divisions = 12,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", metavar="FILE", callback=or_printed, help="Where the report goes.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Find the mistakes in a lesson that exists already."""
    from gamutwright.cli import audit_command

    raise typer.Exit(
        audit_command.run(
            file,
            scale=scale,
            language=language,
            form=form.value,
            divisions=divisions,
            as_json=as_json,
            output=output,
        )
    )


@app.command(
    epilog="Examples:  gamutwright picture G acoustic --mark semitone_steps -o steps.svg   |   "
    "gamutwright picture C major --figure keyboard --theme night -o keys.png   |   "
    "gamutwright picture C major --figure comparison --with 'C acoustic' -o both.pdf"
)
def picture(
    scale: ScaleWords,
    *,
    divisions: Divisions = 12,
    names: Names = NoteNames.ENGLISH,
    root: Root = None,
    figure: Annotated[str | None, typer.Option("--figure", "-g", metavar="ID", help="Which diagram.")] = None,
    mark: Annotated[str | None, typer.Option("--mark", "-m", metavar="FACT", help="Mark the places of a fact.")] = None,
    upto: Annotated[int | None, typer.Option("--upto", min=0, help="Mark only the first so many places.")] = None,
    beside: Annotated[str | None, typer.Option("--with", metavar="SCALE", help="A scale to compare with.")] = None,
    tuning: Annotated[
        str | None, typer.Option("--tuning", metavar="NOTES", help="Open strings of a fretboard.")
    ] = None,
    theme: Annotated[ThemeName, typer.Option("--theme", help="Colours.")] = ThemeName.LIGHT,
    size: Annotated[float, typer.Option("--scale", min=0.1, max=10, help="Pixels a unit in PNG.")] = 2.0,
    text: Annotated[
        WordsAs, typer.Option("--text", help="Words of an SVG: outlines, or live, to be selected and searched.")
    ] = WordsAs.OUTLINES,
    output: Annotated[
        Path | None,
        typer.Option(
            "--output", "-o", metavar="FILE", callback=or_printed, help="A file ending in .svg, .png or .pdf."
        ),
    ] = None,
) -> None:
    """Draw a scale: ladder, keyboard, staff, ring and more."""
    from gamutwright.cli import picture_command

    picture_command.run(
        " ".join(scale),
        divisions=divisions,
        names=names,
        root=root,
        figure=figure,
        mark=mark,
        upto=upto,
        beside=beside,
        tuning=tuning,
        theme=theme.value,
        scale=size,
        has_live_text=text is WordsAs.LIVE,
        output=str(output) if output else None,
    )


@app.command(
    epilog="Examples:  gamutwright sound G acoustic -o acoustic.wav   |   "
    "gamutwright sound C major --fact tritones --tempo 72 -o tritones.flac   |   "
    "gamutwright sound C major --phrase alternation --with 'C harmonic minor' -o two.mp3   |   "
    "gamutwright sound D dorian --phrase tune-over-vamp --metre 3/4 --bars 8 -o tune.musicxml"
)
def sound(
    scale: ScaleWords,
    *,
    output: Annotated[
        Path,
        typer.Option(
            "--output",
            "-o",
            metavar="FILE",
            callback=is_a_file,
            help="A file ending in .wav, .flac, .m4a, .mp3, .mid or .musicxml.",
        ),
    ],
    divisions: Divisions = 12,
    names: Names = NoteNames.ENGLISH,
    root: Root = None,
    kind: Annotated[
        str | None,
        typer.Option("--phrase", metavar="ID", help="What is played: scale, tune, vamp ...; a wrong name lists all."),
    ] = None,
    fact: Annotated[str | None, typer.Option("--fact", metavar="FACT", help="Play the places of a fact.")] = None,
    beside: Annotated[str | None, typer.Option("--with", metavar="SCALE", help="A scale to alternate with.")] = None,
    timbre: Annotated[TimbreName, typer.Option("--timbre", help="How it sounds.")] = TimbreName.PLUCKED,
    tempo: Annotated[float | None, typer.Option("--tempo", help="Beats a minute.")] = None,
    metre: Annotated[str | None, typer.Option("--metre", metavar="METRE", help="4/4, 3/4 or 6/8.")] = None,
    bars: Annotated[int | None, typer.Option("--bars", min=1, help="How many.")] = None,
    version: Annotated[int, typer.Option("--version", min=1, help="Another number, another tune.")] = 1,
    tuning: Annotated[str, typer.Option("--tuning", metavar="ID", help="Name of a tuning.")] = "equal",
    pitching: Annotated[
        PitchingName, typer.Option("--pitching", help="MIDI: how pitches are told.")
    ] = PitchingName.AUTO,
    soundfont: SoundFont = None,
    instrument: Instruments = None,
    stems: Annotated[
        Path | None,
        typer.Option(
            "--stems",
            metavar="FOLDER",
            callback=is_a_file,
            help="Write each part to a file of its own as well, into this folder.",
        ),
    ] = None,
    loudness: Annotated[
        float, typer.Option("--loudness", min=-40, max=-12, metavar="LUFS", help="Loudness of the file.")
    ] = -16.0,
    channels: Annotated[int, typer.Option("--channels", min=1, max=2, help="1 or 2.")] = 2,
) -> None:
    """Play a scale, the places of a fact, or music made from a scale, into a sound, MIDI or MusicXML file."""
    from gamutwright.cli import sound_command

    options = sound_command.SoundOptions(
        divisions=divisions,
        names=names.value,
        root=root,
        kind=kind,
        fact=fact,
        beside=beside,
        timbre=timbre.value,
        tempo=tempo,
        tuning=tuning,
        metre=metre,
        bars=bars,
        version=version,
        pitching=pitching.value,
        soundfont=soundfont,
        instruments=tuple(instrument or ()),
        stems=stems,
        loudness_lufs=loudness,
        channels=channels,
        output=output,
    )
    sound_command.run(" ".join(scale), options)


@app.command(
    epilog="Examples:  gamutwright speak 'From C sharp to D.' -o line.wav   |   "
    "gamutwright speak 'Von cis nach d.' --language de --rate 0.9 -o zeile.flac --json"
)
def speak(
    text: Annotated[str, typer.Argument(metavar="TEXT", help="A line.")],
    *,
    output: Annotated[
        Path,
        typer.Option(
            "--output", "-o", metavar="FILE", callback=is_a_file, help="A file ending in .wav, .flac, .m4a or .mp3."
        ),
    ],
    language: Annotated[str, typer.Option("--language", "-l", help="Its language.")] = "en",
    rate: Rate = 1.0,
    pitch: Pitch = 50,
    piper: Piper = None,
    words: Lexicon = None,
    force: Annotated[bool, typer.Option("--force", help="Replace a file that is there.")] = False,
    as_json: AsJson = False,
) -> None:
    """Say a line into a sound file; tell when each word is heard."""
    from gamutwright.cli import speak_command

    speak_command.run(
        text,
        output=output,
        language=language,
        rate=rate,
        pitch=pitch,
        piper=piper,
        words=words,
        as_json=as_json,
        is_forced=force,
    )


@app.command(epilog="Example:  gamutwright takes lessons/acoustic/script.md")
def takes(
    script: Annotated[Path, typer.Argument(metavar="SCRIPT", help="A script.")], *, as_json: AsJson = False
) -> None:
    """List the lines of a script with the state of their recordings."""
    from gamutwright.cli import speak_command

    raise typer.Exit(speak_command.list_states(script, as_json=as_json))


@app.command(
    epilog="Examples:  gamutwright take acoustic.md 3 line-3.webm   |   gamutwright take acoustic.md 3 --choose 1"
)
def take(
    script: Annotated[Path, typer.Argument(metavar="SCRIPT", help="A script.")],
    line: Annotated[str, typer.Argument(metavar="LINE", help="Its id, or its number in the list.")],
    recording: Annotated[
        Path | None, typer.Argument(metavar="[RECORDING]", help="WAV, FLAC, WebM, MP3 or M4A.")
    ] = None,
    *,
    number: Annotated[int | None, typer.Option("--choose", min=1, help="Speak this take of the line.")] = None,
) -> None:
    """Take in your own recording of a line, or choose among those there are."""
    from gamutwright.cli import speak_command

    if (recording is None) == (number is None):
        raise InputError("a recording and --choose", "one of the two says what to do", "Give a file, or --choose N.")
    if recording is not None:
        speak_command.add(script, line, recording)
    elif number is not None:
        speak_command.choose(script, line, number)


@app.command(
    epilog="Examples:  gamutwright render acoustic.md   |   "
    "gamutwright render lessons/acoustic/script.md -o out/acoustic   |   "
    "gamutwright render acoustic.md --size vertical --theme light"
)
def render(
    script: ScriptFile,
    *,
    output: OutFolder = None,
    into: Into = False,
    size: FrameSize = SizeName.P1080,
    theme: FrameTheme = ThemeName.NIGHT,
    draft: Annotated[
        bool, typer.Option("--draft", help="Render although not every statement is proved; every frame says so.")
    ] = False,
    store: StoreFolder = None,
    workers: Workers = None,
    rate: Rate = 1.0,
    pitch: Pitch = 50,
    piper: Piper = None,
    words: Lexicon = None,
    soundfont: SoundFont = None,
    instrument: Instruments = None,
) -> None:
    """Make the film of a script, with captions and chapters. What has not changed is not made again."""
    from gamutwright.cli import render_command

    render_command.run(
        render_command.Wanted(
            script,
            output,
            Settings(size.value, theme.value, rate, pitch, piper, words, soundfont, tuple(instrument or ())),
            draft,
            store,
            workers,
            adds=into,
        )
    )


@app.command(
    epilog="Examples:  gamutwright package lessons/acoustic/script.md   |   "
    "gamutwright package acoustic.md -o out/acoustic --size 720p --for Bb --for Eb"
)
def package(
    script: ScriptFile,
    *,
    output: OutFolder = None,
    into: Into = False,
    size: FrameSize = SizeName.P1080,
    theme: FrameTheme = ThemeName.NIGHT,
    store: StoreFolder = None,
    workers: Workers = None,
    rate: Rate = 1.0,
    pitch: Pitch = 50,
    piper: Piper = None,
    words: Lexicon = None,
    soundfont: SoundFont = None,
    instrument: Instruments = None,
    written_for: WrittenFor = None,
    play_along: PlayAlong = True,
) -> None:
    """Make everything a lesson is published with: film, page, handout, score, sounds, quiz, ledger, and a zip of it."""
    from gamutwright.cli import render_command

    render_command.run(
        render_command.Wanted(
            script,
            output,
            Settings(
                size.value,
                theme.value,
                rate,
                pitch,
                piper,
                words,
                soundfont,
                tuple(instrument or ()),
                tuple(dict.fromkeys(key.value for key in written_for or ())),
                play_along,
            ),
            False,
            store,
            workers,
            is_package=True,
            adds=into,
        )
    )


@app.command(epilog="Examples:  gamutwright errata out/acoustic   |   gamutwright errata out/acoustic -o errata.md")
def errata(
    folder: Annotated[Path, typer.Argument(metavar="PACKAGE", help="A folder that `package` made.")],
    *,
    output: Annotated[
        Path | None, typer.Option("--output", "-o", metavar="FILE", callback=or_printed, help="Where the note goes.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Check a published lesson with today's definitions: what changed, where in the film, and what to write."""
    from gamutwright.cli import errata_command

    raise typer.Exit(errata_command.run_errata(folder, output, as_json=as_json))


@app.command(
    epilog="Examples:  gamutwright verify out/acoustic/film.mp4   |   "
    "gamutwright verify film.mp4 --ledger ledger.json --json"
)
def verify(
    film: Annotated[Path, typer.Argument(metavar="FILM", help="A finished film.")],
    *,
    ledger: Annotated[
        Path | None, typer.Option("--ledger", metavar="FILE", help="Its ledger; ledger.json beside it without.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Read a finished film back and compare it with its ledger."""
    from gamutwright.cli import verify_command

    raise typer.Exit(verify_command.run(film, ledger=ledger, as_json=as_json))


@app.command(epilog="Examples:  gamutwright studio   |   gamutwright studio courses/harbour --port 50321 --no-browser")
def studio(
    course: Annotated[Path, typer.Argument(metavar="COURSE", help="Folder of a course.")] = Path(),
    *,
    port: Annotated[
        int | None, typer.Option("--port", min=1, max=65_535, help="Where to answer; a free port without.")
    ] = None,
    no_browser: Annotated[bool, typer.Option("--no-browser", help="Print the address and open no browser.")] = False,
    as_json: AsJson = False,
) -> None:
    """Open the studio: the whole job in a browser, on this machine alone. Ctrl-C ends it."""
    from gamutwright.cli import studio_command

    raise typer.Exit(studio_command.run(course, port, opens_browser=not no_browser, as_json=as_json))


@app.command(epilog="Example:  gamutwright doctor")
def doctor(*, as_json: AsJson = False) -> None:
    """Say what is installed and what a missing part would enable."""
    from gamutwright.cli import doctor_command

    raise typer.Exit(doctor_command.run(as_json=as_json))


app.add_typer(series_commands.app)


def main() -> None:
    """Run the command line and turn every expected error into words and an exit code."""
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot print ♭ shows a question mark instead of ending the program.
        getattr(stream, "reconfigure", lambda **_: None)(errors="replace")
    code: int | str | None = 0
    more = ""
    try:
        app()
    except SystemExit as ended:
        code = ended.code
    except GamutwrightError as error:
        _complain(error)
        code = BAD_INPUT
    except OSError:
        # Was it the output? Then another line cannot be written either.
        more = "\n"
        if _unprinted(more) is None:
            raise
    unprinted = _unprinted(more)
    if unprinted is not None:
        _give_up_printing(unprinted)
        code = 1
    sys.exit(code)


def _unprinted(more: str = "") -> OSError | None:
    """Print what waits to be printed; say why it cannot be."""
    try:
        if more:
            sys.stdout.write(more)
        if sys.stdout:
            sys.stdout.flush()
    except OSError as error:
        return error
    return None


def _give_up_printing(why: OSError) -> None:
    """Tell that the output cannot be written, unless whoever read it has heard enough; nothing tries again."""
    _silence(sys.stdout)
    if not isinstance(why, BrokenPipeError):
        rule = f"it cannot be written ({why.strerror or why})"
        _complain(FileError("standard output", rule, "Make room, or send it to another place."))


def _complain(error: GamutwrightError) -> None:
    try:
        _tell(error)
        sys.stderr.flush()
    except OSError:
        # Where nothing can be told either, the exit code has to do: what still waits to be printed must not change it.
        _silence(sys.stderr)


def _silence(stream: TextIO) -> None:
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


def _tell(error: GamutwrightError) -> None:
    typer.secho("error: ", fg="red", bold=True, nl=False, err=True)
    typer.echo(f"{error.value}: {error.rule}.", err=True)
    readings = getattr(error, "readings", ())
    for reading in readings:
        typer.echo(f"  - {reading}", err=True)
    typer.echo(f"next:  {'Write one of these.' if readings else error.next_step}", err=True)
