"""The keys of the weeks."""

from __future__ import annotations

from textual.binding import Binding, BindingType

# With priority, because scrolling containers take most of them for themselves.
WEEKS_KEYS: list[BindingType] = [
    Binding(
        "left",
        "exercise_before",
        "Exercise",
        key_display="←→",
        priority=True,
        id="weeks.exercise_before",
        tooltip="Count the exercise before alone; the right arrow counts the one after",
    ),
    Binding(
        "right",
        "exercise_after",
        "Exercise after",
        show=False,
        priority=True,
        id="weeks.exercise_after",
        tooltip="Count the exercise after alone",
    ),
    Binding(
        "pageup",
        "week_before",
        "Week",
        key_display="↑↓",
        priority=True,
        id="weeks.before",
        tooltip="Choose the week before; the down arrow chooses the one after",
    ),
    Binding(
        "pagedown",
        "week_after",
        "Week after",
        show=False,
        priority=True,
        id="weeks.after",
        tooltip="Choose the week after",
    ),
    Binding(
        "space",
        "read_page",
        "Read on",
        key_display="Space",
        priority=True,
        id="weeks.read_on",
        tooltip="A page further in what there is to know of the week, and then from the start",
    ),
    Binding(
        "escape,f5",
        "leave",
        "Leave",
        key_display="Esc",
        id="weeks.leave",
        tooltip="Back to where the weeks were opened",
    ),
]
