"""Commands that pace a set or write its track."""

from __future__ import annotations

import getpass
import sys
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Program, Wishes
from tempo_coach.cli import exit_codes
from tempo_coach.cli.options import (
    count_option,
    cues_option,
    given_settings,
    json_option,
    lifter_name,
    lifter_option,
    log_option,
    setup_option,
    silent_option,
)
from tempo_coach.cli.plain_set import PlainSets, bar_sentence, meaning
from tempo_coach.cli.set_preparation import prepare
from tempo_coach.cli.tables import print_json, print_table
from tempo_coach.coach import Coach
from tempo_coach.core.cue_sets import SLOW_REP, ring_out_ms, sound_track, sounds
from tempo_coach.core.facts import line_of
from tempo_coach.core.legible import legible
from tempo_coach.core.prescription import Prescription, parse_prescription
from tempo_coach.core.reading import cue_words
from tempo_coach.core.reports import timeline_data
from tempo_coach.core.settings import cues_text
from tempo_coach.core.tempo import seconds_text
from tempo_coach.core.timeline import Cue, Span, Timeline
from tempo_coach.errors import FileProblem, LogUnwritable

_GAP_MS = 500


@click.command("set")
@click.argument("prescription", metavar="LINE", type=parse_prescription)
@click.option("--plain", is_flag=True, help="Print one line a phase instead of the full screen.")
@click.option("--yes", "starts_at_once", is_flag=True, help="Start at once and ask nothing.")
@click.option(
    "--lowering",
    "typed",
    metavar="LOAD",
    help="The load to be lowered, typed once more where it is more than was ever tested.",
)
@cues_option
@count_option
@setup_option
@silent_option
@lifter_option
@log_option
def set_command(
    prescription: Prescription,
    plain: bool,
    starts_at_once: bool,
    typed: str | None,
    is_silent: bool,
    log_path: Path | None,
    **given: object,
) -> int:
    """Pace the sets of one line and log them.

    LINE is exercise, sets x reps, @ load, tempo, rest: the load, the rest and 'lead raise' or
    'lead lower' may be left out. A tempo is lower-pause-raise-top in seconds; X is as fast as
    possible, V your own speed, A a raise with the spotters' help.

    Where more is to be lowered than can be lifted, and than was ever tested, the load has to be
    typed before the first set. --yes does not answer that; --lowering does.

    \b
    tempo-coach set "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00"
    tempo-coach set "chin-up 3xmax @ bw 3-0-1-0 rest 90" --plain --yes
    """
    wishes = Wishes(log_path, is_silent, given_settings(**given))
    if not plain:
        if starts_at_once:
            raise click.UsageError("--yes goes with --plain; in the app, Space starts")
        if typed is not None:
            raise click.UsageError("--lowering goes with --plain; the app asks for the load")
        return run_app(wishes, line=str(prescription))
    made = bootstrap.program(wishes)
    for notice in made.notices:
        click.echo(f"tempo-coach: {notice}", err=True)
    name = made.lifter or _ask_name(made, starts_at_once=starts_at_once)
    room = prepare(made, prescription, typed, lifter=name, asks=not starts_at_once)
    sets = PlainSets(
        made.coach,
        prescription,
        lifter=name,
        wait_for_start=None if starts_at_once else _wait_for_enter,
        heading=(*meaning(made.coach, prescription), *bar_sentence(made.coach, prescription)),
        room=room,
    )
    try:
        code = sets.run()
    finally:
        is_safe = rescue(made.coach)
    return _code(code, is_safe=is_safe)


def run_app(wishes: Wishes, *, line: str = "", plan_path: Path | None = None) -> int:
    """Run the app in the terminal, with a line on the board or a plan.

    Raises
    ------
    click.UsageError
        There is no terminal.
    """
    _need_terminal("the app")
    return _run(bootstrap.program(wishes), line=line, plan_path=plan_path)


def _need_terminal(what: str) -> None:
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise click.UsageError(
            f"{what} needs a terminal; without one use 'tempo-coach set LINE --plain'"
        )


def _run(made: Program, *, line: str = "", plan_path: Path | None = None) -> int:
    app = bootstrap.app(made, line=line, plan_path=plan_path)
    try:
        app.run()
    finally:
        is_safe = rescue(made.coach)
    return _code(app.return_code or exit_codes.OK, is_safe=is_safe)


def _code(code: int, *, is_safe: bool) -> int:
    return code if is_safe else code or exit_codes.IO


def rescue(coach: Coach) -> bool:
    """Save what is not on the disk yet: in the log, beside it, or as lines on standard error.

    Returns
    -------
    bool
        Whether the log holds everything.
    """
    try:
        beside = coach.ledger.rescue()
    except LogUnwritable as fault:
        click.echo(f"tempo-coach: {fault}; these lines belong in the log:", err=True)
        for fact in coach.ledger.unsaved:
            click.echo(line_of(fact).decode(), err=True, nl=False)
        return False
    if beside is not None:
        click.echo(
            f"tempo-coach: the log took nothing, so the sets are in {beside}; "
            f"append that file to {coach.log.name} when there is room",
            err=True,
        )
    return beside is None


def _ask_name(made: Program, *, starts_at_once: bool) -> str:
    if starts_at_once:
        name = getpass.getuser()
        click.echo(f"tempo-coach: logged for {legible(name)}; --lifter NAME changes it", err=True)
        return name
    name = click.prompt("Who is lifting?", value_proc=lifter_name, err=True, prompt_suffix=" ")
    made.keep_setting("lifter", name)
    return name


def _wait_for_enter(what: str) -> None:
    click.echo(f"Enter starts {what}.")
    if not sys.stdin.readline():
        raise click.UsageError("nobody is there to press Enter; --yes starts at once")


@click.command("track")
@click.argument("prescription", metavar="LINE", type=parse_prescription)
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path),
    help="The WAV file to write: 48 kHz, mono, 16 bit.",
)
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@click.option("--list", "lists", is_flag=True, help="Print the cues.")
@json_option
@cues_option
@count_option
@setup_option
def track_command(
    prescription: Prescription,
    output: Path | None,
    replace: bool,
    lists: bool,
    as_json: bool,
    **given: object,
) -> None:
    """Write the sound of one set to a file, or list its cues.

    Behind the last phase the end sound rings out for about a second.

    \b
    tempo-coach track "front squat 4x5 @ 80 kg 4-1-X-1" -o set.wav
    tempo-coach track "deadlift 3x3 3-1-X-1" --list --setup 5
    """
    if as_json and not lists:
        raise click.UsageError("--json goes with --list")
    if output is None and not lists:
        raise click.UsageError("nothing to do; give -o FILE, --list or both")
    coach = bootstrap.program(Wishes(settings=given_settings(**given))).coach
    timeline = coach.timeline(prescription)
    if output is not None:
        if output.exists() and not replace:
            raise FileProblem(
                f"{legible(str(output))} is there already",
                path=output,
                hint="--replace writes over it",
            )
        bootstrap.wav_player(output).play(coach.track(timeline))
        if not as_json:
            click.echo(f"wrote {legible(str(output))}")
    if lists and as_json:
        print_json(timeline_data(timeline))
    elif lists:
        _print_cues(timeline)


def _print_cues(timeline: Timeline) -> None:
    print_table(
        ("cue", "phase", "at s", "rep", "second", "lasts s"),
        (_cue_row(cue) for cue in timeline.cues()),
        left=2,
    )


def _cue_row(cue: Cue) -> tuple[str, ...]:
    is_phase = cue.span is not None and cue.second is None
    return (
        f"{cue.kind}, last rep" if cue.last_rep else str(cue.kind),
        "" if cue.span is None else _phase(cue, cue.span),
        f"{cue.at_ms / 1000:.3f}",
        "" if cue.rep is None else str(cue.rep),
        "" if cue.second is None else str(cue.second),
        ("≈" if cue.span.speed else "") + seconds_text(cue.span.lasts_ms)
        if cue.span is not None and is_phase
        else "",
    )


def _phase(cue: Cue, span: Span) -> str:
    phase = "stop" if span.is_stop else str(span.phase)
    side = f"{cue.side}: " if cue.side else ""
    return f"{side}{phase}{'' if span.counts else ' by others'}"


@click.command("sounds")
@cues_option
@count_option
@silent_option
def sounds_command(is_silent: bool, **given: object) -> None:
    """Play each cue after its name, then one slow rep.

    The rep is heard in the chosen cue sets, with the words alongside.

    \b
    tempo-coach sounds
    tempo-coach sounds --cues glide+voice
    """
    coach = bootstrap.program(Wishes(is_silent=is_silent, settings=given_settings(**given))).coach
    volume = coach.settings.volume
    for one in sounds():
        click.echo(f"{one.name}: {one.words}")
        heard_ms = coach.play(sound_track(one, volume=volume))
        coach.clock.sleep_until_ms(heard_ms + one.lasts_ms + _GAP_MS)
    slow = parse_prescription(SLOW_REP)
    timeline = coach.timeline(slow)
    click.echo(f"one slow rep, {cues_text(coach.settings.cues)}:")
    zero_ms = coach.play(coach.track(timeline))
    for cue in timeline.cues():
        coach.clock.sleep_until_ms(zero_ms + cue.at_ms)
        click.echo(f"  {cue_words(cue)}")
    coach.clock.sleep_until_ms(zero_ms + timeline.length_ms + ring_out_ms())


@click.command("demo")
@silent_option
def demo_command(is_silent: bool) -> int:
    """Try the app on an invented plan and log, apart from your own.

    \b
    tempo-coach demo
    """
    _need_terminal("the demo")
    with bootstrap.demo_program(is_silent=is_silent) as made:
        return _run(made)
