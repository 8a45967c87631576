"""Drawings as a PDF 1.4 of vectors and the standard fonts: no library, the same bytes for the same drawings."""

from __future__ import annotations

import zlib
from collections.abc import Iterable, Iterator

from .lettering import width_of
from .scene import Circle, Item, Lettering, Line, Scene, Stroke

_FIRST_PAGE = 5
"""The number of the first page's object, after the catalogue, the list of pages and the two fonts."""
_ROUND = 0.5522847498
"""How far the control points of a quarter circle lie from its ends, in radii."""


def pdf_of(scenes: Iterable[Scene]) -> bytes:
    """Write drawings as a PDF, a page each.

    Parameters
    ----------
    scenes : iterable of Scene
        At least one; they are taken one by one. Letters beyond those of Windows-1252, which the standard fonts lack,
        are written as "?".
    """
    pages: list[bytes] = []
    first: Scene | None = None
    for scene in scenes:
        first = first or scene
        content = zlib.compress("\n".join(_content(scene)).encode("cp1252", "replace"), 9)
        number = _FIRST_PAGE + len(pages)
        pages += [
            (
                f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {_n(scene.width)} {_n(scene.height)}] "
                f"/Resources << /Font << /F1 3 0 R /F2 4 0 R >> >> /Contents {number + 1} 0 R >>"
            ).encode("ascii"),
            f"<< /Length {len(content)} /Filter /FlateDecode >>\nstream\n".encode("ascii") + content + b"\nendstream",
        ]
    kids = " ".join(f"{_FIRST_PAGE + index} 0 R" for index in range(0, len(pages), 2))
    about = b"" if first is None else b"/Title " + _text_string(first.title)
    return _file(
        [
            f"<< /Type /Catalog /Pages 2 0 R /Lang ({first.language if first else 'en'}) >>".encode("ascii"),
            f"<< /Type /Pages /Kids [{kids}] /Count {len(pages) // 2} >>".encode("ascii"),
            _font("Helvetica"),
            _font("Helvetica-Bold"),
            *pages,
            b"<< " + about + b" /Producer (octavo) >>",
        ]
    )


def _file(objects: list[bytes]) -> bytes:
    """Put numbered objects into a file: the catalogue is the first, what the file says of itself the last."""
    out = bytearray(b"%PDF-1.4\n%\xe2\xe3\xcf\xd3\n")
    starts: list[int] = []
    for number, body in enumerate(objects, 1):
        starts.append(len(out))
        out += f"{number} 0 obj\n".encode("ascii") + body + b"\nendobj\n"
    table = len(out)
    count = len(objects) + 1
    out += f"xref\n0 {count}\n0000000000 65535 f \n".encode("ascii")
    out += "".join(f"{start:010d} 00000 n \n" for start in starts).encode("ascii")
    out += f"trailer\n<< /Size {count} /Root 1 0 R /Info {count - 1} 0 R >>\nstartxref\n{table}\n%%EOF\n".encode(
        "ascii"
    )
    return bytes(out)


def _font(name: str) -> bytes:
    return f"<< /Type /Font /Subtype /Type1 /BaseFont /{name} /Encoding /WinAnsiEncoding >>".encode("ascii")


def _text_string(text: str) -> bytes:
    return b"<FEFF" + text.encode("utf-16-be", "replace").hex().upper().encode("ascii") + b">"


def _content(scene: Scene) -> Iterator[str]:
    """Give the page's drawing, in a frame whose y runs down as the scene's does; words are turned upright again."""
    yield f"1 0 0 -1 0 {_n(scene.height)} cm"
    for item in scene.items:
        yield from _item(item)


def _item(item: Item) -> Iterator[str]:
    if isinstance(item, Lettering):
        yield from _lettering(item)
        return
    yield "q"
    yield from _pen(item.stroke)
    if item.fill is not None:
        yield f"{_colour(item.fill)} rg"
    if isinstance(item, Line):
        (x, y), *rest = item.points
        yield f"{_n(x)} {_n(y)} m"
        yield from (f"{_n(x)} {_n(y)} l" for x, y in rest)
        if item.closed:
            yield "h"
    else:
        yield from _circle(item)
    yield {(True, True): "B", (True, False): "S", (False, True): "f"}.get(
        (item.stroke is not None, item.fill is not None), "n"
    )
    yield "Q"


def _circle(item: Circle) -> Iterator[str]:
    (x, y), r, k = item.at, item.radius, item.radius * _ROUND
    yield f"{_n(x + r)} {_n(y)} m"
    for corners in (
        (x + r, y + k, x + k, y + r, x, y + r),
        (x - k, y + r, x - r, y + k, x - r, y),
        (x - r, y - k, x - k, y - r, x, y - r),
        (x + k, y - r, x + r, y - k, x + r, y),
    ):
        yield " ".join(map(_n, corners)) + " c"
    yield "h"


def _pen(stroke: Stroke | None) -> Iterator[str]:
    if stroke is None:
        return
    yield f"{_colour(stroke.colour)} RG {_n(stroke.width)} w"
    if stroke.dash:
        yield f"[{' '.join(map(_n, stroke.dash))}] 0 d"
    else:
        yield "1 J 1 j"


def _lettering(item: Lettering) -> Iterator[str]:
    shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor] * width_of(item.text, item.size, bold=item.bold)
    x, y = item.at
    turn = f"0 -1 -1 0 {_n(x)} {_n(y + shift)}" if item.turned else f"1 0 0 -1 {_n(x - shift)} {_n(y)}"
    text = item.text.translate({40: "\\(", 41: "\\)", 92: "\\\\", 10: " ", 13: " "})
    font = "F2" if item.bold else "F1"
    yield f"BT /{font} {_n(item.size)} Tf {_colour(item.colour)} rg {turn} Tm ({text}) Tj ET"


def _colour(colour: tuple[float, float, float]) -> str:
    return " ".join(f"{part:.3f}" for part in colour)


def _n(number: float) -> str:
    return f"{number:.3f}".rstrip("0").rstrip(".")
