"""The command line: thin over the use cases."""

from tempo_coach.cli.main import main

__all__ = ["main"]
