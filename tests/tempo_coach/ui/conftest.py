"""What holds for all tests of the screen."""

from __future__ import annotations

import pytest
from textual._compositor import Compositor
from textual.css.model import RuleSet
from textual.css.stylesheet import Stylesheet
from textual.css.types import CSSLocation

_parse_rules = Stylesheet._parse_rules
_rules: dict[object, list[RuleSet]] = {}


def _parsed_once(
    sheet: Stylesheet,
    css: str,
    read_from: CSSLocation,
    is_default_rules: bool = False,
    tie_breaker: int = 0,
    scope: str = "",
) -> list[RuleSet]:
    place = (css, read_from, is_default_rules, tie_breaker, scope)
    key = (*place, tuple(sheet._variables.items()))
    if key not in _rules:
        _rules[key] = _parse_rules(sheet, *place)
    return _rules[key]


@pytest.fixture(autouse=True)
def unpainted(monkeypatch: pytest.MonkeyPatch) -> None:
    """Send no changes to a terminal that nobody looks at: half of the time went into them.

    What stands in the window is drawn whenever a test asks for it.
    """
    monkeypatch.setattr(Compositor, "render_update", lambda *_, **__: None)


@pytest.fixture(autouse=True)
def parsed_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let every app use the rules of the first: each would parse the same style sheets again."""
    monkeypatch.setattr(Stylesheet, "_parse_rules", _parsed_once)
