"""The colours: those of Okabe and Ito, which colour-blind readers tell apart (Wong 2011)."""

from __future__ import annotations

from textual.theme import Theme

SKY_BLUE = "#56B4E9"
YELLOW = "#F0E442"
ORANGE = "#E69F00"
GREEN = "#009E73"
VERMILION = "#D55E00"
_PAPER = "#ECE9E2"
_NIGHT = "#0E1114"

THEME = Theme(
    name="rack",
    dark=True,
    primary=SKY_BLUE,
    secondary=ORANGE,
    accent=YELLOW,
    success=GREEN,
    warning=ORANGE,
    error=VERMILION,
    foreground=_PAPER,
    background=_NIGHT,
    surface="#171C21",
    panel="#20272E",
    variables={
        "lower": SKY_BLUE,
        "pause": YELLOW,
        "raise": ORANGE,
        "top": "#2FCB9C",
        "quiet": "#9AA3AB",
        "rack": "#5A646D",
        # As the federation's rules name them, light enough to stand on this background.
        "disc-red": "#E0503F",
        "disc-blue": "#4C8DE0",
        "disc-yellow": YELLOW,
        "disc-green": "#3FAE5A",
        "disc-white": _PAPER,
    },
)
