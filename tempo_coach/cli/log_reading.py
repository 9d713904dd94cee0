"""How commands read many logs, and what they say of the reading."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from tempo_coach import bootstrap
from tempo_coach.cli.progress import progress
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.export_tables import Choice, check_names
from tempo_coach.core.legible import legible
from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.merged_logs import MergedLogs, merged
from tempo_coach.core.pseudonyms import SAID, Pseudonyms

logs_argument = click.argument(
    "logs", metavar="[LOG|FOLDER]...", nargs=-1, type=click.Path(path_type=Path)
)


def merge_logs(given: Sequence[Path], log_path: Path | None) -> MergedLogs:
    """Merge the logs named as arguments, or the one of ``--log``, or the user's own.

    A folder stands for every log in it and below.
    """
    logs = bootstrap.log_lines(given) if given else (bootstrap.own_log_lines(log_path),)
    with progress("reading", sum(log.size() for log in logs)) as shown:
        return merged(logs, advance=shown.advance)


def masked(reading: MergedLogs, choice: Choice) -> tuple[MergedLogs, Choice, Pseudonyms]:
    """Put codes in place of the names in logs and in a choice, and say so on standard error.

    Raises
    ------
    OutOfRange
        The logs don't know a name of the choice.
    FileProblem
        There is no key, and none can be made.
    """
    check_names(reading, choice)
    key = bootstrap.pseudonym_key()
    tested = (one.lifter for one in reading.maxes.tested)
    begun = (one.begun.lifter for one in reading.reserve_tests.tests)
    told = (one.lifter for one in reading.soreness.told)
    names = (*reading.rows.lifters, *tested, *begun, *told, *choice.lifters)
    pseudonyms = Pseudonyms.of(names, key=key.key())
    said = f"tempo-coach: {SAID} The key is {key.name}; keep it to yourself."
    click.echo(wrapped(said), err=True)
    return pseudonyms.logs(reading), pseudonyms.choice(choice), pseudonyms


def say_reading(logs: MergedLogs) -> None:
    """Say on standard error what could not be read, and where logs disagree."""
    say_skipped(logs.skipped)
    say_disagreeing(logs)


def say_disagreeing(logs: MergedLogs) -> None:
    """Say on standard error where logs disagree."""
    _say_disagreeing(logs.disagreeing, what="set", counts="the one that ended later counts")
    _say_disagreeing(
        logs.maxes.disagreeing, what="max", counts="the one that was tested later counts"
    )
    _say_disagreeing(
        logs.reserve_tests.disagreeing, what="reserve test", counts="the later one counts"
    )
    _say_disagreeing(
        logs.soreness.disagreeing, what="soreness answer", counts="the later one counts"
    )


def _say_disagreeing(ids: Sequence[str], *, what: str, counts: str) -> None:
    if ids:
        plural = "es" if what.endswith("x") else "s"
        more = f" and {len(ids) - 1} more" if len(ids) > 1 else ""
        click.echo(
            f"tempo-coach: the logs disagree about the {what}{plural if more else ''} "
            f"{legible(ids[0])}{more}; {counts}",
            err=True,
        )


def say_skipped(skipped: Sequence[Skipped]) -> None:
    """Say on standard error how many lines were passed over, and where the first is."""
    if skipped:
        first = skipped[0]
        more = f" and {len(skipped) - 1} more" if len(skipped) > 1 else ""
        click.echo(
            f"tempo-coach: skipped {first.file}, line {first.line}: {legible(first.why)}{more}; "
            "'tempo-coach log check' lists them",
            err=True,
        )
