"""The keys of a planned day."""

from __future__ import annotations

from textual.binding import Binding, BindingType

# With priority, because scrolling containers take these keys for themselves, and Page Down and
# Page Up are what clickers send.
DAY_KEYS: list[BindingType] = [
    Binding(
        "space,pagedown,enter",
        "go_on",
        "Rack",
        key_display="Space/PgDn",
        priority=True,
        id="day.go_on",
        tooltip="Go on to the next set of the chosen work, or of what is left",
    ),
    Binding(
        "pageup",
        "choose_before",
        "Work",
        key_display="↑↓",
        priority=True,
        id="day.choose_before",
        tooltip="Choose the row above, and above the first the last; a clicker reaches all so",
    ),
    Binding(
        "left",
        "day_before",
        "Day",
        key_display="←→",
        priority=True,
        id="day.before",
        tooltip="Show the planned day before; the right arrow shows the one after",
    ),
    Binding(
        "right",
        "day_after",
        "Day after",
        show=False,
        priority=True,
        id="day.after",
        tooltip="Show the planned day after",
    ),
    Binding(
        "r",
        "read_page",
        "Read on",
        key_display="R",
        id="day.read_on",
        tooltip="A page further in what there is to know of the work, and then from the start",
    ),
    Binding(
        "l",
        "change_load",
        "Load",
        show=False,
        id="day.load",
        tooltip="Take another load for the chosen work, today alone",
    ),
    Binding(
        "x",
        "swap",
        "Swap",
        show=False,
        id="day.swap",
        tooltip="Do another exercise in place of the chosen one, today alone",
    ),
    Binding(
        "s",
        "skip",
        "Skip",
        show=False,
        id="day.skip",
        tooltip="Leave the chosen work out today; again to take it up after all",
    ),
    Binding(
        "a",
        "add_set",
        "Add a set",
        show=False,
        id="day.add_set",
        tooltip="Do one set more of the chosen work, today alone",
    ),
    Binding(
        "shift+up,minus",
        "earlier",
        "Earlier",
        show=False,
        id="day.earlier",
        tooltip="Do the chosen work earlier, today alone",
    ),
    Binding(
        "shift+down,plus",
        "later",
        "Later",
        show=False,
        id="day.later",
        tooltip="Do the chosen work later, today alone",
    ),
    Binding(
        "f2",
        "lifter",
        "Lifter",
        key_display="F2",
        id="day.lifter",
        tooltip="Choose another lifter of the plan",
    ),
    Binding(
        "f6,escape",
        "board",
        "Board",
        key_display="F6/Esc",
        id="day.board",
        tooltip="To the board, for a line of your own; F6 comes back",
    ),
]

TODAY_ALONE = "today alone: "
CHANGES = (
    "[@click=screen.change_load] [b]L [/]load [/]"
    "[@click=screen.swap] [b]X [/]swap [/]"
    "[@click=screen.skip] [b]S [/]skip [/]"
    "[@click=screen.add_set] [b]A [/]add a set [/]"
    "[@click=screen.earlier] [b]- [/]earlier [/]"
    "[@click=screen.later] [b]+ [/]later [/]"
)
"""The keys of today's changes in one line, each a button too."""

TURNS = "[@click=screen.day_before]‹ [/][@click=screen.day_after]› [/]"
"""Buttons for the planned day before and the one after."""
