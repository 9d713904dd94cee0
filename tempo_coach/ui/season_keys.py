"""The keys of the season."""

from __future__ import annotations

from textual.binding import Binding, BindingType

# With priority, because scrolling containers take most of them for themselves.
SEASON_KEYS: list[BindingType] = [
    Binding(
        "pageup",
        "week_before",
        "Week",
        key_display="↑↓",
        priority=True,
        id="season.before",
        tooltip="Choose the week before; the down arrow chooses the one after",
    ),
    Binding(
        "pagedown",
        "week_after",
        "Week after",
        show=False,
        priority=True,
        id="season.after",
        tooltip="Choose the week after",
    ),
    Binding(
        "right",
        "part_after",
        "Part",
        key_display="←→",
        priority=True,
        id="season.part_after",
        tooltip="Show the week's days, the calendar of the year, or where the load goes",
    ),
    Binding(
        "left",
        "part_before",
        "Back",
        show=False,
        priority=True,
        id="season.part_before",
        tooltip="Show the part before",
    ),
    Binding(
        "space",
        "read_page",
        "Read on",
        key_display="Space",
        priority=True,
        id="season.read_on",
        tooltip="A page further in what there is to know, and behind its end from the start",
    ),
    Binding(
        "r",
        "ready",
        "Ready?",
        key_display="R",
        id="season.ready",
        tooltip="See of each exercise whether overloaded and fast lowering could begin",
    ),
    Binding(
        "n",
        "next_week",
        "Next week",
        key_display="N",
        id="season.next_week",
        tooltip="See what next week could hold, and take lines of it onto the board",
    ),
    Binding(
        "escape,f9",
        "leave",
        "Leave",
        key_display="Esc",
        id="season.leave",
        tooltip="Back to where the season was opened",
    ),
]
