"""Facts on their way to the disk: none is lost while the disk does not take it."""

from __future__ import annotations

from tempo_coach.core.facts import Fact
from tempo_coach.core.ports import Log
from tempo_coach.errors import LogUnwritable


class Ledger:
    """Takes facts to a log in their order, and holds those that it did not take.

    Parameters
    ----------
    log
        Where facts go.
    rescue
        Where they go at the end if `log` does not take them.
    """

    def __init__(self, log: Log, *, rescue: Log) -> None:
        self._log = log
        self._rescue = rescue
        self._unsaved: list[Fact] = []

    @property
    def unsaved(self) -> tuple[Fact, ...]:
        """Facts that are not on the disk yet."""
        return tuple(self._unsaved)

    def save(self, fact: Fact) -> LogUnwritable | None:
        """Save a fact behind those not saved yet; returns why it is not on the disk yet, if so."""
        self._unsaved.append(fact)
        return self._write_to(self._log)

    def rescue(self) -> str | None:
        """Save what could not be saved so far, in the log or beside it; call it before leaving.

        Returns
        -------
        str or None
            Where the facts are, if they had to go beside the log.

        Raises
        ------
        LogUnwritable
            Neither place took them; `unsaved` still holds them.
        """
        if not self._unsaved or self._write_to(self._log) is None:
            return None
        fault = self._write_to(self._rescue)
        if fault is not None:
            raise fault
        return self._rescue.name

    def _write_to(self, log: Log) -> LogUnwritable | None:
        try:
            while self._unsaved:
                log.append(self._unsaved[0])
                del self._unsaved[0]
        except LogUnwritable as fault:
            return fault
        return None
