"""A compared set as a picture: the bar's height over time, with what was prescribed over it."""

from __future__ import annotations

from typing import IO

from tempo_coach.core.prescribed_path import Paths
from tempo_coach.report.colours import LIGHT
from tempo_coach.report.quiet_import import quiet_matplotlib

_INCHES = (11.0, 4.2)
_DOTS = 150
_PALE = {"lower": "#56B4E9", "pause": "#F0E442", "raise": "#E69F00", "top": "#DDDDDD"}
"""Behind the phases: Okabe and Ito's colours, thinned."""


def draw_paths(paths: Paths, file: IO[bytes], *, form: str, title: str) -> None:
    """Write a picture.

    Parameters
    ----------
    paths
        What is drawn.
    file
        What takes the bytes.
    form
        One of `prescribed_path.PICTURE_FORMATS`.
    title
        What stands above it.

    Raises
    ------
    ImportError
        matplotlib is not installed.
    OSError
        The file does not take it.
    """
    matplotlib = quiet_matplotlib()
    with matplotlib.rc_context({"svg.hashsalt": "tempo-coach", "svg.fonttype": "none"}):
        figure = matplotlib.figure.Figure(figsize=_INCHES, layout="constrained")
        axes = figure.add_subplot()
        ends = [at_s for at_s, _ in paths.begins[1:]] + [float(paths.times_s[-1])]
        for (begins_s, phase), ends_s in zip(paths.begins, ends, strict=True):
            axes.axvspan(begins_s, ends_s, color=_PALE[phase], alpha=0.3, linewidth=0)
        for corners in filter(None, paths.asked):
            axes.plot(*zip(*corners, strict=True), color=LIGHT["quiet"], linestyle="--",
                      linewidth=1.2)  # fmt: skip
        axes.plot(paths.times_s, paths.height_m, color=LIGHT["now"], linewidth=1.8)
        axes.set(xlabel="s", ylabel="m", title=title, xlim=paths.times_s[[0, -1]])
        handles = [
            matplotlib.lines.Line2D([], [], color=LIGHT["now"], label="measured"),
            matplotlib.lines.Line2D([], [], color=LIGHT["quiet"], ls="--", label="prescribed"),
            *(
                matplotlib.patches.Patch(color=colour, alpha=0.3, label=phase)
                for phase, colour in _PALE.items()
            ),
        ]
        figure.legend(handles=handles, loc="outside lower center", ncols=6, frameon=False)
        # No date inside: the same set gives the same file.
        metadata = {"svg": {"Date": None}, "pdf": {"CreationDate": None}}.get(form)
        figure.savefig(file, format=form, dpi=_DOTS, metadata=metadata)
