"""Which pages of a file belong together, in words; nobody is named."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from ..exports.printable import printable_text
from ..exports.threshold_table import WIDTH
from ..reasons import REASONS
from ..reports.groups import DatedTest, ReportGroup


def who_is_who(groups: Sequence[ReportGroup], *, ascii_only: bool = False) -> str:
    """Say which pages of one file are one report, and which tests it holds.

    Parameters
    ----------
    groups : sequence of ReportGroup
        Of one file; where they are hidden, it goes by another name in each, and is not named.
    ascii_only : bool
        Use ASCII characters alone.

    Returns
    -------
    str
        Plain text, lines of at most 100 characters, no line end at the end. Patients are not named.
    """
    names = {record.source.name for group in groups for record in group.records}
    name = printable_text(names.pop(), ascii_only=ascii_only) if len(names) == 1 else "One file"
    if all("patient-not-named" in group.why_ask for group in groups):
        said = "no page says whose it is, so that nothing is known of which pages belong together."
        return "\n".join(textwrap.wrap(f"{name}: {said}", WIDTH))
    lines = textwrap.wrap(f"{name}: {len(groups)} report{'s' if len(groups) > 1 else ''}", WIDTH)
    lines.append("=" * len(lines[-1]))
    for number, group in enumerate(groups, 1):
        asks = "; to check" if group.standing == "ask" else ""
        tests = "; ".join(map(_test, group.tests)) or "no test"
        lines += _item(f"Report {number}, {_pages(group.pages)}: {tests}{asks}", "- ")
        for code in group.why_ask:
            lines += _item(f"{REASONS[code].name}: {REASONS[code].text}. {REASONS[code].do}.", "  - ")
    return "\n".join(lines)


def _item(text: str, lead: str) -> list[str]:
    return textwrap.wrap(text, WIDTH, initial_indent=lead, subsequent_indent=" " * len(lead), break_on_hyphens=False)


def _test(test: DatedTest) -> str:
    when = f"tested on {test.tested_on}" if test.tested_on else "test date not read"
    return f"{when} ({_pages(test.pages)})"


def _pages(pages: Sequence[int]) -> str:
    runs = list(_runs(sorted(pages)))
    text = ", ".join(str(a) if a == b else f"{a}-{b}" if b > a + 1 else f"{a}, {b}" for a, b in runs)
    return f"page{'s' if len(pages) > 1 else ''} {text}"


def _runs(numbers: Sequence[int]) -> Iterator[tuple[int, int]]:
    start = last = numbers[0]
    for number in numbers[1:]:
        if number != last + 1:
            yield start, last
            start = number
        last = number
    yield start, last
