"""The command `fitlore`: finds its subcommands late, and turns every fault that is not the program's into words and exit 2."""

from __future__ import annotations

import atexit
import codecs
import contextlib
import importlib
import os
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, ClassVar, Final, NoReturn

import click

from fitlore import __version__
from fitlore.cli.failure import CouldNot, in_json, told
from fitlore.report.plainer import NAME, plainer

if TYPE_CHECKING:
    from fitlore.model.diagnostic import Diagnostic

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
    "books",
)
"""In the order of a day's work; each is a module of this package with a help page `NAME.md` beside it."""
_HELP: Final = frozenset({"--help", "-h"})


class Late(click.Group):
    """A group whose commands are modules of this package, `stem` in front of the name, each with its help page beside it.

    They are imported when they are called, so that none pays for another's libraries.
    """

    names: ClassVar[tuple[str, ...]] = ()
    stem: ClassVar[str] = ""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return list(self.names)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name not in self.names:
            return None
        module = importlib.import_module(f"fitlore.cli.{self.stem}{cmd_name}")
        command: click.Command = module.command
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        name = args[0] if args else ""
        if name and not name.startswith("-") and name not in self.names:
            from difflib import get_close_matches

            near = get_close_matches(name, self.names, 3, 0.5)
            hint = f" Did you mean {' or '.join(near)}?" if near else f" There are: {', '.join(self.names)}."
            raise click.UsageError(f"no command {name!r}.{hint}", ctx)
        return super().resolve_command(ctx, args)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        rows = [(name, page(f"{self.stem}{name}").splitlines()[2]) for name in self.names]
        with formatter.section("Commands"):
            formatter.write_dl(rows)


class Counter(Late):
    """The commands of a day's work."""

    names = COMMANDS

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in self.names and not _HELP.intersection(sys.argv):
            _open_ahead(ctx.params.get("folder"))
        return super().get_command(ctx, cmd_name)


class Page(click.Command):
    """A command whose `--help` is its page, followed by its options."""

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        formatter.write(page("_".join(ctx.command_path.split()[1:])) + "\n")
        self.format_options(ctx, formatter)


def page(name: str) -> str:
    """The help page of a command, as it stands beside it (`fits`, `books_policy`)."""
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
@click.option(
    "--completion",
    "shell",
    type=click.Choice(["bash", "zsh", "fish"]),
    help="Print what switches the completion of words on in that shell.",
)
@click.pass_context
def root(ctx: click.Context, folder: str | None, shell: str | None) -> None:
    """What fits here, what else would fit, where it is cheapest, and how the shop keeps what it found out."""
    ctx.obj = folder
    if shell is not None:
        from fitlore.cli.completion import answer_the_shell

        ctx.exit(answer_the_shell(f"{shell}_source"))
    if ctx.invoked_subcommand is None:
        from fitlore.graph.home import shop_above

        if folder is None and shop_above(os.getcwd()) is None:
            click.echo(ctx.get_help())
            return
        from fitlore.cli.today import due_today

        ctx.exit(due_today(folder))


def main() -> NoReturn:
    """Run the command line and end the process: exit 0 for yes, 1 for no, 2 when no answer could be formed."""
    asked = os.environ.get("_FITLORE_COMPLETE")
    code = _told_the_shell(asked) if asked else run()
    atexit._run_exitfuncs()  # as at any end; what follows there takes modules and store apart, a tenth of a short command
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError, ValueError):  # nobody reads, or it was closed
            stream.flush()
    os._exit(code)


def _told_the_shell(asked: str) -> int:
    """At a press of the key that completes a word, nothing but the words is wanted, whatever goes wrong with the pipe."""
    from fitlore.cli.completion import answer_the_shell

    with contextlib.suppress(BrokenPipeError):
        return answer_the_shell(asked)
    return 2


def run() -> int:
    """The same for a process that goes on: the exit code."""
    if sys.stdout is None:  # the caller closed it
        sys.stdout = open(os.devnull, "w")  # noqa: SIM115  (open to the end)
    codecs.register_error(NAME, plainer)
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors=NAME)
    try:
        code = root(prog_name="fitlore", standalone_mode=False)
        sys.stdout.flush()
    except CouldNot as fault:
        code = _failed("could-not", str(fault), fault.faults)
    except click.Abort:
        code = _failed("stopped", "stopped; nothing was changed")
    except click.ClickException as fault:
        fault.show()
        with contextlib.suppress(OSError):
            in_json("not-understood", fault.format_message())
        code = 2
    except (BrokenPipeError, SystemExit):  # SystemExit is what click makes of a closed pipe
        code = 2
        _unread()
    except OSError as fault:
        where = f"{fault.filename}: " if fault.filename else ""
        code = _failed("system", f"{where}{fault.strerror or fault}", file=str(fault.filename or ""))
        _unread()
    return code if isinstance(code, int) else 0


def _failed(code: str, said: str, faults: Sequence[Diagnostic] = (), file: str = "") -> int:
    """Tells a failure; where standard output is gone, on the other one alone."""
    with contextlib.suppress(OSError):
        told(code, said, faults, file)
    return 2


def _unread() -> None:
    """Nobody reads on, or nothing more can be written: what is still to be printed is dropped without a word."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
