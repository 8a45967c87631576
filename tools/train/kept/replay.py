"""Find the meaning of kept pages anew and hold it against the truth.

Run as ``python -m octavo.tools.train.kept.replay FILE...``. Printed are, by way and kind of page: exact, sure and
silent values, why right ones ask, and every silent error with its page.
"""

from __future__ import annotations

import argparse
from collections import Counter, defaultdict
from pathlib import Path

from ....interpret.record import Threshold
from ...bench.matching import compare
from ...painter import FAMILIES
from .order import BY_HAND, Order
from .page import kept_pages


def kind_of(order: Order) -> str:
    """Name the kind of page that an order is for: its way, its ink, and whether it is filled in by hand."""
    hands = "pen" if FAMILIES[order.family].tags & BY_HAND else "print"
    return f"{order.way} {'mono' if order.mono else 'colour'} {hands}"


def main() -> None:
    """Read the arguments and print what became of the values."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", type=Path)
    parser.add_argument("--only", default="", help="kinds or families whose name holds this")
    parser.add_argument("--causes", type=int, default=12, help="causes of asking to list")
    args = parser.parse_args()
    sums: defaultdict[str, Counter[str]] = defaultdict(Counter)
    causes: defaultdict[str, Counter[str]] = defaultdict(Counter)
    for page in kept_pages(args.files):
        kind = kind_of(page.order)
        if args.only not in f"{kind} {page.order.family}":
            continue
        sums[kind]["pages"] += 1
        for finding in compare(page.truth, page.meant()[1]):
            read = finding.read
            sums[kind]["values"] += finding.truth is not None
            sums[kind][finding.verdict] += 1
            sums[kind]["silent"] += finding.silent
            if finding.silent:
                print("silent", page.order, finding.verdict, _brief(finding.truth), _brief(read))
            if finding.exact and read and read.standing == "sure":
                sums[kind]["sure"] += 1
            elif finding.exact and read:
                causes[kind]["+".join(sorted(read.why_ask))] += 1
    for kind, counts in sorted(sums.items()):
        values = max(1, counts["values"])
        print(
            f"{kind}: {counts['pages']} pages, {values} values, exact {counts['right'] / values:.2%}, "
            f"sure {counts['sure'] / values:.2%}, silent {counts['silent']}; "
            + ", ".join(f"{verdict} {n}" for verdict, n in sorted(counts.items()) if "-" in verdict)
            + f", missed {counts['missed']}, invented {counts['invented']}"
        )
        for cause, n in causes[kind].most_common(args.causes):
            print(f"    {n:5d} {n / values:.2%} {cause}")


def _brief(value: Threshold | None) -> str:
    if value is None:
        return "-"
    masked = "masked" if value.masked else "unmasked"
    words = (
        f"{value.ear} {value.conduction} {masked} {value.measure} {value.frequency_hz:g} Hz {value.level_db_hl:g} dB"
    )
    return f"{words} {value.response} p={value.probability:.3f} {'+'.join(value.why_ask)}"


if __name__ == "__main__":
    main()
