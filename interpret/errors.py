"""Every error that octavo raises, each with the exit code of the command (BSD sysexits numbers)."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

if TYPE_CHECKING:
    from .record import PageRecord


class OctavoError(Exception):
    """There is no record to give; the text is one line: where, what, and what to do.

    Parameters
    ----------
    what : str
        What is wrong, without a full stop.
    do : str
        What the person can do about it, without a full stop.
    file : str, optional
        The file's name as the person gave it.
    page : int, optional
        The page, counted from 1.
    """

    exit_code: ClassVar[int] = 70

    def __init__(self, what: str, do: str, *, file: str | None = None, page: int | None = None) -> None:
        self.what, self.do, self.file, self.page = what, do, file, page
        where = ", ".join(part for part in (file, f"page {page}" if page is not None else None) if part)
        super().__init__(f"{where + ': ' if where else ''}{what}. {do}.")

    def at(self, *, file: str | None = None, page: int | None = None) -> OctavoError:
        """Give the same error with its place named, for a caller that knows the file or page."""
        return type(self)(self.what, self.do, file=file or self.file, page=page if page is not None else self.page)

    def __reduce__(self) -> tuple[object, ...]:
        return _rebuild, (type(self), self.what, self.do, self.file, self.page)


def _rebuild(kind: type[OctavoError], what: str, do: str, file: str | None, page: int | None) -> OctavoError:
    return kind(what, do, file=file, page=page)


class MisuseError(OctavoError):
    """The command or function was called in a way that it does not offer."""

    exit_code = 64


class UnreadableFile(OctavoError):
    """The file is not a page that octavo can open, or it is damaged."""

    exit_code = 65


class LockedFile(UnreadableFile):
    """The file is encrypted and needs a password."""


class OversizeFile(UnreadableFile):
    """The file or a page in it is larger than the limits allow."""


class PageGivenUp(UnreadableFile):
    """Reading the page went past its limit of time or memory."""


class PagesLeftUnread(UnreadableFile):
    """Some pages of a file gave no record; nothing of the others is lost.

    Parameters
    ----------
    errors : tuple of OctavoError
        Why, for every page that gave no record, in page order; at least one.
    records : tuple of PageRecord
        What the other pages gave, in page order.
    file : str, optional
        The file's name as the person gave it.
    """

    def __init__(
        self, errors: tuple[OctavoError, ...], records: tuple[PageRecord, ...], *, file: str | None = None
    ) -> None:
        self.errors, self.records = errors, records
        first, pages = errors[0], len(errors) + len(records)
        what = f"{len(errors)} of {pages} pages gave no reading; the first, page {first.page}: {first.what}"
        super().__init__(what, first.do, file=file)

    def at(self, *, file: str | None = None, page: int | None = None) -> PagesLeftUnread:  # noqa: ARG002
        """Give the same error with its file named; the pages are named already."""
        return PagesLeftUnread(self.errors, self.records, file=file or self.file)

    def __reduce__(self) -> tuple[object, ...]:
        return _rebuild_left_unread, (self.errors, self.records, self.file)


def _rebuild_left_unread(
    errors: tuple[OctavoError, ...], records: tuple[PageRecord, ...], file: str | None
) -> PagesLeftUnread:
    return PagesLeftUnread(errors, records, file=file)


class NotBlanked(OctavoError):
    """A page may still say who somebody is after blanking, so nothing was given out: a person must look."""

    exit_code = 1


class MissingFile(OctavoError):
    """There is no such file, or it may not be read."""

    exit_code = 66


class MissingProgram(OctavoError):
    """A program or package that octavo needs is not installed."""

    exit_code = 69


class InternalFault(OctavoError):
    """octavo itself is at fault."""

    exit_code = 70


class CannotWrite(OctavoError):
    """The output cannot be written."""

    exit_code = 73
