"""The errors' one line of text, their exit codes, and their way through other processes."""

from __future__ import annotations

import pickle

import pytest

from octavo.interpret import errors
from octavo.interpret.errors import LockedFile, OctavoError, UnreadableFile

# BSD sysexits(3): usage 64, data error 65, no input 66, unavailable 69, software 70, cannot create 73.
EXIT_CODES = {
    "MisuseError": 64, "UnreadableFile": 65, "LockedFile": 65, "OversizeFile": 65, "PageGivenUp": 65, "MissingFile": 66,
    "MissingProgram": 69, "InternalFault": 70, "CannotWrite": 73,
}  # fmt: skip
KINDS = [getattr(errors, name) for name in EXIT_CODES]


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_error_has_its_exit_code(kind: type[OctavoError]) -> None:
    assert kind.exit_code == EXIT_CODES[kind.__name__]


def test_the_text_is_one_line_of_where_what_and_what_to_do() -> None:
    error = UnreadableFile("the image is cut short", "Scan it again", file="scan-12.tif", page=3)
    assert str(error) == "scan-12.tif, page 3: the image is cut short. Scan it again."


def test_the_place_can_be_named_later() -> None:
    error = LockedFile("the file is locked", "Remove its password").at(file="a.pdf")
    assert type(error) is LockedFile
    assert str(error) == "a.pdf: the file is locked. Remove its password."


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_an_error_comes_whole_out_of_another_process(kind: type[OctavoError]) -> None:
    error = kind("what", "Do", file="a.pdf", page=2)
    again = pickle.loads(pickle.dumps(error))
    assert (type(again), str(again), again.page) == (kind, str(error), 2)
