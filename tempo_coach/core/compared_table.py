"""The tables of a compared set, as rows of text."""

from __future__ import annotations

from collections.abc import Iterator

from tempo_coach.core.amounts import NONE
from tempo_coach.core.compared_set import ComparedSet
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.tempo import Phase, Speed

PHASE_HEADINGS = ("rep", *(one for phase in Phase for one in (f"{phase} s", "±")))
SPEED_HEADINGS = ("rep", "range m", "lower m/s", "peak", "raise m/s", "peak")


def phase_rows(compared: ComparedSet) -> Iterator[tuple[str, ...]]:
    """Yield the line, each rep with its seconds and their difference from it, and the sum."""
    asked = [compared.prescribed(phase) for phase in Phase]
    yield ("line", *(one for slot in asked for one in (_asked(slot), "")))
    for number, rep in enumerate(compared.reps, start=1):
        cells = (
            (_seconds(rep.of(phase)), _signed(compared.difference_ms(rep, phase)))
            for phase in Phase
        )
        yield (str(number), *(one for pair in cells for one in pair))
    yield ("sum", *(one for phase in Phase for one in _sum(compared, phase)))


def speed_rows(compared: ComparedSet) -> Iterator[tuple[str, ...]]:
    """Yield each rep's range, and the mean and the peak of its speeds."""
    for number, rep in enumerate(compared.reps, start=1):
        yield (str(number), *_speeds(rep))


def loss_words(compared: ComparedSet) -> str | None:
    """Say how much slower the last raise was than the fastest; None where that has no meaning."""
    loss = compared.speed_loss
    if loss is None:
        return None
    if loss.last_rep == loss.best_rep:
        return f"No speed lost: the last raise was the fastest, at {loss.best_m_s:.2f} m/s."
    return (
        f"Speed lost over the raise: {loss.share:.0%}, from {loss.best_m_s:.2f} m/s in rep "
        f"{loss.best_rep}, the fastest, to {loss.last_m_s:.2f} in rep {loss.last_rep}, the last."
    )


def _sum(compared: ComparedSet, phase: Phase) -> tuple[str, str]:
    differences = [compared.difference_ms(rep, phase) for rep in compared.reps]
    known = [one for one in differences if one is not None]
    more = "" if compared.is_whole(phase) else "+"
    return f"{_seconds(compared.sum_ms(phase))}{more}", _signed(sum(known) if known else None)


def _speeds(rep: MeasuredRep) -> tuple[str, ...]:
    moved = rep.motion
    if moved is None:
        return (NONE,) * 5
    figures = (
        moved.range_m, moved.lower_mean_m_s, moved.lower_peak_m_s, moved.raise_mean_m_s,
        moved.raise_peak_m_s,
    )  # fmt: skip
    return tuple(NONE if figure is None else f"{figure:.2f}" for figure in figures)


def _asked(slot: int | Speed | None) -> str:
    return slot.value if isinstance(slot, Speed) else _seconds(slot)


def _seconds(length_ms: int | None) -> str:
    return NONE if length_ms is None else f"{length_ms / 1000:.2f}"


def _signed(length_ms: int | None) -> str:
    if length_ms is None:
        return ""
    text = f"{abs(length_ms) / 1000:.2f}"
    return text if text == "0.00" else f"{'−' if length_ms < 0 else '+'}{text}"
