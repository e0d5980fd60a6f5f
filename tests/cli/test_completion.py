"""What the shell offers at a press of its key: out of the snapshot, at once, and as bash, zsh and fish want it."""

from __future__ import annotations

import os
import re
import resource
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest

from fitlore.cli.completion import OWN_VALUES, SHELLS, VALUES, WORDS
from fitlore.cli.manual import options_of
from fitlore.cli.root import COMMANDS, Late, root
from tests.demo.shop import REPO, Said, Shop

MOST = 0.150
"""Seconds of processor time for a whole process, as the task asks; waiting for other processes is not this one's."""
HEAVY = {"highspy", "networkx", "numpy", "pyshacl", "rdflib", "rich", "yaml", "openpyxl", "difflib"}
LINE = re.compile(r"import time:\s+\d+ \|\s+\d+ \|\s*([\w.]+)")


def offered(shop: Shop, line: str, shell: str = "bash", **environment: str) -> list[str]:
    """What is offered for the last word of a line, which is empty where the line ends in a space."""
    said = pressed(shop, line, shell, **environment)
    assert (said.code, said.err) == (0, "")
    return [row.removeprefix("plain,") for row in said.out.splitlines()]


def pressed(shop: Shop, line: str, shell: str, **environment: str) -> Said:
    """The answer to the shell itself, asked in the form in which click's own text for that shell asks."""
    words = line.split(" ")
    ask = {"COMP_WORDS": line.rstrip(), "COMP_CWORD": str(len(words) - 1)}
    if shell == "fish":
        ask = {"COMP_WORDS": line, "COMP_CWORD": words[-1]}
    return shop.call(_FITLORE_COMPLETE=f"{shell}_complete", **ask, **environment)


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Shop:
    """The demo shop with the green estate picked and its radiator asked about: there is a snapshot."""
    from tests.demo.shop import copy_of_the_demo

    made = copy_of_the_demo(tmp_path_factory.mktemp("completed"))
    made.call("car", "green")
    made.call("fits", "radiator")
    return made


OFFERS = [
    ("fitlore wh", ["where", "what", "why"]),
    ("fitlore books ex", ["export"]),
    ("fitlore car g", ["green"]),
    ("fitlore car ", ["blue-forty", "green", "hale-packet", "pell-corva", "white-tolland"]),
    ("fitlore fits --car whi", ["white-tolland"]),
    ("fitlore fits radi", ["radiator", "radiator-cap"]),
    ("fitlore fits rear-axle/wheel-c", ["rear-axle/wheel-cylinder"]),
    ("fitlore fits rear wheel-c", ["wheel-cylinder"]),
    ("fitlore fits wheel cyl", ["cylinder"]),
    ("fitlore fits window-winder ri", ["right"]),
    ("fitlore fits KT 71 33", ["3300", "3350", "3352"]),
    ("fitlore fits KT 71 330", ["3300"]),
    ("fitlore fits kt7133", ["kt713300", "kt713350", "kt713352"]),
    ("fitlore fits OS 7133 04 in stop", ["stop-and-tail-bulb", "stop-lamp-switch"]),
    ("fitlore fits OS 7133 04 --in stop-l", ["stop-lamp-switch"]),
    ("fitlore where TC 330 11", ["118"]),
    ("fitlore plan gre", ["green", "green-estate"]),
    ("fitlore plan by fr", ["friday"]),
    ("fitlore plan --without c", ["castle-street"]),
    ("fitlore plan --tr", ["--trade-offs"]),
    ("fitlore donor field-corva for b", ["blue-forty-tidy"]),
    ("fitlore donor field-corva --for g", ["green-estate"]),
    ("fitlore donor Cor", ["Corva"]),
    ("fitlore why ", ["1", "2"]),
    ("fitlore what radiator-c", ["radiator-cap"]),
    ("fitlore fits winder --side ", ["left", "right"]),
    ("fitlore --ver", ["--version"]),
    ("fitlore nonsense x", []),
    ("fitlore fits zzz", []),
]


@pytest.mark.parametrize(("line", "words"), OFFERS, ids=[line for line, _ in OFFERS])
def test_a_word_that_was_begun_is_completed(line: str, words: list[str], shop: Shop) -> None:
    """Commands, options and their values, days, and the cars, places, parts, jobs, donors and suppliers of the shop."""
    found = offered(shop, line)
    assert found == words if line.endswith(("x", "zzz")) else set(words) <= set(found)
    if words and not line.endswith(" ") and words != ["Corva"]:
        assert found == words


@pytest.mark.parametrize(
    ("before", "begun"),
    [("fits rear", "wheel-cyl"), ("where TC 330", "1"), ("fits", "kt7133"), ("car", "gre")],
)
def test_what_is_offered_is_understood(before: str, begun: str, shop: Shop) -> None:
    """The line with the word that was offered has an answer."""
    for word in offered(shop, f"fitlore {before} {begun}"):
        assert shop.call(*before.split(), word).code in (0, 1)


def test_places_are_those_of_the_picked_car(shop: Shop) -> None:
    """The blue forty has no rear wiper, a Tolland has one; both have struts at the tailgate."""
    assert offered(shop, "fitlore fits tailgate/") == ["tailgate/strut", "tailgate/wiper-motor"]
    shop.call("car", "blue-forty")
    try:
        assert offered(shop, "fitlore fits tailgate/") == ["tailgate/strut"]
    finally:
        shop.call("car", "green")
        shop.call("fits", "radiator")


def test_a_part_in_a_book_that_was_edited_is_offered_after_the_next_question(tmp_path: Path) -> None:
    """The snapshot is read and not the books: what is new in them is known from the next question on."""
    from tests.demo.shop import copy_of_the_demo

    shop = copy_of_the_demo(tmp_path)
    assert offered(shop, "fitlore car g") == []
    shop.call("car", "green")
    assert offered(shop, "fitlore fits ZZ") == []
    book = shop.folder / "books" / "parts-small.yaml"
    book.write_text(
        book.read_text("utf-8") + "\n- part: ZZ 9 41\n  maker: Brede\n  is: plain-bush\n", "utf-8"
    )
    assert offered(shop, "fitlore fits ZZ 9 ") == []
    shop.call("fits", "radiator")
    assert offered(shop, "fitlore fits ZZ 9 ") == ["41"]
    assert offered(shop, "fitlore car g") == ["green"]


def test_each_shell_gets_the_form_it_reads(shop: Shop) -> None:
    """By the documentation of click 8: bash `type,value`; zsh type, value and help a line each; fish `type,value TAB help`."""
    assert pressed(shop, "fitlore car gr", "bash").out == "plain,green\n"
    assert pressed(shop, "fitlore car gr", "zsh").out.splitlines() == ["plain", "green", "the green estate"]
    assert pressed(shop, "fitlore car gr", "fish").out == "plain,green\tthe green estate\n"


@pytest.mark.parametrize("shell", SHELLS)
def test_the_text_that_switches_it_on_is_printed(shell: str, shop: Shop) -> None:
    """By `--completion`, which needs no shop; the text asks the very program that is called."""
    said = shop.call("--completion", shell)
    assert said.code == 0
    assert f"_FITLORE_COMPLETE={shell}_complete" in said.out
    assert said.out == shop.call(_FITLORE_COMPLETE=f"{shell}_source").out


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
def test_bash_itself_completes_a_line(shop: Shop) -> None:
    """Switched on in a bash, whose own array holds the answer afterwards."""
    script = (
        'eval "$(fitlore --completion bash)"; COMP_WORDS=(fitlore fits rear wheel-c); COMP_CWORD=3; '
        '_fitlore_completion fitlore; echo "${COMPREPLY[@]}"'
    )
    tool = shop.folder.parent / "bin" / "fitlore"
    tool.parent.mkdir(exist_ok=True)
    tool.write_text(f'#!/bin/sh\nexec "{sys.executable}" -m fitlore "$@"\n', "utf-8")
    tool.chmod(0o755)
    env = {
        **os.environ,
        "PATH": f"{tool.parent}{os.pathsep}{os.environ['PATH']}",
        "PYTHONPATH": str(REPO / "src"),
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
    }
    done = subprocess.run(
        ["bash", "--norc", "-c", script],
        cwd=shop.folder,
        env=env,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.stdout, done.stderr) == ("wheel-cylinder\n", "")


@pytest.mark.parametrize("line", ["fitlore fits rear wheel-c", "fitlore plan --", "fitlore fits KT 71 33"])
def test_nothing_heavy_is_imported(line: str, shop: Shop) -> None:
    """Neither solver nor graph library nor YAML, and of the commands none but what finds them."""
    words = line.split(" ")
    env = {
        **os.environ,
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
        "PYTHONPATH": str(REPO / "src"),
        "_FITLORE_COMPLETE": "bash_complete",
        "COMP_WORDS": line,
        "COMP_CWORD": str(len(words) - 1),
    }
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "fitlore"],
        cwd=shop.folder, env=env, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout
    names = set(LINE.findall(done.stderr))
    assert {name.partition(".")[0] for name in names} & HEAVY == set()
    assert not {f"fitlore.cli.{name}" for name in COMMANDS if name != "books"} & names
    assert not any(
        name.startswith(("fitlore.fitting", "fitlore.sourcing", "fitlore.books")) for name in names
    )


def _spent(shop: Shop, line: str) -> float:
    """Processor seconds of a whole process; the least of three, as each may be disturbed."""
    least = float("inf")
    for _ in range(3):
        before = resource.getrusage(resource.RUSAGE_CHILDREN)
        offered(shop, line)
        after = resource.getrusage(resource.RUSAGE_CHILDREN)
        least = min(least, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)
    return least


@pytest.mark.parametrize("line", ["fitlore fits rear wheel-c", "fitlore fits KT 71 33", "fitlore plan --"])
def test_a_press_of_the_key_costs_less_than_150_ms(line: str, shop: Shop) -> None:
    """Whole process."""
    assert _spent(shop, line) < MOST


def test_a_hundred_thousand_parts_are_looked_through_in_the_same_time(shop: Shop, tmp_path: Path) -> None:
    """The kept names of a large shop, put in place of the demo's: the same process, the same limit."""
    import msgspec

    copy = Shop(tmp_path / "lowbarn")
    shutil.copytree(shop.folder, copy.folder)
    copy.call("car", "green")
    (file,) = (copy.folder.parent / "cache").glob("*/*/s*/begun")
    names = msgspec.msgpack.decode(file.read_bytes(), type=dict[str, str])
    for book in range(100):
        names[f"more{book}"] = "".join(f"part\t\tZQ {book:03} {number:04}\t\n" for number in range(1000))
    names["places"] = "".join(
        f"place\tkestin-tolland\trear-x{number // 50}/part-{number}\tplain-bush\n" for number in range(5000)
    )
    data = msgspec.msgpack.encode(names)
    file.unlink()
    file.write_bytes(data)
    assert len(offered(copy, "fitlore fits ZQ 07")) == 10
    assert offered(copy, "fitlore fits ZQ 070 098") == [f"{number:04}" for number in range(980, 990)]
    assert _spent(copy, "fitlore fits ZQ 070 098") < MOST


def _commands() -> list[tuple[str, click.Command]]:
    rows: list[tuple[str, click.Command]] = []

    def below(group: Late, path: str) -> None:
        for name in group.names:
            found = Late.get_command(group, click.Context(group), name)
            assert found is not None
            rows.append((f"{path}{name}", found))
            if isinstance(found, Late):
                below(found, f"{name} ")

    assert isinstance(root, Late)
    below(root, "")
    return rows


@pytest.mark.parametrize(("path", "command"), _commands(), ids=[path for path, _ in _commands()])
def test_every_option_is_offered_and_known_as_it_is(path: str, command: click.Command) -> None:
    """Names, and whether a value follows: as click has them. `PYTHONPATH=src python -m fitlore.cli.manual` renews."""
    real = {
        name: not (one.is_flag or one.count)
        for one in command.get_params(click.Context(command))
        if isinstance(one, click.Option) and not one.hidden
        for name in (*one.opts, *one.secondary_opts)
    }
    kept = {name: bool(one.value) for one in options_of(path.split()) for name in one.names}
    assert kept == real


def test_the_tables_name_what_there_is() -> None:
    """Commands of `WORDS`, options of `VALUES`: a renamed one would be completed by nothing without a word."""
    names = {path for path, _ in _commands()}
    assert set(WORDS) <= names
    assert {verb for verb, _ in OWN_VALUES} <= names
    options = {name for path, _ in _commands() for one in options_of(path.split()) for name in one.names}
    assert {*VALUES, *(name for _, name in OWN_VALUES)} <= options | {"--kb"}
