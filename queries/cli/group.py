"""The group that loads a command when it is called, and the one boundary where errors become lines."""

import sqlite3
from collections.abc import Mapping
from importlib import import_module
from typing import Any

import click

from indexer.errors import WeeksheafError
from queries.cli.visible import visible

INTERRUPTED = 130


class LazyGroup(click.Group):
    """A group whose commands stand in modules of their own; `modules` maps command names to module names.

    Loading only the module that is called keeps the start short: `weeks` needs no picture library.
    """

    def __init__(self, *args: Any, modules: Mapping[str, str], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._modules = modules

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        return list(self._modules)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        if cmd_name not in self._modules:
            return None
        command = import_module(f"queries.cli.commands.{self._modules[cmd_name]}").command
        return command if isinstance(command, click.Command) else None

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command; a known error becomes one line and exit code 1, wrong usage 2, Ctrl-C 130."""
        try:
            return super().invoke(ctx)
        except click.UsageError as error:  # its text may hold what the shell made of a pattern: names of files
            raise click.UsageError(visible(" ".join(error.format_message().split())), error.ctx) from error
        except WeeksheafError as error:
            raise click.ClickException(visible(str(error))) from error
        except sqlite3.Error as error:
            raise click.ClickException(visible(_index_trouble(ctx, error))) from error
        except BrokenPipeError:
            raise  # click ends quietly when the reader of a pipe has gone
        except OSError as error:
            raise click.ClickException(visible(_system_trouble(error))) from error
        except KeyboardInterrupt:
            click.echo("Stopped. What was finished is kept.", err=True)
            ctx.exit(INTERRUPTED)


def _index_trouble(ctx: click.Context, error: sqlite3.Error) -> str:
    from indexer.store.opening import explanation

    return explanation(ctx.obj.index, error)


def _system_trouble(error: OSError) -> str:
    reason = error.strerror or str(error)
    return f"{error.filename}: {reason}; check that it is there and may be used" if error.filename else reason
