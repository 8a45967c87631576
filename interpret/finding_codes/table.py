"""The documented table of every kind of finding, made from the registry.

``python -m octavo.interpret.finding_codes.table > interpret/finding_codes/FINDINGS.md`` makes it anew.
"""

from __future__ import annotations

import sys
from itertools import groupby

from . import FINDING_CODES

_HEAD = """\
# Every finding

What `findings.found` of a page record may hold, made from the registry (`interpret/finding_codes/`; a test compares).
Each finding has its `code`, the `rule` by its published name, whose ear and which frequency, the `word` or `number`
that was found with its unit, and what it rests on:

- `standing` is `ask` where a value that a person must look at decided; `rests_on` names its frequency, `range` from
  where to where the number could be, `could_be` every word that it could be. A value that stands as `ask` is taken for
  10 dB off at most, either way (`interpret/rules/doubt.py`).
- `at_least`: something was not heard, and its level entered: the number is this one or more; the open end of the range
  is `null`.
- `missing_hz`: the rule needs these frequencies and they have no value. There is no number or word then.

"Checked" says whether the numbers of the rule were read in a public text while octavo was built; "common practice" that
they are what is commonly taught and not checked against the source yet. Rules describe groups or practice; none of them
is a diagnosis.
"""
_COLUMNS = "| code | says | rule | source | checked | what to do |\n| --- | --- | --- | --- | --- | --- |"


def findings_table() -> str:
    """Give the whole documented page, Markdown."""
    parts = [_HEAD]
    for part, codes in groupby(FINDING_CODES.values(), key=lambda code: code.part):
        rows = [
            f"| `{one.code}` | {one.meaning} | {one.rule} | {one.source} | "
            f"{'checked' if one.checked else 'common practice'} | {one.do} |"
            for one in codes
        ]
        parts.append("\n".join((f"\n## {part[0].upper()}{part[1:]}\n", _COLUMNS, *rows, "")))
    return "".join(parts)


if __name__ == "__main__":
    sys.stdout.write(findings_table())
