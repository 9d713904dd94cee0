"""Every setting, to be changed at once."""

from __future__ import annotations

from collections.abc import Iterable
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.events import DescendantBlur, DescendantFocus
from textual.widget import Widget
from textual.widgets import Input, Static

from tempo_coach.core.legible import legible
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.option_line import OptionLine
from tempo_coach.ui.preferences import Preferences
from tempo_coach.ui.sentences import fault_sentence
from tempo_coach.ui.setting_entries import ENTRIES
from tempo_coach.ui.setting_row import NumberInput, SettingRow


class SettingRows(VerticalScroll, can_focus=False):
    """Keeps the chosen row in sight, also when what is said beneath takes room from the rows."""

    def on_resize(self) -> None:
        """Scroll to the row that the keys go to."""
        focused = self.screen.focused
        if focused is not None:
            focused.scroll_visible(animate=False)


class SettingsScreen(Frame[tuple[str, ...]]):
    """Changes settings; goes away with what is still to be said.

    Parameters
    ----------
    preferences
        What they are, and who changes them.
    """

    AUTO_FOCUS = "OptionLine"
    # With priority, because a scrolling container takes the arrows for itself.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "up",
            "row_up",
            "Choose",
            key_display="↑↓",
            priority=True,
            id="settings.up",
            tooltip="Go to the setting above or below",
        ),
        Binding(
            "down",
            "row_down",
            "Down",
            show=False,
            priority=True,
            id="settings.down",
            tooltip="Go to the setting below",
        ),
        Binding(
            "escape",
            "leave",
            "Board",
            key_display="Esc",
            id="settings.leave",
            tooltip="Back to the board; what was changed is kept",
        ),
    ]

    def __init__(self, preferences: Preferences) -> None:
        super().__init__()
        self._preferences = preferences
        self._rows = tuple(SettingRow(entry) for entry in ENTRIES)
        self._meaning = Static(id="setting-meaning", markup=False)
        self._fault = Static(id="setting-fault", classes="fault", markup=False)

    def content(self) -> Iterable[Widget]:
        """Return the rows, and beneath them what the chosen one means."""
        yield Static("Settings", classes="heading heading-text")
        with SettingRows(classes="settings"):
            yield from self._rows
        yield self._fault
        yield self._meaning

    def on_mount(self) -> None:
        """Show what holds."""
        self._show()
        self._say("")

    def on_descendant_focus(self, event: DescendantFocus) -> None:
        """Explain the setting that the keys go to now."""
        row = self._row_of(event.widget)
        if row is not None:
            row.mark(is_chosen=True)
            row.scroll_visible(animate=False)
            self._explain(row)

    def on_descendant_blur(self, event: DescendantBlur) -> None:
        """Take a number that is left, or stay with one that can't be taken."""
        row = self._row_of(event.widget)
        if row is None:
            return
        row.mark(is_chosen=False)
        # A terminal that loses the focus takes it from the field, and gives it back by itself.
        control = row.control
        if isinstance(control, NumberInput) and self.app.app_focus:
            is_changed = control.value != row.entry.text(self._preferences.settings)
            if is_changed and not self._take(row, control.value):
                control.focus()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Take back what was said of the number before."""
        if event.input is self.focused:
            self._say("")

    def on_option_line_picked(self, event: OptionLine.Picked) -> None:
        """Take what was picked."""
        row = self._row_of(event.line)
        if row is not None:
            self._take(row, event.option)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the number and go on."""
        row = self._row_of(event.input)
        if row is not None and self._take(row, event.value):
            self.focus_next()

    def action_row_up(self) -> None:
        """Go to the setting above."""
        self.focus_previous()

    def action_row_down(self) -> None:
        """Go to the setting below."""
        self.focus_next()

    def action_leave(self) -> None:
        """Go back, with the number that was typed last if it can be taken."""
        row = self._row_of(self.focused)
        unread: tuple[str, ...] = ()
        if row is not None and isinstance(row.control, NumberInput):
            fault = self._change(row, row.control.value)
            if fault is not None:
                row.show(row.entry.text(self._preferences.settings), "")
                unread = (f"Not changed. {fault_sentence(fault)}",)
        self.dismiss(unread)

    def _take(self, row: SettingRow, text: str) -> bool:
        fault = self._change(row, text)
        self._say("" if fault is None else fault_sentence(fault))
        if fault is None:
            self._show()
            self._explain(row)
        return fault is None

    def _change(self, row: SettingRow, text: str) -> OutOfRange | None:
        entry = row.entry
        if text == entry.text(self._preferences.settings):
            return None
        try:
            value = entry.read(text, self._preferences.settings)
        except OutOfRange as fault:
            return fault
        if value != getattr(self._preferences.settings, entry.key):
            self._preferences.change(entry.key, value)
        return None

    def _show(self) -> None:
        for row in self._rows:
            text = row.entry.text(self._preferences.settings)
            row.show(text, self._preferences.source_tag(row.entry.key))

    def _explain(self, row: SettingRow) -> None:
        source = legible(self._preferences.source_sentence(row.entry.key))
        self._meaning.update(f"{row.entry.meaning()}\n{source}")

    def _say(self, sentence: str) -> None:
        self._fault.update(sentence)
        self._fault.display = bool(sentence)

    def _row_of(self, widget: Widget | None) -> SettingRow | None:
        return next((row for row in self._rows if row.holds(widget)), None)
