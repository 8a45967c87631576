"""Tasks that raise, die or hang cost themselves only. The jobs are functions of the standard library."""

from __future__ import annotations

import math
import os
import time

from octavo.tools.bench.crew import Lost, run_all


def test_every_task_has_its_result_and_a_task_that_raises_is_lost_alone():
    results = dict(run_all(math.sqrt, [4.0, -1.0, 9.0], workers=2, limit_s=60))
    assert (results[0], results[2]) == (2.0, 3.0)
    assert isinstance(results[1], Lost)
    assert "ValueError" in results[1].why


def test_a_process_that_dies_is_replaced():
    results = dict(run_all(os._exit, [3, 4], workers=1, limit_s=60))
    assert results == {0: Lost("the process died (exit 3)"), 1: Lost("the process died (exit 4)")}


def test_a_process_that_hangs_is_given_up_and_replaced():
    results = dict(run_all(time.sleep, [600.0, 0.0], workers=1, limit_s=3))
    assert results == {0: Lost("no answer in 3 s"), 1: None}


def test_no_task_needs_no_process():
    assert list(run_all(math.sqrt, [], workers=2, limit_s=1)) == []
