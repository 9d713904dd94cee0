"""Commands that dose the lowering over the season."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime
from pathlib import Path
from typing import IO

import click

from tempo_coach import bootstrap, outputs
from tempo_coach.cli.log_reading import logs_argument, merge_logs, say_reading
from tempo_coach.cli.options import day_option, json_option, log_option, only_lifter_option
from tempo_coach.cli.planned_lifter import usable_plan
from tempo_coach.cli.tables import is_narrow, print_json, print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.export_tables import Choice, chosen_rows
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.plan import Plan
from tempo_coach.core.season import Season, season_of
from tempo_coach.core.season_data import season_data
from tempo_coach.core.season_table import Measure, SeasonRow
from tempo_coach.core.season_words import season_sentences, week_words
from tempo_coach.core.set_rows import SetRows
from tempo_coach.core.weeks import IsoWeek

_BAR = 20
_SHORT_BAR = 12


@click.command("season")
@click.argument("path", metavar="PLAN", type=click.Path(path_type=Path))
@logs_argument
@only_lifter_option
@click.option("--days", "by_day", is_flag=True, help="Each day of this week and the next too.")
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path),
    help="Write the year of one lifter as a calendar file (.ics) for other programs.",
)
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
@day_option
@json_option
@log_option
def season_command(
    path: Path,
    logs: tuple[Path, ...],
    lifter: str | None,
    by_day: bool,
    output: Path | None,
    replace: bool,
    day: date | None,
    as_json: bool,
    log_path: Path | None,
) -> None:
    """Show a plan's year: lowering emphasis done, and its limits.

    The limit of a week comes from a base, grows by a stated share, and the calendar takes out of
    it: in season, before a meet, on holidays and in illness. It warns, and locks nothing.

    \b
    tempo-coach season winter.toml
    tempo-coach season winter.toml logs/ --lifter "Mirela Oude" --days
    tempo-coach season winter.toml --lifter "Mirela Oude" -o mirela.ics
    """
    now = bootstrap.clock().wall()
    today = day or now.date()
    plan = usable_plan(path, today=today)
    names = [one.name for one in plan.lifters] if lifter is None else [plan.lifter(lifter).name]
    if output is not None:
        _write_dates(plan, names, output, replace=replace, made_at=now)
        return
    reading = merge_logs(logs, log_path)
    seasons = [
        season_of(plan, name, sets=_until(day, reading.sets(rows_of(reading, name))), today=today)
        for name in names
    ]
    if as_json:
        print_json({"plan": plan.name, "lifters": [season_data(one) for one in seasons]})
        return
    for season in seasons:
        _print_season(season)
        _print_groups(season)
        if by_day:
            _print_days(season)
    say_reading(reading)


def rows_of(reading: MergedLogs, lifter: str) -> SetRows:
    """Return one lifter's sets as rows; none where the logs know nobody so."""
    if name_key(lifter) not in map(name_key, reading.rows.lifters):
        return SetRows.of(())
    return chosen_rows(reading.rows, Choice((lifter,)))


def _until(day: date | None, sets: Iterable[SetDone]) -> tuple[SetDone, ...]:
    """Leave out what was done after a day; without one a lifter's date may be ahead of this one."""
    return tuple(one for one in sets if day is None or one.started_at.date() <= day)


def _write_dates(
    plan: Plan, names: list[str], output: Path, *, replace: bool, made_at: datetime
) -> None:
    from tempo_coach.core.season_dates import season_dates

    if len(names) > 1:
        raise click.UsageError("a calendar file is one lifter's; give --lifter NAME")
    file = outputs.calendar_file(output)
    file.check(replace=replace)
    name = f"{plan.name}: {names[0]}"
    dates = season_dates(plan.calendar_of(names[0]), name=name, made_at=made_at)
    file.write(lambda stream: _fill(stream, dates), replace=replace)
    click.echo(f"wrote {file.name}")


def _fill(stream: IO[bytes], content: bytes) -> None:
    stream.write(content)


def _print_season(season: Season) -> None:
    most = max((max(row.lower_s.done, row.lower_s.limit or 0) for row in season.rows), default=0)
    rows = [_row(row, season, most) for row in season.rows]
    headings = ("week", "from", "what it is", "seconds", "done s", "limit s", "kg·s", "limit")
    title = f"{legible(season.lifter)}: lowering emphasis"
    print_table(headings, rows, left=4, whole=2, title=title)
    click.echo(f"\n{'#' * 3} done, | limit, > this week, ! over the limit")
    for sentence in season_sentences(season):
        click.echo(wrapped(sentence))
    click.echo()


def _row(row: SeasonRow, season: Season, most: float) -> tuple[str, ...]:
    monday = row.week.week.monday()
    return (
        _marked(row, season),
        f"{monday:%d %b}" if is_narrow() else monday.isoformat(),
        week_words(row.week),
        _bar(row.lower_s, most, length=_SHORT_BAR if is_narrow() else _BAR),
        _done(row.lower_s),
        _limit(row.lower_s.limit),
        _done(row.kg_s),
        _limit(row.kg_s.limit),
    )


def _marked(row: SeasonRow, season: Season) -> str:
    is_this = row.week.week == IsoWeek.of(season.today)
    return f"{'>' if is_this else ' '} {row.week.week}"


def _done(measure: Measure) -> str:
    return f"{measure.done:,.0f}{'!' if measure.over else ''}"


def _limit(amount: float | None) -> str:
    return "-" if amount is None else f"{amount:,.0f}"


def _bar(measure: Measure, most: float, *, length: int) -> str:
    """Return what was done as a bar, and the limit as a mark at its place."""
    if not most:
        return ""
    cells = list(("#" * round(length * measure.done / most)).ljust(length, "."))
    if measure.limit is not None:
        cells[min(round(length * measure.limit / most), length - 1)] = "|"
    return "".join(cells)


def _print_groups(season: Season) -> None:
    """Print the movement groups that are limited by themselves, week by week."""
    names = list(season.rules.group_base_s)
    if not names:
        return
    rows = [
        (
            _marked(row, season),
            *(
                cell
                for measure in map(row.groups.__getitem__, names)
                for cell in (_done(measure), _limit(measure.limit))
            ),
        )
        for row in season.rows
    ]
    headings = (f"{name} {what}" for name in names for what in ("s", "limit"))
    title = f"{legible(season.lifter)}: lowering emphasis by movement group"
    print_table(("week", *headings), rows, whole=1, title=title)
    click.echo()


def _print_days(season: Season) -> None:
    this = IsoWeek.of(season.today)
    shown = [row for row in map(season.row_of, (this, this.before(-1))) if row is not None]
    rows = [
        (
            day.date.isoformat(),
            day.words,
            f"{day.share:.0%}",
            _limit(row.lower_s.of_day(day)),
        )
        for row in shown
        for day in row.week.days
    ]
    print_table(("day", "what it is", "share", "s a day"), rows, left=2)
    click.echo()
