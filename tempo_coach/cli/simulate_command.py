"""The command that makes up a trace, to try things out without a device."""

from __future__ import annotations

from pathlib import Path

import click

from tempo_coach import outputs
from tempo_coach.cli.options import STANDARD_OUTPUT, number_from, whole_number_from
from tempo_coach.core.bar_simulator import Device, Lifter, simulated_set
from tempo_coach.core.marks import counted
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.trace import Quantity
from tempo_coach.core.trace_writing import SIMULATED, simulated_table

_USUAL_NOISE = {Quantity.HEIGHT: 0.001, Quantity.SPEED: 0.01, Quantity.ACCELERATION: 0.05}


@click.command("simulate")
@click.argument("line", metavar="LINE")
@click.option(
    "-o",
    "--output",
    required=True,
    type=click.Path(path_type=Path, allow_dash=True),
    metavar="FILE",
    help="The table to write, as text (CSV); - is standard output.",
)
@click.option(
    "--of",
    "quantity",
    type=click.Choice([one.value for one in Quantity]),
    default=Quantity.HEIGHT.value,
    help="What the made-up device records [height].",
)
@click.option(
    "--range",
    "range_m",
    type=number_from(0.02, 2.5, unit="m"),
    default=0.5,
    metavar="M",
    help="How far the bar goes, 0.02 to 2.5 m [0.5].",
)
@click.option(
    "--fatigue",
    "fatigue_percent",
    type=number_from(0, 60, unit="percent"),
    default=0.0,
    metavar="PERCENT",
    help="How much shorter the last lower is than the first, and the last raise longer, 0 to 60 "
    "[0].",
)
@click.option(
    "--scatter",
    "scatter_percent",
    type=number_from(0, 30, unit="percent"),
    default=5.2,
    metavar="PERCENT",
    help="How much the phases vary, 0 to 30: paced lifters 4.0 to 6.4 [5.2].",
)
@click.option(
    "--smooth",
    is_flag=True,
    help="Slow phases too are minimum-jerk movements, in place of a steady pace.",
)
@click.option("--bounces", is_flag=True, help="The bar turns sharply where there is no pause.")
@click.option("--no-walk", "stays", is_flag=True, help="Nothing moves before the set and after it.")
@click.option(
    "--rate",
    "rate_hz",
    type=number_from(5, 2_000, unit="samples a second"),
    default=100.0,
    metavar="HZ",
    help="Samples a second, 5 to 2,000 [100].",
)
@click.option(
    "--noise",
    type=number_from(0, 10),
    metavar="SD",
    help="Of a sample, 0 to 10 m, m/s or m/s² [0.001, 0.01 or 0.05].",
)
@click.option(
    "--jitter",
    "jitter_percent",
    type=number_from(0, 30, unit="percent"),
    default=0.0,
    metavar="PERCENT",
    help="How unevenly samples are spaced, 0 to 30 [0].",
)
@click.option(
    "--drift",
    default=0.0,
    metavar="X",
    help="Height: m a minute; else what is added to every value.",
)
@click.option(
    "--gaps",
    type=whole_number_from(0, 1_000),
    default=0,
    metavar="COUNT",
    help="Gaps of 0.1 s, 0 to 1,000 [0].",
)
@click.option(
    "--spikes",
    type=whole_number_from(0, 1_000),
    default=0,
    metavar="COUNT",
    help="Samples far off, 0 to 1,000 [0].",
)
@click.option(
    "--seed",
    type=whole_number_from(0, 2**31),
    default=1,
    metavar="NUMBER",
    help="The same seed gives the same table [1].",
)
@click.option("--replace", is_flag=True, help="Write over a file that is there.")
def simulate_command(
    line: str,
    output: Path,
    quantity: str,
    range_m: float,
    fatigue_percent: float,
    scatter_percent: float,
    smooth: bool,
    bounces: bool,
    stays: bool,
    rate_hz: float,
    noise: float | None,
    jitter_percent: float,
    drift: float,
    gaps: int,
    spikes: int,
    seed: int,
    replace: bool,
) -> None:
    """Make up a recording of the bar, to try out 'compare'.

    It is a recording of one set of the line, and says in its first line that it is simulated.

    \b
    tempo-coach simulate "front squat 1x5 4-1-X-1" -o trace.csv --fatigue 20
    tempo-coach simulate "deadlift 1x3 3-1-X-0" -o trace.csv --of acceleration
    """
    prescription = parse_prescription(line)
    of = Quantity(quantity)
    lifter = Lifter(
        range_m=range_m,
        scatter=scatter_percent / 100,
        fatigue=fatigue_percent / 100,
        steady=not smooth,
        bounces=bounces,
        walks_out=not stays,
    )
    device = Device(
        quantity=of,
        rate_hz=rate_hz,
        jitter=jitter_percent / 100,
        noise=_USUAL_NOISE[of] if noise is None else noise,
        drift=drift,
        gaps=gaps,
        spikes=spikes,
    )
    is_file = output != STANDARD_OUTPUT
    to = outputs.table_output(output if is_file else None)
    to.check(replace=replace)
    made = simulated_set(prescription, seed=seed, lifter=lifter, device=device)
    lines = simulated_table(made.trace, line=str(prescription), seed=seed)
    to.write(lambda file: file.writelines(one.encode() for one in lines), replace=replace)
    if is_file:
        click.echo(f"wrote {to.name}: {counted(len(made.reps), 'rep')}, {SIMULATED}")
