"""Where the files are."""

from __future__ import annotations

from pathlib import Path

import platformdirs

_NAME = "tempo-coach"


def log_path() -> Path:
    """Return the log's place in the user's data folder."""
    return platformdirs.user_data_path(_NAME, appauthor=False) / "log.jsonl"


def settings_path() -> Path:
    """Return the settings' place in the user's configuration folder."""
    return platformdirs.user_config_path(_NAME, appauthor=False) / "settings.toml"


def memory_path() -> Path:
    """Return the place of what is remembered, in the user's state folder."""
    return platformdirs.user_state_path(_NAME, appauthor=False) / "remembered.json"


def key_path() -> Path:
    """Return the place of the key for pseudonyms, in the user's data folder."""
    return platformdirs.user_data_path(_NAME, appauthor=False) / "pseudonyms.key"
