"""Every sound with its name, to be heard and learnt."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget
from textual.widgets import OptionList, Static

from tempo_coach.core.cue_sets import SLOW_REP, ring_out_ms, sound_track, sounds
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import cues_text
from tempo_coach.core.timeline import Timeline
from tempo_coach.ui.choice_list import ChoiceList
from tempo_coach.ui.frame import Frame
from tempo_coach.ui.loudspeaker import Loudspeaker, SoundBegun, SoundRefused
from tempo_coach.ui.rep_words import RepWords
from tempo_coach.ui.sentences import no_sound_sentence
from tempo_coach.ui.underway import Underway

SILENT = "This was started silent, so nothing is heard."
_SLOW = "one slow rep"
_SETUP_MS = 4_000
"""Shorter than before a set: enough for the three blips, and for a device to wake."""
_TICKS_A_SECOND = 20


class SoundList(ChoiceList):
    """The sounds, a row each."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "enter,space",
            "select",
            "Play",
            key_display="Enter",
            id="sounds.play",
            tooltip="Play the chosen sound",
        ),
    ]


class SoundsScreen(Frame[None]):
    """Plays single sounds, and one slow rep with its words alongside.

    Parameters
    ----------
    underway
        What plays.
    is_silent
        Nothing is heard, by wish.
    """

    AUTO_FOCUS = "SoundList"
    # With priority, because the list takes the arrows for itself.
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding(
            "down",
            "sound_after",
            "Sound",
            key_display="↑↓",
            priority=True,
            id="sounds.after",
            tooltip="Choose the sound below; the up arrow chooses the one above",
        ),
        Binding(
            "up",
            "sound_before",
            "Sound above",
            show=False,
            priority=True,
            id="sounds.before",
            tooltip="Choose the sound above",
        ),
        Binding(
            "escape",
            "leave",
            "Board",
            key_display="Esc",
            id="sounds.leave",
            tooltip="Back to the board, and silent at once",
        ),
    ]

    def __init__(self, underway: Underway, *, is_silent: bool) -> None:
        super().__init__()
        self._coach = underway.coach
        self._is_silent = is_silent
        self._loudspeaker = Loudspeaker(self, underway)
        self._sounds = sounds()
        self._timeline = Timeline.of(parse_prescription(SLOW_REP), setup_ms=_SETUP_MS)
        self._ends_ms = self._timeline.length_ms + ring_out_ms()
        self._list = SoundList()
        self._words = RepWords(self._timeline)
        self._rep_heard_ms: int | None = None

    def content(self) -> Iterable[Widget]:
        """Return the list, and beneath it the words of the rep."""
        yield Static("Sounds", classes="heading heading-text")
        yield self._list
        yield Static(f"{_SLOW}, cue by cue", classes="under-heading")
        yield self._words

    def on_mount(self) -> None:
        """Fill the list, and follow the clock from now on."""
        cues = cues_text(self._coach.settings.cues)
        texts = [(sound.name, sound.words) for sound in self._sounds]
        texts.append((_SLOW, f"all of a set's cues, as set: {cues}"))
        width = max(len(name) for name, _ in texts)
        self._list.show([f"{name:<{width}}  {words}" for name, words in texts], 0)
        self.set_interval(1 / _TICKS_A_SECOND, self.follow_clock)
        if self._is_silent:
            self.tell(SILENT)

    def follow_clock(self) -> None:
        """Mark the cue of the slow rep that was heard last."""
        if self._rep_heard_ms is None:
            return
        position_ms = self._coach.clock.now_ms() - self._rep_heard_ms
        self._words.follow(position_ms if position_ms < self._ends_ms else None)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Play what was chosen."""
        event.stop()
        if event.option_index == len(self._sounds):
            self._loudspeaker.play(_SLOW, partial(self._coach.track, self._timeline))
            return
        sound = self._sounds[event.option_index]
        volume = self._coach.settings.volume
        self._loudspeaker.play(sound.name, partial(sound_track, sound, volume=volume))

    def on_sound_begun(self, event: SoundBegun) -> None:
        """Let the words go along with the rep, and with nothing else."""
        if not self._is_silent:
            self.tell()
        self._rep_heard_ms = event.heard_ms if event.name == _SLOW else None
        self._words.follow(None)
        self.follow_clock()

    def on_sound_refused(self, event: SoundRefused) -> None:
        """Say why nothing is heard."""
        self._rep_heard_ms = None
        self._words.follow(None)
        self.tell(no_sound_sentence(event.fault))

    def action_sound_before(self) -> None:
        """Choose the sound above."""
        self._list.action_cursor_up()

    def action_sound_after(self) -> None:
        """Choose the sound below."""
        self._list.action_cursor_down()

    def action_leave(self) -> None:
        """Go back to the board and be silent."""
        self._loudspeaker.stop()
        self.dismiss()
