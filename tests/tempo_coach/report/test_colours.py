from __future__ import annotations

from collections.abc import Mapping

import pytest

from tempo_coach.report.colours import DARK, LIGHT

SCHEMES = pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])


def luminance(colour: str) -> float:
    # Relative luminance and contrast ratio: WCAG 2.2, W3C Recommendation 2023.
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_black_on_white_has_the_contrast_that_the_standard_says() -> None:
    # WCAG 2.2: contrast ratios range from 1 to 21.
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)


@SCHEMES
@pytest.mark.parametrize("text", ["ink", "quiet", "link"])
def test_text_stands_out_from_the_paper_and_from_rows_that_stand_out(
    scheme: Mapping[str, str], text: str
) -> None:
    # WCAG 2.2, success criterion 1.4.6: 7:1; for links 1.4.3: 4.5:1.
    least = 4.5 if text == "link" else 7
    assert contrast(scheme[text], scheme["paper"]) >= least
    if text != "quiet":
        assert contrast(scheme[text], scheme["strong"]) >= least


@SCHEMES
@pytest.mark.parametrize("mark", ["now", "rule"])
def test_bars_edges_and_rules_stand_out_from_the_paper(
    scheme: Mapping[str, str], mark: str
) -> None:
    # WCAG 2.2, success criterion 1.4.11: 3:1. Every bar has an edge of the colour `now`.
    assert contrast(scheme[mark], scheme["paper"]) >= 3


@SCHEMES
def test_this_week_s_bar_is_told_from_the_others_without_its_colour(
    scheme: Mapping[str, str],
) -> None:
    assert contrast(scheme["now"], scheme["before"]) >= 3


def test_both_schemes_name_the_same_colours() -> None:
    assert LIGHT.keys() == DARK.keys()
