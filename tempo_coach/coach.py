"""The use cases: pace a set, log it, measure it, correct it."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from datetime import datetime, timedelta
from typing import Any

from sounds_gen.samples import Samples
from tempo_coach.core.cue_sets import rest_track, set_track
from tempo_coach.core.fact_moments import dated
from tempo_coach.core.facts import (
    Changes,
    MaxStruck,
    MaxTested,
    SetCorrected,
    SetDone,
    SetStruck,
)
from tempo_coach.core.history import History, fold
from tempo_coach.core.ledger import Ledger
from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.phase_seconds import PhaseSeconds
from tempo_coach.core.ports import Clock, Log, Playback, Player
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.reserve_keeper import ReserveKeeper
from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.core.session import Session
from tempo_coach.core.session_facts import Change, SessionChanged
from tempo_coach.core.set_measurer import SetMeasurer
from tempo_coach.core.settings import Settings
from tempo_coach.core.soreness_facts import SorenessTold
from tempo_coach.core.timeline import Timeline, rep_times
from tempo_coach.errors import LogUnwritable, SoundUnavailable


class Coach:
    """Paces sets and keeps their log.

    Parameters
    ----------
    log
        Where facts go.
    rescue
        Where they go at the end if `log` does not take them.
    player
        What plays the tracks.
    clock
        What tells the time.
    new_id
        Gives an id that no other set has.
    settings
        What holds for all sets.
    """

    def __init__(
        self,
        *,
        log: Log,
        rescue: Log,
        player: Player,
        clock: Clock,
        new_id: Callable[[], str],
        settings: Settings,
    ) -> None:
        self.log = log
        self.clock = clock
        self.settings = settings
        self.ledger = Ledger(log, rescue=rescue)
        self.reserve = ReserveKeeper(self.ledger, clock=clock, new_id=new_id)
        self.measurer = SetMeasurer(self.ledger, clock=clock, new_id=new_id)
        self._player = player
        self._new_id = new_id
        self._playbacks: list[Playback] = []

    def timeline(self, prescription: Prescription) -> Timeline:
        """Lay one set out in time, as the settings say.

        Raises
        ------
        OutOfRange
            The set is too long.
        """
        return Timeline.of(
            prescription,
            setup_ms=self.settings.setup_ms,
            allowances=self.settings.allowances,
        )

    def track(self, timeline: Timeline) -> Samples:
        """Return the sound of one set, as the settings say; shape ``(n,)``, float32, [-1, 1]."""
        chosen = self.settings
        return set_track(timeline, cues=chosen.cues, count=chosen.count, volume=chosen.volume)

    def start_set(
        self, prescription: Prescription, *, lifter: str, load_kg: float | None = None
    ) -> tuple[RunningSet, SoundUnavailable | None]:
        """Start one set; blocks until the device has the track, so call it from a worker.

        Parameters
        ----------
        prescription
            What is to be done.
        lifter
            Whose log it is.
        load_kg
            The load in kg where the prescription alone does not say it, as with a share of the
            1RM or with body mass.

        Returns
        -------
        tuple of RunningSet and SoundUnavailable or None
            The set runs in any case; without sound, with the reason why.

        Raises
        ------
        OutOfRange
            The set is too long.
        """
        timeline = self.timeline(prescription)
        fault: SoundUnavailable | None = None
        self.silence()
        try:
            zero_ms = self._begin(self.track(timeline))
        except SoundUnavailable as unavailable:
            zero_ms, fault = self.clock.now_ms(), unavailable
        since_zero = timedelta(milliseconds=self.clock.now_ms() - zero_ms)
        running = RunningSet(
            id=self._new_id(),
            lifter=lifter,
            prescription=prescription,
            timeline=timeline,
            zero_ms=zero_ms,
            began_at=self.clock.wall() - since_zero,
            load_kg=load_kg,
        )
        return running, fault

    def start_rest(self, rest_ms: int) -> RunningRest:
        """Start a rest, without sounds where there is no device; blocks like `start_set`.

        What still rings out of the set before it is left to ring.
        """
        begins_ms = self.clock.now_ms()
        chosen = self.settings
        with suppress(SoundUnavailable):
            self._begin(rest_track(rest_ms, cues=chosen.cues, volume=chosen.volume))
        return RunningRest(begins_ms, rest_ms)

    def play(self, track: Samples) -> int:
        """Play something that is no set, such as a sound to learn; blocks like `start_set`.

        Returns
        -------
        int
            The monotonic moment at which its first sample is heard.

        Raises
        ------
        SoundUnavailable
            There is no sound.
        """
        self.silence()
        return self._begin(track)

    def has_lost_sound(self, running: RunningSet) -> bool:
        """Tell whether the device has given up before the set is over."""
        if running.is_over(self.clock.now_ms()):
            return False
        return any(not playback.is_sounding() for playback in self._playbacks)

    def end_set(self, running: RunningSet) -> tuple[SetDone | None, LogUnwritable | None]:
        """End a set: silence what is left of the track, and log what was done.

        Returns
        -------
        tuple of SetDone or None, and LogUnwritable or None
            The set, or None if it ended before the first rep; and why it is not on the disk yet,
            if it is not: it is then kept, and saved with the next fact.
        """
        now_ms = self.clock.now_ms()
        if not running.is_over(now_ms):
            self.silence()
        done = running.fact(now_ms)
        return done, None if done is None else self.ledger.save(done)

    def silence(self) -> None:
        """Make whatever is playing silent."""
        for playback in self._playbacks:
            playback.silence()
        self._playbacks.clear()

    def correct(
        self, done: SetDone, changes: Changes, *, after: datetime | None = None
    ) -> tuple[SetDone, LogUnwritable | None]:
        """Correct a set; where reps change and seconds are not given, these become reps × tempo.

        Parameters
        ----------
        done
            The set as it is.
        changes
            What to put in place.
        after
            When it was corrected before; the new correction is dated later, even by a clock that
            was set back.

        Returns
        -------
        tuple of SetDone, and LogUnwritable or None
            The set as it is now, and why the correction is not on the disk yet, if it is not.

        Raises
        ------
        OutOfRange
            So many reps at this tempo take longer than a set can, or what was lowered is no other
            load than what was raised.
        """
        given = changes.given_for(done)
        if given.get("reps_done", done.reps_done) != done.reps_done and "seconds" not in given:
            rep = rep_times(done.tempo, self.settings.allowances, done.shape)
            given["seconds"] = PhaseSeconds.of(rep.times(given["reps_done"]))
        at = dated(self.clock.wall(), after=after)
        fact = SetCorrected(v=changes.version, id=done.id, at=at, changes=Changes(**given))
        return done.corrected(given), self.ledger.save(fact)

    def strike(self, done: SetDone, *, why: str) -> LogUnwritable | None:
        """Strike a set; returns why that is not on the disk yet, if it is not."""
        return self.ledger.save(SetStruck(id=done.id, at=self.clock.wall(), why=why))

    def record_max(self, **said: Any) -> tuple[MaxTested, LogUnwritable | None]:
        """Record a max that was tested; returns why it is not on the disk yet, too."""
        tested = MaxTested(id=self._new_id(), **said)
        return tested, self.ledger.save(tested)

    def tell_soreness(
        self, lifter: str, soreness: int
    ) -> tuple[SorenessTold, LogUnwritable | None]:
        """Record how sore a lifter is now; returns why it is not on the disk yet, too."""
        told = SorenessTold(
            id=self._new_id(), at=self.clock.wall(), lifter=lifter, soreness=soreness
        )
        return told, self.ledger.save(told)

    def strike_max(self, tested: MaxTested, *, why: str) -> LogUnwritable | None:
        """Strike a max; returns why that is not on the disk yet, if it is not."""
        return self.ledger.save(MaxStruck(id=tested.id, at=self.clock.wall(), why=why))

    def change_session(
        self, session: Session, item: int, change: Change, **needed: Any
    ) -> tuple[SessionChanged, LogUnwritable | None]:
        """Change one item of a planned day, as `Session.changed` says.

        Returns
        -------
        tuple of SessionChanged, and LogUnwritable or None
            The change, and why it is not on the disk yet, if it is not.
        """
        fact = session.changed(item, change, id=self._new_id(), at=self.clock.wall(), **needed)
        return fact, self.ledger.save(fact)

    def history(self) -> History:
        """Read the log, and what is not on the disk yet; blocks.

        Raises
        ------
        LogUnreadable
            The log can't be read as a whole.
        """
        lines = [*self.log.read(), *self.ledger.unsaved]
        return fold(line for line in lines if not isinstance(line, Skipped))

    def _begin(self, track: Samples) -> int:
        playback = self._player.play(track)
        self._playbacks.append(playback)
        return self.clock.now_ms() + playback.lag_ms + self.settings.offset_ms
