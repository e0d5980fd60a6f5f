"""Left and right of one plan: equal parts where the kind is renewed across the axle, agreeing ones where it asks for it.

That both sides of an axle get the same is the trade's rule for dampers, drums and wheel cylinders (common practice); a cylinder
of 22.22 mm beside one of 19.05 mm brakes with (22.22 / 19.05)^2 = 1.36 times the force on its side. All sums by hand.
"""

from __future__ import annotations

from datetime import date

import pytest

from fitlore.report.plans import plan_lines
from fitlore.report.plans_besides import besides_json
from fitlore.sourcing.assemble import Wishes
from fitlore.sourcing.plan import Plan
from tests.sourcing.tiny import JOB, bought, planned, shop_of

CAR = """
- category: damper
  names: {en-gb: damper}
  safety: none
  sides: same-both-sides
  renew: across-axle
- category: slave
  names: {en-gb: slave}
  safety: none
  sides: same-both-sides
  features:
    bore: {kind: length, role: works, with: other-side, look: across the open end}
- category: arm
  names: {en-gb: arm}
  safety: none
  sides: mirror
  features:
    bore: {kind: length, role: works, with: other-side, look: across the eye}
- category: strut
  names: {en-gb: strut}
  safety: none
  sides: mirror
  renew: across-axle
- policy: chances
  classes:
    - {safety: none, least: measured}
- platform: kestin-vale
  name: Kestin Vale
  maker: Kestin
  assemblies:
    axle:
      sides: [left, right]
      places:
        damper: {is: damper, original: D}
        slave: {is: slave, original: S}
        arm: {is: arm, original: [A L, A R]}
        strut: {is: strut, original: [T L, T R]}
- part: D
  maker: Kestin
  is: damper
- part: DX
  maker: Ostra
  is: damper
- part: S
  maker: Kestin
  is: slave
  features: {bore: 19.05 mm}
- part: SX
  maker: Ostra
  is: slave
  features: {bore: 22.22 mm}
- part: SY
  maker: Merrow
  is: slave
  features: {bore: 19.05 mm}
- part: SU
  maker: Merrow
  is: slave
"""
HANDED = """
- part: {kind} L
  maker: {maker}
  is: {what}
  side: left{left}
- part: {kind} R
  maker: {maker}
  is: {what}
  side: right{right}
"""
GREEN = "\n- car: green\n  is: kestin-vale\n"


def claim(old: str, new: str) -> str:
    """The shop measured that one goes instead of the other."""
    name = f"{new}-for-{old}".lower().replace(" ", "-")
    return f"""
- crossfit: {name}
  instead-of: {old}
  use: {new}
  reaches: kestin-vale
  waives: bore
  evidence:
    - {{how: measured, by: shop, date: 2026-01-10}}
"""


def seller(name: str, *offers: str) -> str:
    """A supplier who hands over for nothing more."""
    rows = "".join(f"    - {{{offer}}}\n" for offer in offers)
    return f"\n- supplier: {name}\n  trade: factor\n  offers:\n{rows}"


def findings(*rows: str) -> str:
    """A job with these findings."""
    return JOB + "  findings:\n" + "".join(f"    - {{fault: broken, {row}}}\n" for row in rows)


def of(books: str, *, car: str = GREEN) -> Plan:
    """The plan of a job at the little car."""
    return planned(shop_of(books, car=CAR + car), Wishes(today=date(2026, 12, 3)))


def text(made: Plan) -> str:
    """What `plan` prints, as one text."""
    return "\n".join(line.text for line in plan_lines(made)).replace("\N{NO-BREAK SPACE}", " ")


def numbers(made: Plan) -> dict[str, int]:
    """Number to packs."""
    found: dict[str, int] = {}
    for name, packs in bought(made).items():
        number = name.split(" ", 1)[1].removesuffix(" new")
        found[number] = found.get(number, 0) + packs
    return found


def left_and_right(place: str, more: str = "must: runs") -> str:
    """One finding for each side."""
    return findings(*(f"at: axle/{place}, side: {side}, {more}" for side in ("left", "right")))


def test_equal_parts_left_and_right_of_a_kind_renewed_across_the_axle() -> None:
    """One DX at 10, and D at 14: 10 + 14 is not allowed, so 14 + 14; with another DX at 16 it is 10 + 16."""
    offers = seller("post", "number: DX, price: 10.00 GBP, stock: 1", "number: D, price: 14.00 GBP")
    books = left_and_right("damper") + claim("D", "DX") + offers
    made = of(books)
    assert (made.solution.cost, numbers(made)) == (2800, {"D": 2})
    made = of(books + seller("late", "number: DX, price: 16.00 GBP"))
    assert (made.solution.cost, numbers(made)) == (2600, {"DX": 2})
    assert "goes with what is taken for axle/damper@right: both sides have to agree" in text(made)


def test_two_findings_of_one_axle_are_two_parts_and_no_more() -> None:
    """Each one-sided finding by itself would renew both sides: found left and right it is one pair, not two."""
    made = of(left_and_right("damper") + seller("post", "number: D, price: 14.00 GBP"))
    assert numbers(made) == {"D": 2}
    assert [line.need.id for line in made.lines] == ["axle/damper@left", "axle/damper@right"]


@pytest.mark.parametrize(
    ("more", "offers", "pence", "parts"),
    [
        ("", ("number: SX, price: 5.00 GBP, stock: 1", "number: S, price: 9.00 GBP"), 1800, {"S": 2}),
        ("", ("number: SX, price: 5.00 GBP", "number: S, price: 9.00 GBP"), 1000, {"SX": 2}),
        (
            "",
            ("number: SY, price: 5.00 GBP, stock: 1", "number: S, price: 9.00 GBP"),
            1400,
            {"SY": 1, "S": 1},
        ),
        ("", ("number: SU, price: 5.00 GBP, stock: 1", "number: S, price: 9.00 GBP"), 1800, {"S": 2}),
    ],
    ids=["other-bore", "other-bore-both", "same-bore", "bore-unknown"],
)
def test_left_and_right_agree_in_the_feature_that_asks_for_it(
    more: str, offers: tuple[str, ...], pence: int, parts: dict[str, int]
) -> None:
    """Two makers may be mixed where both bores are known and the same; unknown is never yes."""
    words = claim("S", "SX") + claim("S", "SY") + claim("S", "SU")
    made = of(left_and_right("slave") + words + seller("post", *offers) + more)
    assert (made.solution.cost, numbers(made)) == (pence, parts)


def handed(what: str, kind: str, maker: str, bore: str = "", right: str = "") -> str:
    """A left and a right part, with their bores."""
    rows = [f"\n  features: {{bore: {b}}}" if b else "" for b in (bore, right or bore)]
    return HANDED.format(what=what, kind=kind, maker=maker, left=rows[0], right=rows[1])


@pytest.mark.parametrize(
    ("bores", "pence"),
    [(("20 mm", "20 mm"), 1900), (("20 mm", "24 mm"), 2200), (("20 mm", ""), 2200), (("", ""), 2200)],
)
def test_handed_parts_of_one_finding_agree_too(bores: tuple[str, str], pence: int) -> None:
    """Both arms: A at 11 each, the left AX at 8. 8 + 11 where the bores are known and agree, else 11 + 11."""
    arms = handed("arm", "A", "Kestin", bores[1]) + handed("arm", "AX", "Ostra", bores[0])
    offers = seller(
        "post", "number: AX L, price: 8.00 GBP", *(f"number: A {s}, price: 11.00 GBP" for s in "LR")
    )
    made = of(findings("at: axle/arm, side: both, must: runs") + arms + claim("A L", "AX L") + offers)
    assert made.solution.cost == pence


@pytest.mark.parametrize(("own", "pence"), [(False, 2200), (True, 1700)])
def test_handed_parts_renewed_across_the_axle_are_of_one_maker(own: bool, pence: int) -> None:
    """A left one of another maker at 8 is not put beside the original at 11; his pair at 8 + 9 is taken."""
    struts = handed("strut", "T", "Kestin") + handed("strut", "TX", "Ostra")
    words = claim("T L", "TX L") + claim("T R", "TX R")
    offers = ["number: TX L, price: 8.00 GBP", *(f"number: T {s}, price: 11.00 GBP" for s in "LR")]
    offers += ["number: TX R, price: 9.00 GBP"] if own else []
    made = of(left_and_right("strut") + struts + words + seller("post", *offers))
    assert made.solution.cost == pence


STAYS = "  really-on-it:\n    axle/slave@right: {number: NUMBER, how: measured, by: shop}\n"


@pytest.mark.parametrize(
    ("car", "pence"),
    [
        (GREEN + STAYS.replace("NUMBER", "S"), 900),
        (GREEN + STAYS.replace("NUMBER", "SX"), 500),
        (GREEN, None),
    ],
    ids=["19.05-stays", "22.22-stays", "nobody-knows"],
)
def test_one_side_agrees_with_what_stays_on_the_other(car: str, pence: int | None) -> None:
    """SX at 5, S at 9: what stays on the right decides; where nobody knows, the question is asked and nothing is planned."""
    offers = seller("post", "number: SX, price: 5.00 GBP", "number: S, price: 9.00 GBP")
    made = of(findings("at: axle/slave, side: left, must: runs") + claim("S", "SX") + offers, car=car)
    assert made.solution.cost == pence
    question = "look first at the other side of axle/slave@left: bore (across the open end); where it agrees,"
    assert (question in text(made)) == (pence is None)
    asked = [row["parts"] for row in besides_json(made)["other-side"]]
    assert asked == ([["S", "SY", "SX"]] if pence is None else [])


@pytest.mark.parametrize(
    ("adds", "car", "pence", "count"),
    [
        ("10.00", GREEN, 800, 2),
        ("8.00", GREEN, 1000, 2),
        ("8.00", GREEN + STAYS.replace("NUMBER", "S"), 900, 1),
    ],
)
def test_a_side_that_may_be_left_is_left_only_where_the_other_agrees_with_it(
    adds: str, car: str, pence: int, count: int
) -> None:
    """Left must, right adds 10 or 8, S costs 9. Nobody knows the right bore: both are renewed, 18 less what it adds."""
    rows = findings(
        "at: axle/slave, side: left, must: runs", f"at: axle/slave, side: right, adds: {adds} GBP"
    )
    made = of(rows + seller("post", "number: S, price: 9.00 GBP"), car=car)
    assert (made.solution.cost, numbers(made)) == (pence, {"S": count})


def test_a_route_on_one_side_and_a_part_on_the_other() -> None:
    """The right one is only cleaned, and nobody knows what it is: a new left one would not be known to agree with it."""
    rows = (
        JOB
        + """  findings:
    - {at: axle/slave, side: left, fault: broken, must: runs}
    - at: axle/slave
      side: right
      fault: stiff
      must: runs
      routes: [{route: adjust, money: 1.00 GBP}]
"""
    )
    offers = seller("post", "number: S, price: 9.00 GBP")
    assert of(rows + offers).solution.cost == 1800
    assert of(rows + offers, car=GREEN + STAYS.replace("NUMBER", "S")).solution.cost == 1000


@pytest.mark.parametrize(
    ("purchase", "pence", "parts"),
    [
        ("number: SX, at: axle/slave@left", 500, {"SX": 1}),
        ("number: S, at: axle/slave@left", 400, {"SY": 1}),
        ("is: slave, at: axle/slave@left", None, {}),
    ],
    ids=["22.22-is-in", "19.05-is-in", "nobody-wrote-down-which"],
)
@pytest.mark.parametrize("singly", [True, False])
def test_what_is_fitted_on_one_side_decides_for_the_other(
    purchase: str, pence: int | None, parts: dict[str, int], singly: bool
) -> None:
    """The left one is in: beside 22.22 mm goes the SX at 5, beside 19.05 mm the SY at 4, and no other."""
    more = f"  purchases:\n    - {{{purchase}, now: fitted}}\n"
    rows = left_and_right("slave") if singly else findings("at: axle/slave, side: both, must: runs")
    offers = seller(
        "post", "number: SX, price: 5.00 GBP", "number: S, price: 9.00 GBP", "number: SY, price: 4.00 GBP"
    )
    words = claim("S", "SX") + claim("S", "SY")
    made = of(rows.replace(JOB, JOB + more) + words + offers)
    assert (made.solution.cost, numbers(made)) == (pence, parts)


@pytest.mark.parametrize(("fitted", "pence"), [("D", 1400), ("DX", 1600)])
def test_the_other_damper_is_the_one_that_is_in_already(fitted: str, pence: int) -> None:
    """Found one by one, the left one is in: only the same part goes on the right, 14.00 or 16.00."""
    more = f"  purchases:\n    - {{number: {fitted}, at: axle/damper@left, now: fitted}}\n"
    offers = seller("post", "number: DX, price: 16.00 GBP", "number: D, price: 14.00 GBP")
    made = of(left_and_right("damper").replace(JOB, JOB + more) + claim("D", "DX") + offers)
    assert (made.solution.cost, numbers(made)) == (pence, {fitted: 1})
