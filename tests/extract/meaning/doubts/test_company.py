"""A page on which many marks could not be told is asked about as a whole."""

from __future__ import annotations

import pytest

from octavo.extract.meaning.doubts.company import in_bad_company, unheard_between
from octavo.interpret.record import Audiogram, Seen, Threshold


def audiogram(untold: int, sure: int, why: str = "marks-overlap") -> Audiogram:
    """Give a test with so many values that ask and so many that do not."""
    asked = [Threshold("right", "air", False, 1000.0, float(5 * i), False, "threshold", True, "ask", 0.5, (why,))
             for i in range(untold)]  # fmt: skip
    told = [Threshold("left", "air", False, 1000.0, float(5 * i), False, "threshold", True, "sure", 0.999)
            for i in range(sure)]  # fmt: skip
    return Audiogram(None, "asha-1990", (), (*asked, *told))


@pytest.mark.parametrize(
    ("untold", "sure", "stay"), [(3, 9, False), (3, 13, True), (2, 1, True)], ids=["a-fifth", "fewer", "too-few-to-say"]
)
def test_where_a_fifth_of_the_marks_cannot_be_told_the_others_ask_too(untold: int, sure: int, *, stay: bool) -> None:
    # seen on a fax: marks so fat that circles and crosses looked alike; most of those that did not ask were wrong
    (test,) = in_bad_company((audiogram(untold, sure),))
    assert all((t.standing == "sure") == stay for t in test.thresholds[untold:])
    assert all(t.why_ask for t in test.thresholds if t.standing == "ask")


def test_doubts_about_axes_and_symbol_sets_are_no_company() -> None:
    # they say nothing of how well the marks were seen
    (test,) = in_bad_company((audiogram(6, 6, "symbol-set-unknown"),))
    assert sum(t.standing == "sure" for t in test.thresholds) == 6


def test_the_share_is_that_of_the_page() -> None:
    first, second = in_bad_company((audiogram(4, 0), audiogram(0, 20)))
    assert all(t.standing == "sure" for t in second.thresholds)
    assert len(first.thresholds) == 4


def ends(levels: dict[int, tuple[float, bool, tuple[str, ...]]]) -> list[Threshold]:
    """Give a row of air: the level at each frequency, whether it was heard, and why it asks."""
    return [
        Threshold("right", "air", False, hz, level, response=heard, standing="ask" if why else "sure", probability=0.9,
                  why_ask=why, seen=Seen(0, (hz / 1e4, level / 200), float(hz), level))
        for hz, (level, heard, why) in levels.items()
    ]  # fmt: skip


HALF_SEEN = (True, ("arrow-uncertain",))


@pytest.mark.parametrize(
    ("level", "before", "after", "asks"),
    [(80, (85, *HALF_SEEN), (70, *HALF_SEEN), True), (110, (110, False, ()), (110, *HALF_SEEN), True),
     (60, (110, False, ()), (105, False, ()), False), (110, (110, False, ()), (105, True, ()), False)],
)  # fmt: skip
def test_a_value_heard_between_two_that_may_not_have_been_asks_unless_it_is_softer(
    level: float, before: tuple[float, bool, tuple[str, ...]], after: tuple[float, bool, tuple[str, ...]], *, asks: bool
) -> None:
    # arrows straight down from a mark's side, of which a scan showed some: one of seven marks stood as heard
    row = ends({1000: before, 2000: (level, True, ()), 4000: after})
    assert ("arrow-uncertain" in unheard_between(row, ())[1].why_ask) == asks
    assert unheard_between(row, [(0.2, level / 200)])[1].why_ask == ()
