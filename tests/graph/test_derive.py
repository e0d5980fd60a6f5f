"""What is concluded from a book alone: one node per citable record, its keys, and the record itself."""

from __future__ import annotations

from collections import Counter

import msgspec
from hypothesis import given
from hypothesis import strategies as st

from fitlore.graph.derive import KINDS, TERMS, Node, citable, derive, kind_of, name_of
from fitlore.graph.forms import Forms
from fitlore.graph.trust import capped
from fitlore.model.amounts import read_quantity
from fitlore.model.choices import How, Trade
from fitlore.model.origin import Origin
from fitlore.model.part import CrossFit, Evidence, Measured, Part
from fitlore.model.placed import OfferFrom, PlaceOn
from fitlore.model.platform import Assembly, Car, Established, Original, Place, Platform, ReallyOn
from fitlore.model.record import Name, Number
from fitlore.model.supply import Offer, Supplier
from tests.graph import small

forms = Forms(None).of


def facts(node: Node) -> dict[str, set[str]]:
    """A node's facts by term."""
    found: dict[str, set[str]] = {}
    for term, value in node.facts:
        found.setdefault(term, set()).add(value)
    return found


def test_every_citable_record_becomes_one_node_that_holds_it() -> None:
    """Decoding what a node keeps gives the record back, field by field, with its origin."""
    every = list(citable(small.records()))
    nodes = list(derive("test:book", small.records()))
    assert [Counter(kind_of(r) for r in every)[kind] for kind in ("place", "offer", "part")] == [23, 5, 12]
    for node, record in zip(nodes, every, strict=True):
        kept = facts(node)
        (kind,), (text,) = kept["as-kind"], kept["as-read"]
        assert msgspec.json.decode(text, type=KINDS[kind]) == record
        assert kept["as-shown"] == {str(record.origin)}
        assert kept.keys() <= TERMS.keys()
    assert len({node.iri for node in nodes}) == len(nodes)
    assert {node.graph for node in nodes} == {"test:book#derived"}
    assert all(node.iri.startswith("test:book#") for node in nodes)


def test_places_and_offers_stand_apart_from_their_platform_and_supplier() -> None:
    """The platform keeps its assemblies' sides and names, the supplier its terms; each place and offer cites its own line."""
    place = Place(is_=Name("lamp"), original=(Original(number=Number("KT 1")),), origin=Origin("b", 7, 9))
    rear = Assembly(sides=("left", "right"), called=("tail",), places={Name("lamp"): place})
    platform = Platform(
        platform=Name("p"), maker="Kestin", assemblies={Name("rear"): rear}, origin=Origin("b", 1, 1)
    )
    offer = Offer(number=Number("KT 1"))
    supplier = Supplier(supplier=Name("s"), trade=Trade.FACTOR, offers=(offer,), origin=Origin("b", 20, 1))
    bare, on, without, sold = citable([platform, supplier])
    assert isinstance(bare, Platform)
    assert bare.assemblies["rear"] == Assembly(sides=("left", "right"), called=("tail",))
    assert isinstance(on, PlaceOn)
    assert (on.full_path, on.sides, on.called, on.maker) == (
        "p/rear/lamp",
        ("left", "right"),
        ("tail",),
        "Kestin",
    )
    assert (on.origin, name_of(on)) == (Origin("b", 7, 9), "p/rear/lamp")
    assert isinstance(without, Supplier)
    assert without.offers == ()
    assert isinstance(sold, OfferFrom)
    assert (sold.supplier, sold.trade, sold.origin) == ("s", "factor", Origin("b", 20, 1))


def test_a_number_is_kept_by_itself_and_with_its_maker() -> None:
    """A part and an original are found by `KT 1` and by `Kestin KT 1`, whatever the separators."""
    part = Part(part=Number("kt-1"), maker="Kestin", is_=Name("lamp"))
    assert facts(next(derive("g:", [part])))["part-key"] == {"KT1", "KESTINKT1"}
    assert facts(next(derive("g:", [part])))["part-tail"] == {"1"}


def test_a_book_without_the_maker_of_a_part_gives_no_maker_key() -> None:
    """Nothing is made up."""
    assert facts(next(derive("g:", [Part(part=Number("9"), is_=Name("lamp"))])))["part-key"] == {"9"}


def test_a_value_is_found_by_its_size_whatever_its_unit() -> None:
    """3/4 in is 19.05 mm (the inch is 25.4 mm: international yard and pound agreement, 1959)."""
    assert set(forms("3/4 in")) & set(forms("19.05 mm")) == {"size:19.05 mm"}
    assert not set(forms("3/4 in")) & set(forms("19 mm"))
    assert set(forms("Left  Hand")) == {"text:left hand"}


@given(st.decimals(min_value=1, max_value=500, places=2), st.sampled_from(["mm", "in", "bar", "kg", "A"]))
def test_two_spellings_of_a_size_always_meet(number: object, unit: str) -> None:
    """With a decimal comma, blanks or none, a size has the same form; another number never has."""
    text = f"{number} {unit}"
    other = f"{str(number).replace('.', ',')}{unit}"
    assert read_quantity(other) is not None
    assert any(form.startswith("size:") for form in set(forms(text)) & set(forms(other)))
    assert not set(forms(text)) & set(forms(f"{number}1 {unit}"))


def test_trust_caps_what_a_shelf_says_for_something_and_not_what_it_says_against() -> None:
    """A shelf trusted with `told` cannot make a fit first-hand; its warnings stay as they are."""
    fitted, told = Evidence(how=How.FITTED, by="member"), Evidence(how=How.TOLD)
    claim = CrossFit(crossfit=Name("c"), use=Number("1"), evidence=(fitted, told), against=(fitted,))
    less = capped(claim, How.PRINTED)
    assert isinstance(less, CrossFit)
    assert [piece.how for piece in less.evidence] == [How.PRINTED, How.TOLD]
    assert less.against == claim.against
    assert capped(claim, None) is claim
    part = Part(part=Number("1"), is_=Name("x"), measured={"reach": Measured(value="9 mm")})
    less_sure = capped(part, How.TOLD)
    assert isinstance(less_sure, Part)
    assert less_sure.measured["reach"].how is How.TOLD
    car = Car(
        car=Name("c"),
        is_=Name("p"),
        facts={
            "built": Established(value=("1985",), how=How.MEASURED),
            "engine": Established(value=("1.8",)),
        },
        really_on_it={"axle": ReallyOn(number=Number("1"), how=How.TOLD)},
    )
    heard = capped(car, How.PRINTED)
    assert isinstance(heard, Car)
    assert [heard.facts["built"].how, heard.facts["engine"].how] == [How.PRINTED, None]
    assert heard.really_on_it["axle"].how is How.TOLD
