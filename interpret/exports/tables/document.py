"""The page that documents every column, made from the columns themselves.

``python -m octavo.interpret.exports.tables.document > interpret/exports/tables/TABLES.md`` makes it anew.
"""

from __future__ import annotations

import sys

from .columns import FINDING_COLUMNS, THRESHOLD_COLUMNS

_HEAD = """\
# The tables

`octavo read FILE… --table OUT.csv` writes `OUT.csv`, one row a threshold, and beside it `OUT-findings.csv`, one row a
finding; `--table OUT.parquet` the same as Parquet files, which keep the kinds of the columns (it needs the package
pyarrow: `pip install "octavo[parquet]"`). Both files are written when all is read, whole or not at all. A page without
a value has no row.

CSV files are UTF-8 with commas, a head line, `true` and `false`, and nothing between the commas where a column is
empty. A text from outside (a file's name) that a spreadsheet would take for a formula, because it begins with `=`, `+`,
`-` or `@`, stands with an apostrophe before it.

```python
thresholds = pandas.read_csv("OUT.csv")
sure = thresholds[(thresholds.standing == "sure") & thresholds.response]
```

```r
thresholds <- read.csv("OUT.csv")
sure <- subset(thresholds, standing == "sure" & response == "true")
```
"""
_TABLE = "| column | holds | unit | meaning | empty where |\n| --- | --- | --- | --- | --- |"


def documentation() -> str:
    """Give the page that documents every column, Markdown."""
    parts = [_HEAD]
    for heading, columns in (("One row a threshold", THRESHOLD_COLUMNS), ("One row a finding", FINDING_COLUMNS)):
        rows = [f"| `{c.name}` | {c.kind} | {c.unit} | {c.meaning} | {c.empty} |" for c in columns]
        parts.append("\n".join((f"\n## {heading}\n", _TABLE, *rows, "")))
    return "".join(parts)


if __name__ == "__main__":
    sys.stdout.write(documentation())
