"""Generated values of the core, valid and nearly so."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta, timezone
from decimal import Decimal
from fractions import Fraction

from hypothesis import assume, settings
from hypothesis import strategies as st

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.facts import (
    Changes,
    MaxStruck,
    MaxTested,
    SetCorrected,
    SetDone,
    SetStruck,
)
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.measured_facts import RepMeasured, SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep, Motion
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.phase_seconds import PhaseSeconds
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.rep_shape import PLAIN, LowerLoad, RepShape, Sides, Stops
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tempo_coach.core.soreness_facts import MOST_SORE, SorenessTold
from tempo_coach.core.tempo import Allowances, Phase, Speed, Tempo
from tempo_coach.core.timeline import Timeline, rep_times
from tempo_coach.core.work import PhaseTimes


def _lengths(*speeds: Speed) -> st.SearchStrategy[int | Speed]:
    # 29 s, so that four of them stay below the 120 s of a rep.
    whole = st.integers(0, 29).map(lambda seconds: seconds * 1000)
    return st.one_of(whole, st.integers(0, 29_000), *map(st.just, speeds))


tempos = st.builds(
    lambda slots: Tempo(*slots),
    st.tuples(_lengths(Speed.FAST, Speed.OWN), _lengths(), _lengths(*Speed), _lengths()).filter(
        lambda slots: any(slot != 0 for slot in slots)
    ),
)

_words = st.sampled_from(
    (
        "front squat",
        "row",
        "Überzug",
        "chin-ups",
        "ヒップ",
        "5",
        "box squat 40 cm",
        "back/neck",
    )
)
exercises = st.lists(_words, min_size=1, max_size=3).map(" ".join)

_amounts = st.decimals("0.5", "150", places=2) | st.integers(1, 150).map(Decimal)
loads = st.one_of(
    st.none(),
    st.just("bw"),
    st.builds(
        "{}{}{}".format,
        _amounts,
        st.sampled_from(("", " ")),
        st.sampled_from(("kg", "lb", "%", "KG")),
    ),
    st.builds(
        "bw{}{} {}".format, st.sampled_from(("+", " + ")), _amounts, st.sampled_from(("kg", "lb"))
    ),
    st.sampled_from(("bw+0 kg", "bw+0 lb", "bw+0.00 lb")),
)
rests = st.one_of(
    st.none(),
    st.builds("{}{}".format, st.integers(0, 1200), st.sampled_from(("", " s", "s", " S"))),
    st.builds("{}:{:02d}".format, st.integers(0, 19), st.integers(0, 59)),
    st.builds("{} min".format, st.integers(0, 20)),
)


@st.composite
def written_tempos(draw: st.DrawFn) -> str:
    """Return a tempo in one of the ways it may be written."""
    text = str(draw(tempos))
    text = text.replace("-", draw(st.sampled_from(("-", "/", "–"))))
    return text.lower() if draw(st.booleans()) else text


@st.composite
def lines(draw: st.DrawFn) -> str:
    """Return a line that is a prescription."""
    gap = draw(st.sampled_from((" ", "  ", "\t", "\u00a0")))
    reps = draw(st.integers(1, 100).map(str) | st.sampled_from(("max", "MAX")))
    cross = draw(st.sampled_from(("x", "X", "×", " x ")))
    parts = [draw(exercises), f"{draw(st.integers(1, 30))}{cross}{reps}"]
    if (load := draw(loads)) is not None:
        parts.append(f"@{draw(st.sampled_from(('', ' ')))}{load}")
    parts.append(draw(written_tempos()))
    clauses = []
    if (rest := draw(rests)) is not None:
        clauses.append(f"rest {rest}")
    if (lead := draw(st.sampled_from((None, "lower", "raise", "Raise")))) is not None:
        clauses.append(f"lead {lead}")
    if (method := draw(st.none() | st.sampled_from(MethodName))) is not None:
        clauses.append(f"method {method}")
    return gap.join(parts + draw(st.permutations(clauses)))


_tokens = st.sampled_from(
    (
        *"0123456789xXvVaA×@-/:.,+% \t\n\x00\x1b\u2028\u202e\u00a0",
        *(
            "front squat",
            "lowering only",
            "stop 2 s at 1/3",
            "method hold",
            "first lower",
            "chin-up",
            "4x5",
            "4xmax",
            "30x100",
            "@ 80 kg",
            "175 lb",
            "72%",
            "bw",
            "+10",
        ),
        *("4-1-X-1", "41X1", "10/0/V/0", "3-1-X", "2:4", "rest", "3:00", "90 s", "3 min", "3 mın"),
        *("lead", "raise", "lower", "kg", "lb", "max", "4–1–X–1", "２", "²", "\ud800", "e\u0301"),
    )
)
fragments = st.lists(_tokens, max_size=14).map("".join) | st.lists(_tokens, max_size=10).map(
    " ".join
)
"""The notation's own pieces in any order, which get further than chance would."""

any_text = st.text(st.characters(codec=None, exclude_categories=())) | fragments

_stops = st.builds(
    Stops,
    st.integers(1, 3000),
    st.sets(st.sampled_from([Fraction(part, 12) for part in range(1, 12)]), min_size=1, max_size=3)
    .map(sorted)
    .map(tuple),
)
_lower_loads = st.builds(
    LowerLoad,
    st.builds(Load, st.integers(120, 150).map(Decimal), st.just(LoadUnit.KG)),
    st.booleans(),
)
shapes = st.one_of(
    st.just(PLAIN),
    st.builds(
        RepShape,
        only=st.just(Phase.LOWER),
        stops=st.none() | _stops,
        sides=st.sampled_from((None, Sides.ALTERNATING)),
    ),
    st.builds(
        RepShape, only=st.just(Phase.RAISE), sides=st.sampled_from((None, Sides.ALTERNATING))
    ),
    st.builds(
        RepShape,
        stops=st.none() | _stops,
        sides=st.none() | st.sampled_from(Sides),
        lower_load=st.none() | _lower_loads,
    ),
)
"""The load beside a lower load is to be 110 kg at most."""

times = st.datetimes(
    datetime(2020, 1, 1),  # noqa: DTZ001 - the offset comes from the strategy beside it
    datetime(2030, 1, 1),  # noqa: DTZ001 - as above
    timezones=st.integers(-14 * 60, 14 * 60).map(
        lambda minutes: timezone(timedelta(minutes=minutes))
    ),
)
names = st.text(min_size=1, max_size=80)
ids = st.sampled_from(("1f", "1fa", "2c", "3d9"))
phase_seconds = st.builds(PhaseTimes, *(st.integers(0, 600_000) for _ in Phase)).map(
    PhaseSeconds.of
)
kilograms = st.floats(0.5, 2000)
efforts = st.integers(2, 20).map(lambda halves: halves / 2)
notes = st.text(max_size=40)

plain_sets_done = st.builds(
    SetDone,
    id=ids,
    lifter=names,
    started_at=times,
    ended_at=times,
    exercise=names,
    lead=st.sampled_from(("lower", "raise")),
    tempo=tempos,
    load_kg=st.none() | kilograms,
    load_as_written=st.text(max_size=80),
    reps_prescribed=st.none() | st.integers(1, 100),
    reps_done=st.integers(0, 100),
    seconds=phase_seconds,
    timing=st.sampled_from(("paced", "tapped", "trace")),
    method=st.none() | names,
    effort=st.none() | efforts,
    note=notes,
)


@st.composite
def shaped_sets_done(draw: st.DrawFn) -> SetDone:
    """Return a set whose reps have a shape."""
    done = draw(plain_sets_done)
    shape = draw(shapes.filter(bool))
    lower_load_kg = draw(st.none() | kilograms) if shape.lower_load else None
    shaped = {"v": 2, "shape": shape, "lower_load_kg": lower_load_kg}
    return SetDone.model_validate(dict(done) | shaped, by_name=True)


sets_done = plain_sets_done | shaped_sets_done()
changes = (
    st.fixed_dictionaries(
        {},
        optional={
            "exercise": names,
            "load_kg": st.none() | kilograms,
            "load_as_written": st.text(max_size=80),
            "lower_load_kg": kilograms,
            "reps_done": st.integers(0, 100),
            "seconds": phase_seconds,
            "effort": st.none() | efforts,
            "note": notes,
        },
    )
    .filter(bool)
    .map(Changes.model_validate)
)
corrections = st.builds(
    lambda set_id, at, made: SetCorrected(v=made.version, id=set_id, at=at, changes=made),
    ids,
    times,
    changes,
)
strikes = st.builds(SetStruck, id=ids, at=times, why=notes)
_spent = st.none() | st.integers(0, 60_000)
_speeds = st.none() | st.floats(0, 5)
measured_reps = st.builds(
    MeasuredRep,
    _spent,
    _spent,
    _spent,
    _spent,
    st.none() | st.builds(Motion, st.floats(0, 2), _speeds, _speeds, _speeds, _speeds),
)
measurements = st.builds(
    SetMeasured,
    id=ids,
    at=times,
    timing=st.sampled_from(("tapped", "trace")),
    seconds=phase_seconds,
    reps=st.lists(measured_reps.map(RepMeasured.of), min_size=1, max_size=4).map(tuple),
)
facts = st.one_of(sets_done, corrections, measurements, strikes)
WHOLE_LOGS = settings(max_examples=20)
"""For tests that draw lists of facts: making the facts is nearly all of their time."""
maxes_tested = st.builds(
    MaxTested,
    id=ids,
    lifter=names,
    at=times,
    exercise=names,
    what=st.sampled_from(("lifted", "lowered")),
    load_kg=st.floats(0.5, HEAVIEST_KG),
    load_as_written=st.text(max_size=80),
    lower_s=st.floats(0.001, 60),
    note=notes,
) | st.builds(
    MaxTested,
    id=ids,
    lifter=names,
    at=times,
    exercise=names,
    what=st.just("lifted"),
    load_kg=st.integers(1, HEAVIEST_KG).map(float),
    load_as_written=st.sampled_from(("90 kg", "200 lb", "bw+10 kg", "")),
    lower_s=st.none(),
    note=notes,
)
max_facts = maxes_tested | st.builds(MaxStruck, id=ids, at=times, why=notes)

reserve_facts = st.builds(
    lambda max_kg, step, ceiling, **said: ReserveBegun(
        max_kg=max_kg, step_kg=max_kg * step / 100, ceiling_kg=max_kg * ceiling / 100, **said
    ),
    id=ids,
    at=times,
    lifter=names,
    exercise=names,
    max_kg=st.integers(10, HEAVIEST_KG * 100 // 160).map(float),
    step=st.integers(1, 10),
    ceiling=st.integers(90, 160),
    lower_s=st.floats(1, 30),
) | st.builds(
    AttemptMade,
    id=ids,
    at=times,
    test=ids,
    set=ids,
    load_kg=st.integers(1, HEAVIEST_KG).map(float),
    held=st.booleans(),
    lowered_s=st.none() | st.floats(0, 120),
)

soreness_facts = st.builds(
    SorenessTold, id=ids, at=times, lifter=names, soreness=st.integers(0, MOST_SORE)
)


@st.composite
def prescriptions(draw: st.DrawFn) -> Prescription:
    """Return a prescription whose set fits into ten minutes."""
    tempo, shape = draw(tempos), draw(shapes)
    assume(tempo.lower != 0 and tempo.raise_ != 0)
    # Longer than the lifter's own work, where others do a part of the rep.
    whole = replace(shape, only=None)
    room = 600_000 // rep_times(tempo, Allowances(), whole).tension_ms
    return Prescription(
        exercise="front squat",
        sets=1,
        reps=draw(st.none() | st.integers(1, min(room, 100))),
        load=Load(Decimal(110), LoadUnit.KG),
        tempo=tempo,
        rest_ms=None,
        lead=draw(st.sampled_from((Phase.LOWER, Phase.RAISE))),
        shape=shape,
    )


timelines = st.builds(
    lambda prescription, setup_ms: Timeline.of(prescription, setup_ms=setup_ms),
    prescriptions(),
    st.integers(3000, 60_000),
)
