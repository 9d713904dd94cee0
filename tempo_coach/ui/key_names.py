"""What the keys are called that do something now."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from rich.cells import cell_len
from textual.screen import Screen


@dataclass(frozen=True, slots=True)
class KeyName:
    """One key, or several that do the same."""

    press: str
    """As Textual names it; empty for a group of keys that each do something else."""
    key: str
    """As it is shown."""
    label: str
    tooltip: str

    @property
    def width(self) -> int:
        """Its cells, with a space before, between and behind."""
        return cell_len(self.key) + cell_len(self.label) + 3


def key_names(screen: Screen[object]) -> tuple[KeyName, ...]:
    """Return the keys to show, each action or group once, those of the innermost widget first."""
    names: dict[str, KeyName] = {}
    # One of the app's with priority stands in the place of what it goes before; it comes last too.
    bindings = screen.active_bindings.values()
    for active in sorted(bindings, key=lambda one: one.node is screen.app):
        binding, group = active.binding, active.binding.group
        if binding.show:
            shown = screen.app.get_key_display(binding)
            if group is None:
                name = KeyName(binding.key, shown, binding.description, active.tooltip)
                names.setdefault(binding.action, name)
            else:
                name = KeyName("", shown, group.description, active.tooltip)
                names.setdefault(group.description, name)
    return tuple(names.values())


def in_rows(names: Iterable[KeyName], *, width: int) -> tuple[tuple[KeyName, ...], ...]:
    """Spread keys over as many rows as they need; one that is too wide has its own."""
    rows: list[list[KeyName]] = [[]]
    for name in names:
        if rows[-1] and sum(before.width for before in rows[-1]) + name.width > width:
            rows.append([])
        rows[-1].append(name)
    return tuple(map(tuple, rows))


def name_at(rows: tuple[tuple[KeyName, ...], ...], *, column: int, row: int) -> KeyName | None:
    """Return the key that stands at a cell, or None where none does."""
    end = 0
    for name in rows[row] if row < len(rows) else ():
        end += name.width
        if column < end:
            return name
    return None
