"""The label files: every language is whole, and no wording means two things in it."""

from __future__ import annotations

import tomllib
from collections import Counter
from pathlib import Path

import pytest

from octavo.extract.report.facts.printed.vocabulary import parts_of, vocabulary

FOLDER = Path(__file__).parents[4] / "extract" / "report" / "labels"
FILES = sorted(FOLDER.glob("facts-*.toml"))
ENGLISH = tomllib.loads((FOLDER / "facts-en.toml").read_text("utf-8"))


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_language_has_every_label_month_and_choice(file: Path) -> None:
    told = tomllib.loads(file.read_text("utf-8"))
    for section in ("labels", "qualified", "months", "sex", "reliability", "transducer", "numbering"):
        assert set(told[section]) == set(ENGLISH[section])
        assert all(told[section].values())


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_no_wording_means_two_things_in_a_language(file: Path) -> None:
    told = tomllib.loads(file.read_text("utf-8"))
    for section in ("labels", "months", "sex", "reliability", "transducer"):
        texts = Counter(
            text for words in told[section].values() for text in {"".join(parts_of(word)) for word in words}
        )
        assert [text for text, count in texts.items() if count > 1] == []


def test_the_four_languages_are_loaded() -> None:
    assert vocabulary().orders.keys() == {"en", "de", "es", "fr"}
