"""The colours of a page: those of Okabe and Ito (Wong 2011, Nature Methods 8:441), and greys."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

_BLUE = "#0072B2"
_SKY_BLUE = "#56B4E9"

LIGHT: Mapping[str, str] = MappingProxyType(
    {
        "paper": "#FFFFFF",
        "ink": "#111417",
        "quiet": "#4A5157",
        "rule": "#7A8187",
        "strong": "#E8EDF1",
        "link": "#005C91",
        "now": _BLUE,
        "before": "#BFE1F6",
        "edge": _BLUE,
    }
)
"""By the name that the style sheet has for each; also what is printed."""
DARK: Mapping[str, str] = MappingProxyType(
    {
        "paper": "#0E1114",
        "ink": "#ECE9E2",
        "quiet": "#B4BCC4",
        "rule": "#7E868E",
        "strong": "#20272E",
        "link": _SKY_BLUE,
        "now": _SKY_BLUE,
        "before": "#0E3A55",
        "edge": _SKY_BLUE,
    }
)
