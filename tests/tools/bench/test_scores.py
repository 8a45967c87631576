"""Figures of pages with known faults, and the exact bound against published values."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from scipy.stats import binom, binomtest

from octavo.tools.bench.bounds import lower_bound, upper_bound
from octavo.tools.bench.reader import Reading
from octavo.tools.bench.report.table import held_against
from octavo.tools.bench.scores import figures, score_page
from octavo.tools.bench.suites import SUITES, Bar


@pytest.mark.parametrize("trials", [100, 300, 3000])
def test_no_error_in_n_bounds_the_rate_at_about_3_over_n(trials):
    # Hanley and Lippman-Hand, JAMA 249(13), 1983, 1743-1745: "the rule of three", good from n = 30 on
    assert upper_bound(0, trials) == pytest.approx(3 / trials, rel=0.02)


@pytest.mark.parametrize(("errors", "trials"), [(0, 10), (1, 10), (3, 50), (7, 4000), (9, 10)])
def test_the_bound_is_the_rate_at_which_so_few_errors_have_a_chance_of_5_percent(errors, trials):
    # Clopper and Pearson, Biometrika 26(4), 1934: the definition of the one-sided bound
    assert binom.cdf(errors, trials, upper_bound(errors, trials)) == pytest.approx(0.05)


def test_both_bounds_are_those_of_the_exact_test():
    # scipy.stats.binomtest, method "exact": the two-sided 90% interval has the one-sided 95% bounds as its ends
    interval = binomtest(7, 400).proportion_ci(confidence_level=0.9, method="exact")
    assert upper_bound(7, 400) == pytest.approx(interval.high)
    assert lower_bound(7, 400) == pytest.approx(interval.low)


def test_the_bound_is_1_without_trials_and_with_more_errors_than_trials():
    assert upper_bound(0, 0) == upper_bound(5, 3) == upper_bound(3, 3) == 1.0


def test_figures_count_each_threshold_once(sample, value, page):
    truth = page(value(), value(hz=2000), value(hz=4000), value(hz=8000))
    read = page(value(), value(hz=2000, db=40, standing="ask"), value(hz=4000, db=50), value("left", "bone"))
    found = figures("drawn", [score_page(sample, truth, Reading(read, 0.5, 100.0))])
    assert (found.thresholds, found.exact, found.within_5_db) == (4, 1, 2)
    assert (found.wrong, found.missed, found.invented) == (2, 1, 1)
    assert (found.exact + found.wrong + found.missed, found.silent, found.sure) == (4, 3, 1)


def test_speed_is_the_median_of_ratios_on_the_pages_that_have_a_yardstick(sample, value, page):
    readings = [Reading(page(value()), 1.0, tesseract_s=2.0), Reading(page(value()), 2.0, tesseract_s=2.0)]
    readings += [Reading(page(value()), 3.0, tesseract_s=2.0), Reading(page(value()), 50.0)]
    found = figures("scan", [score_page(sample, page(value()), reading) for reading in readings])
    assert (found.seconds, found.per_tesseract, found.per_parse) == (2.5, 1.0, None)


def test_without_true_thresholds_the_bound_is_over_pages(sample, value, page):
    scores = [score_page(sample, page(), Reading(page(), 0.1)) for _ in range(299)]
    assert figures("none", scores).silent_upper == pytest.approx(0.01, rel=0.01)  # 1 - 0.05 ** (1 / 299)
    scores.append(score_page(sample, page(), Reading(page(value(), value("left")), 0.1)))
    assert figures("none", scores).silent_upper == pytest.approx(upper_bound(1, 300))


def test_the_bench_finds_the_rate_at_which_a_reader_errs(sample, value, page):
    # A reader made for the purpose: each value errs by a step with a chance of 2%, and 1 in 4 of these is sure.
    rng = np.random.default_rng(20)
    frequencies = (250, 500, 1000, 2000, 4000, 8000)
    truth = page(*(value(ear, "air", hz, 40) for ear in ("right", "left") for hz in frequencies))
    scores, wrong, silent = [], 0, 0
    for _ in range(400):
        values = []
        for one in truth.audiograms[0].thresholds:
            errs, is_sure = rng.random() < 0.02, rng.random() < 0.25
            wrong, silent = wrong + errs, silent + (errs and is_sure)
            if errs:
                one = replace(one, level_db_hl=45, standing="sure" if is_sure else "ask")
            values.append(one)
        scores.append(score_page(sample, truth, Reading(page(*values), 0.1)))
    found = figures("drawn", scores)
    assert (found.thresholds - found.exact, found.silent) == (wrong, silent)
    assert found.wrong / found.thresholds == pytest.approx(0.02, rel=0.3)  # 3 standard errors of 96 in 4,800
    assert found.silent / found.thresholds < found.silent_upper


def test_a_bar_is_met_only_with_pages_enough(sample, value, page):
    bar = Bar(silent_rate=0.0, least_thresholds=3)
    scores = [score_page(sample, page(value()), Reading(page(value()), 0.1))]
    assert held_against(figures("drawn", scores), bar) == "too few"
    assert held_against(figures("drawn", scores * 3), bar) == "met"


def test_a_bar_says_in_what_it_was_missed(sample, value, page):
    scores = [score_page(sample, page(value()), Reading(page(value(db=50)), 0.1, tesseract_s=0.1))]
    assert held_against(figures("scan", scores), SUITES["scan"].bar) == "missed: exact, sure, silent, time"


def test_a_crash_misses_the_bar_though_nothing_is_silent(sample, value, page):
    scores = [score_page(sample, page(value()), Reading(None, crash="died"))]
    assert held_against(figures("copy", scores), Bar(silent_rate=0.0005)) == "missed: crashes"


def test_pages_without_an_audiogram_on_which_a_value_is_invented_miss_their_bar(sample, value, page):
    scores = [score_page(sample, page(), Reading(page(value(standing="ask")), 0.1))]
    assert held_against(figures("none", scores), Bar(silent_rate=0.0, most_invented=0)) == "missed: invented"


def test_a_time_that_was_not_measured_does_not_meet_the_bar(sample, value, page):
    scores = [score_page(sample, page(value()), Reading(page(value()), 0.1))]
    assert held_against(figures("scan", scores), SUITES["scan"].bar) == "missed: time"
