"""Made-up bar traces, for trying things out without a device and for tests that know the truth."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from tempo_coach.core.bar_motion import Floats, Move
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Allowances, Phase
from tempo_coach.core.timeline import Span, Timeline
from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.errors import OutOfRange

METRONOME_CV = 0.052
"""Middle of the 4.0 to 6.4 % by which lifters paced by a metronome vary (bench press, 15 subjects,
2009)."""
_BOUNCE_S = 0.05
USUAL_REPS = 8
"""Of a set that runs until it is stopped."""


@dataclass(frozen=True, slots=True)
class Lifter:
    """How the bar is moved."""

    range_m: float = 0.5
    scatter: float = METRONOME_CV
    """Standard deviation of the length of a phase, as a share of it."""
    fatigue: float = 0.0
    """By which share the last lower is shorter than the first, and the last raise longer."""
    steady: bool = True
    """Paced phases have a steady speed; else all are minimum-jerk movements, as fast ones are."""
    rise_s: float = 0.25
    """How long a paced phase takes to reach its speed."""
    sway_m: float = 0.0
    """Standard deviation of a slow sway that never rests."""
    bounces: bool = False
    """The bar turns at the bottom with speed, where there is no pause."""
    walks_out: bool = True
    """The bar is lifted off, carried back and set down again at the end, or picked up."""


@dataclass(frozen=True, slots=True)
class Device:
    """How the bar is recorded."""

    quantity: Quantity = Quantity.HEIGHT
    rate_hz: float = 100.0
    jitter: float = 0.0
    """Standard deviation of the moment of a sample, as a share of the time between two."""
    noise: float = 0.0
    """Standard deviation, in the unit of the quantity."""
    drift: float = 0.0
    """Height: m a minute. Speed and acceleration: a constant added to every value."""
    gaps: int = 0
    """Stretches of a tenth of a second without samples."""
    spikes: int = 0
    """Single samples far off."""
    digits: int | None = None
    """Decimals that are kept."""


@dataclass(frozen=True, slots=True, eq=False)
class SimulatedSet:
    """A made-up trace, with what really happened."""

    trace: Trace
    moves: tuple[Move, ...]
    """Every way of the bar, the walk-out too."""
    reps: tuple[MeasuredRep, ...]
    """What happens after the last way of the set is not measured."""
    edges_s: tuple[tuple[float, ...], ...]
    """For each rep, when its ways begin and end."""


def simulated_set(
    prescription: Prescription,
    *,
    seed: int,
    lifter: Lifter | None = None,
    device: Device | None = None,
    allowances: Allowances | None = None,
) -> SimulatedSet:
    """Make up the trace of one set of a prescription.

    Raises
    ------
    OutOfRange
        The set is longer than a set can be, or a figure makes no sense.
    """
    lifter, device = lifter or Lifter(), device or Device()
    _check(lifter, device)
    chance = np.random.default_rng(seed)
    timeline = Timeline.of(prescription, allowances=allowances or _quick_allowances())
    reps = USUAL_REPS if prescription.reps is None else prescription.reps
    path = _Path(lifter, chance, starts_high=prescription.lead is Phase.LOWER)
    path.walk_out()
    done = [
        path.rep(timeline.spans, worn=rep / max(reps - 1, 1), is_last=rep == reps - 1)
        for rep in range(reps)
    ]
    path.walk_back()
    trace = _recorded(path, lifter, device, chance)
    return SimulatedSet(
        trace, tuple(path.moves), tuple(rep for rep, _ in done), tuple(edges for _, edges in done)
    )


def _quick_allowances() -> Allowances:
    # Planning counts a whole second for X; an explosive raise takes about half of one.
    return Allowances(fast_ms=600)


def _check(lifter: Lifter, device: Device) -> None:
    checks = (
        ("a range of", lifter.range_m, 0.02, 2.5, "m"),
        ("a scatter of", lifter.scatter, 0.0, 0.3, ""),
        ("a fatigue of", lifter.fatigue, 0.0, 0.6, ""),
        ("a rate of", device.rate_hz, 5.0, 2_000.0, "Hz"),
        ("a jitter of", device.jitter, 0.0, 0.3, ""),
        ("a noise of", device.noise, 0.0, 10.0, device.quantity.unit),
    )
    for what, value, least, most, unit in checks:
        if not least <= value <= most:
            raise OutOfRange(
                f"{what} {value:g} {unit}".rstrip() + " is not possible",
                hint=f"{least:g} to {most:g} {unit}".rstrip(),
            )


class _Path:
    """Where the bar goes, from way to way."""

    def __init__(self, lifter: Lifter, chance: np.random.Generator, *, starts_high: bool) -> None:
        self._lifter, self._chance = lifter, chance
        self.moves: list[Move] = []
        self.now_s = 0.0
        self._high = starts_high
        self.height_m = lifter.range_m if starts_high else 0.0

    def walk_out(self) -> None:
        """Lift the bar off, and step back with it; from the floor, only take hold of it."""
        self.now_s += self._chance.uniform(1.0, 2.5)
        if self._lifter.walks_out:
            # Set so that the walk-out ends where the set begins.
            lift_m = self._chance.uniform(0.03, 0.08)
            steps_m = self._chance.uniform(-0.015, 0.015, size=3)
            if not self._high:
                lift_m, steps_m = 0.0, np.abs(steps_m) / 2
            self.height_m -= lift_m
            home_m = self.height_m + lift_m
            self._go(home_m + steps_m[0], lasts_s=0.6)
            for step_m in (steps_m[1], steps_m[2], 0.0):
                self._go(home_m + step_m, lasts_s=self._chance.uniform(0.35, 0.7))
        self.now_s += self._chance.uniform(0.8, 2.0)

    def walk_back(self) -> None:
        """Put the bar back, and leave it."""
        self.now_s += self._chance.uniform(0.8, 2.0)
        if self._lifter.walks_out and self._high:
            self._go(self.height_m + 0.01, lasts_s=0.5)
            self._go(self.height_m - self._chance.uniform(0.04, 0.08), lasts_s=0.6)
        self.now_s += self._chance.uniform(1.0, 2.0)

    def rep(
        self, spans: tuple[Span, ...], *, worn: float, is_last: bool
    ) -> tuple[MeasuredRep, tuple[float, ...]]:
        """Do one rep, and return what was done, and when its ways began and ended."""
        times_ms = dict.fromkeys(Phase, 0.0)
        range_m = self._lifter.range_m * (1 + self._chance.normal() * self._lifter.scatter / 3)
        # The bar comes back to where it began: straight arms, or the floor.
        top_m = self._lifter.range_m if self._high else range_m
        edges: list[float] = []
        for index, span in enumerate(spans):
            lasts_s = span.lasts_ms / 1000 * self._scattered() * self._tired(span.phase, worn)
            if span.phase in (Phase.LOWER, Phase.RAISE):
                edges.append(self.now_s)
                turns = _turns_low(spans, index) if self._lifter.bounces else None
                to_m = top_m - (1 - span.to_height) * range_m
                self._go(to_m, lasts_s=lasts_s, is_fast=span.speed is not None, turns=turns)
                edges.append(self.now_s)
            elif is_last and index == len(spans) - 1:
                break
            else:
                self.now_s += lasts_s
            times_ms[span.phase] += lasts_s * 1000
        last = spans[-1].phase if spans[-1].phase in (Phase.PAUSE, Phase.TOP) else None
        lower_ms, pause_ms, raise_ms, top_ms = (
            None if is_last and phase is last else round(spent_ms)
            for phase, spent_ms in times_ms.items()
        )
        return MeasuredRep(lower_ms, pause_ms, raise_ms, top_ms), tuple(edges)

    def _scattered(self) -> float:
        return max(1 + self._chance.normal() * self._lifter.scatter, 0.3)

    def _tired(self, phase: Phase, worn: float) -> float:
        if phase is Phase.LOWER:
            return 1 - self._lifter.fatigue * worn
        return 1 + self._lifter.fatigue * worn if phase is Phase.RAISE else 1.0

    def _go(
        self, to_m: float, *, lasts_s: float, is_fast: bool = True, turns: Phase | None = None
    ) -> None:
        rise_s = lasts_s / 2
        if self._lifter.steady and not is_fast:
            rise_s = min(rise_s, self._lifter.rise_s)
        sharp_s = min(rise_s, _BOUNCE_S)
        begins_s, ends_s = (sharp_s if turns is of else rise_s for of in (Phase.RAISE, Phase.LOWER))
        self.moves.append(Move(self.now_s, lasts_s, self.height_m, to_m, begins_s, ends_s))
        self.now_s += lasts_s
        self.height_m = to_m


def _turns_low(spans: tuple[Span, ...], index: int) -> Phase | None:
    """Return the phase, if it ends or begins at the bottom without a pause."""
    phase = spans[index].phase
    step = 1 if phase is Phase.LOWER else -1
    other = spans[(index + step) % len(spans)].phase
    return phase if other in (Phase.LOWER, Phase.RAISE) and other is not phase else None


def _recorded(path: _Path, lifter: Lifter, device: Device, chance: np.random.Generator) -> Trace:
    order = device.quantity.order
    count = int(path.now_s * device.rate_hz) + 1
    times_s = np.arange(count) / device.rate_hz
    # Clipped, so that time never runs backwards.
    jitter = np.clip(chance.normal(size=count) * device.jitter, -0.45, 0.45)
    times_s = times_s + jitter / device.rate_hz
    values = np.full(count, path.moves[0].from_m if order == 0 else 0.0)
    for move in path.moves:
        values += move.at(times_s, order=order)
    for tone in _sway(lifter.sway_m, chance):
        values += tone.at(times_s, order)
    if device.quantity is Quantity.HEIGHT:
        values += device.drift / 60 * times_s
    else:
        values += device.drift
    values += chance.normal(size=count) * device.noise
    spread = float(np.ptp(values)) or 1.0
    spiked = chance.choice(count, size=min(device.spikes, count), replace=False)
    values[spiked] += spread * chance.choice([-1.0, 1.0], size=spiked.size)
    if device.digits is not None:
        values = np.round(values, device.digits)
    kept = np.ones(count, dtype=np.bool_)
    for begins in chance.integers(0, count, size=device.gaps):
        kept[begins : begins + max(round(device.rate_hz / 10), 1)] = False
    kept[[0, -1]] = True
    return Trace(times_s[kept], values[kept], device.quantity)


@dataclass(frozen=True, slots=True)
class _Tone:
    amplitude_m: float
    rate: float
    phase: float

    def at(self, times_s: Floats, order: int) -> Floats:
        turned = self.phase + order * np.pi / 2
        return np.asarray(
            self.amplitude_m * self.rate**order * np.sin(self.rate * times_s + turned),
            dtype=np.float64,
        )


def _sway(sway_m: float, chance: np.random.Generator) -> Iterator[_Tone]:
    """Yield three slow tones that together have the standard deviation asked for."""
    if sway_m:
        for rate_hz in (0.23, 0.41, 0.67):
            yield _Tone(sway_m * (2 / 3) ** 0.5, 2 * np.pi * rate_hz, chance.uniform(0, 2 * np.pi))
