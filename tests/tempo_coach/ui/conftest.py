"""What holds for all tests of the screen."""

from __future__ import annotations

import pytest
from textual._compositor import Compositor


@pytest.fixture(autouse=True)
def unpainted(monkeypatch: pytest.MonkeyPatch) -> None:
    """Send no changes to a terminal that nobody looks at: half of the time went into them.

    What stands in the window is drawn whenever a test asks for it.
    """
    monkeypatch.setattr(Compositor, "render_update", lambda *_, **__: None)
