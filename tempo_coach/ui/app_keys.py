"""The keys that belong to no screen alone."""

from __future__ import annotations

from textual.binding import Binding, BindingType

APP_KEYS: list[BindingType] = [
    Binding(
        "f1",
        "cautions",
        "Cautions",
        key_display="F1",
        id="app.cautions",
        tooltip="Read in full what to beware of",
    ),
    Binding(
        "f2",
        "lifter",
        "Lifter",
        key_display="F2",
        id="app.lifter",
        tooltip="Say who is lifting",
    ),
    Binding(
        "f3",
        "settings",
        "Settings",
        key_display="F3",
        id="app.settings",
        tooltip="Choose the cues, the volume, the time before rep 1 and the rest",
    ),
    Binding(
        "f4",
        "sounds",
        "Sounds",
        key_display="F4",
        id="app.sounds",
        tooltip="Hear each sound after its name, and one slow rep",
    ),
    Binding(
        "f5",
        "weeks",
        "Weeks",
        key_display="F5",
        id="app.weeks",
        tooltip="Compare the lowering of the last weeks",
    ),
    Binding(
        "f6",
        "day",
        "Day",
        key_display="F6",
        id="app.day",
        tooltip="To the day of the plan, and from there back here",
    ),
    Binding(
        "f7",
        "methods",
        "Methods",
        key_display="F7",
        id="app.methods",
        tooltip="Read how the lowering can be trained, and take a line of a method",
    ),
    Binding(
        "f8",
        "reserve",
        "Reserve",
        key_display="F8",
        id="app.reserve",
        tooltip="Test how much more is lowered under control than lifted, or go on with a test",
    ),
    Binding(
        "f9",
        "season",
        "Season",
        key_display="F9",
        id="app.season",
        tooltip="See how much lowering emphasis the weeks of the season may hold, and did",
    ),
    Binding(
        "ctrl+q",
        "quit",
        "Quit",
        key_display="Ctrl+Q",
        priority=True,
        id="app.quit",
        tooltip="Leave; a set that is running is stopped and logged first",
    ),
    Binding(
        "ctrl+c",
        "how_to_quit",
        "How to quit",
        show=False,
        id="app.how_to_quit",
        tooltip="Copies what is selected, and otherwise says which key quits",
    ),
]
