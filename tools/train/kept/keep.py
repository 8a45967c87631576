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
from ..painters import start_painter
from .order import Order, orders
from .page import look, packed

MOST_BYTES = 14_000_000
"""Of one file: what comes back from a lent machine is limited a file."""

OFTEN = 50
"""The last file is written anew after so many pages."""

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
    until, written, faults = time.monotonic() + args.seconds, _Files(args.out), 0
    with multiprocessing.get_context("spawn").Pool(args.workers, start_painter, (args.fonts,)) as pool:
        for order, page, fault in pool.imap_unordered(kept, wanted):
            if page is None:
                faults += 1
                print(order, fault)
            else:
                written.add(page)
            if time.monotonic() > until:
                break
        written.close()
        print(f"{written.pages} of {len(wanted)} pages kept, {faults} faults", flush=True)
        pool.terminate()


class _Files:
    """Files of pages, the last of them written anew as pages come, so that a run cut short keeps nearly all."""

    def __init__(self, out: Path) -> None:
        self._out = out
        self._held: list[bytes] = []
        self._number = 0
        self.pages = 0

    def add(self, page: bytes) -> None:
        self._held.append(page)
        self.pages += 1
        if sum(map(len, self._held)) > MOST_BYTES:
            self.close()
            self._held, self._number = [], self._number + 1
        elif self.pages % OFTEN == 0:
            self.close()

    def close(self) -> None:
        if self._held:
            self._out.with_name(f"{self._out.name}-{self._number}.kept").write_bytes(pickle.dumps(self._held))


if __name__ == "__main__":
    main()
