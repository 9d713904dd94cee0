"""A season as plain data."""

from __future__ import annotations

from typing import Any

from tempo_coach.core.season import Season
from tempo_coach.core.season_table import Measure, SeasonRow
from tempo_coach.core.season_words import season_sentences, week_words


def season_data(season: Season) -> dict[str, Any]:
    """Return a season as plain data."""
    trend, variety = season.trend[-1] if season.trend else None, season.variety
    return {
        "lifter": season.lifter,
        "weeks": [_row_data(row) for row in season.rows],
        "trend": None
        if trend is None
        else {
            "date": trend.date.isoformat(),
            "kg_s": trend.kg_s,
            "ewma_7_d_kg_s": trend.short,
            "ewma_28_d_kg_s": trend.long,
        },
        "last_week": {
            "kg_s": variety.load,
            "monotony": variety.monotony,
            "strain": variety.strain,
            "standard_deviation": "population",
        },
        "notes": list(season_sentences(season)),
    }


def _row_data(row: SeasonRow) -> dict[str, Any]:
    return {
        "week": str(row.week.week),
        "from": row.week.week.monday().isoformat(),
        "words": week_words(row.week),
        "share": row.week.share,
        "emphasis": {"lower_s": _measure_data(row.lower_s), "kg_s": _measure_data(row.kg_s)},
        "groups": {name: _measure_data(one) for name, one in row.groups.items()},
        "all_lower_s": row.all_lower_s,
        "days": [
            {"date": day.date.isoformat(), "words": day.words, "share": day.share}
            for day in row.week.days
        ],
    }


def _measure_data(measure: Measure) -> dict[str, Any]:
    return {
        "done": measure.done,
        "limit": measure.limit,
        "over": measure.over,
        "level": measure.level.amount,
        "why": measure.level.why,
    }
