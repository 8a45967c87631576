"""Kept pages: their meaning found anew is what reading the page's file gives."""

from __future__ import annotations

import pickle
from pathlib import Path

import pytest

from octavo.extract.choices import Choices
from octavo.extract.intake import pages
from octavo.extract.page import Page
from octavo.extract.road import read_page
from octavo.interpret.rules.plausibility import with_doubts
from octavo.tools.train.kept.order import Order, orders, painted
from octavo.tools.train.kept.page import kept_pages, look, packed

ORDER = Order("single", 83_000_001, "fax-fine", mono=False)


def test_meaning_found_anew_is_the_reading_of_the_file(tmp_path: Path) -> None:
    page = next(iter(pages(painted(ORDER, str(tmp_path)).path)))
    assert isinstance(page, Page)
    read = with_doubts(read_page(page, Choices(report=False)))
    kept = look(ORDER)
    assert kept is not None
    again = kept.meant()[1]
    assert again.audiograms == read.audiograms
    assert again.remarks == read.remarks
    assert again.audiograms[0].thresholds


def test_a_file_of_kept_pages_gives_them_back(tmp_path: Path) -> None:
    kept = look(ORDER)
    assert kept is not None
    file = tmp_path / "k-0.kept"
    file.write_bytes(pickle.dumps([packed(kept)]))
    (again,) = kept_pages([file])
    assert again.order == ORDER
    assert again.meant()[1] == kept.meant()[1]


def test_orders_take_the_families_of_one_hand_in_turn() -> None:
    print_orders, pen_orders = orders("scan:5:30:train:mono:print"), orders("copy:5:7:train:colour:pen")
    assert [o.seed for o in print_orders] == list(range(5, 35))
    assert all(o.mono and o.way == "scan" for o in print_orders)
    assert {o.family for o in pen_orders}.isdisjoint(o.family for o in print_orders)


def test_an_order_of_too_few_words_is_refused() -> None:
    with pytest.raises(ValueError, match="unpack"):
        orders("scan:5:30")
