"""What a lifter's page says of the weeks to come: the season, who is ready, and a proposal."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import timedelta

from tempo_coach.core.amounts import NONE
from tempo_coach.core.cautions import CRITERIA
from tempo_coach.core.legible import legible
from tempo_coach.core.lifter_advice import LifterAdvice, Proposal
from tempo_coach.core.marks import counted
from tempo_coach.core.page_parts import Column, Row, Table
from tempo_coach.core.page_room import fitted, table_mm, text_mm
from tempo_coach.core.page_season import season_page_table
from tempo_coach.core.proposed_lines import ProposedLine
from tempo_coach.core.readiness import Readiness
from tempo_coach.core.season import Season
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.weeks import IsoWeek

MOST_JUDGED = 5
"""Exercises whose readiness stands on a page."""
_TEXT_PT = 7.5
_GAPS_MM = 2.0
_READY_COLUMNS = (
    Column("exercise", is_text=True, width_mm=36),
    Column("lowering", is_text=True, width_mm=50),
    Column("what is missing", is_text=True, most_lines=5),
)
_PROPOSAL_COLUMNS = (
    Column("day, step", is_text=True, width_mm=20),
    Column("proposed", is_text=True, most_lines=4, is_of_lines=True),
    Column("why", is_text=True, most_lines=4, is_of_lines=True),
)
_PROPOSED = "The proposal is for the coach to take or to edit, and changes nothing."
_JUDGED = "Ready or not yet is said of exercises with lowering emphasis or a tested max."
_NOT_MEASURED = "Where nothing was measured, nothing tells whether slow lowers kept their time."


@dataclass(frozen=True, slots=True)
class Ahead:
    """A part of a lifter's page."""

    season: Table | None
    """Lowering emphasis beside its limits; None where the season holds none of the weeks."""
    ready: Table | None
    """A row for each way of lowering an exercise; None where there is no exercise to judge."""
    proposal: Table
    """A row for each line of next week."""
    left_out: str
    """What had no room; empty where all had."""
    remarks: str
    """How it is meant."""

    @property
    def tables(self) -> tuple[Table, ...]:
        """All of them, in order."""
        return tuple(one for one in (self.season, self.ready, self.proposal) if one is not None)

    def with_short_texts(self) -> Ahead:
        """Return the same with texts cut to the lines that they may take."""
        return replace(
            self,
            ready=None if self.ready is None else fitted(self.ready),
            proposal=fitted(self.proposal),
        )

    def cut_to(self, lines: int) -> Ahead:
        """Return the same with so many lines of the proposal at the most."""
        rows = self.proposal.rows
        more = len(rows) - lines
        if more <= 0:
            return self
        said = f"And {counted(more, 'more line')}: 'tempo-coach next' has them."
        return replace(
            self,
            proposal=replace(self.proposal, rows=rows[:lines]),
            left_out=" ".join(filter(None, (self.left_out, said))),
        )

    def mm(self) -> float:
        """Return its height in print."""
        texts = (self.left_out, self.remarks)
        return (
            _GAPS_MM
            + sum(map(table_mm, self.tables))
            + sum(text_mm(text, size_pt=_TEXT_PT) for text in texts)
        )


def ahead_of(advice: LifterAdvice, weeks: Sequence[IsoWeek], *, allowances: Allowances) -> Ahead:
    """Return what a page says of the weeks behind its own.

    Parameters
    ----------
    advice
        As it stands at the end of the page's week; the lifter has sets.
    weeks
        Those of the page, its own the last.
    allowances
        What planning counts for X, V and A.
    """
    exercises = advice.judged_exercises()
    ways = [way for name in exercises[:MOST_JUDGED] for way in advice.readiness(name)]
    more = len(exercises) - MOST_JUDGED
    is_untold = any(one.is_met is None for way in ways for one in way.criteria)
    remarks = (_JUDGED, _NOT_MEASURED if is_untold else "", CRITERIA) if ways else ()
    proposal = advice.proposal(allowances)
    return Ahead(
        season=season_page_table(advice.season, weeks),
        ready=_ready_table(ways, advice) if ways else None,
        proposal=_proposal_table(proposal, advice.season),
        left_out=f"And {counted(more, 'more exercise')}: 'tempo-coach ready' says of each."
        if more > 0
        else "",
        remarks=" ".join(filter(None, (*remarks, proposal.caution, _PROPOSED))),
    )


def _ready_table(ways: Sequence[Readiness], advice: LifterAdvice) -> Table:
    return Table(
        f"Ready or not yet, at the end of {IsoWeek.of(advice.season.today)}",
        _READY_COLUMNS,
        tuple(
            Row(
                legible(way.exercise),
                (_verdict(way), "; ".join(_missing(way)) or NONE),
                is_strong=way.is_ready,
            )
            for way in ways
        ),
    )


def _verdict(way: Readiness) -> str:
    met = sum(one.is_met is True for one in way.criteria)
    return f"{way.way.removesuffix(' lowering')}: {way.verdict}, {met} of {len(way.criteria)} met"


def _missing(way: Readiness) -> Iterator[str]:
    """Yield what to do; of a way that is ready, what its verdict passes over."""
    for one in way.criteria:
        if one.missing:
            yield legible(one.missing)
        elif one.is_met is None and way.is_ready:
            yield f"{one.state}: {one.name}"


def _proposal_table(proposal: Proposal, season: Season) -> Table:
    ahead = IsoWeek.of(season.today + timedelta(weeks=1))
    return Table(
        f"A proposal for {ahead}, from the work of {proposal.follows}: {proposal.limit_words}",
        _PROPOSAL_COLUMNS,
        tuple(
            Row(f"{one.weekday[:3]}, {one.step}", (legible(one.words), legible(_why(one))))
            for one in proposal.lines
        ),
    )


def _why(one: ProposedLine) -> str:
    return one.reason if one.line == one.was else f"{one.reason}; was {one.was}"
