"""`books`: what only the one who minds the books asks; each of its commands is a module `books_NAME` beside this one."""

from __future__ import annotations

import click

from fitlore.cli.root import Late, page


class Books(Late):
    """The commands of the one who minds the books."""

    names = ("policy", "count", "import", "export", "query", "shelf", "start")
    stem = "books_"

    def format_help(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        formatter.write(page("books"))
        self.format_commands(ctx, formatter)


@click.group("books", cls=Books, invoke_without_command=True)
@click.pass_context
def command(ctx: click.Context) -> int:
    """For the one who minds the books."""
    if ctx.invoked_subcommand is None:
        click.echo(ctx.get_help())
    return 0
