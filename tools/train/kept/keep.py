"""Paint pages, read them up to the measured charts, and keep that.

Run as ``python -m octavo.tools.train.kept.keep OUT ORDER...``; see ``orders`` for what an order looks like, such as
``scan:80000000:400:train:colour:print``. Some 1.5 s a page and core; ``replay`` then needs 20 ms a page.
"""

from __future__ import annotations

import argparse
import multiprocessing
import pickle
import time
import traceback
from pathlib import Path

import numpy as np

from ....interpret.errors import OctavoError
from ..school import start_painter
from .order import Order, orders
from .page import look, packed

MOST_BYTES = 14_000_000
"""Of one file: what comes back from a lent machine is limited a file."""


FAULTS = (OctavoError, ValueError, ArithmeticError, LookupError, AttributeError, TypeError)
"""What one page may fail with and be told, instead of being lost with the rest."""


def kept(order: Order) -> tuple[Order, bytes | None, str]:
    """Look at one page; give it packed, or None with the fault."""
    try:
        page = look(order)
    except FAULTS:
        return order, None, traceback.format_exc()
    return order, packed(page) if page else None, "" if page else "no readable page"


def main() -> None:
    """Read the arguments, keep every page, and say how many there are."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("out", type=Path, help="what the files' names begin with")
    parser.add_argument("orders", nargs="+", metavar="WAY:FIRST:PAGES:SPLIT:INK:HANDS")
    parser.add_argument("--fonts", default=None, help="folder of font files, where the packages are not installed")
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--seconds", type=float, default=float("inf"), help="stop then with what there is")
    args = parser.parse_args()
    wanted = [order for words in args.orders for order in orders(words)]
    wanted = [wanted[i] for i in np.random.default_rng(0).permutation(len(wanted))]  # any part is a fair sample
    until, done, faults = time.monotonic() + args.seconds, [], 0
    with multiprocessing.get_context("spawn").Pool(args.workers, start_painter, (args.fonts,)) as pool:
        for order, page, fault in pool.imap_unordered(kept, wanted):
            if page is None:
                faults += 1
                print(order, fault)
            else:
                done.append(((order.way, order.seed, order.family), page))
            if time.monotonic() > until:
                break
        pool.terminate()
    done.sort(key=lambda pair: pair[0])
    _write(args.out, [page for _, page in done])
    print(f"{len(done)} of {len(wanted)} pages kept, {faults} faults")


def _write(out: Path, pages: list[bytes]) -> None:
    held: list[bytes] = []
    number = 0
    for place, page in enumerate(pages):
        held.append(page)
        if sum(map(len, held)) > MOST_BYTES or place == len(pages) - 1:
            out.with_name(f"{out.name}-{number}.kept").write_bytes(pickle.dumps(held))
            held, number = [], number + 1


if __name__ == "__main__":
    main()
