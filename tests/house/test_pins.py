"""The pins name one version and its hashes for everything that is installed, and fit pyproject.toml."""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import requires, version
from pathlib import Path
from typing import NamedTuple

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

PIN = re.compile(
    r"(?P<need>[a-z0-9-]+==[^\s;]+( ; [^\\]+)?)(?P<hashes>( \\\n    --hash=sha256:[0-9a-f]{64})+)\n"
)


class Pin(NamedTuple):
    """One pinned package: the version, and where it is wanted ("" is everywhere)."""

    version: str
    where: str


def read(text: str) -> dict[str, Pin]:
    """The pins of a file, by name; anything else than pins with hashes, and comments, is refused."""
    bare = re.sub(r"^ *#.*\n", "", text, flags=re.MULTILINE)
    assert PIN.sub("", bare) == "", "something else than a pin with its hashes"
    needs = [Requirement(found["need"]) for found in PIN.finditer(bare)]
    assert len({need.name for need in needs}) == len(needs), "one version for all Pythons"
    return {need.name: Pin(str(need.specifier).removeprefix("=="), str(need.marker or "")) for need in needs}


@pytest.fixture(scope="module")
def running(repo: Path) -> dict[str, Pin]:
    """What running needs, and building."""
    return read((repo / ".pins" / "run.txt").read_text("utf-8"))


@pytest.fixture(scope="module")
def testing(repo: Path) -> dict[str, Pin]:
    """What testing needs."""
    return read((repo / ".pins" / "test.txt").read_text("utf-8"))


def holds(need: Requirement) -> bool:
    """Whether the need applies here, no extra being asked for."""
    return need.marker is None or need.marker.evaluate({"extra": ""})


def test_only_pins_with_hashes_are_accepted() -> None:
    """An option, a pin without hash and a looser bound are all refused by the reading above."""
    good = f"one==1.0 ; python_full_version < '3.12' \\\n    --hash=sha256:{'0' * 64}\n    # via two\n"
    assert read(good) == {"one": Pin("1.0", 'python_full_version < "3.12"')}
    for bad in ("--find-links x\n", "two==2\n", f"two>=2 \\\n    --hash=sha256:{'0' * 64}\n"):
        with pytest.raises(AssertionError, match="something else"):
            read(good + bad)


def test_the_smaller_set_is_part_of_the_larger(running: dict[str, Pin], testing: dict[str, Pin]) -> None:
    """So an environment made for the tests will do for the demo."""
    assert running.items() < testing.items()


def test_every_stated_need_is_pinned_within_its_bounds(
    repo: Path, running: dict[str, Pin], testing: dict[str, Pin]
) -> None:
    """Needs to run, to build and to test: each is pinned, at a version the stated bound allows."""
    stated = tomllib.loads((repo / "pyproject.toml").read_text("utf-8"))
    groups = stated["dependency-groups"]
    assert set(stated["build-system"]["requires"]) == set(groups["build"])
    tests = [need for need in groups["test"] if isinstance(need, str)]
    for needs, pins in ((stated["project"]["dependencies"] + groups["build"], running), (tests, testing)):
        for need in map(Requirement, needs):
            assert need.specifier.contains(pins[canonicalize_name(need.name)].version), need


def test_what_is_installed_is_what_is_pinned(testing: dict[str, Pin]) -> None:
    """The environment these tests run in has the pinned versions, and pins for what those need in turn."""
    here = {
        name: pin
        for name, pin in testing.items()
        if holds(Requirement(f"{name} ; {pin.where}" if pin.where else name))
    }
    assert {name: version(name) for name in here} == {name: pin.version for name, pin in here.items()}
    for name in here:
        for need in map(Requirement, requires(name) or []):
            if holds(need):
                assert canonicalize_name(need.name) in here, f"{name} needs {need}"
