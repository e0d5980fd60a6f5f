"""The command `fitlore`: finds its subcommands late, and turns every fault that is not the program's into words and exit 2."""

from __future__ import annotations

import atexit
import contextlib
import importlib
import os
import sys
from typing import Final, NoReturn

import click

from fitlore import __version__
from fitlore.cli.failure import CouldNot

COMMANDS: Final = (
    "car",
    "fits",
    "where",
    "plan",
    "donor",
    "what",
    "compare",
    "note",
    "why",
    "check",
    "tidy",
    "undo",
)
"""In the order of a day's work; each is a module of this package with a help page `NAME.md` beside it."""
_HELP: Final = frozenset({"--help", "-h"})


class Counter(click.Group):
    """Subcommands are imported when they are called, so that none pays for another's libraries."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in COMMANDS:
            return None
        if not _HELP.intersection(sys.argv):
            _open_ahead(ctx.params.get("folder"))
        module = importlib.import_module(f"fitlore.cli.{cmd_name}")
        command: click.Command = module.command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        name = args[0] if args else ""
        if name and not name.startswith("-") and name not in COMMANDS:
            from difflib import get_close_matches

            near = get_close_matches(name, COMMANDS, 3, 0.5)
            hint = f" Did you mean {' or '.join(near)}?" if near else f" There are: {', '.join(COMMANDS)}."
            raise click.UsageError(f"no command {name!r}.{hint}", ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        rows = [(name, page(name).splitlines()[2]) for name in COMMANDS]
        with formatter.section("Commands"):
            formatter.write_dl(rows)


class Page(click.Command):
    """A command whose `--help` is its page, followed by its options."""

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        formatter.write(page(self.name or "") + "\n")
        self.format_options(ctx, formatter)


def page(name: str) -> str:
    """The help page of a command, as it stands beside it."""
    from importlib.resources import files

    return files("fitlore.cli").joinpath(f"{name}.md").read_text("utf-8")


def _open_ahead(folder: str | None) -> None:
    """Has the store opened while the command is read in."""
    from fitlore.graph.ahead import open_ahead
    from fitlore.graph.home import shop_above

    with contextlib.suppress(OSError):  # told when the command comes to it
        open_ahead(folder or shop_above(os.getcwd()))


@click.group(
    cls=Counter,
    name="fitlore",
    context_settings={"help_option_names": ["--help", "-h"], "max_content_width": 100},
    invoke_without_command=True,
)
@click.version_option(__version__, prog_name="fitlore", message="%(prog)s %(version)s")
@click.option(
    "--kb", "folder", metavar="FOLDER", envvar="FITLORE_KB", help="The shop's folder (where fitlore.yaml is)."
)
@click.pass_context
def root(ctx: click.Context, folder: str | None) -> None:
    """What fits here, what else would fit, where it is cheapest, and how the shop keeps what it found out."""
    ctx.obj = folder
    if ctx.invoked_subcommand is None:
        click.echo(ctx.get_help())


def main() -> NoReturn:
    """Run the command line and end the process: exit 0 for yes, 1 for no, 2 when no answer could be formed."""
    code = run()
    atexit._run_exitfuncs()  # as at any end; what follows there takes modules and store apart, a tenth of a short command
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError):  # nobody reads, or it was closed
            stream.flush()
    os._exit(code)


def run() -> int:
    """The same for a process that goes on: the exit code."""
    if sys.stdout is None:  # the caller closed it
        sys.stdout = open(os.devnull, "w")  # noqa: SIM115  (open to the end)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")
    try:
        code = root(prog_name="fitlore", standalone_mode=False)
        sys.stdout.flush()
    except CouldNot as fault:
        click.echo(f"fitlore: {fault}", err=True)
        code = 2
    except click.Abort:
        click.echo("fitlore: stopped; nothing was changed", err=True)
        code = 2
    except click.ClickException as fault:
        fault.show()
        code = 2
    except (BrokenPipeError, SystemExit):  # SystemExit is what click makes of a closed pipe
        code = 2
        _unread()
    except OSError as fault:
        where = f"{fault.filename}: " if fault.filename else ""
        click.echo(f"fitlore: {where}{fault.strerror or fault}", err=True)
        code = 2
        _unread()
    return code if isinstance(code, int) else 0


def _unread() -> None:
    """Nobody reads on, or nothing more can be written: what is still to be printed is dropped without a word."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
