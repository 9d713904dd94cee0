"""matplotlib, imported so that it leaves nothing behind and says nothing."""

from __future__ import annotations

import logging
import os
import tempfile
from types import ModuleType

_FOLDER = "MPLCONFIGDIR"


def quiet_matplotlib() -> ModuleType:
    """Return matplotlib with what draws SVG.

    Its first import lists the machine's fonts. It would keep the list in the user's home, or
    complain where there is none that takes files; the list is of no use here, since no letter is
    drawn.
    """
    logging.getLogger("matplotlib").setLevel(logging.ERROR)
    given = os.environ.get(_FOLDER)
    with tempfile.TemporaryDirectory(prefix="tempo-coach-") as folder:
        os.environ[_FOLDER] = given or folder
        try:
            import matplotlib
            import matplotlib.backends.backend_svg
            import matplotlib.figure
        finally:
            if given is None:
                del os.environ[_FOLDER]
            else:
                os.environ[_FOLDER] = given
    return matplotlib
