"""Made-up sets of every kind, and how far what is found in them lies from what happened."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from tempo_coach.core.bar_simulator import Device, Lifter, SimulatedSet, simulated_set
from tempo_coach.core.cut_set import CutSet
from tempo_coach.core.prescription import Prescription, parse_prescription
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Quantity
from tempo_coach.errors import TraceRefused
from tempo_coach.trace.rep_cutting import cut_set

NOISE = {Quantity.HEIGHT: 0.001, Quantity.SPEED: 0.01, Quantity.ACCELERATION: 0.02}
"""The most that is in the sets, in m, m/s and m/s²."""


@dataclass(frozen=True, eq=False)
class Tried:
    """One made-up set, and what came of it."""

    seed: int
    made: SimulatedSet
    cut: CutSet | None

    @property
    def has_right_reps(self) -> bool:
        return self.cut is not None and len(self.cut.reps) == len(self.made.reps)

    def off_ms(self) -> npt.NDArray[np.float64]:
        """How far each beginning and end of a way is off; NaN where it was not found."""
        assert self.cut is not None
        off_s = edges_s(self.cut) - np.array(self.made.edges_s)
        return np.asarray(off_s.ravel() * 1000)


def edges_s(cut: CutSet) -> npt.NDArray[np.float64]:
    """When the ways of each rep were found to begin and end."""
    return np.array(
        [
            [
                np.nan if at_s is None else at_s
                for one in rep.stretches
                if one.phase in (Phase.LOWER, Phase.RAISE)
                for at_s in (one.begins_s, one.ends_s)
            ]
            for rep in cut.reps
        ]
    )


def line_of_any_kind(chance: np.random.Generator, *, slowest_s: int) -> Prescription:
    lowers = [one for one in ("X", "1", "2", "3", "4", "5", "6", "8", "10") if
              one == "X" or int(one) <= slowest_s]  # fmt: skip
    lower, raise_ = chance.choice(lowers), chance.choice(["X", "X", "1", "2", "3", "4"])
    pause, top = (
        chance.choice(["0", "0", "0.5", "1", "2", "5"]),
        chance.choice(["0", "1", "2", "5"]),
    )
    lead, reps = chance.choice(["lower", "raise"]), chance.integers(1, 7)
    return parse_prescription(f"squat 1x{reps} {lower}-{pause}-{raise_}-{top} lead {lead}")


def set_of_any_kind(seed: int, quantity: Quantity, *, slowest_s: int = 10) -> Tried:
    """Make up a set, from 0.2 to 1.2 m and from X to the slowest lower, and cut its trace."""
    chance = np.random.default_rng(seed)
    prescription = line_of_any_kind(chance, slowest_s=slowest_s)
    is_felt = quantity is Quantity.ACCELERATION
    lifter = Lifter(
        range_m=float(chance.uniform(0.2, 1.2)),
        scatter=float(chance.uniform(0.04, 0.064)),
        fatigue=float(chance.choice([0.0, 0.1, 0.25, 0.4])),
        steady=bool(chance.random() < 0.6),
        rise_s=float(chance.uniform(0.1, 0.4)),
        bounces=bool(chance.random() < 0.2),
        walks_out=bool(chance.random() < 0.8),
    )
    device = Device(
        quantity=quantity,
        rate_hz=float(np.exp(chance.uniform(np.log(100 if is_felt else 25), np.log(1000)))),
        jitter=float(chance.choice([0.0, 0.1, 0.25])),
        noise=float(chance.uniform(0, NOISE[quantity])),
        drift=float(chance.choice([0.0, 0.01, -0.02])),
        gaps=0 if is_felt else int(chance.choice([0, 0, 2])),
        spikes=int(chance.choice([0, 0, 3])),
    )
    made = simulated_set(prescription, seed=seed, lifter=lifter, device=device)
    try:
        return Tried(seed, made, cut_set(made.trace, prescription))
    except TraceRefused:
        return Tried(seed, made, None)
