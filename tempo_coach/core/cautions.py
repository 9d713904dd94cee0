"""What everyone who uses this should know first."""

from __future__ import annotations

OVERLOAD = (
    "Lowering more than you can lift: only with spotters or safety pins, and only if your coach "
    "has cleared you."
)
"""Shown wherever more is lowered than raised."""

PAIN = "Pain stops the set."
WARNING_SIGNS = (
    "Dark urine, pain far worse than expected, or weakness in the days after: stop, and seek "
    "medical care at once."
)
"""Of muscle breakdown (exertional rhabdomyolysis; CDC/NIOSH)."""

SHORT = (
    PAIN,
    OVERLOAD,
    WARNING_SIGNS,
    "This program paces and counts. It does not diagnose, and it replaces no qualified coach or "
    "clinician. Facility rules and local law come first.",
)
"""Shown once in the app."""

OVERLOAD = SHORT[1]
MAX_TEST = (
    "Test a max warmed up, with spotters or with safety pins at the right height, and a lowered "
    "one only if your coach has cleared you. Pain ends the test."
)
"""Said where maxes are tested, and where loads are worked out of them."""

RESERVE_CHECK = (
    "Before the first attempt: two spotters who know their job, or safety pins at the right "
    "height, tried with the empty bar; collars on the bar; a word that stops the attempt; and a "
    "warm-up to near the first load. Only for those whom a qualified coach has cleared."
)
"""Must be answered before a reserve test begins."""

CRITERIA = (
    "The criteria are the coach's to change, under [dosing] in the plan; they lock nothing, and no "
    "list of criteria replaces a coach's eye. Who can't lower slowly isn't ready to lower fast."
)
"""Said beside who is ready for more."""

LONG = (
    (
        "Stop",
        (
            "Pain stops the set. So does a lower that you no longer control: rack it, or let the "
            "pins take it.",
            "A set that is stopped early is logged as far as it went. Nothing is lost by stopping.",
        ),
    ),
    (
        "Overloaded lowering",
        (
            "Loads above what you can lift are for those whom a qualified coach has cleared, with "
            "spotters who know their job or safety pins set at the right height.",
            "Who can't lower slowly under control is not ready to lower fast, or with more.",
            "Slow lowering with loads you can lift comes first, for weeks, not days.",
        ),
    ),
    (
        "In the days after",
        (
            "Soreness usually grows for a day, is worst after one to three days, and is gone "
            "within a week. Work that is new to you makes more of it (review: Cheung, Hume and "
            "Maxwell 2003, Sports Medicine 33:145).",
            "Warning signs of muscle breakdown (exertional rhabdomyolysis; CDC/NIOSH): muscle "
            "pain, cramps or aches worse than expected; dark urine, the colour of tea or cola; "
            "weakness, or being unable to finish a usual session. They may come days later. Only "
            "a blood test tells. Seek medical care at once.",
        ),
    ),
    (
        "Who should ask first",
        (
            "Ask a clinician before you begin if you are pregnant, recovering from an injury or an "
            "operation, ill or feverish, or have a condition of heart, blood pressure, eyes, "
            "kidneys, muscles or joints, or have been told not to strain.",
            "Young and new lifters learn the lift first, with light loads and someone who teaches "
            "it.",
        ),
    ),
    (
        "Hearing",
        (
            "Set the volume so that the cues are clear and no louder; a loud room for hours harms "
            "hearing.",
        ),
    ),
    (
        "What this program is not",
        (
            "It paces, counts and warns. It locks nothing and diagnoses nothing, and it replaces "
            "no qualified coach or clinician. Facility rules and local law come first.",
        ),
    ),
)
"""Headings, each with its paragraphs; printed by the command."""
