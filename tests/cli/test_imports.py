"""A warm question pays for no library it does not use."""

from __future__ import annotations

import os
import re
import subprocess
import sys

import pytest

from tests.demo.shop import REPO, Shop

HEAVY = {"highspy", "networkx", "numpy", "pint", "pyshacl", "rdflib", "rich", "scipy", "yaml"}
LINE = re.compile(r"import time:\s+\d+ \|\s+\d+ \|\s*([\w.]+)")


def imported(shop: Shop, words: tuple[str, ...]) -> set[str]:
    """Top-level names of every module that a call imports."""
    env = {**os.environ, "FITLORE_CACHE": str(shop.folder.parent / "cache"), "PYTHONPATH": str(REPO / "src")}
    done = subprocess.run(
        [sys.executable, "-X", "importtime", "-m", "fitlore", *words],
        cwd=shop.folder, env=env, capture_output=True, text=True, check=True, timeout=120,
    )  # fmt: skip
    return {name.partition(".")[0] for name in LINE.findall(done.stderr)}


@pytest.mark.parametrize("words", [("fits", "rear wheel cylinder"), ("car",), ("why", "1")])
def test_a_warm_question_imports_nothing_heavy(words: tuple[str, ...], asked: Shop) -> None:
    """Neither solver nor graph library, neither RDF nor YAML reader, nor what colours a terminal."""
    asked.call("fits", "rear wheel cylinder")
    names = imported(asked, words)
    assert {"fitlore", "click", "msgspec"} <= names
    assert names & HEAVY == set()


def test_the_measure_sees_a_heavy_import(asked: Shop) -> None:
    """A plan does need the solver: the same look at a plan finds it."""
    assert "highspy" in imported(asked, ("plan",))
