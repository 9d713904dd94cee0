"""Where one attempt of a reserve test is paced."""

from __future__ import annotations

from tempo_coach.ui.departure import Departure
from tempo_coach.ui.errands import SetSaved
from tempo_coach.ui.sentences import saved_sentence
from tempo_coach.ui.set_screen import SetScreen


class AttemptScreen(SetScreen):
    """Paces one set, and goes away with it once it is saved: its question is asked elsewhere."""

    def on_set_saved(self, event: SetSaved) -> None:
        """Go, and let the end of the track ring out."""
        event.prevent_default()
        self._goes_on = True
        said = saved_sentence(event.done, event.fault)
        self.dismiss(Departure((said,), goes_on=True, done=event.done))
