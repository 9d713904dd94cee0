from __future__ import annotations

from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command
from tests.tempo_coach.cli.terminal import on_a_terminal
from tests.tempo_coach.cli.test_main import write_settings

GOLDEN = Path(__file__).parent / "golden"


@pytest.mark.parametrize(
    ("name", "arguments"),
    [
        ("load_exact.txt", ("110", "--collars", "5")),
        ("load_between.txt", ("131.25", "--from", "80")),
        ("load_lower.txt", ("100", "--lower", "131.25")),
        ("load_releaser.txt", ("100", "--lower", "132.5", "--releaser", "2.5")),
        ("load_pounds.txt", ("185 lb", "--bar", "45 lb", "--discs", "pounds", "--from", "135 lb")),
        ("load_own.json", ("87.5", "--discs", "20x4 10x4 2.5x4 1.25x2", "--from", "80", "--json")),
        ("load_lower.json", ("100", "--lower", "131.25", "--discs", "iwf", "--json")),
    ],
)
def test_what_goes_on_the_bar_is_said(
    command: Command, name: str, arguments: tuple[str, ...]
) -> None:
    outcome = command("load", *arguments)

    assert (outcome.code, outcome.err) == (0, "")
    assert outcome.out == (GOLDEN / name).read_text(encoding="utf-8")


def test_whatever_is_printed_through_a_pipe_is_ascii_and_fits_80_columns(command: Command) -> None:
    for arguments in (("900",), ("131.25", "--from", "22.5"), ("100", "--lower", "180")):
        out = command("load", *arguments).out
        assert out.isascii()
        pictured = out.split("\n\n", 1)[1]
        assert max(map(len, pictured.splitlines())) <= 80


def test_on_a_terminal_the_discs_have_their_colours(
    command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    terminal = on_a_terminal(monkeypatch)

    assert command("load", "100", "--discs", "iwf").code == 0

    assert "\x1b[31m██\x1b[0m" in terminal.getvalue()
    assert "\x1b[33m██\x1b[0m" in terminal.getvalue()


def test_no_color_is_heeded(command: Command, monkeypatch: pytest.MonkeyPatch) -> None:
    terminal = on_a_terminal(monkeypatch)
    monkeypatch.setenv("NO_COLOR", "1")

    assert command("load", "100", "--discs", "iwf").code == 0

    assert "\x1b" not in terminal.getvalue()
    assert "██ ██" in terminal.getvalue()


def test_the_settings_say_what_the_rack_has(command: Command, home: Path) -> None:
    write_settings(
        home,
        'bar = "15 kg"\ncollars = "1 kg"\ndiscs = "20x2 10x2"\nunit = "kg"\nreleaser = "2 kg"\n',
    )

    outcome = command("load", "56", "--json").data

    assert (outcome["bar_kg"], outcome["collars_kg"], outcome["discs"]) == (15, 1, "20x2 10x2")
    assert outcome["ways"][0]["side"] == ["20 kg"]


def test_a_bare_number_is_in_the_unit_of_the_settings(
    command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TEMPO_COACH_UNIT", "lb")

    data = command("load", "135", "--bar", "45", "--discs", "pounds", "--json").data

    assert (data["load"], data["ways"][0]["side"]) == ("135 lb", ["45 lb"])


def test_a_bad_setting_is_named_and_the_default_applies(command: Command, home: Path) -> None:
    path = write_settings(home, 'bar = "20"\n')

    outcome = command("load", "100")

    assert outcome.code == 0
    assert outcome.err == (
        f"tempo-coach: the settings file {path} has bar = '20': '20' is no mass; "
        "a number with its unit, such as 20 kg or 45 lb\n"
    )


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("0",), "a load of 0 kg is not possible; above 0 and at most 1000 kg"),
        (("-5",), "'-5' is below 0; loads are above 0, such as 80 kg"),
        (("80", "--bar", "-20"), "'-20' is below 0; loads are above 0, such as 80 kg"),
        (("heavy",), "'heavy' is no load; 80 kg, 175 lb, 72%, bw or bw+10 kg"),
        (("80", "--bar", "0"), "a bar of 0 kg is not possible; 1 to 60 kg"),
        (
            ("80", "--bar", ""),
            "'' is no mass; a number with its unit, such as 20 kg or 45 lb",
        ),
        (("15",), "15 kg is less than the empty bar; the nearest is 20 kg"),
        (("990",), "990 kg is more than these discs reach; the most is 950 kg"),
        (
            ("72%",),
            "72% is a share of a max that is not known here; give it in kg or lb, such as 80 kg",
        ),
        (
            ("bw+10 kg",),
            "bw+10 kg hangs on the body and not on a bar; give it in kg or lb, such as 80 kg",
        ),
        (
            ("80", "--discs", "iwff"),
            "'iwff' is no set of discs; the nearest is 'iwf'",
        ),
    ],
)
def test_what_can_not_be_loaded_is_refused_in_one_sentence(
    command: Command, arguments: tuple[str, ...], said: str
) -> None:
    outcome = command("load", *arguments)

    assert (outcome.code, outcome.out) == (65, "")
    assert outcome.err == f"tempo-coach: {said}\n"


def test_a_command_without_a_load_was_called_wrongly(command: Command) -> None:
    assert command("load").code == 64
