"""``triage completion``: the script that makes a shell complete our commands."""

from __future__ import annotations

import click
from click.shell_completion import get_completion_class

from triage.cli.printing import tell


@click.command()
@click.argument("shell", type=click.Choice(["bash", "zsh", "fish"]))
@click.pass_context
def completion(context: click.Context, shell: str) -> None:
    """Print the completion script for SHELL.

    \b
    bash:  triage completion bash > ~/.local/share/bash-completion/completions/triage
    zsh:   triage completion zsh > "${fpath[1]}/_triage"
    fish:  triage completion fish > ~/.config/fish/completions/triage.fish
    """
    made = get_completion_class(shell)
    assert made is not None
    tell(made(context.find_root().command, {}, "triage", "_TRIAGE_COMPLETE").source())
