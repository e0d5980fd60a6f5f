"""One command line run as usual: `python -m tests.graph.counting WORDS...`; what it took is said as JSON on stderr."""

from __future__ import annotations

import json
import sys

HEAVY = ("networkx", "highspy", "rdflib", "pyshacl", "rich", "pint", "yaml", "jsonschema")


def main(words: list[str]) -> None:
    """Runs it. `opened` are the books that were opened, `heavy` the libraries that were read in."""
    opened = set[str]()

    def heard(event: str, arguments: tuple[object, ...]) -> None:
        if event == "open" and str(arguments[0]).endswith((".yaml", ".ttl")):
            opened.add(str(arguments[0]))

    sys.addaudithook(heard)
    sys.argv = ["fitlore", *words]
    from fitlore.cli.root import run

    try:
        sys.exit(run())
    finally:
        heavy = sorted(set(HEAVY) & set(sys.modules))
        print(json.dumps({"opened": sorted(opened), "heavy": heavy}), file=sys.stderr)


if __name__ == "__main__":
    main(sys.argv[1:])
