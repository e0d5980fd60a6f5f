"""Terminals that can less: no colour where there is none, and no sign lost in a code page that does not have it."""

from __future__ import annotations

import codecs
import os
import re
import subprocess
import sys
import unicodedata

import pytest

from fitlore.report.plainer import NAME, plainer
from tests.demo.shop import REPO, Shop

CONTROLS = re.compile(r"\x1b\[[0-9;]*m")
SWITCH = ("fits", "OS 7133 04 in stop lamp switch")
PAGES = ("ascii", "cp437", "cp850", "cp1252", "latin-1")
"""Code pages of consoles, as Python's standard library has them; the last three are those of western Europe."""


def on_a_terminal(shop: Shop, words: tuple[str, ...], **environment: str) -> str:
    """What a call prints on a terminal of 100 columns, byte for byte but for the ends of lines."""
    pty = pytest.importorskip("pty")
    ours, theirs = pty.openpty()
    env = {key: value for key, value in os.environ.items() if key not in ("NO_COLOR", "TERM")}
    env |= {
        "COLUMNS": "100",
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
        "PYTHONPATH": str(REPO / "src"),
        **environment,
    }
    with subprocess.Popen(
        [sys.executable, "-m", "fitlore", *words],
        cwd=shop.folder,
        env=env,
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
    ) as process:
        os.close(theirs)
        pieces = []
        while piece := _read(ours):
            pieces.append(piece)
        process.wait(timeout=60)
    os.close(ours)
    return b"".join(pieces).decode("utf-8").replace("\r\n", "\n")


def _read(descriptor: int) -> bytes:
    try:
        return os.read(descriptor, 65536)
    except OSError:  # the other end is closed
        return b""


def test_a_terminal_that_can_is_given_colour_and_the_same_words(asked: Shop) -> None:
    """A danger is red and bold (ECMA-48: 31 and 1); without the controls it is what a pipe is given."""
    shown = on_a_terminal(asked, SWITCH, TERM="xterm-256color")
    assert "\x1b[1;31m! Ostra" in shown
    assert CONTROLS.sub("", shown) == asked.call(*SWITCH).out


@pytest.mark.parametrize("environment", [{"TERM": "dumb"}, {"TERM": "xterm", "NO_COLOR": "1"}, {}])
def test_one_that_cannot_is_given_plain_text(environment: dict[str, str], asked: Shop) -> None:
    """TERM=dumb, NO_COLOR, and no TERM at all."""
    assert on_a_terminal(asked, SWITCH, **environment) == asked.call(*SWITCH).out


def test_a_pipe_is_given_plain_text(asked: Shop) -> None:
    """Even where the terminal behind it could have colour."""
    env = {"TERM": "xterm-256color", "NO_COLOR": "", "COLUMNS": "100"}
    assert "\x1b" not in asked.call(*SWITCH, **env).out


@pytest.mark.parametrize("page", PAGES)
def test_an_answer_is_whole_in_every_code_page(page: str, asked: Shop) -> None:
    """Same exit code, same letters; measures have their sign of tolerance, or one made of two that every page has."""
    words = ("what", "34 across, 12 bore")
    wide, narrow = asked.call(*words), _in_page(asked, words, page)
    assert "±" in wide.out
    has = _has(page, "±")
    assert narrow == (wide.code, wide.out if has else wide.out.replace("±", "+/-"))


@pytest.mark.parametrize("page", [page for page in PAGES if page != "ascii"])
def test_help_is_whole_in_every_code_page(page: str, asked: Shop) -> None:
    """`m10×1,0` stands in the help of `compare`. Help and faults go through click, to which ASCII is a wrong setting and no
    code page: it writes UTF-8 then."""
    code, said = _in_page(asked, ("compare", "--help"), page)
    assert code == 0
    assert ("m10×1,0" if _has(page, "×") else "m10x1,0") in said


def test_words_that_cannot_be_shown_are_shown_as_near_as_can_be(asked: Shop) -> None:
    """On standard error too; cp437 has neither the caron nor the stroke."""
    said = asked.call("fits", "Ňuchtwotor Ž", PYTHONIOENCODING="cp437")
    assert said.code == 2
    assert "Nuchtwotor Z" in said.err
    assert "\\u" not in said.err


def _has(page: str, sign: str) -> bool:
    try:
        sign.encode(page)
    except UnicodeEncodeError:
        return False
    return True


def _in_page(shop: Shop, words: tuple[str, ...], page: str) -> tuple[int, str]:
    env = {
        **os.environ,
        "COLUMNS": "100",
        "NO_COLOR": "1",
        "FITLORE_CACHE": str(shop.folder.parent / "cache"),
        "PYTHONPATH": str(REPO / "src"),
        "PYTHONIOENCODING": page,
    }
    done = subprocess.run(
        [sys.executable, "-m", "fitlore", *words],
        cwd=shop.folder,
        env=env,
        capture_output=True,
        check=False,
        timeout=60,
    )
    assert done.stderr == b""
    return done.returncode, done.stdout.decode(page).replace("\r\n", "\n")


@pytest.mark.parametrize("page", PAGES)
def test_no_sign_is_lost_and_none_is_broken(page: str) -> None:
    """Each sign of the Basic Multilingual Plane becomes at least one that the page has; what the page has itself stays."""
    codecs.register_error(NAME, plainer)
    signs = [chr(n) for n in range(0x20, 0x10000) if unicodedata.category(chr(n)) not in ("Cs", "Cn", "Co")]
    for sign in signs:
        made = sign.encode(page, NAME).decode(page)
        assert made
        assert made == sign if _has(page, sign) else made.isascii()
    assert len(signs) > 50_000


@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("34 mm ±0.5 – 12 × 40 … “so”", '34 mm +/-0.5 - 12 x 40 ... "so"'),
        ("Kühler für Ölkühler, große Schraube", "Kuhler fur Olkuhler, grosse Schraube"),
        ("−40 °C, ≥ 2 Ω, ≤ 5 µm, 3 m²", "-40 deg C, >= 2 ohm, <= 5 um, 3 m2"),
        ("水", "\\u6c34"),
        ("\udcff", "\\udcff"),
    ],
)
def test_signs_have_their_nearest_likeness(text: str, plain: str) -> None:
    """What the trade writes on a typewriter; what has no likeness stands as its code."""
    codecs.register_error(NAME, plainer)
    assert text.encode("ascii", NAME) == plain.encode("ascii")
