"""Whether the sound is heard, asked before the first set of a day."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum, auto
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import Static

from tempo_coach.core.cue_sets import check_track
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.loudspeaker import Loudspeaker, SoundBegun, SoundRefused
from tempo_coach.ui.page import Page
from tempo_coach.ui.sentences import no_sound_sentence
from tempo_coach.ui.set_keys import Presses
from tempo_coach.ui.underway import Underway

QUESTION = "Did you hear three tones?"
REMEDIES = (
    "Is the volume up, and are headphones or a loudspeaker plugged in? A laptop's own speaker "
    "may lose against a loud room.",
    "Is a sound server running? On Linux, 'pactl info' says so; the package libasound2-plugins "
    "connects programs like this one to it.",
    "Without sound the set goes on by the screen, and is logged all the same.",
)


class Answer(Enum):
    """How the question was answered."""

    HEARD = auto()
    LEFT_OPEN = auto()
    NEVER_AGAIN = auto()


class SoundCheckScreen(Frame[Answer]):
    """Plays three tones and asks whether they were heard; goes away with the answer.

    Parameters
    ----------
    underway
        What plays.
    """

    # With priority, because a scrolling container takes Page Down and Page Up for itself, and
    # those are what clickers send.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "y,enter,pagedown",
            "say_yes",
            "Yes",
            key_display="Y/Enter/PgDn",
            priority=True,
            id="check.yes",
            tooltip="They were heard: on to the set",
        ),
        Binding(
            "y,enter,pagedown",
            "go_on",
            "Go on",
            key_display="Enter/PgDn",
            priority=True,
            id="check.go_on",
            tooltip="On to the set, without sound",
        ),
        Binding(
            "n",
            "help",
            "No",
            key_display="N",
            id="check.help",
            tooltip="They were not heard: show what to try",
        ),
        Binding(
            "space,r,pageup",
            "play",
            "Again",
            key_display="Space",
            priority=True,
            id="check.again",
            tooltip="Play the three tones again",
        ),
        Binding(
            "s",
            "stop_asking",
            "Stop asking",
            key_display="S",
            id="check.stop_asking",
            tooltip="Go on, and never ask again; the settings bring it back",
        ),
        Binding(
            "escape",
            "leave",
            "Skip",
            key_display="Esc",
            id="check.leave",
            tooltip="Go on without an answer",
        ),
    ]

    def __init__(self, underway: Underway) -> None:
        super().__init__()
        self._coach = underway.coach
        self._loudspeaker = Loudspeaker(self, underway)
        self._presses = Presses()
        self._is_refused = False
        self._question = Static(QUESTION, classes="title", markup=False)
        self._remedies = Static(id="remedies", markup=False)

    def content(self) -> Iterable[Widget]:
        """Return the question, and room for what to try."""
        with Page(classes="question"):
            yield self._question
            yield self._remedies

    def on_mount(self) -> None:
        """Play at once; the key that led here may still be held down."""
        self._presses.begin(self._coach.clock.now_ms())
        self.action_play()

    def on_sound_begun(self, _: SoundBegun) -> None:
        """Ask, where there was no device before."""
        self._show(QUESTION, is_refused=False)

    def on_sound_refused(self, event: SoundRefused) -> None:
        """Say why nothing can be heard, and what to try."""
        self._show(no_sound_sentence(event.fault), is_refused=True)
        self.action_help()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Ask what was heard only where something could be heard."""
        if action in ("say_yes", "help"):
            return not self._is_refused
        if action == "go_on":
            return self._is_refused
        return super().check_action(action, parameters)

    def action_say_yes(self) -> None:
        """Go on, and remember it for today."""
        self._leave_if_meant(Answer.HEARD)

    def action_go_on(self) -> None:
        """Go on without sound."""
        self._leave_if_meant(Answer.LEFT_OPEN)

    def action_help(self) -> None:
        """Show what to try."""
        self._remedies.update("\n\n".join(REMEDIES))

    def action_play(self) -> None:
        """Play the tones."""
        volume = self._coach.settings.volume
        self._loudspeaker.play("three tones", partial(check_track, volume=volume))

    def action_stop_asking(self) -> None:
        """Go on, and ask no more."""
        self._leave(Answer.NEVER_AGAIN)

    def action_leave(self) -> None:
        """Go on without an answer."""
        self._leave(Answer.LEFT_OPEN)

    def _show(self, sentence: str, *, is_refused: bool) -> None:
        self._is_refused = is_refused
        self._question.update(sentence)
        self.refresh_bindings()

    def _leave_if_meant(self, answer: Answer) -> None:
        if self._presses.is_meant(self._coach.clock.now_ms()):
            self._leave(answer)

    def _leave(self, answer: Answer) -> None:
        self._loudspeaker.stop()
        self.dismiss(answer)
