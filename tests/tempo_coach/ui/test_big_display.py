from __future__ import annotations

import pytest
from textual.app import App, ComposeResult
from textual.geometry import Region

from tempo_coach.ui.big_display import BigDisplay
from tempo_coach.ui.canvas import Ink, plain_text
from tempo_coach.ui.sign import Sign
from tests.tempo_coach.ui.rack import Rack

pytestmark = pytest.mark.screen


class WatchedDisplay(BigDisplay):
    """A display that keeps which rows it repaints."""

    def __init__(self) -> None:
        super().__init__()
        self.repainted: list[Region] = []

    def refresh(
        self,
        *regions: Region,
        repaint: bool = True,
        layout: bool = False,
        recompose: bool = False,
    ) -> WatchedDisplay:
        self.repainted += regions
        super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)
        return self


class DisplayApp(App[None]):
    """A window with nothing but the display."""

    CSS = "BigDisplay { height: 1fr; }"

    def compose(self) -> ComposeResult:
        yield WatchedDisplay()


LOWER = Sign(word="LOWER", figure="3", figure_room="0", height=0.5, ink=Ink.LOWER)


async def test_the_rows_on_the_screen_are_those_of_the_picture() -> None:
    app = DisplayApp()
    async with app.run_test(size=(60, 20)) as pilot:
        display = app.query_one(WatchedDisplay)
        display.show(LOWER)
        await pilot.pause()
        shown = "\n".join(display.render_line(row).text.rstrip() for row in range(20))
        widths = {display.render_line(row).cell_length for row in range(20)}

    assert shown == plain_text(display.picture)
    assert widths == {60}


async def test_the_same_sign_is_not_painted_again() -> None:
    app = DisplayApp()
    async with app.run_test(size=(60, 20)):
        display = app.query_one(WatchedDisplay)
        display.show(LOWER)
        display.repainted.clear()

        display.show(LOWER)

        assert display.repainted == []


async def test_a_bar_that_moved_less_than_half_a_row_is_not_painted_again() -> None:
    app = DisplayApp()
    async with app.run_test(size=(60, 20)):
        display = app.query_one(WatchedDisplay)
        display.show(LOWER)
        display.repainted.clear()

        display.show(Sign(word="LOWER", figure="3", figure_room="0", height=0.501, ink=Ink.LOWER))

        assert display.repainted == []


async def test_a_bar_that_moves_repaints_only_the_rows_it_leaves_and_enters() -> None:
    app = DisplayApp()
    async with app.run_test(size=(60, 20)):
        display = app.query_one(WatchedDisplay)
        display.show(LOWER)
        display.repainted.clear()

        display.show(Sign(word="LOWER", figure="3", figure_room="0", height=0.45, ink=Ink.LOWER))

        assert 1 <= len(display.repainted) <= 7


async def test_a_window_that_grows_is_filled() -> None:
    app = DisplayApp()
    async with app.run_test(size=(60, 20)) as pilot:
        display = app.query_one(WatchedDisplay)
        display.show(LOWER)
        await pilot.resize_terminal(120, 40)
        await pilot.pause()
        rows = len(display.picture)

    assert rows == 40


async def test_each_phase_has_its_own_colour_beside_its_word() -> None:
    async with Rack().at_the_rack() as rack:
        colours = {
            rack.display.get_component_rich_style(f"big-display--{phase}").color
            for phase in ("lower", "pause", "raise", "top")
        }

    assert len(colours) == 4
