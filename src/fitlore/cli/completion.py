"""Words that the shell completes: commands, options, and the places, parts, suppliers and cars of the last snapshot.

It runs at every press of a key, so it opens neither books nor store, and has no command read in: options it has from the
kept pages for `man`.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Final

import click
import msgspec
from click.shell_completion import CompletionItem, get_completion_class

from fitlore.cli.books import Books
from fitlore.cli.manual import Described, options_of
from fitlore.cli.root import COMMANDS, page, root

if TYPE_CHECKING:
    from fitlore.graph.begun import Begun

ASKED: Final = "_FITLORE_COMPLETE"
"""Environment variable by which the shell asks: `bash_complete`, `zsh_source` ..."""
SHELLS: Final = ("bash", "zsh", "fish")
Kinds = tuple[str, ...]
Offer = CompletionItem[str]

_THERE: Final[Kinds] = ("place",)
_ANY: Final[Kinds] = ("place", "part")
WORDS: Final[Mapping[str, Mapping[str, Kinds]]] = {
    "car": {"": ("car",)},
    "fits": {"": (*_ANY, "car", "platform"), **dict.fromkeys(("in", "for", "into"), _THERE)},
    "where": {"": _ANY, "on": ("day",), **dict.fromkeys(("in", "for"), _THERE)},
    "plan": {
        "": ("job", "car"),
        "for": ("job", "car"),
        "not": ("supplier",),
        **dict.fromkeys(("by", "from", "till"), ("day",)),
    },
    "donor": {"": ("donor", "platform"), "for": ("job",), "at": ()},
    "what": {"": ("category",)},
    "compare": {"": ("part",), "with": ("part",)},
    "note": {"": _ANY, "for": _ANY, "in": _THERE, "from": ("supplier", "donor", "platform", "place", "part")},
    "why": {"": ("line", "part"), **dict.fromkeys(("in", "for", "into"), _THERE)},
    "books import": {"": ("file",), "from": ("supplier",)},
    "books query": {"": ("file",)},
    "tidy": {"": ("file",)},
}
"""What free words may be, by command and by the small word before them."""
VALUES: Final[Mapping[str, Kinds]] = {
    "--car": ("car",),
    "--in": _THERE,
    "--for": _ANY,
    "--without": ("supplier",),
    "--by": ("day",),
    "--till": ("day",),
    "--from": ("day",),
    "--on": ("day",),
    "--to": ("file",),
    "--kb": ("dir",),
}
"""What the value of an option may be; of any other one the command itself is asked."""
OWN_VALUES: Final[Mapping[tuple[str, str], Kinds]] = {
    ("donor", "--for"): ("job",),
    ("plan", "--for"): ("job", "car"),
    ("where", "--for"): _THERE,
    ("fits", "--for"): _THERE,
    ("why", "--for"): _THERE,
}
"""The same where one command means something of its own by it."""
_WHOLE: Final = ("car", "supplier", "platform", "job", "donor", "category")
"""Kinds that go by one name of one word."""
_SIDES: Final = ("left", "right", "both")
_DAYS: Final = (
    "today", "tomorrow", "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"
)  # fmt: skip


class Row(msgspec.Struct):
    """A line of the last answer, without its proof."""

    number: int
    title: str


class Remembered(msgspec.Struct):
    """The little of the counter's session that is wanted here."""

    car: str = ""
    answers: list[Row] = []


def answer_the_shell(asked: str) -> int:
    """What the shell asked for, on standard output: the text that switches completion on, or a line for each word."""
    shell, _, what = asked.partition("_")
    made = get_completion_class(shell)
    if made is None or what not in ("source", "complete"):
        return 2
    door = made(root, {}, "fitlore", ASKED)
    if what == "source":
        click.echo(door.source(), nl=False)
        return 0
    args, begun = door.get_completion_args()
    click.echo("".join(f"{door.format_completion(one)}\n" for one in offers(args, begun)), nl=False)
    return 0


def offers(args: Sequence[str], begun: str) -> list[Offer]:
    """What the word that was begun may become, after these words."""
    words, folder = _without_folder(args)
    if args and args[-1] == "--kb":
        return [Offer(begun, type="dir")]
    names: Sequence[str] = COMMANDS
    verb = words[0] if words else ""
    stem = ""
    if verb == "books":
        names, stem = Books.names, Books.stem
        words = words[1:]
        verb = f"books {words[0]}" if words else ""
    if not words:
        if begun.startswith("-"):
            return _options(options_of(()), begun)
        return [
            Offer(name, help=page(stem + name).splitlines()[2]) for name in names if name.startswith(begun)
        ]
    if words[0] not in names:
        return []
    return _in_command(verb, words[1:], begun, folder)


def _in_command(verb: str, typed: Sequence[str], begun: str, folder: str | None) -> list[Offer]:
    options = options_of(verb.split())
    if begun.startswith("-"):
        return _options(options, begun)
    last = typed[-1] if typed else ""
    if last.startswith("-"):
        kinds = OWN_VALUES.get((verb, last), VALUES.get(last))
        if kinds is not None:
            return _named(kinds, (), begun, folder)
        option = next((one for one in options if last in one.names), None)
        if option is not None and option.value:
            return [Offer(one) for one in option.choices if one.startswith(begun)]
    small = WORDS.get(verb, {})
    at, said = "", list[str]()
    for word in typed:
        if word.casefold() in small and word:
            at, said = word.casefold(), []
        elif not word.startswith("-"):
            said.append(word)
    return _named(small.get(at, ()), said, begun, folder)


def _without_folder(args: Sequence[str]) -> tuple[list[str], str | None]:
    """The words from the command on, and the folder that `--kb` names."""
    words, folder = list(args), os.environ.get("FITLORE_KB")
    while words and words[0].startswith("-"):
        if words[0] == "--kb" and len(words) > 1:
            folder = words[1]
            del words[0]
        del words[0]
    return words, folder


def _options(options: Iterable[Described], begun: str) -> list[Offer]:
    return [
        Offer(name, help=one.help)
        for one in options
        for name in one.names
        if name.startswith(begun) and (name.startswith("--") or begun == "-")
    ]


def _named(kinds: Kinds, said: Sequence[str], begun: str, folder: str | None) -> list[Offer]:
    """Things of these kinds; files are left to the shell."""
    for kind in ("file", "dir"):
        if kind in kinds:
            return [Offer(begun, type=kind)]
    found: dict[str, str] = {}
    low = begun.casefold()
    if "day" in kinds:
        found |= {day: "" for day in _DAYS if day.startswith(low)}
    if "line" in kinds and not said:
        found |= {number: title for number, title in _lines(folder) if number.startswith(low)}
    names = _names(folder) if kinds else None
    if names is not None:
        found |= _from(names, kinds, said, begun, folder)
    return [Offer(word, help=about or None) for word, about in found.items()]


def _from(names: Begun, kinds: Kinds, said: Sequence[str], begun: str, folder: str | None) -> dict[str, str]:
    whole = [kind for kind in kinds if kind in _WHOLE]
    found: dict[str, str] = {}
    if whole and not said:
        found |= names.beginning(begun, *whole)
    if "place" in kinds:
        found |= names.places(_platforms(names, folder), _sideless(said), begun)
        found |= {side: "" for side in _SIDES if said and begun and side.startswith(begun.casefold())}
    if "part" in kinds:
        found |= dict.fromkeys(names.numbers(said, begun), "")
    return found


def _platforms(names: Begun, folder: str | None) -> tuple[str, ...]:
    """Of the picked car."""
    car = _remembered(folder).car
    return tuple(one.on for one in names.names("car") if one.name == car)


def _sideless(said: Iterable[str]) -> list[str]:
    return [word for word in said if word.casefold() not in _SIDES]


def _lines(folder: str | None) -> Iterable[tuple[str, str]]:
    return ((str(row.number), row.title) for row in _remembered(folder).answers)


def _remembered(folder: str | None) -> Remembered:
    from fitlore.cli.session import load_as

    return load_as(_shop(folder), Remembered) or Remembered()


def _shop(folder: str | None) -> str | None:
    from fitlore.graph.home import shop_above

    return os.path.realpath(folder) if folder else shop_above(os.getcwd())


def _names(folder: str | None) -> Begun | None:
    """What the snapshot that counts knows; nothing where there is none yet."""
    from fitlore.graph.ahead import pointer
    from fitlore.graph.begun import Begun
    from fitlore.graph.home import home_path

    home = home_path(_shop(folder))
    try:
        return Begun(f"{home}/{pointer(home)}")
    except (OSError, msgspec.MsgspecError):
        return None
