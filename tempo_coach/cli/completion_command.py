"""The command that teaches a shell to complete this program's commands and options."""

from __future__ import annotations

import click
from click.shell_completion import ShellComplete, get_completion_class

_VARIABLE = "_TEMPO_COACH_COMPLETE"
"""Set by the printed scripts; click answers it with what could come next."""
_SHELLS = ("bash", "zsh", "fish")


@click.command("completion")
@click.argument("shell", metavar="SHELL", type=click.Choice(_SHELLS))
@click.pass_context
def completion_command(ctx: click.Context, shell: str) -> None:
    """Print what lets bash, zsh or fish complete commands.

    It completes options and the names of methods too. The folder has to be there, and the command
    has to be found as tempo-coach. In zsh the folder has to stand in fpath before compinit runs.

    \b
    tempo-coach completion bash \\
        > ~/.local/share/bash-completion/completions/tempo-coach
    tempo-coach completion zsh > ~/.zsh/completions/_tempo-coach
    tempo-coach completion fish > ~/.config/fish/completions/tempo-coach.fish
    """
    root = ctx.find_root()
    kind = get_completion_class(shell)
    if kind is None:
        raise AssertionError(f"click has no completion for {shell}")
    # As the base class does it: bash's own would start bash to ask for its version.
    script = ShellComplete.source(kind(root.command, {}, "tempo-coach", _VARIABLE))
    # For fish, so that a description does not end with its first comma.
    click.echo(script.replace('string split ","', 'string split --max 1 ","'))
