"""What is said before anything is written: the new text, objections, findings, and what it changes."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from fitlore.books.faults import shown
from fitlore.fitting import Answer, Question
from fitlore.graph.open import Graph
from fitlore.model.amounts import Money
from fitlore.model.choices import Goes, How
from fitlore.model.diagnostic import Severity
from fitlore.model.part import CrossFit, Part
from fitlore.model.record import Name, Number, PlacePath
from fitlore.model.supply import Offer
from fitlore.upkeep import draft as drafting
from fitlore.upkeep.addition import (
    Addition,
    MoreEvidence,
    NewClaim,
    NewItem,
    NewRecord,
    NewValue,
    SpeaksAgainst,
    Withdrawal,
)
from fitlore.upkeep.check import judged
from fitlore.upkeep.draft import Draft, draft
from tests.upkeep.lowbarn import TODAY, bytes_of, claim, copy_to, draft_at, graph_at, piece


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy of the small shop."""
    return copy_to(tmp_path)


def codes(found: Draft) -> list[str]:
    """The codes of its objections."""
    return [one.code for one in found.objections]


def changes(found: Draft) -> list[tuple[str, str, str, str, str]]:
    """Place, car, part, verdict before and after."""
    return [
        (
            one.place.full_path,
            one.car.car if one.car else "",
            one.part.part,
            one.before.word.value if one.before else "",
            one.after.word.value if one.after else "",
        )
        for one in found.changes
    ]


def test_a_new_claim_goes_into_the_book_of_claims(shop: Path) -> None:
    """It stands at the end in the style of the others, and what newly fits is told for platform and car."""
    before = bytes_of(shop)
    found = draft_at(shop, NewClaim(claim("lever-from-tarn", "KT 1", "TC 1", piece(note="it goes, so far"))))
    assert found.ready
    assert found.spliced is not None
    assert found.target is not None
    assert found.target.shown == "shop/crossfits.yaml"
    old = before["books/crossfits.yaml"].decode()
    assert found.spliced.data.decode() == old + (
        "\n- crossfit: lever-from-tarn\n  instead-of: KT 1\n  use: TC 1\n  evidence:\n"
        '    - {how: fitted, by: shop, date: 2026-12-02, note: "it goes, so far"}\n'
    )
    assert changes(found) == [
        ("kestin-tolland/doors/lever", "", "TC 1", "unproven", "fits"),
        ("kestin-tolland/doors/lever", "green", "TC 1", "unproven", "fits"),
    ]
    assert bytes_of(shop) == before


def test_the_what_if_graph_holds_the_claim(shop: Path) -> None:
    """`cli` asks it for prices; the graph that was asked with is as it was."""
    graph = graph_at(shop)
    found = draft(graph, NewClaim(claim("x", "KT 1", "TC 1", piece())), shop, today=TODAY)
    assert graph.crossfit("x") is None
    added = found.graph.crossfit("x")
    assert added is not None
    assert found.spliced is not None
    assert added.origin == found.spliced.origin


def test_more_evidence_goes_to_its_claim(shop: Path) -> None:
    """A trial makes a thing told a thing that fits, in class braking where only that counts; the weak word is settled."""
    nut = graph_at(shop).crossfit("nut-from-tarn")
    assert nut is not None
    found = draft_at(shop, MoreEvidence(nut, piece()))
    assert found.ready
    assert codes(found) == []
    assert changes(found) == [
        ("kestin-tolland/brakes/nut", "", "TC 5", "unproven", "fits"),
        ("kestin-tolland/brakes/nut", "green", "TC 5", "unproven", "fits"),
    ]
    assert [one.code for one in found.settled] == ["Q20-safety-on-weak-evidence"]
    assert found.findings == ()


def test_a_does_not_fit_is_as_quick(shop: Path) -> None:
    """A claim with nothing but `against` is a `does not fit`."""
    no = claim("no", "KT 1", "TC 1", against=(piece(How.OFFERED_UP),))
    found = draft_at(shop, NewClaim(no))
    assert found.ready
    assert {row[-1] for row in changes(found)} == {"does-not-fit"}


def test_a_withdrawal_is_a_later_word_of_the_same_person(shop: Path) -> None:
    """It is put under `against` as told; somebody who said nothing has nothing to withdraw."""
    nut = graph_at(shop).crossfit("nut-from-tarn")
    assert nut is not None
    found = draft_at(shop, Withdrawal(nut, "A neighbour", None, "it was another car"))
    assert found.ready
    assert found.spliced is not None
    assert "\n".join(found.spliced.lines) == (
        '  against:\n    - {how: told, by: A neighbour, note: "withdrawn: it was another car"}'
    )
    assert codes(draft_at(shop, Withdrawal(nut, "somebody"))) == ["U08-nothing-to-withdraw"]


def test_a_trap_can_be_noted_only_as_against(shop: Path) -> None:
    """M12x1.25 over 7/16-20 UNF (the near miss B of practice): a yes is refused however it is known, a no is taken."""
    yes = draft_at(shop, NewClaim(claim("trap", "KT 5", "VP 5", piece())))
    assert not yes.ready
    (trap,) = [one for one in yes.objections if one.code == "U03-trap"]
    assert trap.severity is Severity.ERROR
    assert "M12x1.25 against 7/16-20 UNF" in trap.message
    no = draft_at(shop, NewClaim(claim("trap", "KT 5", "VP 5", against=(piece(),))))
    assert no.ready
    assert codes(no) == []


def test_a_trap_at_a_place_is_one_too(shop: Path) -> None:
    """A claim for a place is held against what the place demands."""
    at = CrossFit(
        crossfit=Name("trap"),
        at=PlacePath("kestin-tolland/brakes/nut"),
        use=Number("VP 5"),
        evidence=(piece(),),
    )
    assert "U03-trap" in codes(draft_at(shop, NewClaim(at)))


def test_a_trap_that_only_the_place_knows(shop: Path) -> None:
    """The part it replaces has no thread written; the place says which: a claim that would bring the part there is a trap."""
    book = shop / "books" / "things.yaml"
    text = book.read_text("utf-8").replace("features: {bolt: 7/16-20 UNF}", "note: not measured", 1)
    text = text.replace(
        "nut: {is: test-nut, original: KT 5}",
        "nut: {is: test-nut, original: KT 5, must-be: {bolt: 7/16-20 UNF}}",
    )
    book.write_text(text, "utf-8")
    found = draft_at(shop, NewClaim(claim("trap", "KT 5", "VP 5", piece())))
    assert codes(found) == ["U03-trap"]
    assert not found.ready
    far = draft_at(shop, NewClaim(claim("far", "KT 5", "VP 5", piece(), reaches=("tarn-corva",))))
    assert codes(far) == []


def test_evidence_put_in_as_an_item_is_judged_too(shop: Path) -> None:
    """No way of adding gets a word for a trap in; a word against it goes in by any."""
    no = draft_at(shop, NewClaim(claim("trap", "KT 5", "VP 5", against=(piece(),))))
    assert no.spliced is not None
    (shop / "books" / "crossfits.yaml").write_bytes(no.spliced.data)
    trap = graph_at(shop).crossfit("trap")
    assert trap is not None
    assert "U03-trap" in codes(draft_at(shop, NewItem(trap, ("evidence",), piece(day="2026-12-03"))))
    assert draft_at(shop, NewItem(trap, ("against",), piece(day="2026-12-03"))).ready


def test_a_part_that_makes_an_old_claim_a_trap_is_a_finding(shop: Path) -> None:
    """What an objection does not say, because another record is being added, the rules say."""
    found = draft_at(shop, NewClaim(claim("x", "KT 5", "BR 5", piece())))
    assert found.spliced is not None
    (shop / "books" / "crossfits.yaml").write_bytes(found.spliced.data)
    nut = Part(part=Number("BR 5"), maker="Brede", is_=Name("test-nut"), features={"bolt": ("M12x1.25",)})
    added = draft_at(shop, NewRecord(nut))
    assert [one.code for one in added.findings] == ["Q16-claim-over-a-trap"]
    assert {row[-1] for row in changes(added)} == {"does-not-fit"}


def test_further_words_for_a_trap_are_refused(shop: Path) -> None:
    """Evidence for a claim that somebody wrote by hand over a trap does not get in."""
    book = shop / "books" / "crossfits.yaml"
    text = "\n- crossfit: trap\n  instead-of: KT 5\n  use: VP 5\n  evidence: [{how: told, by: x}]\n"
    book.write_text(book.read_text("utf-8") + text, "utf-8")
    trap = graph_at(shop).crossfit("trap")
    assert trap is not None
    found = draft_at(shop, MoreEvidence(trap, piece()))
    assert not found.ready
    assert codes(found) == ["U03-trap"]
    assert draft_at(shop, SpeaksAgainst(trap, piece())).ready


def test_a_measure_that_says_no_is_told(shop: Path) -> None:
    """131 mm against 120 mm within 1 mm: it may be noted, and is disputed; work that waives the feature settles it."""
    lever = graph_at(shop).crossfit("lever-from-ostra")
    assert lever is not None
    found = draft_at(shop, MoreEvidence(lever, piece()))
    assert found.ready
    assert codes(found) == ["U05-contradicted", "U04-measures-say-no"]
    assert {row[-2:] for row in changes(found)} == {("does-not-fit", "disputed")}
    waived = claim("bent", "TC 1", "OS 1", piece(), waives=("length",))
    assert codes(draft_at(shop, NewClaim(waived))) == []


def test_words_to_the_contrary_are_told(shop: Path) -> None:
    """Of this claim or of another between the same parts, first-hand, with the person and the line."""
    found = draft_at(shop, NewClaim(claim("again", "KT 1", "OS 1", piece(), waives=("length",))))
    (one,) = [one for one in found.objections if one.code == "U05-contradicted"]
    assert "offered-up by shop 2026-05-11" in one.message
    assert "`lever-from-ostra` at shop/crossfits.yaml:16:7" in one.message


def test_what_is_there_already_is_refused(shop: Path) -> None:
    """The same claim under another name, another claim under the same name, and the same word twice."""
    same = draft_at(shop, NewClaim(claim("nut-2", "kt 5", "TC-5", piece(), reaches=("kestin-tolland",))))
    assert codes(same)[0] == "U01-known-already"
    assert not same.ready
    elsewhere = claim("nut-2", "KT 5", "TC 5", piece(), reaches=("tarn-corva",))
    assert "U01-known-already" not in codes(draft_at(shop, NewClaim(elsewhere)))
    assert "U02-name-taken" in codes(
        draft_at(shop, NewClaim(claim("nut-from-tarn", "KT 1", "TC 1", piece())))
    )
    contrary = claim("no", "KT 1", "OS 1", against=(piece(),), reaches=("kestin-tolland",))
    assert codes(draft_at(shop, NewClaim(contrary)))[0] == "U01-known-already"
    lever = graph_at(shop).crossfit("lever-from-ostra")
    assert lever is not None
    again = lever.against[0]
    assert codes(draft_at(shop, SpeaksAgainst(lever, again)))[0] == "U01-known-already"


def test_one_way_or_both(shop: Path) -> None:
    """Equal parts: one-way may be both-ways. Unequal parts: both-ways is not shown."""
    one_way = draft_at(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    assert codes(one_way) == ["U07-other-direction-too"]
    assert one_way.ready
    both = draft_at(shop, NewClaim(claim("x", "KT 1", "TC 1", piece(), goes=Goes.BOTH_WAYS)))
    assert codes(both) == []
    assert {row[0] for row in changes(both)} == {"kestin-tolland/doors/lever", "tarn-corva/doors/lever"}
    unequal = draft_at(shop, NewClaim(claim("x", "TC 1", "OS 1", piece(), goes=Goes.BOTH_WAYS)))
    assert codes(unequal) == ["U04-measures-say-no", "U06-not-both-ways"]


def test_both_ways_with_work_is_refused_as_reading_would(shop: Path) -> None:
    """What a book may not say is told before it is written."""
    made = claim("x", "KT 1", "TC 1", piece(), goes=Goes.BOTH_WAYS, only_if={"built": _built("../1986")})
    found = draft_at(shop, NewClaim(made))
    assert "B75-both-ways-with-limits" in codes(found)
    assert not found.ready


def _built(text: str) -> object:
    from fitlore.model.platform import Cond

    return Cond(any_=(text,))


def test_findings_that_come_and_go(shop: Path) -> None:
    """A claim of an unlisted part is a new finding; listing the part settles it."""
    found = draft_at(shop, NewClaim(claim("x", "KT 1", "QQ 9", piece())))
    assert [one.code for one in found.findings] == ["Q01-unknown-part-in-claim"]
    book = shop / "books" / "crossfits.yaml"
    assert found.spliced is not None
    book.write_bytes(found.spliced.data)
    part = Part(part=Number("QQ 9"), maker="Brede", is_=Name("test-lever"))
    settled = draft_at(shop, NewRecord(part))
    assert settled.target is not None
    assert settled.target.shown == "shop/parts.yaml"
    assert [one.code for one in settled.settled] == ["Q01-unknown-part-in-claim"]
    assert settled.findings == ()


def additions(graph: Graph) -> dict[str, Addition]:
    """One of each, for laws about all."""
    nut, lever = graph.crossfit("nut-from-tarn"), graph.crossfit("lever-from-ostra")
    (offer, _) = graph.offers_by("northgate")
    supplier = graph.supplier("northgate")
    assert nut is not None
    assert lever is not None
    assert supplier is not None
    new = Offer(number=Number("KT 9"), price=Money(amount=offer.offer.price.amount, currency="GBP"))  # type: ignore[union-attr]
    return {
        "claim": NewClaim(claim("x", "KT 1", "TC 1", piece())),
        "claim of unknown part": NewClaim(claim("x", "KT 1", "QQ 1", piece(How.TOLD))),
        "claim against measure": NewClaim(claim("x", "TC 1", "OS 1", piece(), goes=Goes.BOTH_WAYS)),
        "evidence": MoreEvidence(nut, piece()),
        "against": SpeaksAgainst(nut, piece()),
        "withdrawal": Withdrawal(nut, "a neighbour"),
        "weak word": NewClaim(claim("x", "TC 5", "KT 5", piece(How.TOLD))),
        "offer": NewItem(supplier, ("offers",), new),
        "price": NewValue(offer, ("price",), "9.00 GBP"),
        "part": NewRecord(Part(part=Number("KT 2"), maker="Kestin", is_=Name("no-such-kind"))),
    }


@pytest.mark.parametrize("name", additions(graph_at(Path(__file__).with_name("shop"))))
def test_findings_are_those_of_the_whole(shop: Path, name: str) -> None:
    """The rules run around the change only; over the whole knowledge base, before and after, the difference is the same."""
    graph = graph_at(shop)
    found = draft(graph, additions(graph)[name], shop, today=TODAY)
    before = {(one.code, one.message) for one in judged(graph, TODAY)}
    after = {(one.code, one.message) for one in judged(found.graph, TODAY)}
    said_already = {row for row in after if row[0] in drafting._SAID_ALREADY}
    assert {(one.code, one.message) for one in found.findings} == after - before - said_already
    assert {(one.code, one.message) for one in found.settled} == before - after


def test_offers_are_added_and_changed(shop: Path) -> None:
    """A quote heard on the phone is an item of the supplier, or another price in its offer, in that supplier's book."""
    graph = graph_at(shop)
    added = draft_at(shop, additions(graph)["offer"])
    assert added.spliced is not None
    assert added.spliced.lines == ("    - number: KT 9", "      price: 2.50 GBP")
    assert [one.code for one in added.findings] == ["Q02-unknown-part-in-offer"]
    offers = graph.offers_by("northgate")
    for offer, old, new in ((offers[0], b"2.50 GBP", b"9.00 GBP"), (offers[1], b"0.80 GBP", b"9.00 GBP")):
        found = draft_at(shop, NewValue(offer, ("price",), "9.00 GBP"))
        assert found.target is not None
        assert found.spliced is not None
        text = found.target.path.read_bytes()
        assert found.spliced.data == text.replace(old, new)


def test_a_word_on_another_shelf_goes_into_a_claim_of_our_own(shop: Path) -> None:
    """The club's book is not ours: our word stands alone in our own claim of that name, and the next one joins it."""
    club = graph_at(shop).crossfit("club:club-lever")
    assert club is not None
    found = draft_at(shop, MoreEvidence(club, piece()))
    assert found.ready
    assert found.spliced is not None
    assert found.target is not None
    assert found.target.shown == "shop/crossfits.yaml"
    assert "\n".join(found.spliced.lines) == (
        "- crossfit: club-lever\n  instead-of: KT 1\n  use: TC 1\n  reaches: kestin-tolland\n  evidence:\n"
        "    - {how: fitted, by: shop, date: 2026-12-02}"
    )
    found.target.path.write_bytes(found.spliced.data)
    again = draft_at(shop, SpeaksAgainst(club, piece(day="2026-12-03")))
    assert again.spliced is not None
    assert "\n".join(again.spliced.lines) == "  against:\n    - {how: fitted, by: shop, date: 2026-12-03}"


def test_what_is_not_ours_cannot_be_changed(shop: Path) -> None:
    """A withdrawal, an item or a value in another shelf's book is refused."""
    club = graph_at(shop).crossfit("club-lever")
    assert club is not None
    assert codes(draft_at(shop, Withdrawal(club, "club"))) == ["U13-not-ours"]
    assert codes(draft_at(shop, NewValue(club, ("why",), "x"))) == ["U13-not-ours"]


def test_no_book_no_shelf_no_record(shop: Path) -> None:
    """A book that is not there is made; without a shelf, or with the record gone, nothing can be."""
    nut = graph_at(shop).crossfit("nut-from-tarn")
    assert nut is not None
    graph = graph_at(shop)
    (shop / "books" / "crossfits.yaml").write_text("# empty now\n", "utf-8")
    assert codes(draft(graph, MoreEvidence(nut, piece()), shop, today=TODAY)) == ["U09-no-such-record"]
    (shop / "books" / "crossfits.yaml").unlink()
    found = draft_at(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    assert found.seen is not None
    assert found.seen.data is None
    assert found.spliced is not None
    assert found.spliced.data.startswith(b"- crossfit: x\n")
    (shop / "fitlore.yaml").write_text("shop: lowbarn\n", "utf-8")
    none = draft(graph, NewClaim(claim("x", "KT 1", "TC 1", piece())), shop, today=TODAY)
    assert codes(none) == ["U10-no-shelf-of-ones-own"]


def test_a_book_that_cannot_be_added_to_is_left(shop: Path) -> None:
    """The refusal of the splice is an objection, with the lines to paste."""
    (shop / "books" / "crossfits.yaml").write_text("[]\n", "utf-8")
    found = draft_at(shop, NewClaim(claim("x", "KT 1", "TC 1", piece())))
    assert codes(found)[-1] == "A01-not-by-splice"
    assert "- crossfit: x" in found.objections[-1].remedy
    assert not found.ready


def test_verdicts_can_be_asked_elsewhere(shop: Path) -> None:
    """Whoever drafts may bring its own verdicts: it is asked about the places that are touched, before and after."""
    asked: list[tuple[bool, list[str]]] = []

    def none(graph: Graph, questions: Sequence[Question]) -> list[Answer]:
        asked.append((graph.crossfit("x") is not None, [q.place.full_path for q in questions]))
        from fitlore.upkeep.effects import answers

        return answers(graph, questions)

    draft(graph_at(shop), NewClaim(claim("x", "KT 1", "TC 1", piece())), shop, today=TODAY, verdicts=none)
    places = ["kestin-tolland/doors/lever", "kestin-tolland/doors/lever"]
    assert asked == [(False, places), (True, places)]


def test_objections_read_well(shop: Path) -> None:
    """Every objection has its place, what was expected, and what to do."""
    for found in (draft_at(shop, addition) for addition in additions(graph_at(shop)).values()):
        for one in found.objections:
            assert one.expected
            assert one.remedy
            assert "{" not in shown(one).replace("{how", "").replace("{number", "")
