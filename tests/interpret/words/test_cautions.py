"""The cautions say what they must, and close what is printed."""

from __future__ import annotations

import pytest

from octavo.interpret.words.cautions import CAUTIONS, closing


@pytest.mark.parametrize(
    "word",
    [
        "not a diagnosis", "not a hearing test", "picture", "check them against the original",  # a reading is no more
        "sudden", "in one ear", "pain", "discharge", "dizziness", "ringing", "doctor promptly",  # what needs a doctor
        "aids", "implants", "fitness for work", "treatment", "licensed practitioners", "local rules",
        "country", "named",  # the scheme
    ],
)  # fmt: skip
def test_every_caution_of_the_trade_is_said(word: str) -> None:
    assert word in " ".join(CAUTIONS)


def test_the_closing_holds_every_caution_within_its_width() -> None:
    text = closing(60)
    assert max(map(len, text.splitlines())) <= 60
    assert all(caution in " ".join(text.split()) for caution in CAUTIONS)
