"""Charts misread on purpose: so much of them, in all the ways that are counted, and as if nothing had happened."""

from __future__ import annotations

from octavo.interpret.record import Audiogram, Threshold
from octavo.tools.train.misread import TONES_HZ, misread, trusted

CHART = Audiogram(
    thresholds=tuple(
        Threshold(ear, way, False, float(hz), 30.0, standing="ask", probability=0.9, why_ask=("faint",))
        for ear in ("right", "left")
        for way in ("air", "bone")
        for hz in TONES_HZ[:6]
    )
)


def test_nothing_is_misread_of_a_share_of_none_and_all_stands_as_sure() -> None:
    assert misread((CHART,), 0.0, 1) == trusted((CHART,))
    assert {t.standing for t in trusted((CHART,))[0].thresholds} == {"sure"}


def test_about_the_share_that_is_asked_for_is_misread_and_no_place_is_taken_twice() -> None:
    right, changed = set(trusted((CHART,))[0].thresholds), 0
    for seed in range(200):
        (one,) = misread((CHART,), 0.05, seed)
        changed += len(right - set(one.thresholds)) + max(len(set(one.thresholds) - right) - 1, 0)
        places = [(t.ear, t.conduction, t.masked, t.frequency_hz) for t in one.thresholds]
        assert len(places) == len(set(places))
        assert {t.standing for t in one.thresholds} <= {"sure"}
    assert 0.03 < changed / (200 * len(right)) < 0.06  # 5%, less what an invented value leaves of the others


def test_the_same_seed_misreads_the_same() -> None:
    assert misread((CHART,), 0.2, 7) == misread((CHART,), 0.2, 7) != misread((CHART,), 0.2, 8)
