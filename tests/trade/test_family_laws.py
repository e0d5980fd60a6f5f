"""Tables, readings and comparisons of families, group by group: what holds for each of them."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fitlore.report.sentences import SENTENCES
from fitlore.trade.family import FAMILIES, FamilyState, Reading, Unreadable
from fitlore.trade.sizes import MEASURES
from fitlore.trade.standards import sections
from tests.trade.families import (
    BOLTED,
    FLUIDS,
    FOLDER,
    PLUGS,
    PROBLEMS,
    ROLLING,
    SERVICE,
    STANDARDS,
    YES,
    ask,
    kinds_of,
    said,
)
from tests.trade.near_spellings import NEAR

LENGTHS: Final = ("10", "M10x1", "25 mm", "KT 53 0650", "6203-2RS", "17 x 40 x 12", "12 V 21 W", "3/8-24 UNF")
"""Threads, lengths, a part number, a bearing, a lamp: designations of none of these groups."""


class Group(NamedTuple):
    """Packages tested alike: at least so many rows, texts besides the spellings shown, and texts of other things."""

    packages: tuple[str, ...]
    rows: int
    texts: tuple[str, ...]
    others: tuple[str, ...]
    sizes: slice = slice(0)
    """Which of the listed sizes are tried as texts too."""


GROUPS: Final = {
    "bolted": Group(
        BOLTED, 181,
        ("M10x1", "19 mm", "nonsense 7", "M10x1.25x30 8.8", "wheel nut M12x1.5", "M10x1 union", "8"),
        (*LENGTHS, "165/80 R 13", "DOT 4", "4 x 100"),
        slice(60),
    ),
    "rolling": Group(
        ROLLING, 401,
        ("175/75/14", "165 R 13 82S", "5.60 R 15", "DOT 238", "5x112", "6Jx15 ET35", "nonsense 7"),
        (*LENGTHS, "DOT 4", "8.8", "13x1.5", "SAE 20W-50", "10.9", "6PK1045", "38x52x7", "100 A"),
        slice(None, None, 4),
    ),
    "fluids": Group(
        FLUIDS, 16,
        ("M10x1", "DOT 4", "DOT 5 glycol", "20W-50", "GL-5", "nonsense 7", "8"),
        (*LENGTHS, "165/80 R 13", "mineral", "silicone", "DOT 2419", "ISO 898-1 8.8", "4 x 100", "synthetic"),
    ),
    "plugs": Group(
        PLUGS, 56,
        ("M10x1", "nonsense 7", "8"),
        (*LENGTHS, "165/80 R 13", "flat", "drain plug M14x1.5, flat seat, reach 12 mm", "glow plug M12x1.25", "380 N",
         "8 mm hose", "5/8 in heater hose", "R7", "damper open 520 mm, closed 330 mm", "SAE 100R7 hydraulic hose 8 mm",
         "SAE 30"),
    ),
    "service": Group(
        SERVICE, 110,
        ("M10x1", "nonsense 7", "8"),
        (*LENGTHS, "165/80 R 13", "82 C", "0.9 bar", "520/330", "DOT 4", "4 wires", "32-50 mm", "3/4-16 UNF", "zirconia",
         "hose", "filter", "damper"),
    ),
}  # fmt: skip
MINE: Final = [kind for group in GROUPS.values() for kind in kinds_of(group.packages)]
POOL: Final = {
    kind: [
        *FAMILIES[kind].about.spellings,
        *(sized.designation for sized in list(FAMILIES[kind].sizes(STANDARDS))[group.sizes]),
        *NEAR.get(kind, ()),
        *group.texts,
    ]
    for group in GROUPS.values()
    for kind in kinds_of(group.packages)
}
ENDS: Final = st.sampled_from(["male", "female"])


@pytest.mark.parametrize("group", GROUPS.values(), ids=GROUPS)
def test_every_row_is_taken_and_none_is_faulty(group: Group) -> None:
    """No problem is reported, and as many rows arrive as the files have lines that hold one."""
    texts = [(FOLDER / f"{name}.yaml").read_text("utf-8") for name in group.packages]
    written = sum(len(re.findall(r"^  - \{", text, re.MULTILINE)) for text in texts)
    kinds = kinds_of(group.packages)
    mine = [name for name, section in sections().items() if section.family in kinds]
    assert PROBLEMS == []
    assert sum(len(STANDARDS.table(name).rows) for name in mine) == written >= group.rows


@pytest.mark.parametrize("kind", MINE)
def test_every_spelling_shown_to_people_can_be_read(kind: str) -> None:
    """The page of families promises nothing that the program refuses."""
    for text in FAMILIES[kind].about.spellings:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), Reading), text


@pytest.mark.parametrize("kind", MINE)
def test_every_listed_size_is_a_designation_with_known_measures(kind: str) -> None:
    """Each once; its designation is its own normal form; its bands are not empty; its proof has a sentence and an origin."""
    listed = list(FAMILIES[kind].sizes(STANDARDS))
    assert len({sized.designation for sized in listed}) == len(listed)
    for sized in listed:
        found = FAMILIES[kind].read(sized.designation, STANDARDS)
        assert isinstance(found, Reading), sized.designation
        assert found.normal == sized.designation
        assert sized.bands or kind not in kinds_of(ROLLING)
        assert sized.bands.keys() <= MEASURES.keys()
        assert all(band.low <= band.high for band in sized.bands.values())
        assert sized.because.origins
        said(sized.because)


@pytest.mark.parametrize("kind", MINE)
@given(data=st.data())
def test_a_normal_form_is_read_as_itself_and_equals_itself(kind: str, data: st.DataObject) -> None:
    """parse(format) is the identity, and a designation goes where its like went, resting on no row."""
    text = data.draw(st.sampled_from(POOL[kind]))
    found = FAMILIES[kind].read(text, STANDARDS)
    if isinstance(found, Unreadable):
        assert found.reason in SENTENCES
        assert ask(kind, text, text).state is FamilyState.UNREADABLE
        return
    again = FAMILIES[kind].read(found.normal, STANDARDS)
    assert isinstance(again, Reading)
    assert again.normal == found.normal
    same = ask(kind, text, found.normal)
    assert (same.state, same.certainty.value) == (FamilyState.OK, "published")


@pytest.mark.parametrize("kind", MINE)
@given(data=st.data())
def test_nothing_unread_is_a_yes_and_no_trap_is_called_a_fit(kind: str, data: st.DataObject) -> None:
    """A yes has two readings, no trap and no bench test anywhere in its proof; a trap of these kinds has its bench test."""
    texts = st.sampled_from(POOL[kind])
    needed, offered = data.draw(texts), data.draw(texts)
    end = data.draw(ENDS) if kind in kinds_of(BOLTED) else "male"
    result = ask(kind, needed, offered, end)
    steps = [step for _, step in result.because.walk()]
    if result.state in YES:
        # A bare figure on the female half says its property class: read only with its end.
        with_end = {text for text in (needed, offered) if end == "female" and text.isdigit()}
        for text in {needed, offered} - with_end:
            assert isinstance(FAMILIES[kind].read(text, STANDARDS), Reading), text
        assert not any("trap" in step.code or "-tell-" in step.code for step in steps)
    if result.state is FamilyState.TRAP and kind in kinds_of(PLUGS):
        assert any("-tell-" in step.code for step in steps)
    if result.state is FamilyState.TRAP and kind in kinds_of(SERVICE):
        traps = [step for step in steps if "-trap-" in step.code]
        assert traps
        assert all(any("-tell-" in under.code for under in step.under) for step in traps)


@given(st.text(max_size=40) | st.text(alphabet="0123456789/xRJET .-HVSC", max_size=24))
def test_any_text_is_read_or_refused_without_a_fault(text: str) -> None:
    """Nothing that people write makes a family fall over."""
    for kind in MINE:
        assert isinstance(FAMILIES[kind].read(text, STANDARDS), (Reading, Unreadable))


@pytest.mark.parametrize(
    ("name", "text"), [(name, text) for name, group in GROUPS.items() for text in group.others]
)
def test_what_is_plainly_another_thing_is_not_read(name: str, text: str) -> None:
    """A thread, a length, a part number, a bearing: what belongs to no family of the group."""
    kinds = kinds_of(GROUPS[name].packages)
    assert not [kind for kind in kinds if isinstance(FAMILIES[kind].read(text, STANDARDS), Reading)]
