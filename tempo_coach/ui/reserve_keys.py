"""The keys of a reserve test."""

from __future__ import annotations

from textual.binding import Binding, BindingType

# With priority, because the field for the seconds and the page of the result take keys for
# themselves, and Page Down and Page Up are what clickers send.
RESERVE_KEYS: list[BindingType] = [
    Binding(
        "space,pagedown",
        "start",
        "Start",
        key_display="Space/PgDn",
        priority=True,
        id="reserve.start",
        tooltip="Start the attempt with the load that is shown",
    ),
    Binding(
        "o",
        "choose_load",
        "Other load",
        key_display="O",
        priority=True,
        id="reserve.load",
        tooltip="Type another load for the next attempt",
    ),
    Binding(
        "h",
        "say_held",
        "Held",
        key_display="H",
        priority=True,
        id="reserve.held",
        tooltip="It was lowered under control; nothing is logged before it is confirmed",
    ),
    Binding(
        "l",
        "say_lost",
        "Lost",
        key_display="L",
        priority=True,
        id="reserve.lost",
        tooltip="It was not lowered under control; nothing is logged before it is confirmed",
    ),
    Binding(
        "l",
        "lose",
        "Not lifted out",
        key_display="L",
        priority=True,
        id="reserve.lose",
        tooltip="The load could not be lifted out: lost without an attempt, once it is confirmed",
    ),
    Binding(
        "enter,space,pagedown",
        "confirm",
        "Confirm",
        key_display="Enter/PgDn",
        priority=True,
        id="reserve.confirm",
        tooltip="Log the answer as it is shown",
    ),
    Binding(
        "pagedown,space",
        "read_on",
        "Read on",
        key_display="PgDn",
        priority=True,
        id="reserve.read_on",
        tooltip="A page further in the result",
    ),
    Binding(
        "pageup",
        "read_back",
        "Nothing or back",
        show=False,
        priority=True,
        id="reserve.read_back",
        tooltip="A page back in the result; elsewhere a clicker's key for back does no harm",
    ),
    Binding(
        "u",
        "take_back",
        "Answer again",
        key_display="U",
        priority=True,
        id="reserve.take_back",
        tooltip="Give the last answer anew; it holds until another is confirmed",
    ),
    Binding(
        "enter,escape",
        "finish",
        "Board",
        key_display="Enter",
        priority=True,
        id="reserve.finish",
        tooltip="The test is over: back to the board",
    ),
    Binding(
        "escape",
        "leave",
        "Leave",
        key_display="Esc",
        id="reserve.leave",
        tooltip="Back to the board; what was done is logged, and F8 goes on with it today",
    ),
]
