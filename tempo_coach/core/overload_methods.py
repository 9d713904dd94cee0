"""The methods in which more is lowered than raised."""

from __future__ import annotations

from tempo_coach.core.method_names import MethodName
from tempo_coach.core.method_sources import (
    DOUGLAS,
    HARDEN,
    KELLY,
    LATES,
    MERRIGAN,
    OURS,
    PRACTICE,
    STASINAKI,
    SUCHOMEL,
    TABER,
    WAGLE,
    WALKER,
    WILK,
)
from tempo_coach.core.methods import Aspect, Figure, Method, Needed, Start

OF_LIFTED = "% of the 1RM"
OF_RAISED = "% of what is raised"

_LIFTED_MAX = "the 1RM, lifted; tested with the lower that is nearest to the line's"
_SLOW_FIRST = "Who can't lower slowly under control is not ready to lower with more."
_TOO_HEAVY = (
    "When the lower falls short of its seconds, the load is too heavy: on a machine, heavier loads "
    f"came down faster, with less time under tension ({HARDEN})."
)
_WARNING = (
    "In the days after: dark urine, pain far worse than expected, or weakness means stop and seek "
    "medical care at once."
)
_CLEARED = "Only for those whom a qualified coach has cleared."
_OTHER_UNIT = (
    "110 to 150% of isometric force on a machine is another unit: no share of a 1RM, so not for a "
    f"bar ({HARDEN})."
)
_STRONGER = f"Stronger athletes with years of training ({SUCHOMEL})."
_OUTRUN = (
    "A phase of fast accentuated lowering may have outrun the recovery of athletes who train "
    f"several qualities ({DOUGLAS})."
)
_NOT_FOR = (
    "Beginners; whoever is sore or hurt; the season and the weeks before a meet (common practice)."
)
_DOSE = {
    Aspect.WEEKS: (Figure(2, 4, "", PRACTICE),),
    Aspect.WEEKS_BETWEEN: (Figure(2, None, "", PRACTICE),),
}

OVERLOADED_LOWERING = Method(
    name=MethodName.OVERLOADED_LOWERING,
    summary="more than can be lifted is lowered, and others raise it",
    purpose="A reserve of strength: to lower under control more than can be lifted.",
    suits="Advanced lifters out of season, after weeks of slow lowering (common practice).",
    not_for=_NOT_FOR,
    of_max=_LIFTED_MAX,
    figures={
        Aspect.LOAD: (Figure(100, 130, OF_LIFTED, PRACTICE, is_above=True, is_about=True),),
        Aspect.LOWER: (Figure(3, 6, "s", PRACTICE),),
        Aspect.SESSION_REPS: (Figure(None, 6, "", PRACTICE, is_about=True),),
        Aspect.REST: (Figure(3, 5, "min", PRACTICE),),
        Aspect.SESSIONS: (Figure(1, 1, "", PRACTICE),),
        **_DOSE,
    },
    needs=Needed.LOWERING_ONLY,
    is_overload=True,
    people="Two spotters who know their job, one a side; they raise the bar.",
    equipment="A rack with safety pins at the height of the bottom; collars on the bar.",
    cautions=(_CLEARED, _SLOW_FIRST, _TOO_HEAVY, _WARNING),
    remarks=(
        "30 men lowered 115.99 kg in 3 s on the bench and lifted 93.56 kg: 24% more "
        f"({KELLY}). Your own lowered max says more than any average.",
        f"Lowering only has been done below the 1RM too: squats 5x6 at 90% in about 4 s, twice a "
        f"week ({STASINAKI}).",
        _OTHER_UNIT,
    ),
    starts=(
        Start(
            "to begin with",
            "3x2 @ 105% 4-0-A-0 lowering only rest 4:00",
            f"inside 3 to 6 s, {PRACTICE}",
            (
                f"105%: the light end of 100 to 130%, {PRACTICE}",
                f"3 sets of 2, so 6 reps a session, and rest 4:00: {PRACTICE}",
            ),
        ),
    ),
)

ACCENTUATED_LOWERING = Method(
    name=MethodName.ACCENTUATED_LOWERING,
    summary="more on the way down than on the way up, in every rep",
    purpose="A stronger lower within the whole lift.",
    suits=_STRONGER,
    not_for=_NOT_FOR,
    of_max=_LIFTED_MAX,
    figures={
        Aspect.LOAD: (
            Figure(80, 80, OF_LIFTED, WAGLE),
            Figure(30, 80, OF_LIFTED, TABER),
        ),
        Aspect.LOWERED: (
            Figure(105, 105, OF_LIFTED, WAGLE),
            Figure(100, 110, OF_LIFTED, TABER, "100 or 110"),
            Figure(140, 140, OF_RAISED, WALKER),
        ),
        Aspect.REPS: (Figure(5, 5, "", WAGLE), Figure(1, 6, "", PRACTICE)),
        Aspect.SETS: (Figure(3, 3, "", WAGLE), Figure(2, 5, "", PRACTICE)),
        Aspect.REST: (Figure(3, 5, "min", PRACTICE),),
        **_DOSE,
    },
    needs=Needed.LOWER_LOAD,
    is_overload=True,
    people="Two spotters, who also hang the releasers on again between reps.",
    equipment="Weight releasers set to unhook just above the bottom, or two who take discs off.",
    cautions=(_CLEARED, _SLOW_FIRST, _TOO_HEAVY, _WARNING),
    remarks=(
        f"On the bench, with a 1RM of 125.0 kg, 105 and 80% ({LATES}) are 131.25 and 100 kg.",
        _OUTRUN,
        _OTHER_UNIT,
    ),
    starts=(
        Start(
            "as published",
            "3x5 @ 80% 3-0-X-0 lower @ 105% rest 4:00",
            OURS,
            (
                f"3 sets of 5, 105% down and 80% up: {WAGLE}",
                f"as fast as possible up: {OURS}; rest 4:00: {PRACTICE}",
            ),
        ),
        Start(
            "lighter",
            "3x5 @ 60% 3-0-X-0 lower @ 100% rest 4:00",
            OURS,
            (
                f"100% down, and 60% of the 30 to 80% up: {TABER}",
                f"3 sets of 5: {WAGLE}",
                f"as fast as possible up: {OURS}; rest 4:00: {PRACTICE}",
            ),
        ),
    ),
)

FIRST_REP_ACCENTUATED = Method(
    name=MethodName.FIRST_REP_ACCENTUATED,
    summary="more on the way down in the first rep alone",
    purpose="The accentuated lower, at the cost of one rep a set.",
    suits=_STRONGER,
    not_for=_NOT_FOR,
    of_max=_LIFTED_MAX,
    figures={
        Aspect.LOAD: (Figure(None, None, "", "", "not among the published numbers known here"),),
        Aspect.LOWERED: (Figure(120, 120, OF_LIFTED, MERRIGAN, "in the first rep"),),
        Aspect.REPS: (Figure(5, 5, "", MERRIGAN), Figure(2, 6, "", PRACTICE)),
        Aspect.SETS: (Figure(4, 4, "", MERRIGAN), Figure(2, 5, "", PRACTICE)),
        Aspect.REST: (Figure(3, 5, "min", PRACTICE),),
        **_DOSE,
    },
    needs=Needed.FIRST_LOWER,
    is_overload=True,
    people="Two spotters.",
    equipment="Weight releasers set to unhook just above the bottom of the first rep.",
    cautions=(_CLEARED, _SLOW_FIRST, _TOO_HEAVY, _WARNING),
    remarks=(_OUTRUN, _OTHER_UNIT),
    starts=(
        Start(
            "as published",
            "4x5 @ 70% 3-0-X-0 first lower @ 120% rest 4:00",
            OURS,
            (
                f"4 sets of 5, 120% down in the first rep: {MERRIGAN}",
                f"70% raised, as fast as possible up: {OURS}; rest 4:00: {PRACTICE}",
            ),
        ),
    ),
)

TWO_UP_ONE_DOWN = Method(
    name=MethodName.TWO_UP_ONE_DOWN,
    summary="raised with both limbs, lowered with one",
    purpose="More load on the way down without helpers, and a look at each side alone.",
    suits="Those who train alone, on machines; those whose sides differ.",
    not_for="Free bars; lifts that need both feet or hands for balance.",
    of_max="no figure: the max of both limbs says little about one",
    figures={
        Aspect.LOAD: (
            Figure(
                None, None, "", "", "above half of the max of both, one limb lowers over its share"
            ),
        ),
        Aspect.LOWER: (Figure(3, 6, "s", PRACTICE),),
        Aspect.REPS: (Figure(4, 10, "", PRACTICE, "both sides together, so an even number"),),
        Aspect.SETS: (Figure(2, 5, "", PRACTICE),),
        Aspect.REST: (Figure(1.5, 4, "min", PRACTICE),),
    },
    needs=Needed.ONE_DOWN,
    people="Nobody else on a machine with a stop.",
    equipment="A machine with a stop at the bottom, such as a leg press or a leg curl.",
    cautions=(
        "Set the machine's stop before the first rep, so that it catches what one limb can't hold.",
        "Begin with what one limb lowers slowly for every rep.",
        _WARNING,
    ),
    remarks=(f"The slower the lower, the smaller the 1RM ({WILK}).",),
    starts=(
        Start(
            "to begin with",
            "3x6 4-0-2-0 two up one down rest 2:30",
            f"inside 3 to 6 s, {PRACTICE}",
            (
                f"3 sets of 6, three a side, rest 2:30: {PRACTICE}",
                f"2 s up: {OURS}",
                "no load is written, for there is no figure; take one that either limb lowers "
                "slowly in every rep",
            ),
        ),
    ),
)

OVERLOAD = (OVERLOADED_LOWERING, ACCENTUATED_LOWERING, FIRST_REP_ACCENTUATED, TWO_UP_ONE_DOWN)
