"""The measuring of one reading, with readers made for the purpose."""

from __future__ import annotations

import subprocess
import sys
import time

import pytest

from octavo.interpret.errors import InternalFault, PagesLeftUnread, UnreadableFile
from octavo.tools.bench.reader import Errand, measure


def test_the_time_is_that_of_the_reading(page, value):
    def read(path: str):
        time.sleep(0.2)
        return [page(value())]

    reading = measure(Errand("page.pdf"), read)
    assert reading.record == page(value())
    assert reading.seconds is not None
    assert reading.seconds == pytest.approx(0.2, abs=0.15)  # a loaded machine sleeps longer, never shorter
    assert reading.seconds >= 0.2


HELD = """
from octavo.tools.bench.reader import Errand, measure

def read(path):
    block = bytearray(200_000_000)
    block[::4096] = b"x" * len(block[::4096])
    return []

small = measure(Errand("page.pdf"), lambda path: []).peak_mb
print(measure(Errand("page.pdf"), read).peak_mb - small)
"""


def test_the_peak_holds_what_the_reading_held_and_let_go():
    # in a process of its own: where the system does not forget a peak, one of the tests before hides what is held here
    done = subprocess.run([sys.executable, "-c", HELD], check=True, capture_output=True, text=True)
    assert float(done.stdout) > 150


def test_a_refusal_is_no_crash(page):
    def read(path: str):
        raise UnreadableFile("the picture is cut short", "Scan it again", file=path)

    reading = measure(Errand("page.pdf"), read)
    assert (reading.record, reading.crash) == (None, None)
    assert reading.refusal == "page.pdf: the picture is cut short. Scan it again."


def test_two_records_for_one_page_are_a_crash(page):
    reading = measure(Errand("page.pdf"), lambda _: [page(), page()])
    assert (reading.record, reading.crash) == (None, "2 records for one page")


def test_a_fault_of_octavo_itself_is_a_crash_and_no_refusal():
    def read(path: str):
        raise InternalFault("the code is not registered", "Report this", file=path)

    reading = measure(Errand("page.pdf"), read)
    assert (reading.refusal, reading.crash) == (None, "page.pdf: the code is not registered. Report this.")


def test_a_page_left_unread_by_a_fault_of_octavo_itself_is_a_crash():
    def read(path: str):
        raise PagesLeftUnread((InternalFault("a step failed", "Report this", page=1),), (), file=path)

    reading = measure(Errand("page.pdf"), read)
    assert reading.refusal is None
    assert reading.crash is not None


def test_the_peak_holds_that_of_a_process_which_the_reading_started(page):
    held = "x = bytearray(300_000_000); x[::4096] = b'x' * len(x[::4096])"

    def read(path: str):
        subprocess.run([sys.executable, "-c", held], check=True)
        return [page()]

    assert measure(Errand("page.pdf"), read).peak_mb > 290


def test_a_warm_up_reads_the_page_twice_and_times_it_once(page):
    waits = [0.5, 0.0]

    def read(path: str):
        time.sleep(waits.pop(0))
        return [page()]

    reading = measure(Errand("page.pdf", warm_up=True), read)
    assert reading.seconds is not None
    assert reading.seconds < 0.4
    assert not waits
