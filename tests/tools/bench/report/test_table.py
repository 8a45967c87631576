"""The table says what the figures are, and rounds no fault away."""

from __future__ import annotations

from dataclasses import replace

import pytest

from octavo.tools.bench.reader import Reading
from octavo.tools.bench.report.table import HEADINGS, as_markdown, as_text, held_against, percent, rows
from octavo.tools.bench.scores import figures, score_page
from octavo.tools.bench.suites import Bar


@pytest.mark.parametrize(
    ("share", "text"),
    [(None, "–"), (0.0, "0.00%"), (1.0, "100.00%"), (0.99, "99.00%"), (0.99996, "99.996%"), (0.00001, "0.001%")],
)
def test_a_share_is_never_rounded_to_all_or_nothing(share, text):
    assert percent(share) == text


def test_a_row_holds_the_figures_under_their_headings(sample, value, page):
    truth = page(value(), value(hz=2000))
    score = score_page(sample, truth, Reading(page(value(), value(hz=2000, db=45)), 1.5, 321.4, 3.0))
    cells = dict(zip(HEADINGS, rows([figures("scan", [score])])[0], strict=True))
    assert cells["suite"] == "scan"
    assert (cells["pages"], cells["thresholds"], cells["exact"], cells["wrong"]) == ("1", "2", "50.00%", "1")
    assert cells["silent errors (95% bound)"] == "1 (≤ 97.47%)"  # 0.95 = 1 - p**2 ... p = sqrt(0.95) = 0.97468
    assert (cells["s a page"], cells["× Tesseract"], cells["× parse"], cells["peak MB"]) == ("1.50", "0.50", "–", "321")


def test_markdown_has_a_cell_for_every_heading(sample, value, page):
    score = score_page(sample, page(value()), Reading(page(value()), 0.1))
    lines = as_markdown([figures("copy", [score])]).splitlines()
    assert [line.count("|") for line in lines] == [len(HEADINGS) + 1] * 3


def test_errors_and_crashes_are_named_under_the_table(sample, value, page):
    scores = [
        score_page(sample, page(value()), Reading(page(value("left")), 0.1)),
        score_page(sample, page(value()), Reading(None, crash="died")),
    ]
    text = as_text([figures("photo", scores)])
    assert "wrong-ear 1 (1 silent), missed 1 (0 silent)" in text
    assert "0 pages refused with a message, 1 crashed or hung" in text


def test_values_that_are_right_but_to_be_asked_about_miss_a_bar_on_the_sure_share(sample, value, page):
    asked = score_page(sample, page(value()), Reading(page(replace(value(), standing="ask")), 0.1))
    found = figures("pen", [asked])
    assert found.exact_share == 1.0
    assert held_against(found, Bar(exact_share=0.99)) == "met"
    assert held_against(found, Bar(exact_share=0.99, sure_share=0.92)) == "missed: sure"
