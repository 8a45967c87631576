"""The sample charts: each shows what its name says, and its truth is the painter's."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from octavo.interpret.exports.from_json import from_json
from octavo.interpret.record import PageRecord, Threshold
from octavo.tools.painter import FAMILIES
from octavo.tools.painter.samples import SAMPLES, make_samples, truth_path

FOLDER = Path(__file__).parents[2] / "sample_charts"
NAMES = tuple(sample.name for sample in SAMPLES)


def truths(name: str) -> list[PageRecord]:
    return [from_json(line) for line in truth_path(FOLDER / name).read_text(encoding="utf-8").splitlines()]


def thresholds(pages: list[PageRecord]) -> list[Threshold]:
    return [value for page in pages for audiogram in page.audiograms for value in audiogram.thresholds]


def kinds(pages: list[PageRecord]) -> set[tuple[str, str, bool]]:
    return {(value.ear, value.conduction, value.masked) for value in thresholds(pages)}


def charts_of(page: PageRecord) -> list[int]:
    return [len(audiogram.charts) for audiogram in page.audiograms]


def whole(page: PageRecord) -> bool:
    """Say whether a truth holds who, when and by whom, and every kind of test."""
    (test,) = page.audiograms
    names = {fact.name for fact in page.report.facts}
    tests = (test.speech, test.printed_averages, test.immittance, test.immittance[0].reflexes)
    return names >= {"patient-name", "birth-date", "test-date", "tester", "note"} and all(tests)


SHOWS: dict[str, Callable[[list[PageRecord]], bool]] = {
    "drawn-both-ears.pdf": lambda pages: (
        kinds(pages)
        >= {("right", "air", False), ("left", "air", False), ("right", "bone", False), ("left", "bone", False)}
    ),
    "drawn-ear-each.pdf": lambda pages: (
        charts_of(pages[0]) == [2] and any(value.masked and value.conduction == "air" for value in thresholds(pages))
    ),
    "drawn-dates.pdf": lambda pages: (
        charts_of(pages[0]) == [1, 1, 1, 1] and len({a.tested_on for a in pages[0].audiograms}) == 4
    ),
    "drawn-equal-steps.pdf": lambda pages: (
        (axis := pages[0].audiograms[0].charts[0].frequency_axis) is not None
        and axis.scale == "equal"
        and axis.hz[1] == 16000
    ),
    "drawn-british-key.pdf": lambda pages: pages[0].audiograms[0].symbol_set == "bsa-2018" and len(kinds(pages)) >= 4,
    "drawn-letter.pdf": lambda pages: pages[0].audiograms == (),
    "drawn-full-report.pdf": lambda pages: whole(pages[0]) and charts_of(pages[0]) == [1],
    "scan-full-report-german.pdf": lambda pages: whole(pages[0]) and ("right", "bone", False) in kinds(pages),
    "scan-report.pdf": lambda pages: charts_of(pages[0]) == [1],
    "scan-masked-bone.jpg": lambda pages: ("left", "bone", True) in kinds(pages),
    "scan-no-response.jpg": lambda pages: sum(not value.response for value in thresholds(pages)) >= 5,
    "photocopy-one-ink.png": lambda pages: {value.ear for value in thresholds(pages)} == {"right", "left"},
    "fax-three-pages.tif": lambda pages: [len(charts_of(page)) for page in pages] == [0, 1, 1],
    "fax-coarse.tif": lambda pages: len(thresholds(pages)) >= 12,
    "photo.jpg": lambda pages: {value.conduction for value in thresholds(pages)} >= {"air", "bone"},
}


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_shows_what_it_is_about(name: str):
    assert SHOWS[name](truths(name))


@pytest.mark.parametrize("sample", SAMPLES, ids=NAMES)
def test_a_truth_names_its_file_and_every_page_of_it(sample):
    records = truths(sample.name)
    digest = hashlib.sha256((FOLDER / sample.name).read_bytes()).hexdigest()
    assert [(r.source.name, r.source.sha256, r.source.page, r.source.pages) for r in records] == [
        (sample.name, digest, number, len(sample.leaves)) for number in range(1, len(sample.leaves) + 1)
    ]


def test_samples_are_small_and_nothing_else_lies_beside_them():
    files = list(FOLDER.iterdir())
    assert {path.name for path in files} == {*NAMES, *(truth_path(FOLDER / name).name for name in NAMES), "README.md"}
    assert sum(path.stat().st_size for path in files) < 2.5e6  # what everybody who clones the repository pays


def test_samples_take_no_page_from_the_benchmark():
    assert {FAMILIES[leaf.family].split for sample in SAMPLES for leaf in sample.leaves} == {"train"}


def numbers_and_words(value: Any) -> tuple[list[float], list[Any]]:
    """Take a tree of JSON apart: all its numbers, and all else, in order."""
    if isinstance(value, dict):
        value = [part for item in value.items() for part in item]
    if isinstance(value, list):
        parts = [numbers_and_words(part) for part in value]
        return [n for part in parts for n in part[0]], [w for part in parts for w in part[1]]
    return ([float(value)], []) if isinstance(value, (int, float)) and not isinstance(value, bool) else ([], [value])


@pytest.mark.parametrize("name", ["drawn-both-ears.pdf", "drawn-full-report.pdf", "fax-three-pages.tif", "photo.jpg"])
def test_a_sample_made_anew_has_the_same_truth(name: str, tmp_path: Path):
    (path,) = make_samples(tmp_path, only=(name,))
    for new, old in zip(
        truth_path(path).read_text(encoding="utf-8").splitlines(),
        truth_path(FOLDER / name).read_text(encoding="utf-8").splitlines(),
        strict=True,
    ):
        new_page, old_page = json.loads(new), json.loads(old)
        # the bytes of a JPEG or PDF may differ with the library that packs them, the truth may not
        new_page["source"]["sha256"] = old_page["source"]["sha256"]
        new_numbers, new_words = numbers_and_words(new_page)
        old_numbers, old_words = numbers_and_words(old_page)
        assert new_words == old_words
        assert new_numbers == pytest.approx(old_numbers, abs=2e-5)  # the last of five decimals of a page fraction
