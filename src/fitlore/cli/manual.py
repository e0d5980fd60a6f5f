"""The pages for `man`, made of the help pages and the options; and what the completion of words reads back from them.

They are kept in `man/` beside this file and go to `share/man/man1` when the program is installed. What is written is the
part of man(7) that groff and mandoc have in common.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

import click

from fitlore.cli.root import Late, page, root

FOLDER: Final = os.path.join(os.path.dirname(__file__), "man")
_NAMES: Final = re.compile(r"(--?[\w-]+(?:(?:, | / )--?[\w-]+)*)(?: (\S+))?")
_SIGNS: Final = {
    "\\": "\\e", "-": "\\-", "'": "\\(aq", "`": "\\(ga", "^": "\\(ha", "~": "\\(ti",
}  # fmt: skip
_HEADS: Final = {"Exit:": "EXIT STATUS", "JSON:": "JSON OUTPUT"}
_OPTION: Final = re.compile(
    r"^\.TP\n\\fB(?P<names>\S+(?:(?:, | / )\S+)*)\\fR(?: \\fI(?P<value>.*)\\fR)?\n(?P<help>.*)$", re.M
)


class Described(NamedTuple):
    """An option as its page has it; `value` is what stands for its value, empty for a switch."""

    names: tuple[str, ...]
    value: str
    help: str

    @property
    def choices(self) -> tuple[str, ...]:
        """The values it may have, where those are fixed."""
        held = self.value.startswith("[") and self.value.endswith("]")
        return tuple(self.value[1:-1].split("|")) if held else ()


def all_pages() -> dict[str, str]:
    """Every page by the name of its file: `fitlore.1`, `fitlore-fits.1`, `fitlore-books-policy.1`."""
    rows = [*_commands(root, ())]
    names = ["-".join(("fitlore", *path)) for path, _ in rows]
    return {
        f"{name}.1": _page(path, command, names) for name, (path, command) in zip(names, rows, strict=True)
    }


def _commands(
    command: click.Command, path: tuple[str, ...]
) -> Iterator[tuple[tuple[str, ...], click.Command]]:
    yield path, command
    if isinstance(command, Late):
        for name in command.names:
            below = Late.get_command(command, click.Context(command), name)
            assert below is not None
            yield from _commands(below, (*path, name))


def _page(path: tuple[str, ...], command: click.Command, every: Iterable[str]) -> str:
    name = "-".join(("fitlore", *path))
    text = page("_".join(path)) if path else _front(command)
    usage, about, *rest = [block for block in re.split(r"\n{2,}", text.strip("\n")) if block.strip()]
    lines = [
        f'.TH {escaped(name.upper())} 1 "" "fitlore" "fitlore"',
        ".SH NAME",
        f"{escaped(name)} \\- {escaped(' '.join(about.split()).rstrip('.'))}",
        ".SH SYNOPSIS",
        *_as_it_stands(usage),
        ".SH DESCRIPTION",
        escaped(about),
        *_blocks(rest),
        *_below(path, command),
        ".SH OPTIONS",
        *_options(command),
        ".SH SEE ALSO",
        *_see(name, every),
    ]
    return "\n".join(lines) + "\n"


def _front(command: click.Command) -> str:
    """The page of the program itself."""
    return f"fitlore [--kb FOLDER] COMMAND WORDS\n\n{(command.help or '').strip()}\n"


def _blocks(blocks: Iterable[str]) -> Iterator[str]:
    """Paragraphs; those with indented lines stand as they are."""
    for block in blocks:
        head = next((word for word in _HEADS if block.startswith(word)), "")
        if head:
            yield f".SH {_HEADS[head]}"
            block = block.removeprefix(head).lstrip()
        else:
            yield ".PP"
        if head == "JSON:" or any(line.startswith("  ") for line in block.splitlines()):
            yield from _as_it_stands(block)
        else:
            yield escaped(block)


def _as_it_stands(text: str) -> list[str]:
    return [".nf", escaped(text), ".fi"]


def _below(path: tuple[str, ...], command: click.Command) -> Iterator[str]:
    """The commands of a group, each with its line."""
    if isinstance(command, Late):
        yield ".SH COMMANDS"
        for name in command.names:
            told = page(f"{command.stem}{name}").split("\n\n")[1]
            yield f".TP\n\\fB{escaped(name)}\\fR\n{escaped(' '.join(told.split()))}"


def _options(command: click.Command) -> Iterator[str]:
    context = click.Context(command, info_name="fitlore")
    for one in command.get_params(context):
        record = one.get_help_record(context) if isinstance(one, click.Option) else None
        if record is None or not isinstance(one, click.Option):
            continue
        said = _NAMES.match(record[0])
        assert said is not None
        value = f" \\fI{escaped(said[2])}\\fR" if said[2] else ""
        yield f".TP\n\\fB{escaped(said[1])}\\fR{value}\n{escaped(' '.join((one.help or '').split()))}"


def _see(name: str, every: Iterable[str]) -> list[str]:
    others = [one for one in every if one != name]
    return [f".BR {escaped(one)} (1){',' if one != others[-1] else ''}" for one in others]


def escaped(text: str) -> str:
    """Text that roff prints as it stands: signs that it would take for its own, and those beyond ASCII by their code."""
    rows = []
    for line in text.split("\n"):
        row = "".join(_SIGNS.get(c, c if c.isascii() else f"\\[u{ord(c):04X}]") for c in line)
        rows.append(f"\\&{row}" if row.startswith((".", "\\(aq")) else row)
    return "\n".join(rows)


def options_of(path: Iterable[str]) -> list[Described]:
    """The options of a command as its kept page has them; none where there is no such page."""
    name = "-".join(("fitlore", *path))
    try:
        with open(os.path.join(FOLDER, f"{name}.1"), encoding="utf-8") as file:
            text = file.read()
    except OSError:
        return []
    section = text.partition("\n.SH OPTIONS\n")[2]
    return [
        Described(
            tuple(re.split(", | / ", _plain(found["names"]))),
            _plain(found["value"] or ""),
            _plain(found["help"]),
        )
        for found in _OPTION.finditer(section)
    ]


def _plain(text: str) -> str:
    for sign, code in _SIGNS.items():
        if sign != "\\":
            text = text.replace(code, sign)
    return text.replace("\\e", "\\")


def write() -> None:
    """Every page anew: `PYTHONPATH=src python -m fitlore.cli.manual`."""
    from pathlib import Path

    folder, made = Path(FOLDER), all_pages()
    folder.mkdir(exist_ok=True)
    for file in folder.glob("*.1"):
        if file.name not in made:
            file.unlink()
    for name, text in made.items():
        (folder / name).write_text(text, "utf-8", newline="\n")


if __name__ == "__main__":
    write()
