"""Words of reports in capitals and small letters, as they stand in printed lines on real pages."""

from __future__ import annotations
