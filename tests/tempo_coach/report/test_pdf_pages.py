from __future__ import annotations

import io
from ctypes import c_ushort, sizeof
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument, PdfPage
from pypdfium2.raw import FPDFCatalog_GetLanguage, FPDFCatalog_IsTagged

from tempo_coach.core.facts import SetDone
from tempo_coach.core.plan import Plan
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.report.html_pages import html_text
from tempo_coach.report.pdf_pages import write_pdf
from tests.tempo_coach.core.done_sets import done_set, seconds
from tests.tempo_coach.core.plans import plan_of
from tests.tempo_coach.core.report_logs import report

NAMES = ("W" * 80, "👩🏽‍🦱" * 16, "Mirela Oude " + "of the long name " * 4)


def busy(lifter: str, *, wide: bool, tempo: str = "X-0-A-0") -> list[SetDone]:
    """Ten weeks of three days with ten exercises, as wide and as different as they can be."""
    start = datetime.fromisoformat("2026-09-07T18:00:00+02:00")
    return [
        done_set(
            id=f"{lifter[:9]}{week}-{day}-{number}-{one}",
            lifter=lifter,
            started_at=start + timedelta(weeks=week, days=day, minutes=10 * number + one),
            exercise=f"{number} {'W' * 70 if wide else 'squat'}",
            tempo=parse_tempo(tempo),
            load_kg=None if number == 9 else 302.25,
            load_as_written="W" * 80,
            reps_done=one + number,
            reps_prescribed=12 + one,
            seconds=seconds(lower=99.9 + number, pause=10, raise_=20),
            note=f"{number} {'WIDE NOTE ' * 30}" if wide else "",
        )
        for week in range(10)
        for day in (0, 2, 4)
        for number in range(10)
        for one in range(2)
    ]


SEASON = """
name = "Autumn"
start = 2026-09-07
weeks = 12
[dosing]
base_s = 99999
[[lifters]]
name = "Mirela Oude"
[[days]]
day = "Monday"
[[days.work]]
line = "front squat 4x5 @ 80 kg 4-1-X-1"
"""


def pages_of(*sets: SetDone, weeks: int = 8, plan: Plan | None = None) -> list[str]:
    file = io.BytesIO()
    write_pdf("".join(html_text(report(sets, weeks=weeks, plan=plan))), file)
    return list(map(text_of, PdfDocument(file)))


def text_of(page: PdfPage) -> str:
    return "\n".join(page.get_textpage().get_text_range().splitlines())


@pytest.mark.slow
@pytest.mark.parametrize("weeks", [2, 10])
def test_the_fullest_pages_are_one_sheet_each_behind_the_roster(weeks: int) -> None:
    sets = [one for name in NAMES for one in busy(name, wide=name == NAMES[0])]

    pages = pages_of(*sets, weeks=weeks)

    assert len(pages) == len(NAMES) + 1
    assert "3 lifters side by side" in pages[0]
    for text in pages[1:]:
        assert "Week by week" in text
        assert "more sets; export lists them." in text
        assert "Pain stops the set." in text


@pytest.mark.slow
@pytest.mark.parametrize("weeks", [2, 10])
def test_with_a_plan_the_fullest_page_has_one_back(weeks: int) -> None:
    sets = busy("Mirela Oude", wide=True, tempo="4-0-A-0")

    front, back = pages_of(*sets, weeks=weeks, plan=plan_of(SEASON))

    assert "more sets; export lists them." in front
    assert "Pain stops the set." not in front
    assert back.startswith("Mirela Oude, 2026-W46")
    assert "Lowering emphasis in the season" in back
    assert "50000" in back
    assert "more exercises: 'tempo-coach ready' says of each." in back
    assert "more lines: 'tempo-coach next' has them." in back
    assert "Pain stops the set." in back


@pytest.mark.slow
def test_with_a_plan_each_lifter_has_a_sheet_behind_that_of_the_roster() -> None:
    sets = [done_set(id=name, lifter=name) for name in ("Mirela Oude", "Oda Falk")]
    text = SEASON.replace("[[days]]", '[[lifters]]\nname = "Oda Falk"\n[[days]]', 1)

    roster, empty, *rest = pages_of(*sets, plan=plan_of(text.replace("2026-09", "2026-03")))

    assert "2 lifters side by side" in roster
    assert empty == ""
    assert [page.splitlines()[0] for page in rest] == [
        "Mirela Oude", "Mirela Oude, 2026-W10", "Oda Falk", "Oda Falk, 2026-W10",
    ]  # fmt: skip


@pytest.fixture(scope="module")
def found() -> PdfDocument:
    """One lifter's report."""
    file = io.BytesIO()
    write_pdf("".join(html_text(report([done_set()]))), file)
    return PdfDocument(file)


def test_one_lifter_s_report_is_one_sheet_that_can_be_read_aloud(found: PdfDocument) -> None:
    assert len(found) == 1
    assert "more set" not in text_of(found[0])
    # PDF 1.7, ISO 32000-1, 14.8.1: a tagged PDF says so in its catalogue.
    assert FPDFCatalog_IsTagged(found)
    language = (c_ushort * len("en\0"))()
    FPDFCatalog_GetLanguage(found, language, sizeof(language))
    assert bytes(language).decode("utf-16-le") == "en\0"
    assert found.get_metadata_value("Title") == "2026-W10: Ansa Vireo"


def test_a_page_s_width_and_height_are_those_of_a4(found: PdfDocument) -> None:
    # ISO 216: 210 mm by 297 mm.
    assert found[0].get_size() == pytest.approx((210 / 25.4 * 72, 297 / 25.4 * 72), abs=0.1)


def test_nothing_is_fetched_for_a_pdf(tmp_path: Path) -> None:
    image = tmp_path / "dot.svg"
    image.write_text('<svg xmlns="http://www.w3.org/2000/svg"><text y="9">fetched</text></svg>')
    file = io.BytesIO()

    write_pdf(f'<!DOCTYPE html><title>x</title><img src="{image.as_uri()}" alt="left out">', file)

    assert text_of(PdfDocument(file)[0]) == "left out"
