"""The methods with loads that can be lifted."""

from __future__ import annotations

from tempo_coach.core.method_names import MethodName
from tempo_coach.core.method_sources import (
    CHEUNG,
    MANG,
    MIKE,
    OURS,
    PRACTICE,
    SCHOENFELD,
    SUCHOMEL,
    WILK,
)
from tempo_coach.core.methods import Aspect, Figure, Method, Needed, Start

_NEAREST_MAX = "the 1RM, tested with the lower that is nearest to the line's"
_TEMPO_OF_MAX = (
    f"The slower the lower, the smaller the 1RM ({WILK}): a share of one that was tested with a "
    "faster lower is too heavy."
)
_SORENESS = (
    "Lowering that is new to you makes you sore: worst after one to three days, gone within a week "
    f"({CHEUNG}). Begin with few sets."
)
_LOST_SECOND = "When a lower is no longer as slow as written, the set is over."
_TEMPO_GROWTH = Figure(
    0.5, 8, "s", SCHOENFELD, "growth is alike there, less above 10 s, unclassified between"
)
_SHARES = Figure(60, 85, "% of the 1RM", PRACTICE)
_NO_LOAD_SOURCE = "no load is written, for there is no figure"

SLOW_LOWERING = Method(
    name=MethodName.SLOW_LOWERING,
    summary="a load that can be lifted, lowered slowly",
    purpose="Size, tendons and control; the ground that all other lowering stands on.",
    suits=f"Learning and weaker athletes ({SUCHOMEL}); anyone who begins lowering work.",
    not_for="Work for speed or greatest loads: the slow lower costs load.",
    of_max=_NEAREST_MAX,
    figures={
        Aspect.LOAD: (_SHARES,),
        Aspect.LOWER: (
            Figure(2, 6, "s", MIKE, "2, 4 and 6 compared"),
            Figure(3, 8, "s", PRACTICE),
        ),
        Aspect.REP: (_TEMPO_GROWTH,),
        Aspect.REPS: (
            Figure(6, 6, "", MIKE),
            Figure(10, 10, "", MANG, "with 4 s down and 2 s up"),
            Figure(3, 10, "", PRACTICE),
        ),
        Aspect.SETS: (Figure(4, 4, "", MIKE), Figure(2, 5, "", PRACTICE)),
        Aspect.REST: (Figure(1.5, 4, "min", PRACTICE),),
        Aspect.SESSIONS: (Figure(2, 2, "", MIKE), Figure(1, 3, "", PRACTICE)),
    },
    people="Nobody else; a spotter where a set is taken near the last rep.",
    equipment="Any bar, dumbbell or machine; safety pins under a bar that could pin you.",
    cautions=(_LOST_SECOND, _SORENESS),
    remarks=(_TEMPO_OF_MAX,),
    starts=(
        Start(
            "to begin with",
            "4x6 @ 60% 4-0-1-0 rest 2:30",
            MIKE,
            (
                f"4 sets of 6: {MIKE}",
                f"60%: the light end of 60 to 85%, {PRACTICE}",
                f"1 s up: {OURS}; rest 2:30: {PRACTICE}",
            ),
        ),
        Start(
            "once every fourth second is kept",
            "4x6 @ 70% 4-0-1-0 rest 3:00",
            MIKE,
            (
                f"4 sets of 6: {MIKE}",
                f"70%: inside 60 to 85%, {PRACTICE}",
                f"1 s up: {OURS}; rest 3:00: {PRACTICE}",
            ),
        ),
    ),
)

STOPPED_LOWERING = Method(
    name=MethodName.STOPPED_LOWERING,
    summary="stops on the way down, with a load that can be lifted",
    purpose="Control in the parts of the way where it is lost; size, since the stops count.",
    suits="Those who rush or lose their line at one height.",
    not_for="The first weeks of a new lift; heavy loads without pins.",
    of_max=_NEAREST_MAX,
    figures={
        Aspect.LOAD: (_SHARES,),
        Aspect.LOWER: (Figure(2, 6, "s", PRACTICE, "without the stops"),),
        Aspect.HOLD: (Figure(1, 3, "s", PRACTICE, "each stop"),),
        Aspect.REPS: (Figure(2, 8, "", PRACTICE),),
        Aspect.SETS: (Figure(2, 5, "", PRACTICE),),
        Aspect.REST: (Figure(1.5, 4, "min", PRACTICE),),
    },
    needs=Needed.STOPS,
    people="A spotter under heavy loads.",
    equipment="Safety pins just under the lowest stop.",
    cautions=("Breathe at the stops; a long breath held raises the blood pressure.", _LOST_SECOND),
    remarks=(_TEMPO_OF_MAX,),
    starts=(
        Start(
            "to begin with",
            "3x4 @ 60% 3-0-1-0 stop 2 s at 1/2 rest 2:30",
            f"inside 2 to 6 s, {PRACTICE}",
            (
                f"3 sets of 4, one stop of 2 s: {PRACTICE}",
                f"60%: the light end of 60 to 85%, {PRACTICE}",
                f"halfway down, 1 s up: {OURS}; rest 2:30: {PRACTICE}",
            ),
        ),
    ),
)

LEARNING = Method(
    name=MethodName.LEARNING,
    summary="a light load and a slow tempo, to learn a lift",
    purpose="To feel every part of the way, and to stop in the deepest one.",
    suits=f"New lifters and new lifts: slow lowers suit those who learn ({SUCHOMEL}).",
    not_for="Building the greatest strength: the load is too light for it.",
    of_max="no max: as light as it takes to do every rep as written",
    figures={
        Aspect.LOWER: (Figure(3, 5, "s", PRACTICE),),
        Aspect.HOLD: (Figure(1, 3, "s", PRACTICE, "at the bottom"),),
        Aspect.REPS: (Figure(3, 8, "", PRACTICE),),
        Aspect.SETS: (Figure(2, 5, "", PRACTICE),),
        Aspect.REST: (Figure(1, 3, "min", PRACTICE),),
        Aspect.SESSIONS: (Figure(2, 3, "", PRACTICE),),
    },
    people="Someone who teaches the lift.",
    equipment="A light bar, a stick or the body alone.",
    cautions=(
        "Young and new lifters learn the lift first, with light loads and someone who teaches it.",
        "The first rep that looks unlike the one before ends the set.",
    ),
    starts=(
        Start(
            "to begin with",
            "3x5 4-2-2-1 rest 2:00",
            f"inside 3 to 5 s, {PRACTICE}",
            (
                f"3 sets of 5, 2 s at the bottom: {PRACTICE}",
                f"2 s up, 1 s at the top: {OURS}; rest 2:00: {PRACTICE}",
                f"{_NO_LOAD_SOURCE}; take one with which ten good reps would be easy",
            ),
        ),
    ),
)

HOLD = Method(
    name=MethodName.HOLD,
    summary="held still at the bottom or mid-way",
    purpose="Strength at one height, and a calm bottom without a bounce.",
    suits="Those who bounce or fold at the bottom.",
    not_for="Those told not to strain: long holds raise the blood pressure.",
    of_max="no figure: a share of the 1RM says little about a hold",
    figures={
        Aspect.LOAD: (Figure(None, None, "", "", "as much as is held still to the last second"),),
        Aspect.HOLD: (Figure(2, 10, "s", PRACTICE),),
        Aspect.REPS: (Figure(1, 6, "", PRACTICE),),
        Aspect.SETS: (Figure(2, 5, "", PRACTICE),),
        Aspect.REST: (Figure(1.5, 4, "min", PRACTICE),),
    },
    needs=Needed.HOLD,
    people="A spotter under a bar.",
    equipment="Safety pins just under the height of the hold.",
    cautions=("Breathe while you hold.", "Ask a clinician first if you were told not to strain."),
    starts=(
        Start(
            "at the bottom",
            "3x4 3-3-1-0 rest 2:30",
            OURS,
            (
                f"3 sets of 4, 3 s held: {PRACTICE}",
                f"1 s up: {OURS}; rest 2:30: {PRACTICE}",
                f"{_NO_LOAD_SOURCE}; take one that is held still to the last second",
            ),
        ),
        Start(
            "mid-way",
            "3x3 3-0-1-0 stop 5 s at 1/2 rest 2:30",
            OURS,
            (
                f"3 sets of 3, 5 s held: {PRACTICE}",
                f"halfway down, 1 s up: {OURS}; rest 2:30: {PRACTICE}",
                f"{_NO_LOAD_SOURCE}; take one that is held still to the last second",
            ),
        ),
    ),
)

RAISE_ONLY = Method(
    name=MethodName.RAISE_ONLY,
    summary="raised from pins, with no lowering of one's own",
    purpose="The start of the raise, at little cost in soreness.",
    suits="In season and near a meet, when lowering is taken out; those slow off the bottom.",
    not_for="Building size, tendons or control: the lowering is what is left out.",
    of_max="the most raised from these pins; a share of the full 1RM holds for no pin height",
    figures={
        Aspect.LOAD: (Figure(None, None, "", "", "it depends on the height of the pins"),),
        Aspect.REPS: (Figure(1, 5, "", PRACTICE),),
        Aspect.SETS: (Figure(2, 6, "", PRACTICE),),
        Aspect.REST: (Figure(2, 5, "min", PRACTICE),),
    },
    needs=Needed.RAISE_ONLY,
    people="Helpers, where the bar is not let down on the pins.",
    equipment="A rack with pins at the height of the start.",
    cautions=(
        "Come to tension before you pull or push: a jerk from a dead stop hurts.",
        "Fingers away from between bar and pins.",
    ),
    starts=(
        Start(
            "to begin with",
            "4x3 1-1-X-0 raise only rest 3:00",
            f"without you: {OURS}",
            (
                f"4 sets of 3 and rest 3:00: {PRACTICE}",
                f"as fast as possible up, 1 s of calm on the pins: {OURS}",
                f"{_NO_LOAD_SOURCE}; take one that leaves the pins without a jerk",
            ),
        ),
    ),
)

SUBMAXIMAL = (SLOW_LOWERING, STOPPED_LOWERING, LEARNING, HOLD, RAISE_ONLY)
