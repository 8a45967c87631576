"""Hearing that worsened between two tests."""

from __future__ import annotations

import pytest
from invented_pages import value

from octavo.interpret.record import Audiogram
from octavo.interpret.rules.referral.worsening import worsening

HZ = (500, 1000, 2000, 4000)


def on(day: str | None, *levels: float) -> Audiogram:
    return Audiogram(day, thresholds=tuple(value("left", hz, db) for hz, db in zip(HZ, levels, strict=True)))


# NICE NG98, 1.1.2: worsening over 4 to 90 days. J Med Genet, table of clinical parameters: over 15 dB at two
# frequencies or over 10 dB on the mean of 0.5 to 4 kHz.
@pytest.mark.parametrize(
    ("day", "levels", "told"),
    [
        ("2024-03-31", (30, 30, 10, 10), 1), ("2024-03-31", (25, 25, 10, 10), 0), ("2024-03-31", (20, 20, 20, 20), 0),
        ("2024-03-31", (25, 20, 20, 20), 1), ("2024-06-30", (40, 40, 40, 40), 0), (None, (40, 40, 40, 40), 0),
        ("2023-12-01", (40, 40, 40, 40), 0),
    ],
)  # fmt: skip
def test_worsening_within_90_days_should_be_seen(day: str | None, levels: tuple[float, ...], told: int) -> None:
    found = list(worsening(on("2024-01-15", 10, 10, 10, 10), on(day, *levels)))
    assert [(one.code, one.ear) for one in found] == [("refer-worsening", "left")] * told


def test_30_db_at_three_frequencies_within_3_days_is_a_sudden_loss_s_size() -> None:
    codes = [one.code for one in worsening(on("2024-01-15", 10, 10, 10, 10), on("2024-01-18", 40, 40, 40, 10))]
    assert codes == ["refer-worsening", "refer-if-sudden"]


def test_hearing_that_became_better_is_not_told() -> None:
    assert list(worsening(on("2024-01-15", 40, 40, 40, 40), on("2024-01-18", 10, 10, 10, 10))) == []
