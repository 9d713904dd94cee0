"""A plan's path in place of a command's name opens the plan."""

from __future__ import annotations

from pathlib import Path

import click
from click.shell_completion import CompletionItem

from tempo_coach.bootstrap import Wishes
from tempo_coach.cli.options import (
    count_option,
    cues_option,
    given_settings,
    lifter_option,
    log_option,
    setup_option,
    silent_option,
)
from tempo_coach.cli.set_commands import run_app


class CommandOrPlan(click.Group):
    """A group of commands that also takes the path of a plan: a file, or a name in .toml."""

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command and its arguments; commands go before files of the same name."""
        if self.get_command(ctx, args[0]) is None and _names_plan(args[0]):
            return open_command.name, open_command, args
        return super().resolve_command(ctx, args)

    def shell_complete(self, ctx: click.Context, incomplete: str) -> list[CompletionItem]:
        """Return the commands that begin so; where none does, it may be the path of a plan."""
        found = super().shell_complete(ctx, incomplete)
        return found or [CompletionItem(incomplete, type="file")]


def _names_plan(word: str) -> bool:
    path = Path(word)
    return path.suffix.lower() == ".toml" or path.is_file()


@click.command("PLAN")
@click.argument("path", metavar="PLAN", type=click.Path(path_type=Path))
@log_option
@lifter_option
@cues_option
@count_option
@setup_option
@silent_option
def open_command(path: Path, log_path: Path | None, is_silent: bool, **given: object) -> int:
    """Open the app on today's work of a plan; without a PLAN it is the last one.

    \b
    tempo-coach winter.toml
    tempo-coach winter.toml --lifter "Mirela Oude"
    """
    wishes = Wishes(log_path, is_silent, given_settings(**given))
    return run_app(wishes, plan_path=path)
