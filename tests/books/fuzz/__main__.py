"""The long mode: `python -m tests.books.fuzz --minutes 5`, or one case again: `--seed 7 --case 1234`."""

from __future__ import annotations

import argparse
import sys
import time
from pathlib import Path

from tests.books.fuzz.bounds import tried_in_child
from tests.books.fuzz.cases import case, check
from tests.books.fuzz.seeds import records


def main() -> int:
    """Tries cases for so many minutes, or one case; prints what failed, and how to try it again. Exit 1 where one did."""
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--minutes", type=float, default=1.0)
    words.add_argument("--seed", type=int, default=int(time.time()))
    words.add_argument("--case", type=int, help="only this case, in this process")
    words.add_argument("--keep", type=Path, help="a file to write the bytes of that case to")
    asked = words.parse_args()
    records()
    if asked.case is not None:
        if asked.keep:
            asked.keep.write_bytes(case(asked.seed, asked.case).data)
        print(f"{check(asked.seed, asked.case)} records kept")
        return 0
    tried = tried_in_child(
        lambda number: check(asked.seed, number), range(1_000_000), until=time.time() + asked.minutes * 60
    )
    for one in tried.failed:
        print(f"--seed {asked.seed} --case {one.number}\n{one.how}\n")
    print(
        f"{tried.cases} cases, {tried.total} records kept, slowest {tried.slowest:.2f} s, {len(tried.failed)} failed"
    )
    return 1 if tried.failed else 0


if __name__ == "__main__":
    sys.exit(main())
