"""The pages for `man`: made of the help pages, whole, and such that a formatter has nothing to say about them.

The requests and escapes are those that man(7) of groff and of mandoc both describe.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from fitlore.cli.manual import FOLDER, all_pages, escaped, options_of
from fitlore.cli.root import page

PAGES = all_pages()
RENEW = "PYTHONPATH=src python -m fitlore.cli.manual"
REQUESTS = {".TH", ".SH", ".PP", ".TP", ".BR", ".nf", ".fi"}
ESCAPES = re.compile(r"\\(?:\((?:aq|ga|ha|ti)|\[u[0-9A-F]{4,6}\]|f[BIR]|[-e&])")


def test_the_kept_pages_are_what_the_help_pages_make() -> None:
    """File by file; where they are not, `PYTHONPATH=src python -m fitlore.cli.manual` writes them anew."""
    kept = {file.name: file.read_text("utf-8") for file in Path(FOLDER).iterdir()}
    assert sorted(kept) == sorted(PAGES), RENEW
    assert [name for name, text in PAGES.items() if kept[name] != text] == [], RENEW


@pytest.mark.parametrize("name", PAGES)
def test_a_page_has_its_sections_and_no_sign_that_roff_would_take_for_its_own(name: str) -> None:
    """Requests only of those described for both formatters, every `.nf` ended, every backslash an escape, and ASCII alone."""
    text = PAGES[name]
    lines = text.splitlines()
    assert text.isascii()
    assert lines[0].startswith(".TH ")
    heads = [line[4:] for line in lines if line.startswith(".SH ")]
    assert heads[:3] == ["NAME", "SYNOPSIS", "DESCRIPTION"]
    assert heads[-2:] == ["OPTIONS", "SEE ALSO"]
    assert {line.split(" ")[0] for line in lines if line.startswith(".")} <= REQUESTS
    assert not any(line.startswith("'") for line in lines)
    opened = [line for line in lines if line in (".nf", ".fi")]
    assert opened == [".nf", ".fi"] * (len(opened) // 2)
    assert "\\" not in ESCAPES.sub("", text)
    assert re.search(r"\.SH NAME\nfitlore[^\n]* \\- [^\n]+\n\.SH", text), (
        "apropos reads one line: name, dash, what it does"
    )


def _shown(text: str) -> str:
    """A page as somebody sees it, as far as our own few escapes go."""
    signs = {"\\(aq": "'", "\\(ga": "`", "\\(ha": "^", "\\(ti": "~", "\\-": "-", "\\&": "", "\\e": "\\"}
    for code, sign in signs.items():
        text = text.replace(code, sign)
    return re.sub(r"\\\[u([0-9A-F]+)\]", lambda found: chr(int(found[1], 16)), text)


@pytest.mark.parametrize("name", [name for name in PAGES if name != "fitlore.1"])
def test_no_word_of_the_help_page_is_lost(name: str) -> None:
    """Every word of it is in the page, in its order; what is new are heads, options and names of other pages."""
    words = page("_".join(name.removesuffix(".1").split("-")[1:])).split()
    here = iter(_shown(PAGES[name]).split())
    missing = [
        word for word in words if word not in ("Exit:", "JSON:") and not any(one == word for one in here)
    ]
    assert missing == []


def test_every_page_names_every_other() -> None:
    """Under `SEE ALSO`."""
    names = {name.removesuffix(".1") for name in PAGES}
    for name, text in PAGES.items():
        seen = re.findall(r"(?m)^\.BR (\S+) \(1\)", text.partition(".SH SEE ALSO\n")[2])
        assert {_shown(one) for one in seen} == names - {name.removesuffix(".1")}


def test_signs_that_roff_takes_for_its_own_are_escaped() -> None:
    """A dot or quote that starts a line, a hyphen, a backslash, a sign beyond ASCII; what cannot be mistaken stays."""
    assert escaped(".nf a\\b") == "\\&.nf a\\eb"
    assert escaped("'x' ~^`") == "\\&\\(aqx\\(aq \\(ti\\(ha\\(ga"
    assert escaped("a-b ±0.02 ×") == "a\\-b \\[u00B1]0.02 \\[u00D7]"
    assert escaped("plain (words), all") == "plain (words), all"


def test_options_are_read_back_with_values_and_choices() -> None:
    """What completion needs of a page."""
    found = {name: one for one in options_of(["fits"]) for name in one.names}
    assert (found["--side"].choices, found["--json"].value, found["--car"].value) == (
        ("left", "right"),
        "",
        "NAME",
    )
    assert found["--in"] is found["--for"]
    assert options_of(["no-such-command"]) == []


@pytest.mark.skipif(shutil.which("groff") is None, reason="there is no groff here")
@pytest.mark.parametrize("name", PAGES)
def test_groff_has_nothing_to_say(name: str) -> None:
    """All its warnings on, the text thrown away."""
    done = subprocess.run(
        ["groff", "-man", "-ww", "-z", "-Tutf8"], input=PAGES[name].encode(), capture_output=True, check=False
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")


@pytest.mark.skipif(shutil.which("groff") is None, reason="there is no groff here")
def test_groff_complains_of_a_spoilt_page() -> None:
    """The same look finds a request that is none."""
    spoilt = PAGES["fitlore-fits.1"].replace(".PP", ".PQ", 1).encode()
    done = subprocess.run(
        ["groff", "-man", "-ww", "-z", "-Tutf8"], input=spoilt, capture_output=True, check=False
    )
    assert b"PQ" in done.stderr


@pytest.mark.skipif(shutil.which("mandoc") is None, reason="there is no mandoc here")
@pytest.mark.parametrize("name", PAGES)
def test_mandoc_has_no_error_or_warning(name: str) -> None:
    """`-T lint` at the level of warnings, but for the date, which a page made of another text has not."""
    done = subprocess.run(
        ["mandoc", "-T", "lint", "-W", "warning"],
        input=PAGES[name],
        capture_output=True,
        text=True,
        check=False,
    )
    assert [line for line in done.stdout.splitlines() if "missing date" not in line] == []
