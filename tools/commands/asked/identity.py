"""Reading without identity: the options, and the salt that they name."""

from __future__ import annotations

import os
import secrets
import stat
from argparse import ArgumentParser, Namespace
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from ....interpret.errors import CannotWrite, MissingFile, MisuseError, OctavoError
from ....interpret.record import PageRecord
from ..output import say

if TYPE_CHECKING:
    from ....interpret.reports.groups import ReportGroup
    from ....interpret.settings import Settings

_SALT_BYTES = 32
_OTHERS = stat.S_IRWXG | stat.S_IRWXO
_OLDEST_TOLD = 89


def add_identity_arguments(parser: ArgumentParser) -> None:
    """Declare ``--without-identity`` and ``--salt-file``."""
    group = parser.add_argument_group("identity")
    group.add_argument(
        "--without-identity",
        action="store_true",
        help="leave out names, numbers, places and notes; give the age for the birth date; move each patient's dates",
    )
    group.add_argument(
        "--salt-file",
        metavar="FILE",
        type=Path,
        help="the secret that gives a patient the same pseudonym and moved dates in every run; made where missing",
    )


class Hiding:
    """Takes the identity out of the readings of one file after the other.

    Parameters
    ----------
    salt : bytes
        The secret.
    """

    def __init__(self, salt: bytes) -> None:
        self._salt = salt
        self.files: tuple[tuple[ReportGroup, ...], ...] = ()
        """The reports of the file hidden last, without identity; for a file of records, of each file they are of."""

    def readings(self, readings: Iterable[PageRecord | OctavoError]) -> Iterator[PageRecord | OctavoError]:
        """Give the readings of one file in their order; they wait for the last: what one page says counts for all."""
        from ....interpret.reports.groups import group_pages, of_one_file
        from ....interpret.reports.identity import hide

        read = list(readings)
        files = of_one_file(one for one in read if isinstance(one, PageRecord))
        old = [group_pages(pages) for pages in files]
        self.files = tuple(tuple(hide(group, self._salt) for group in groups) for groups in old)
        new = {
            id(before): after
            for groups, covered in zip(old, self.files, strict=True)
            for group, cover in zip(groups, covered, strict=True)
            for before, after in zip(group.records, cover.records, strict=True)
        }
        for one in read:
            yield one if isinstance(one, OctavoError) else new[id(one)]


def hiding(arguments: Namespace, settings: Settings) -> Hiding | None:
    """Give what hides the patients; None where it is not asked for.

    Raises
    ------
    MisuseError
        When an option beside it would tell what it is to hide.
    OctavoError
        When the salt's file cannot be used.
    """
    if not arguments.without_identity:
        if arguments.salt_file is not None:
            raise MisuseError("--salt-file is for --without-identity", "Say --without-identity with it")
        return None
    if arguments.show_work is not None:
        raise MisuseError("--show-work shows the page itself", "Leave out --show-work or --without-identity")
    if settings.born is not None or (settings.age_years or 0) > _OLDEST_TOLD:
        what = "a birth date, and an age over 89, are identifiers that would stand in the output"
        raise MisuseError(what, "Leave out --born or --age: the age is taken from the page")
    salt = secrets.token_bytes(_SALT_BYTES) if arguments.salt_file is None else salt_in(arguments.salt_file)
    if arguments.salt_file is None:
        say("pseudonyms and moved dates hold for this run alone; --salt-file FILE keeps them the same in every run")
    return Hiding(salt)


def salt_in(path: Path) -> bytes:
    """Give the salt of a file, and make the file where there is none, for its owner alone.

    Raises
    ------
    MisuseError
        When others may read the file, or it holds no salt.
    MissingFile, CannotWrite
        When it cannot be read or made. The salt itself stands in no message.
    """
    try:
        made = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return _read_salt(path)
    except OSError as fault:
        what = f"the salt's file cannot be made ({fault.strerror})"
        raise CannotWrite(what, "Choose another place", file=str(path)) from fault
    salt = secrets.token_bytes(_SALT_BYTES)
    with os.fdopen(made, "w", encoding="ascii") as out:
        out.write(salt.hex() + "\n")
    return salt


def _read_salt(path: Path) -> bytes:
    from ....interpret.reports.identity import SALT_LEAST_BYTES

    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise MisuseError("the salt's file is no plain file", "Name another file", file=str(path))
        if os.name == "posix" and status.st_mode & _OTHERS:
            do = f"Say chmod 600 {path}, and make a new salt if others may have seen it"
            raise MisuseError("others than you may read this salt", do, file=str(path))
        salt = bytes.fromhex(path.read_text(encoding="ascii"))
    except OSError as fault:
        what = f"the salt's file cannot be read ({fault.strerror})"
        raise MissingFile(what, "Ask for the right to read it", file=str(path)) from fault
    except ValueError:
        salt = b""
    if len(salt) < SALT_LEAST_BYTES:
        what = "this file holds no salt that octavo made"
        raise MisuseError(what, "Name a file that does not exist yet: octavo makes it", file=str(path))
    return salt
