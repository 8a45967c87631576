"""What a file is, told by its first bytes and never by its name."""

from __future__ import annotations

from typing import Literal

from ...interpret.errors import UnreadableFile

Kind = Literal["pdf", "tiff", "png", "jpeg", "webp", "bmp", "gif"]

_MAGIC: tuple[tuple[bytes, Kind], ...] = (
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"\xff\xd8\xff", "jpeg"),
    (b"II*\0", "tiff"),
    (b"MM\0*", "tiff"),
    (b"II+\0", "tiff"),
    (b"MM\0+", "tiff"),
    (b"BM", "bmp"),
    (b"GIF87a", "gif"),
    (b"GIF89a", "gif"),
)

_REFUSED: tuple[tuple[bytes, str], ...] = (
    (b"PK\x03\x04", "a ZIP archive or an office document"),
    (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "an office document"),
    (b"{\\rtf", "a text document"),
    (b"%!PS", "a PostScript file"),
    (b"\0\0\0\x0cjP  \r\n\x87\n", "a JPEG 2000 picture"),
    (b"\xff\x4f\xff\x51", "a JPEG 2000 picture"),
    (b"\xff\x0a", "a JPEG XL picture"),
    (b"\0\0\0\x0cJXL ", "a JPEG XL picture"),
    (b"AT&TFORM", "a DjVu document"),
    (b"\x1f\x8b", "a compressed archive"),
    (b"7z\xbc\xaf'\x1c", "a compressed archive"),
    (b"Rar!", "a compressed archive"),
)

_SAVE_AS = "Save it as PDF, PNG or JPEG and give that file"


def kind_of(data: bytes) -> Kind:
    """Tell what a file is.

    Parameters
    ----------
    data : bytes
        The file from its beginning; 1,024 bytes suffice.

    Returns
    -------
    Kind
        One of the seven kinds that octavo opens.

    Raises
    ------
    UnreadableFile
        The file is empty, or of another kind, which the message names where it is a well known one.

    Notes
    -----
    A PDF may have other bytes before its header, within the first 1,024 (ISO 32000-2, Annex I of earlier editions).
    """
    if not data:
        raise UnreadableFile("the file is empty", "Scan or copy it again")
    for magic, kind in _MAGIC:
        if data.startswith(magic):
            return kind
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "webp"
    if b"%PDF-" in data[:1024]:
        return "pdf"
    raise UnreadableFile(f"not a page: this is {_other_kind(data)}", _SAVE_AS)


def _other_kind(data: bytes) -> str:
    for magic, name in _REFUSED:
        if data.startswith(magic):
            return name
    if data[4:8] == b"ftyp":
        return "a HEIC or AVIF photo" if data[8:12] in (b"heic", b"heix", b"mif1", b"avif", b"msf1") else "a film"
    if data[128:132] == b"DICM":
        return "a DICOM object"
    head = data[:1024].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if head.startswith((b"<!doctype html", b"<html")):
        return "a web page"
    if b"<svg" in head:
        return "an SVG drawing"
    if data[:1024].isascii() and b"\0" not in data[:1024]:
        return "a text file"
    return "a file of an unknown kind"
