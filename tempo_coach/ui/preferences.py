"""The settings that hold, and where each comes from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, TypeAlias

from tempo_coach.coach import Coach
from tempo_coach.core.settings import Settings

TomlValue: TypeAlias = str | float | bool

CHANGED_HERE = "changed here"


class Preferences:
    """Changes settings at once and has them kept for the next start.

    Parameters
    ----------
    coach
        Who goes by them.
    sources
        Where each comes from; a key that is missing is as by default.
    given_outside
        Keys that the command line or the environment gives, over what is kept.
    keep
        Keeps one key for the next start.
    """

    def __init__(
        self,
        coach: Coach,
        sources: Mapping[str, str],
        given_outside: frozenset[str],
        keep: Callable[[str, TomlValue], None],
    ) -> None:
        self._coach = coach
        self._sources = dict(sources)
        self._given_outside = given_outside
        self._keep = keep

    @property
    def settings(self) -> Settings:
        """All of them."""
        return self._coach.settings

    def change(self, key: str, value: Any) -> None:
        """Put a checked value in place of the one that holds, and keep it."""
        self._coach.settings = self.settings.model_copy(update={key: value})
        if key not in self._given_outside:
            self._sources[key] = CHANGED_HERE
        self._keep(key, self.settings.model_dump(mode="json")[key])

    def source_tag(self, key: str) -> str:
        """Name the source in a word or two."""
        source = self._sources.get(key, "default").removeprefix("the ")
        return "settings file" if source.startswith("settings file") else source

    def source_sentence(self, key: str) -> str:
        """Say where the value comes from, and what goes over a change made here."""
        source = self._sources.get(key)
        if source is None:
            return "As by default."
        if source == CHANGED_HERE:
            return "Changed here."
        if key in self._given_outside:
            return f"Given by {source}, which at the next start goes over a change made here."
        return f"From {source}."
