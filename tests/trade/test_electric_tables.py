"""Tables, readings and comparisons of everything electric: what holds for each of the families."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.report.sentences import SENTENCES, say
from fitlore.report.sentences_trade.electric import ELECTRIC
from fitlore.trade.family import FAMILIES, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import MEASURES
from fitlore.trade.standards import sections
from fitlore.trade.table import TableRow
from tests.trade.families import ELECTRIC as PACKAGES
from tests.trade.families import FOLDER, PROBLEMS, STANDARDS, YES, ask, kinds_of, said

MINE = kinds_of(PACKAGES)

DESIGNATIONS = {
    "lamp": [
        *(row.word("category") for row in STANDARDS.table("lamp-categories").rows),
        *(row.word("cap") for row in STANDARDS.table("lamp-caps").rows),
        *(f"bulb {row.word('number')}" for row in STANDARDS.table("lamp-numbers").rows),
        *(f"{row.word('cap')} {row.word('power')} W 12 V" for row in STANDARDS.table("lamp-categories").rows),
    ],
    "fuse": [
        *(
            f"{form} {row.cell('amps')} A"
            for form in ("blade", "mini blade")
            for row in STANDARDS.table("fuse-blade").rows
        ),
        *(f"{row.word('colour')} maxi blade" for row in STANDARDS.table("fuse-maxi").rows),
        *(f"torpedo {row.cell('amps')} A" for row in STANDARDS.table("fuse-torpedo").rows),
        *(f"glass {row.cell('blows')} A blows" for row in STANDARDS.table("fuse-british").rows),
        *(f"glass {row.word('colour')}" for row in STANDARDS.table("fuse-british").rows),
        *(
            f"{row.word('form')} carries 5 A"
            for row in STANDARDS.table("fuse-forms").rows
            if "glass" in row.word("form")
        ),
    ],
    "relay": [
        *(f"relay {row.word('terminals')} 12 V layout A" for row in STANDARDS.table("relay-contacts").rows),
        *(f"make relay layout {row.word('layout')} plain" for row in STANDARDS.table("relay-layouts").rows),
        *(
            f"{row.word('size')} make relay 24 V diode layout A 20 A"
            for row in STANDARDS.table("relay-sizes").rows
        ),
    ],
    "flasher": [
        f"flasher 49 49a 12 V 2x21 W {row.word('works')}" for row in STANDARDS.table("flasher-works").rows
    ],
    "terminal": [
        *(
            f"tab {row.cell('width')}x{row.cell('thickness')}"
            for row in STANDARDS.table("terminal-tabs").rows
        ),
        *(
            f"sleeve {row.cell('inch')} in"
            for row in STANDARDS.table("terminal-tabs").rows
            if row.number("width") > 5
        ),
        *(f"ring {row.word('stud')}" for row in STANDARDS.table("terminal-rings").rows),
        *(f"ring {row.cell('hole')} mm" for row in STANDARDS.table("terminal-rings").rows),
        *(f"bullet {row.cell('diameter')}" for row in STANDARDS.table("terminal-bullets").rows),
    ],
    "terminal-number": [f"terminal {row.word('number')}" for row in STANDARDS.table("terminal-numbers").rows],
    "cable": [
        *(f"{row.cell('area')} mm2" for row in STANDARDS.table("cable-areas").rows),
        *(f"{row.cell('strands')}/{row.cell('strand')}" for row in STANDARDS.table("cable-strands").rows),
        *(f"auto cable {row.cell('across')} mm" for row in STANDARDS.table("cable-outside").rows),
        *(f"AWG {gauge}" for gauge in range(31)),
    ],
    "sender": [
        f"sender {row.cell('low')}-{row.cell('high')} ohm" for row in STANDARDS.table("sender-ranges").rows
    ],
    "switch-contact": [
        f"{row.word('job')} switch, free {state}"
        for row in STANDARDS.table("switch-jobs").rows
        for state in ("open", "closed", "changeover")
    ],
    "ignition-coil": [
        f"coil {row.cell(end)} ohm {row.word('kind')}"
        for row in STANDARDS.table("coil-kinds").rows
        for end in ("low", "high")
    ],
    "battery": [
        *(
            f"battery {'BCI ' if row.word('system') == 'group' else ''}{row.word('case')}"
            for row in STANDARDS.table("battery-cases").rows
            if row.word("system") != "JIS"
        ),
        *(
            f"46{row.word('case')}L"
            for row in STANDARDS.table("battery-cases").rows
            if row.word("system") == "JIS"
        ),
        *(f"battery {row.word('alias')}" for row in STANDARDS.table("battery-aliases").rows),
        *(f"L2 {row.word('ledge')}" for row in STANDARDS.table("battery-ledges").rows),
    ],
}
"""Every designation that a table stands for, as people write it."""
POOL = {
    kind: [*DESIGNATIONS[kind], *FAMILIES[kind].about.spellings, "10", "M10x1", "nonsense 7"] for kind in MINE
}
PAIRS = st.sampled_from(MINE).flatmap(
    lambda kind: st.tuples(st.just(kind), st.sampled_from(POOL[kind]), st.sampled_from(POOL[kind]))
)
SPELLINGS = st.sampled_from([(kind, text) for kind in MINE for text in POOL[kind]])


def mine() -> list[TableRow]:
    """Every row of electrics."""
    return [
        row
        for name, section in sections().items()
        if section.family in MINE
        for row in STANDARDS.table(name).rows
    ]


def test_every_row_is_taken_and_none_is_faulty() -> None:
    """No problem is reported, and as many rows arrive as the files have lines that hold one."""
    written = 0
    for name in PACKAGES:
        text = (FOLDER / f"{name}.yaml").read_text("utf-8")
        written += len(re.findall(r"^  - \{", text, re.MULTILINE))
    assert PROBLEMS == []
    assert len(mine()) == written > 400


def test_every_row_tells_its_line_source_and_certainty() -> None:
    """The proof of a figure is the line it stands on: source and certainty are written there."""
    lines = {name: (FOLDER / f"{name}.yaml").read_text("utf-8").splitlines() for name in PACKAGES}
    for row in mine():
        line = lines[row.origin.book.rpartition("/")[2].removesuffix(".yaml")][row.origin.line - 1]
        assert row.source in line
        assert f"certainty: {row.certainty.value}" in line


@pytest.mark.parametrize("kind", MINE)
def test_every_designation_of_the_tables_can_be_read(kind: str) -> None:
    """What a table lists people may write."""
    for text in DESIGNATIONS[kind]:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), Reading), text


@pytest.mark.parametrize("kind", MINE)
def test_every_spelling_shown_to_people_can_be_read(kind: str) -> None:
    """The page of families promises nothing that the program refuses."""
    for text in FAMILIES[kind].about.spellings:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), Reading), text


@pytest.mark.parametrize("kind", MINE)
def test_every_family_says_what_its_names_do_not_say_and_what_is_missing(kind: str) -> None:
    """Standards, silence and gaps are named."""
    about = FAMILIES[kind].about
    assert about.standards
    assert about.not_said
    assert about.gaps


@pytest.mark.parametrize("kind", MINE)
def test_every_listed_size_is_a_designation_with_known_measures(kind: str) -> None:
    """Its designation is its own normal form; its bands are not empty; its proof has a sentence and an origin."""
    for sized in FAMILIES[kind].sizes(STANDARDS):
        found = FAMILIES[kind].read(sized.designation, STANDARDS)
        assert isinstance(found, Reading), sized.designation
        assert found.normal == sized.designation
        assert sized.kind == kind
        assert sized.bands
        assert set(sized.bands) <= set(MEASURES)
        assert all(
            band.low <= band.high and band.wears in ("", "up", "down") for band in sized.bands.values()
        )
        assert sized.because.origins
        said(sized.because)


@given(SPELLINGS)
def test_a_normal_form_is_its_own_normal_form(pair: tuple[str, str]) -> None:
    """Parse and format are the identity on what has been read once."""
    kind, text = pair
    found = FAMILIES[kind].read(text, STANDARDS)
    if isinstance(found, Reading):
        again = FAMILIES[kind].read(found.normal, STANDARDS)
        assert isinstance(again, Reading), found.normal
        assert again.normal == found.normal


@given(SPELLINGS)
def test_case_and_space_round_a_text_mean_nothing(pair: tuple[str, str]) -> None:
    """`  p21w ` is P21W; upper case too, where it does not make another unit or mark of a text."""
    kind, text = pair
    found, spaced = (FAMILIES[kind].read(one, STANDARDS) for one in (text, f"  {text}  "))
    assert isinstance(found, Reading) is isinstance(spaced, Reading)
    if isinstance(found, Reading) and isinstance(spaced, Reading):
        assert found.normal == spaced.normal


@given(SPELLINGS)
def test_a_designation_serves_for_itself(pair: tuple[str, str]) -> None:
    """Comparison is reflexive, whatever else the text leaves unsaid, and rests on no row."""
    kind, text = pair
    if isinstance(FAMILIES[kind].read(text, STANDARDS), Reading):
        result = ask(kind, text, text)
        assert result.state is FamilyState.OK
        assert result.because.code == f"{kind}-same"


@given(PAIRS)
def test_a_yes_comes_only_from_two_texts_that_can_be_read(pair: tuple[str, str, str]) -> None:
    """Nothing unread ever becomes a yes; every step has its sentence and no gap in it."""
    kind, needed, offered = pair
    result = ask(kind, needed, offered)
    if result.state in YES:
        assert all(isinstance(FAMILIES[kind].read(text, STANDARDS), Reading) for text in (needed, offered))
    for _, step in result.because.walk():
        assert "{" not in say(step)
        assert "  " not in say(step)


@given(PAIRS)
def test_a_trap_under_a_proof_is_never_called_a_fit(pair: tuple[str, str, str]) -> None:
    """Where a piece is a trap, the whole is one; a trap is told with a way to see it or a reason."""
    kind, needed, offered = pair
    result = ask(kind, needed, offered)
    trapped = {"-trap", "-over", "-backwards", "-burns"}
    inner = {step.code for step in result.because.under}
    if any(code.endswith(tuple(trapped)) for code in inner):
        assert result.state is FamilyState.TRAP


@given(PAIRS)
def test_a_certain_no_is_a_no_in_whatever_spelling(pair: tuple[str, str, str]) -> None:
    """The outcome depends on the normal forms alone."""
    kind, needed, offered = pair
    reads = [FAMILIES[kind].read(text, STANDARDS) for text in (needed, offered)]
    if all(isinstance(read, Reading) for read in reads):
        plain = ask(kind, *(read.normal for read in reads if isinstance(read, Reading)))
        assert plain.state is ask(kind, needed, offered).state


@pytest.mark.parametrize("kind", MINE)
@pytest.mark.parametrize(
    "text",
    [
        "10",
        "M10x1",
        "3/8-24 UNF",
        "KT 70 4300 L",
        "6203-2RS",
        "165/70 R 13",
        "12",
        "",
        "a note of some words",
        "9" * 200,
    ],
)
def test_what_is_plainly_another_thing_is_not_read(kind: str, text: str) -> None:
    """Counts, threads, part numbers, bearings, tyres and notes are nothing electric."""
    found = FAMILIES[kind].read(text, STANDARDS)
    assert isinstance(found, Unreadable)
    assert found.reason in SENTENCES


def test_every_sentence_of_electrics_is_said_somewhere_in_the_code() -> None:
    """A code that nobody writes would be a sentence for nothing."""
    source = "\n".join(
        path.read_text("utf-8")
        for name in (*PACKAGES, "held.py")
        for path in sorted((FOLDER.parents[1] / "src/fitlore/trade" / name).rglob("*.py"))
        or [FOLDER.parents[1] / "src/fitlore/trade" / name]
    )
    whole = {f"{kind}-{state.value}" for kind in MINE for state in FamilyState} | {
        f"{kind}-same" for kind in MINE
    }
    unused = {code for code in ELECTRIC if code not in whole and f'"{code}"' not in source}
    assert unused == set()
