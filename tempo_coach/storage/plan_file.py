"""A plan as a TOML file that a coach writes by hand."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tempo_coach.core.legible import legible
from tempo_coach.core.plan_faults import PlanFault
from tempo_coach.core.plan_reading import PlanReading, read_plan
from tempo_coach.errors import FileProblem, FileUnreadable
from tempo_coach.storage.reasons import reason
from tempo_coach.storage.settings_file import replace_file


class PlanFile:
    """One plan on the disk.

    Parameters
    ----------
    path
        The file.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    @property
    def name(self) -> str:
        """The path."""
        return legible(str(self._path))

    def read(self, *, today: date) -> PlanReading:
        """Read the plan, or everything that is wrong in it.

        Parameters
        ----------
        today
            As for `read_plan`.

        Raises
        ------
        FileUnreadable
            The path is a folder, forbidden or missing.
        """
        try:
            content = self._path.read_bytes()
        except OSError as fault:
            raise FileUnreadable(
                f"the plan {self.name} can't be read: {reason(fault)}",
                path=self._path,
                hint="'tempo-coach plan new' writes one to begin from",
            ) from fault
        try:
            return read_plan(content.decode("utf-8-sig"), today=today)
        except UnicodeDecodeError as fault:
            line = content.count(b"\n", 0, fault.start) + 1
            message = f"the byte {content[fault.start]:02X} is no text in UTF-8"
            found = PlanFault(line, message, "save the plan as plain text in UTF-8")
            return PlanReading(None, (found,))

    def write(self, text: str, *, replace: bool) -> None:
        """Write a text whole or not at all.

        Raises
        ------
        FileProblem
            There is something already and `replace` does not allow to write over it, or the disk
            did not take it.
        """
        if self._path.exists() and not replace:
            raise FileProblem(
                f"{self.name} is there already", path=self._path, hint="--replace writes over it"
            )
        try:
            replace_file(self._path, text)
        except OSError as fault:
            raise FileProblem(
                f"the plan {self.name} can't be written: {reason(fault)}",
                path=self._path,
                hint="give another file with -o",
            ) from fault
