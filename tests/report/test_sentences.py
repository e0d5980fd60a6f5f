"""Proofs become words in one place: every code has a sentence, and no sentence shows an unfilled value."""

from __future__ import annotations

import re
from pathlib import Path

from fitlore.model.because import Because
from fitlore.model.origin import Origin
from fitlore.report.sentences import SENTENCES, say, tree
from fitlore.report.text import plain

CODE = re.compile(r'Because\(\s*(?:code=)?f?"([a-z-]+)(\{)?')
ROW = re.compile(r'"(row-[a-z-]+)"')


def test_every_code_in_the_program_has_a_sentence(repo: Path) -> None:
    """Each code given to a Because, and each row of the verdict table, is worded."""
    missing = set()
    for file in sorted((repo / "src" / "fitlore").rglob("*.py")):
        text = file.read_text("utf-8")
        for code, computed in CODE.findall(text):
            if not computed and code not in SENTENCES:
                missing.add((file.name, code))
            if computed and not any(known.startswith(code) for known in SENTENCES):
                missing.add((file.name, code + "*"))
        if "report" not in file.parts:
            missing |= {(file.name, code) for code in ROW.findall(text) if code not in SENTENCES}
    assert not missing


def test_an_optional_part_is_left_out_when_its_value_is_empty() -> None:
    """`[ ... ]` disappears with its value, and nothing of the template is left over."""
    words = say(
        Because(
            "evidence-for",
            {"how": "fitted", "by": "shop", "date": "", "source": "", "lasted": "", "note": ""},
        )
    )
    assert words == "for it: fitted by shop"


def test_an_unknown_code_hides_nothing() -> None:
    """A code without a sentence is said with its values."""
    assert say(Because("brand-new", {"bore": "19.05 mm"})) == "brand-new: bore 19.05 mm"


def test_a_step_that_was_told_is_not_told_again() -> None:
    """Shared parts of a proof appear once; the second time they are named as above."""
    shared = Because(
        "claim",
        {"claim": "c", "use": "u", "for": "f"},
        (Origin("shop/a.yaml", 3, 1),),
        under=(Because("way"),),
    )
    text = plain(tree(Because("way-chain", {"links": "2"}, under=(shared, shared))), 80)
    assert text.count("shop/a.yaml:3:1") == 2
    assert text.count("no way in") == 1
    assert "(as above)" in text
