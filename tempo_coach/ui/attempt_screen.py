"""Where one attempt of a reserve test is paced."""

from __future__ import annotations

from tempo_coach.core.facts import SetDone
from tempo_coach.ui.departure import Departure
from tempo_coach.ui.errands import SetMeasured, SetSaved
from tempo_coach.ui.sentences import measured_sentences, saved_sentence
from tempo_coach.ui.set_screen import SetScreen


class AttemptScreen(SetScreen):
    """Paces one set, and goes away with it once it is saved: its question is asked elsewhere."""

    def on_set_saved(self, event: SetSaved) -> None:
        """Go, once the taps are read, and let the end of the track ring out."""
        event.prevent_default()
        self._saved = event
        if self._taps.is_pending:
            self._taps.read()
        else:
            self._go(event.done, saved_sentence(event.done, event.fault))

    def on_set_measured(self, event: SetMeasured) -> None:
        """Go with what the taps made of the set."""
        event.prevent_default()
        measured = event.measured
        if measured is None:
            self._go(self._saved.done, saved_sentence(self._saved.done, self._saved.fault))
        else:
            self._go(measured.done, *measured_sentences(measured))

    def _go(self, done: SetDone | None, *said: str) -> None:
        self._goes_on = True
        self.dismiss(Departure(said, goes_on=True, done=() if done is None else (done,)))
