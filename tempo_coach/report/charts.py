"""Charts as SVG that stands in a page: bars, and numbers beside them."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from tempo_coach.core.page_parts import Bar, Panel
from tempo_coach.report.colours import LIGHT
from tempo_coach.report.inline_svg import inline_svg
from tempo_coach.report.quiet_import import quiet_matplotlib

if TYPE_CHECKING:
    from matplotlib.artist import Artist

WIDTH, HEIGHT = 96, 50
"""Of one small chart, in points."""
FONT_SIZE = 7.5
_INCH = 72
_ROOM = (0.02, 0.2, 0.96, 0.61)
"""Of the bars, in parts of the whole: left, bottom, width, height."""
_STYLE = {
    "svg.fonttype": "none",
    # Else names inside the drawing differ from run to run.
    "svg.hashsalt": "tempo-coach",
    "font.size": FONT_SIZE,
    "axes.edgecolor": LIGHT["rule"],
    "axes.linewidth": 0.6,
    "axes.spines.left": False,
    "axes.spines.right": False,
    "axes.spines.top": False,
    "axes.facecolor": "none",
    "figure.facecolor": "none",
}
_NAMES = {LIGHT[name].lower(): name for name in ("ink", "rule", "paper", "now", "before")}


class Charts:
    """Draws small charts, one after the other."""

    def __init__(self) -> None:
        self._matplotlib = quiet_matplotlib()
        with self._matplotlib.rc_context():
            # Whatever style the user has.
            self._matplotlib.rcdefaults()
            self._matplotlib.rcParams.update(_STYLE)
            # Made once: axes take as long as all that is drawn in them.
            self._figure = self._matplotlib.figure.Figure(figsize=(WIDTH / _INCH, HEIGHT / _INCH))
            self._matplotlib.backends.backend_svg.FigureCanvasSVG(self._figure)
            self._axes = self._figure.add_axes(_ROOM)
            self._axes.set(xticks=(), yticks=())

    def drawing(self, panel: Panel, *, highest: float) -> str:
        """Return what stands inside a chart's svg element.

        Parameters
        ----------
        panel
            What is drawn.
        highest
            The value that reaches the top.
        """
        last = len(panel.bars) - 1
        self._axes.set(xlim=(-0.6, last + 0.6), ylim=(0, highest or 1))
        drawn = [
            part
            for place, bar in enumerate(panel.bars)
            for part in self._bars(place, bar, is_last=place == last)
        ]
        values = [bar.value for bar in panel.bars]
        top = values.index(max(values))
        if top != last and values[top]:
            drawn.append(self._text(top, values[top], panel.bars[top].text, last=last))
        # The weeks alone: the figures beneath have the years.
        now = panel.bars[last]
        drawn.append(self._text(last, 0, f"{now.name[-3:]}: {now.text}", last=last))
        if last > 1:
            drawn.append(self._text(0, 0, panel.bars[0].name[-3:], last=last))
        text = io.StringIO()
        with self._matplotlib.rc_context(_STYLE):
            self._figure.savefig(text, format="svg", metadata={"Date": None})
        for artist in drawn:
            artist.remove()
        return inline_svg(text.getvalue(), names=_NAMES)

    def _bars(self, place: int, bar: Bar, *, is_last: bool) -> list[Artist]:
        """Draw a bar, with the part that rests on an allowance on top."""
        sure = bar.value - bar.by_allowance
        parts = (
            (0.0, sure, LIGHT["now" if is_last else "before"]),
            (sure, bar.by_allowance, LIGHT["paper"]),
        )
        return [
            self._axes.add_patch(
                self._matplotlib.patches.Rectangle(
                    (place - 0.4, bottom), 0.8, height, facecolor=fill, edgecolor=LIGHT["now"],
                    linewidth=0.6, clip_on=False,
                )
            )
            for bottom, height, fill in parts
            if height > 0
        ]  # fmt: skip

    def _text(self, place: int, value: float, text: str, *, last: int) -> Artist:
        """Write above a bar, or beneath where there is no value; never over the panel's edges."""
        is_left = place <= last / 2 and last > 0
        x, horizontal = (place - 0.4, "left") if is_left else (place + 0.4, "right")
        written: Artist = self._axes.annotate(
            text,
            (x, value),
            (0, 1.5 if value else -2.0),
            textcoords="offset points",
            ha=horizontal,
            va="bottom" if value else "top",
            color=LIGHT["ink"],
            annotation_clip=False,
        )
        return written
