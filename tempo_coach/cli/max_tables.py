"""Maxes on standard output: tested, reserve, estimates, equations."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import click

from tempo_coach.cli.tables import print_table
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.core.cautions import MAX_TEST
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.marks import counted
from tempo_coach.core.max_estimates import TempoRecord
from tempo_coach.core.max_overview import ExerciseMaxes
from tempo_coach.core.maxes import KnownMax
from tempo_coach.core.rep_equations import EQUATIONS, Band, Caveat, RepEquation
from tempo_coach.core.reserve import TARGET, Reserve, Standing
from tempo_coach.core.sparkline import sparkline

_TESTED = ("tested", "load", "lower s", "on", "from", "id", "note")
_ESTIMATED = ("at tempo", "about kg", "from", "to", "on", "rests on", "trend", "but")
_EQUATIONS = ("equation", "kg", "reps", "at 1 rep", "formula", "source")


def print_maxes(found: Sequence[ExerciseMaxes]) -> None:
    """Print what is known of each lifter and exercise, and what the marks mean."""
    if not found:
        click.echo("no maxes yet, and no sets hard enough to estimate one")
        return
    for one in found:
        click.echo(f"{wrapped(f'{one.exercise}, {one.lifter}')}\n")
        if one.known:
            print_table(_TESTED, map(_known_row, reversed(one.known)), left=len(_TESTED))
            click.echo()
        if one.reserve is not None and one.rests_on is not None:
            click.echo(wrapped(_reserve_words(one.reserve, *one.rests_on)))
            click.echo()
        if one.records:
            rows = (_record_row(one, record) for record in one.records)
            print_table(_ESTIMATED, rows, left=len(_ESTIMATED))
            click.echo()
        for doubt in one.doubts:
            click.echo(wrapped(f"Look again: {doubt}."))
            click.echo()
    _say_caveats({caveat for one in found for caveat in one.caveats})
    if any(one.known for one in found):
        click.echo(wrapped(MAX_TEST))


def print_equations(load: Load, kg: float, *, reps: int, said: Band, exercise: str) -> None:
    """Print what each equation says of a set, the band, and why it may be wrong."""
    in_kg = "" if load.unit is LoadUnit.KG else f" = {kg:.1f} kg"
    click.echo(f"{counted(reps, 'rep')} to failure with {load}{in_kg}\n")
    rows = (_equation_row(one, kg, reps) for one in EQUATIONS)
    print_table(_EQUATIONS, rows, left=len(_EQUATIONS), whole=3)
    told = sum(one.takes(reps) and one.is_for(exercise) for one in EQUATIONS)
    click.echo(
        f"\nby {told} equations: {said.low_kg:.1f} to {said.high_kg:.1f} kg, "
        f"the median {said.middle_kg:.1f} kg"
    )
    for one in EQUATIONS:
        if one.takes(reps) and not one.is_for(exercise):
            click.echo(f"{one.name} is for the {one.exercise} alone, and not counted.")
    _say_caveats(said.caveats)
    click.echo(wrapped(MAX_TEST))


def _known_row(one: KnownMax) -> tuple[str, ...]:
    return (
        one.what,
        str(one.load),
        "" if one.lower_s is None else f"{one.lower_s:g}",
        one.on.isoformat(),
        one.source,
        "" if one.id is None else one.id[:8],
        one.note,
    )


def _record_row(of: ExerciseMaxes, record: TempoRecord) -> tuple[str, ...]:
    day, band = of.latest(record)
    best = day.best
    of_sets = f", best of {day.sets} sets" if day.sets > 1 else ""
    return (
        str(record.tempo),
        f"{band.middle_kg:.1f}",
        f"{band.low_kg:.1f}",
        f"{band.high_kg:.1f}",
        day.on.isoformat(),
        f"{best.reps} × {best.load_kg:g} kg, effort {best.effort:g}{of_sets}",
        _trend_words(record),
        ", ".join(caveat.mark for caveat in band.caveats),
    )


def _trend_words(record: TempoRecord) -> str:
    """Return such as ``▁▃▆█ up, +4.2 kg in 21 days``."""
    trend = record.trend()
    if trend is None:
        return ""
    bars = sparkline([record.band(day).middle_kg for day in record.days])
    return f"{bars} {trend.direction}, {trend.change_kg:+.1f} kg in {counted(trend.days, 'day')}"


def _reserve_words(reserve: Reserve, lowered: KnownMax, lifted: KnownMax) -> str:
    at = "" if lifted.lower_s is None else f" with a lower of {lifted.lower_s:g} s"
    fewest, most = reserve.target_kg
    target = f"{TARGET[0]:.2f} to {TARGET[1]:.2f}, {fewest:.1f} to {most:.1f} kg"
    against = {
        Standing.BELOW: f"{reserve.gap_kg:.1f} kg below the target",
        Standing.WITHIN: "within the target",
        Standing.ABOVE: f"{-reserve.gap_kg:.1f} kg above the target",
    }[reserve.standing]
    return (
        f"Reserve: {lowered.load} lowered in {lowered.lower_s or 0:g} s "
        f"({lowered.on.isoformat()}) ÷ {lifted.load} lifted{at} ({lifted.on.isoformat()}) = "
        f"{reserve.ratio:.3f}: "
        f"{reserve.percent:+.1f} % of the load lifted, {reserve.kg:+.1f} kg; {against} ({target})."
    )


def _equation_row(one: RepEquation, kg: float, reps: int) -> tuple[str, ...]:
    at_one = one.at_one_rep
    holds = (
        f"{one.fewest_reps} to {one.holds_to_reps}"
        if one.holds_to_reps > one.fewest_reps
        else f"{one.fewest_reps} alone"
    )
    return (
        one.name,
        f"{one.max_kg(kg, reps=reps):.1f}" if one.takes(reps) else "",
        holds,
        "" if at_one is None else f"{at_one:.3f}w",
        one.formula,
        one.source,
    )


def _say_caveats(caveats: Iterable[Caveat]) -> None:
    said = set(caveats)
    for caveat in Caveat:
        if caveat in said:
            click.echo(wrapped(f"{caveat.mark.capitalize()}: {caveat.words}"))
