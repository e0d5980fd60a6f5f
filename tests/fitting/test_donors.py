"""What a vehicle gives: what comes off it, what is looked at first, what stays on it and why, and which to look for.

The cases are common practice of those who strip cars: side, pair, year, what goes only together, what is never taken.
"""

from __future__ import annotations

from collections.abc import Iterable

import pytest

from fitlore.fitting import Word, answer_pair
from fitlore.fitting.donors import Gives, gives
from fitlore.fitting.donors_found import LOOKED_AT, donors_for
from fitlore.fitting.donors_on import Vehicle, standing, vehicle_of
from fitlore.graph.open import Graph
from fitlore.graph.store import Facts, Row
from fitlore.model.kleene import Tri
from tests.fitting.donor_books import graph_of, wanted

CORVA = Vehicle("tarn-corva")


def taken(found: Gives) -> dict[str, str]:
    """Need to the part that is taken for it."""
    return {pull.wanted.name: pull.verdict.part.part for pull in found.take}


def looked_at(found: Gives) -> dict[str, str]:
    """Need to the part that is to be looked at first."""
    return {pull.wanted.name: pull.verdict.part.part for pull in found.look}


def left(found: Gives, part: str) -> set[str]:
    """The codes of every reason why a part stays."""
    rows = [row for row in found.leave if row.part is not None and row.part.part == part]
    return {step.code for row in rows for step in row.reasons}


def described(graph: Graph, name: str = "field") -> Vehicle:
    """A described donor."""
    donor = graph.donor(name)
    assert donor is not None
    return vehicle_of(graph, donor)


def field(facts: str = "{chassis: TC 200}", more: str = "") -> str:
    """A described Corva in a field."""
    return f"- donor: field\n  is: tarn-corva\n  facts: {facts}\n{more}"


def test_a_part_that_goes_is_taken_with_what_must_come_along() -> None:
    """By a claim; the hose it needs stands on the same car and comes too; the switch it must never meet stays."""
    graph = graph_of(field(more="  still-has: [cooling/radiator, cooling/hose, cooling/switch]\n"))
    found = gives(graph, described(graph), wanted(graph, "cooling/radiator"))
    assert taken(found) == {"cooling/radiator": "TC 10"}
    (pull,) = found.take
    assert [row.part.part for row in pull.also] == ["TC 11"]
    assert pull.besides == ()
    assert left(found, "TC 12") == {"donor-never-with"}
    assert [row.keep for row in found.leave if row.part is None] == ["own cap; own fan switch"]


def test_a_companion_that_is_gone_has_to_come_from_elsewhere() -> None:
    """The hose is gone from this one."""
    more = "  still-has: [cooling/radiator]\n  gone: [cooling/hose]\n"
    graph = graph_of(field(more=more))
    (pull,) = gives(graph, described(graph), wanted(graph, "cooling/radiator")).take
    assert pull.also == ()
    assert [companion.use for companion in pull.besides] == [("TC 11",)]


@pytest.mark.parametrize(
    ("chassis", "take", "look"),
    [("TC 200", "TC 10", ""), ("TC 900", "", ""), ("[TC 200, TC 900]", "", "TC 10")],
)
def test_the_donors_own_chassis_decides_which_part_is_on_it(chassis: str, take: str, look: str) -> None:
    """Before the change it has the part that goes, after it another; where its number is not known it is asked for."""
    graph = graph_of(field(f"{{chassis: {chassis}}}", "  still-has: [cooling/radiator]\n"))
    found = gives(graph, described(graph), wanted(graph, "cooling/radiator"))
    assert (taken(found).get("cooling/radiator", ""), looked_at(found).get("cooling/radiator", "")) == (
        take,
        look,
    )
    if chassis == "TC 900":
        assert left(found, "TC 10") == {"donor-book"}
    if look:
        assert [ask.name for ask in found.look[0].asks] == ["chassis"]


def test_of_a_platform_in_general_the_chassis_is_asked() -> None:
    """Any Corva may be before or after the change."""
    graph = graph_of()
    found = gives(graph, CORVA, wanted(graph, "cooling/radiator"))
    assert looked_at(found) == {"cooling/radiator": "TC 10"}
    assert found.serves == ()
    assert [one.name for one in found.may_serve] == ["cooling/radiator"]


def test_what_nobody_saw_on_a_described_one_is_looked_for() -> None:
    """The book says what such a car has, not whether it still has it."""
    graph = graph_of(field())
    found = gives(graph, described(graph), wanted(graph, "cooling/radiator"))
    assert looked_at(found) == {"cooling/radiator": "TC 10"}
    assert [ask.look for ask in found.look[0].asks] == ["whether it is still there"]


def test_a_number_read_on_it_counts_more_than_the_book() -> None:
    """Somebody had put the earlier radiator into a later car."""
    more = "  still-has: [{at: cooling/radiator, number: TC 10}]\n"
    graph = graph_of(field("{chassis: TC 900}", more))
    assert taken(gives(graph, described(graph), wanted(graph, "cooling/radiator"))) == {
        "cooling/radiator": "TC 10"
    }


@pytest.mark.parametrize("gone", ["cooling/radiator", "cooling"])
def test_what_is_gone_is_said_to_be_gone(gone: str) -> None:
    """By its place, or with its whole assembly."""
    graph = graph_of(field(more=f"  gone: [{gone}]\n"))
    found = gives(graph, described(graph), wanted(graph, "cooling/radiator"))
    assert not taken(found)
    assert not looked_at(found)
    assert left(found, "TC 10") == {"donor-book"}
    (row,) = [row for row in found.leave if row.part is not None and row.part.part == "TC 10"]
    assert "donor-gone" in {step.code for reason in row.reasons for _, step in reason.walk()}


def test_used_ones_that_are_never_taken_stay_though_they_fit() -> None:
    """Brake cylinders by their category, belts by their class; either is a yes by its verdict."""
    graph = graph_of()
    found = gives(graph, CORVA, wanted(graph, "axle/cylinder@left", "inside/belt@left"))
    assert not taken(found)
    assert left(found, "TC 30") == {"donor-used-never"}
    assert left(found, "KT 21") == {"donor-class-takes-none"}
    verdicts = {row.part.part: row.verdict.word for row in found.leave if row.part and row.verdict}
    assert verdicts["TC 30"] in (Word.FITS, Word.DEPENDS)
    assert verdicts["KT 21"] is Word.FITS


def test_a_written_reason_of_the_job_lets_a_used_one_through_and_its_no_shuts_one_out() -> None:
    """As in a plan: what the job accepts in writing may be taken; what it forbids may not, whatever it is."""
    graph = graph_of()
    assert taken(gives(graph, CORVA, wanted(graph, "inside/belt@left", used=True))) == {
        "inside/belt@left": "KT 21"
    }
    found = gives(graph, CORVA, wanted(graph, "inside/seat@right", used=False))
    assert not taken(found)
    assert left(found, "TC 20 R") == {"donor-job-takes-none"}


def test_the_other_sides_part_stays_on_it() -> None:
    """The right seat is taken by its measures; the left one looks the same and stays."""
    graph = graph_of()
    found = gives(graph, CORVA, wanted(graph, "inside/seat@right"))
    assert taken(found) == {"inside/seat@right": "TC 20 R"}
    assert left(found, "TC 20 L") == {"verdict"}
    (row,) = [row for row in found.leave if row.part is not None and row.part.part == "TC 20 L"]
    assert row.verdict is not None
    assert row.verdict.because.under[0].code == "row-other-hand"


def test_a_trap_stays_on_it_and_is_loud() -> None:
    """3/8-24 UNF where M10x1 is needed (ASME B1.1 and ISO 261): it goes in by hand and lets go."""
    graph = graph_of()
    found = gives(graph, CORVA, wanted(graph, "cooling/switch"))
    (row,) = [row for row in found.leave if row.part is not None]
    assert row.part is not None
    assert (row.part.part, bool(row.verdict and row.verdict.danger)) == ("TC 12", True)


@pytest.mark.parametrize(("chassis", "take", "look"), [("TC 200", 1, 0), ("TC 400", 0, 0), ("", 0, 1)])
def test_a_claim_may_be_for_parts_off_certain_cars_only(chassis: str, take: int, look: int) -> None:
    """`donor-only-if` is held against the car the part comes off, not the one it goes to."""
    claim = """
- crossfit: hose-from-corva
  instead-of: KT 11
  use: TC 11
  reaches: kestin-tolland
  donor-only-if: {chassis: {TC: ../300}}
  waives: [bore]
  evidence: [{how: fitted, by: shop}]
"""
    facts = f"{{chassis: {chassis}}}" if chassis else "{engine: small}"
    graph = graph_of(claim + field(facts, "  still-has: [cooling/hose]\n"))
    found = gives(graph, described(graph), wanted(graph, "cooling/hose"))
    assert (len(found.take), len(found.look)) == (take, look)
    if chassis == "TC 400":
        assert left(found, "TC 11") == {"donor-wrong-car"}


def test_a_pair_is_served_by_two_and_one_is_only_in_part() -> None:
    """A Corva has two dampers; one with its left one gone has one."""
    graph = graph_of(field(more="  still-has: [axle/damper@right]\n  gone: [axle/damper@left]\n"))
    both = wanted(graph, "axle/damper", quantity=2)
    (pull,) = gives(graph, CORVA, both).take
    assert (pull.pieces, pull.enough) == (2, True)
    one = gives(graph, described(graph), both)
    assert [(row.pieces, row.enough) for row in one.take] == [(1, False)]
    assert one.serves == ()
    assert [need.name for need in one.may_serve] == ["axle/damper"]


def test_one_piece_is_not_given_twice() -> None:
    """Two jobs want the one radiator; the first gets it."""
    graph = graph_of(field(more="  still-has: [cooling/radiator]\n"))
    (need,) = wanted(graph, "cooling/radiator")
    found = gives(graph, described(graph), [need, need._replace(job="other")])
    assert [pull.wanted.job for pull in found.take] == ["job"]


def test_what_is_inside_an_assembly_comes_with_it() -> None:
    """A whole front with the radiator in it stands on another platform."""
    more = """
- category: front
- platform: ostra-40
  maker: Ostra
  assemblies: {body: {places: {front: {is: front, original: OS 90}}}}
- {part: OS 90, maker: Ostra, is: front, contains: [{number: Kestin KT 10}]}
"""
    graph = graph_of(more)
    found = gives(graph, Vehicle("ostra-40"), wanted(graph, "cooling/radiator"))
    assert taken(found) == {"cooling/radiator": "KT 10"}
    assert "donor-inside" in {step.code for _, step in found.take[0].because.walk()}
    keys = [one.vehicle.key for one in donors_for(graph, wanted(graph, "cooling/radiator")).found]
    assert "ostra-40" in keys


def test_equal_numbers_of_two_makers_are_not_one_part() -> None:
    """Ostra too numbers a radiator KT 10; a car that has that one is no donor."""
    more = """
- platform: ostra-40
  maker: Ostra
  assemblies: {cooling: {places: {radiator: {is: radiator, original: KT 10}}}}
- {part: KT 10, maker: Ostra, is: radiator, features: {width: 300 mm}}
"""
    graph = graph_of(more)
    found = donors_for(graph, wanted(graph, "cooling/radiator"))
    assert "ostra-40" not in [one.vehicle.key for one in found.found]


def test_another_number_of_the_very_same_part_is_found() -> None:
    """A Brede number that is the Kestin part under another name stands on an Ostra."""
    more = """
- platform: ostra-40
  maker: Ostra
  assemblies: {cooling: {places: {radiator: {is: radiator, original: Brede BR 7}}}}
- {part: BR 7, maker: Brede, is: radiator, same-as: Kestin KT 10}
"""
    graph = graph_of(more)
    found = donors_for(graph, wanted(graph, "cooling/radiator"))
    assert "ostra-40" in [one.vehicle.key for one in found.found if one.take]


def test_a_whole_car_on_offer_and_its_description_are_one_vehicle() -> None:
    """What the seller says comes with it is there; the rest of it is looked for."""
    more = """
- supplier: field-man
  trade: private
  offers:
    - {whole-car: Corva 1985, comes-off: field, price: 100 GBP, brings: [{number: TC 10}]}
    - {whole-car: nameless wreck, price: 50 GBP, brings: [{number: TC 20 R}]}
""" + field(more="  from: field-man\n")
    graph = graph_of(more)
    needs = wanted(graph, "cooling/radiator", "inside/seat@right")
    found = {one.vehicle.key: one for one in donors_for(graph, needs).found}
    assert taken(found["field"]) == {"cooling/radiator": "TC 10"}
    assert looked_at(found["field"]) == {"inside/seat@right": "TC 20 R"}
    (wreck,) = [one for key, one in found.items() if key not in ("field", "tarn-corva", "kestin-tolland")]
    assert taken(wreck) == {"inside/seat@right": "TC 20 R"}


def test_what_is_sold_with_it_and_said_to_be_gone_is_looked_at() -> None:
    """Two people say two things."""
    more = """
- supplier: field-man
  trade: private
  offers: [{whole-car: Corva 1985, comes-off: field, price: 100 GBP, brings: [{number: TC 10}]}]
""" + field(more="  from: field-man\n  gone: [cooling]\n")
    graph = graph_of(more)
    found = gives(graph, described(graph), wanted(graph, "cooling/radiator"))
    assert looked_at(found) == {"cooling/radiator": "TC 10"}


def test_those_that_serve_most_of_what_must_be_come_first() -> None:
    """Musts before the rest, sure before perhaps."""
    graph = graph_of()
    needs = [
        *wanted(graph, "inside/seat@right", "axle/damper@left"),
        *wanted(graph, "cooling/radiator", "cooling/hose", must=False),
    ]
    found = donors_for(graph, needs).found
    assert [(one.vehicle.key, len(one.serves), len(one.may_serve)) for one in found] == [
        ("kestin-tolland", 4, 0),
        ("tarn-corva", 2, 1),
    ]


def test_everything_taken_is_a_yes_of_the_fitting_room_and_everything_there() -> None:
    """No list of its own: each part to be taken is asked about again by itself, and stands on the vehicle."""
    graph = graph_of(field(more="  still-has: [cooling/radiator, axle/damper, inside/seat]\n"))
    needs = wanted(graph, "cooling/radiator", "cooling/hose", "axle/damper@left", "inside/seat@left")
    for vehicle in (CORVA, Vehicle("kestin-tolland"), described(graph)):
        for pull in gives(graph, vehicle, needs).take:
            again = answer_pair(graph, pull.verdict.part, pull.wanted.question)
            assert again.word in (Word.FITS, Word.FITS_WITH_WORK, Word.BY_MEASURE)
            assert pull.standing.there is Tri.TRUE
            assert pull.because.under


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, tuple[str, ...]]]:
    """Every question that the store is asked from here on: the query and its keys."""
    heard: list[tuple[str, tuple[str, ...]]] = []
    run = Facts.run

    def listening(self: Facts, query: str, keys: Iterable[str]) -> list[Row]:
        wanted_keys = tuple(keys)
        heard.append((query, wanted_keys))
        return list(run(self, query, wanted_keys))

    monkeypatch.setattr(Facts, "run", listening)
    return heard


def test_no_platform_is_looked_at_that_nothing_leads_to(asked: list[tuple[str, tuple[str, ...]]]) -> None:
    """With two hundred more platforms and their parts in the books the store is asked the same questions."""
    counts = []
    for extra in (0, 200):
        strange = "".join(
            f"- platform: merrow-{n}\n  maker: Merrow\n"
            f"  assemblies: {{cooling: {{places: {{hose: {{is: hose, original: MW {n}}}}}}}}}\n"
            f"- {{part: MW {n}, maker: Merrow, is: hose, features: {{bore: {60 + n} mm}}}}\n"
            for n in range(extra)
        )
        graph = graph_of(strange)
        needs = wanted(graph, "cooling/radiator", "inside/seat@right", "axle/damper@left")
        asked.clear()
        donors_for(graph, needs)
        counts.append([query for query, _ in asked])
        assert not [keys for query, keys in asked if query == "of_kind" and {"part", "platform"} & set(keys)]
        assert sum(query == "places_on" for query, _ in asked) <= LOOKED_AT
    assert counts[0] == counts[1]


def test_a_part_stands_once_for_both_sides() -> None:
    """Two dampers that are the same left and right are two pieces of one line; seats are two lines."""
    graph = graph_of()
    rows = standing(graph, CORVA, {"damper", "seat"}, ())
    assert sorted((row.part.part, row.at, row.pieces) for row in rows) == [
        ("TC 20 L", "inside/seat@left", 1),
        ("TC 20 R", "inside/seat@right", 1),
        ("TC 31", "axle/damper", 2),
    ]
