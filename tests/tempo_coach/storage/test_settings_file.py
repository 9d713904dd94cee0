from __future__ import annotations

import stat
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tempo_coach.core.settings import Layer, Settings, settle
from tempo_coach.errors import SettingsProblem
from tempo_coach.storage.settings_file import SettingsFile, replace_file

COMMENTED = """\
# at the rack by the door
setup_s = 5  # enough for me
lifter = "Oda Falk"

[later]
colour = "none"
"""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "settings.toml"


def read(path: Path, text: str) -> tuple[dict[str, object], SettingsProblem | None]:
    path.write_text(text, encoding="utf-8")
    return SettingsFile(path).read()


def test_a_missing_file_sets_nothing(path: Path) -> None:
    assert SettingsFile(path).read() == ({}, None)


def test_a_file_sets_what_it_says(path: Path) -> None:
    given, problem = read(path, 'lifter = "Oda Falk"\nsetup_s = 5\noffset_ms = 120\n')
    assert given == {"lifter": "Oda Falk", "setup_s": 5, "offset_ms": 120}
    assert problem is None


@pytest.mark.parametrize(
    "text", ["setup_s = ", "setup_s = 5\nsetup_s = 6\n", "\0", "a = " + "[" * 5000]
)
def test_a_file_that_is_no_toml_is_left_out_and_told(path: Path, text: str) -> None:
    given, problem = read(path, text)
    assert given == {}
    assert problem is not None
    assert problem.message.startswith(f"the settings file {path} can't be read: ")
    assert problem.hint == "it is left out"
    assert problem.path == path


def test_a_file_that_is_no_utf_8_is_left_out_and_told(path: Path) -> None:
    path.write_bytes(b'lifter = "\xff"\n')
    given, problem = SettingsFile(path).read()
    assert given == {}
    assert problem is not None
    assert "utf-8" in problem.message


def test_a_folder_is_left_out_and_told(tmp_path: Path) -> None:
    given, problem = SettingsFile(tmp_path).read()
    assert given == {}
    assert problem is not None
    assert problem.message.endswith("can't be read: Is a directory")


@given(st.text(max_size=60) | st.binary(max_size=60))
@settings(max_examples=60)
def test_any_file_gives_settings(
    tmp_path_factory: pytest.TempPathFactory, content: str | bytes
) -> None:
    path = tmp_path_factory.mktemp("any") / "settings.toml"
    path.write_bytes(content if isinstance(content, bytes) else content.encode(errors="replace"))
    written, _ = SettingsFile(path).read()
    assert isinstance(settle([Layer("the file", written)]).settings, Settings)


# Keeping.


def test_a_kept_key_is_read_again(path: Path) -> None:
    file = SettingsFile(path)
    file.keep("lifter", "Ansa Vireo")
    file.keep("offset_ms", 80)
    assert file.read() == ({"lifter": "Ansa Vireo", "offset_ms": 80}, None)


def test_keeping_a_key_leaves_comments_order_and_other_keys_in_place(path: Path) -> None:
    path.write_text(COMMENTED, encoding="utf-8")
    SettingsFile(path).keep("setup_s", 8.5)
    assert path.read_text(encoding="utf-8") == COMMENTED.replace("setup_s = 5", "setup_s = 8.5")


def test_keeping_a_new_key_puts_it_before_the_first_table(path: Path) -> None:
    path.write_text(COMMENTED, encoding="utf-8")
    SettingsFile(path).keep("offset_ms", 80)
    before, after = path.read_text(encoding="utf-8").split("[later]")
    assert "offset_ms = 80\n" in before
    assert after == '\ncolour = "none"\n'


def test_keeping_a_key_leaves_line_ends_as_they_were(path: Path) -> None:
    path.write_bytes(b"# by the door\r\nsetup_s = 5\r\n")
    SettingsFile(path).keep("setup_s", 6)
    assert path.read_bytes() == b"# by the door\r\nsetup_s = 6\r\n"


def test_a_kept_file_and_its_folder_are_private(tmp_path: Path) -> None:
    path = tmp_path / "config" / "settings.toml"
    SettingsFile(path).keep("setup_s", 5)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize("text", ["setup_s = ", "a = 1\na = 2\n"])
def test_a_file_that_is_no_toml_is_not_touched(path: Path, text: str) -> None:
    path.write_text(text, encoding="utf-8")
    with pytest.raises(SettingsProblem, match="can't be changed") as caught:
        SettingsFile(path).keep("setup_s", 5)
    assert caught.value.hint == "set it by hand"
    assert path.read_text(encoding="utf-8") == text


def test_a_place_that_can_not_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(SettingsProblem, match="can't be changed"):
        SettingsFile(tmp_path / "file" / "settings.toml").keep("setup_s", 5)


def test_a_file_is_replaced_whole_or_not_at_all(tmp_path: Path) -> None:
    folder = tmp_path / "settings.toml"
    folder.mkdir()
    with pytest.raises(OSError, match="directory"):
        replace_file(folder, "setup_s = 5\n")
    assert list(tmp_path.iterdir()) == [folder]


def test_an_open_reader_still_sees_the_file_as_it_was(path: Path) -> None:
    path.write_text("setup_s = 5\n", encoding="utf-8")
    with path.open(encoding="utf-8") as reader:
        replace_file(path, "setup_s = 6\n")
        assert reader.read() == "setup_s = 5\n"
    assert path.read_text(encoding="utf-8") == "setup_s = 6\n"
