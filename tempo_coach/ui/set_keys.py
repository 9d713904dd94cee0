"""The keys beside the rack, and how a key that is held down is told from two presses."""

from __future__ import annotations

from textual.binding import Binding, BindingType

from tempo_coach.ui.course import Course
from tempo_coach.ui.stage import Stage

# With priority, because scrolling containers take Page Down and Page Up for themselves, and those
# are what clickers send. A space goes first to a field that has a use for it.
SET_KEYS: list[BindingType] = [
    Binding(
        "space,pagedown",
        "start",
        "Start",
        key_display="Space/PgDn",
        priority=True,
        id="set.start",
        tooltip="Start the next set; from within the note by Page Down alone",
    ),
    Binding(
        "space,pagedown",
        "stop",
        "Stop",
        key_display="Space/PgDn",
        priority=True,
        id="set.stop",
        tooltip="Stop the set here; it is logged as far as it went",
    ),
    Binding(
        "space,pagedown",
        "finish",
        "Back",
        key_display="Space/PgDn",
        priority=True,
        id="set.finish",
        tooltip="All sets are done: back to where they were written",
    ),
    Binding(
        "enter,pageup",
        "tap",
        "Tap",
        key_display="Enter/PgUp",
        priority=True,
        id="set.tap",
        tooltip="The partner's tap at a turning point, where taps are turned on",
    ),
    Binding(
        "backspace",
        "take_back",
        "Take back",
        key_display="Backspace",
        priority=True,
        id="set.take_back",
        tooltip="Take the last tap back",
    ),
    Binding(
        "enter",
        "finish",
        "Back",
        show=False,
        id="set.finish_by_enter",
        tooltip="All sets are done and the fields are left: back to where they were written",
    ),
    Binding(
        "pageup",
        "stay",
        "Nothing",
        show=False,
        priority=True,
        id="set.stay",
        tooltip="A clicker's key for back does no harm here",
    ),
    Binding(
        "f3",
        "repeat",
        "Repeat",
        key_display="F3",
        id="set.repeat",
        tooltip="Do the set just done once more, under its number; again to go on after all",
    ),
    Binding(
        "f4",
        "strike",
        "Strike",
        key_display="F4",
        id="set.strike",
        tooltip="Take the set just done out of the count; asks once",
    ),
    Binding(
        "escape",
        "leave",
        "Leave",
        key_display="Esc",
        id="set.leave",
        tooltip="Back to where the sets were written; one that runs is stopped and logged first",
    ),
]

STAGE_ACTIONS = frozenset({"start", "stop", "finish", "repeat", "strike"})

_DEAF_MS = 1_000
_REPEAT_MS = 300


class Presses:
    """Tells presses that are meant from the repeats of a key held down.

    A keyboard repeats first after up to 660 ms and then every 30 or so. So for a second after
    something has begun a press is not heard, nor is one that follows another within 300 ms.
    """

    def __init__(self) -> None:
        self._begun_ms: int | None = None
        self._pressed_ms: int | None = None

    def begin(self, now_ms: int) -> None:
        """Take in that what the next press means has changed."""
        self._begun_ms = now_ms

    def is_meant(self, now_ms: int) -> bool:
        """Tell whether a press now is one of its own."""
        follows = self._pressed_ms is not None and now_ms - self._pressed_ms < _REPEAT_MS
        self._pressed_ms = now_ms
        is_early = self._begun_ms is not None and now_ms - self._begun_ms < _DEAF_MS
        return not (follows or is_early)


def has_use(action: str, stage: Stage, course: Course) -> bool:
    """Tell whether one of `STAGE_ACTIONS` has a use at a stage."""
    if action == "stop":
        return stage is Stage.PACING
    if action == "start" and stage is Stage.WAITING:
        return True
    if stage is not Stage.SAVED:
        return False
    if action in ("repeat", "strike"):
        return course.last is not None
    return (course.next_set is None) == (action == "finish")
