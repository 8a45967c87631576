"""Calibration curves of claims with known truth."""

from __future__ import annotations

import csv

import pytest

from octavo.tools.bench.reader import Reading
from octavo.tools.bench.report.curves import Claim, claims, reliability, risk_coverage, write
from octavo.tools.bench.scores import score_page


def test_a_bin_compares_what_was_stated_with_what_was_right():
    of = [Claim(0.92, right=True, sure=False)] * 9 + [Claim(0.92, right=False, sure=False)]
    (only,) = reliability(of)
    assert (only.low, only.high, only.values) == (0.9, 0.95, 10)
    assert (only.stated, only.right) == (pytest.approx(0.92), 0.9)
    assert only.right_low < 0.9 < only.right_high


def test_a_probability_of_1_has_a_bin():
    (only,) = reliability([Claim(1.0, right=True, sure=True)])
    assert (only.values, only.high) == (1, 1.0)


def test_risk_rises_only_with_what_is_taken():
    of = [
        Claim(0.7, right=False, sure=False),
        Claim(0.9, right=True, sure=True),
        Claim(0.99, right=True, sure=True),
        Claim(0.7, right=True, sure=False),
    ]
    steps = [(step.probability, step.taken, step.wrong, step.coverage, step.risk) for step in risk_coverage(of, 5)]
    assert steps == [(0.99, 1, 0, 0.2, 0.0), (0.9, 2, 0, 0.4, 0.0), (0.7, 4, 1, 0.6, 0.25)]


def test_what_was_missed_claims_nothing(sample, value, page):
    truth = page(value(), value(hz=2000))
    score = score_page(sample, truth, Reading(page(value(probability=0.8)), 0.1))
    assert claims([score]) == (Claim(0.8, right=True, sure=True),)


def test_curves_are_written_as_csv_and_as_a_plot(tmp_path, sample, value, page):
    score = score_page(sample, page(value()), Reading(page(value(probability=0.97)), 0.1))
    (plot,) = write(tmp_path, "scan", [score])
    assert b"<svg" in plot.read_bytes()
    with (tmp_path / "reliability-scan.csv").open(encoding="utf-8") as file:
        (line,) = csv.DictReader(file)
    assert (line["values"], line["stated"], line["right"]) == ("1", "0.97", "1.0")
    with (tmp_path / "risk-coverage-scan.csv").open(encoding="utf-8") as file:
        assert [line["coverage"] for line in csv.DictReader(file)] == ["1.0"]


def test_a_suite_on_which_nothing_was_read_has_empty_curves(tmp_path, sample, value, page):
    assert write(tmp_path, "photo", [score_page(sample, page(value()), Reading(None, crash="died"))]) == []
    assert (tmp_path / "reliability-photo.csv").read_text(encoding="utf-8").startswith("low,high,values")
