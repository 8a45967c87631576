"""Outside pages spoiled by other hands: fixed pipelines of augraphy, and the photos and machines of this folder.

Augraphy's pipelines go from a light scan to a fax, and none of them bends. The package has a dependency group of its
own: ``uv sync --inexact --extra dev --group outside``, or ``pip install --group outside``.
"""

from __future__ import annotations

import importlib
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any
from zlib import crc32

import numpy as np
import numpy.typing as npt
import pypdfium2
from cases import Outline, OutsidePage
from copied import RENDERED_DPI, machine_made
from photographed import SHOTS, photograph
from PIL import Image

from octavo.interpret.record import Point

SCAN_DPI = 200
SMALLEST_PX = 1400
"""Smaller pictures are enlarged smoothly first: a screenshot that somebody printed and scanned."""
LARGE_PX = 3200
"""The same for photos and machines, which take a sheet of some 300 dots to the inch."""
FAX_DPI = (204, 196)


@dataclass(frozen=True, slots=True)
class Pipeline:
    """What happens to a page, in order, as names and settings of augraphy; and the file that comes of it."""

    steps: tuple[tuple[str, dict[str, Any]], ...]
    ending: str = ".png"
    grey: bool = False
    quality: int = 90


_BLACK_OR_WHITE = {"thresh": 185, "maxval": 255, "type": 0}  # cv2.THRESH_BINARY
PIPELINES: dict[str, Pipeline] = {
    "scan": Pipeline(
        (("SubtleNoise", {"subtle_range": 10}),
         ("BrightnessTexturize", {"texturize_range": (0.9, 0.98), "deviation": 0.05})),
    ),
    "jpeg": Pipeline((("Jpeg", {"quality_range": (12, 25)}),)),
    "bleed": Pipeline(
        (("BleedThrough", {"intensity_range": (0.1, 0.3), "alpha": 0.3}),
         ("InkBleed", {"intensity_range": (0.5, 0.6), "severity": (0.4, 0.6)})), grey=True,
    ),
    "shadow": Pipeline(
        (("LightingGradient", {"max_brightness": 255, "min_brightness": 70, "mode": "gaussian"}),
         ("ShadowCast", {"shadow_opacity_range": (0.4, 0.6), "shadow_iterations_range": (1, 2)}),
         ("Gamma", {"gamma_range": (0.8, 1.2)})), ending=".jpg", quality=75,
    ),
    "dirty": Pipeline(
        (("LowInkPeriodicLines", {"count_range": (2, 4), "period_range": (16, 30)}),
         ("LowInkRandomLines", {"count_range": (5, 10)}),
         ("DirtyDrum", {"line_width_range": (1, 2), "line_concentration": 0.03, "direction": 1,
                        "noise_intensity": 0.2}),
         ("DirtyRollers", {"line_width_range": (6, 10)})), grey=True,
    ),
    "fax": Pipeline(
        (("InkBleed", {"intensity_range": (0.3, 0.4), "severity": (0.2, 0.3)}),
         ("BadPhotoCopy", {"noise_type": 1, "noise_side": "left", "noise_iteration": (1, 1), "noise_size": (1, 2),
                           "noise_value": (60, 140), "noise_sparsity": (0.3, 0.5), "noise_concentration": (0.1, 0.3),
                           "blur_noise": 0, "wave_pattern": 0, "edge_effect": 0}),
         ("Faxify", {"scale_range": (1, 1), "monochrome": 1, "monochrome_method": "cv2.threshold",
                     "monochrome_arguments": _BLACK_OR_WHITE, "halftone": 0, "invert": 0})), ending=".tif",
    ),
}  # fmt: skip


def spoil(page: OutsidePage, how: str, folder: Path, seed: int) -> OutsidePage:
    """Spoil one page; its marks move with it where it is bent or turned.

    Parameters
    ----------
    page : OutsidePage
        A page of any renderer.
    how : str
        A name of `PIPELINES`, of `SHOTS` or of `MACHINES`.
    folder : Path
        Where the new file is written.
    seed : int
        Its chance; the same gives the same file.

    Returns
    -------
    OutsidePage
        The spoiled file, with the truth of the page.
    """
    style, _, rest = page.note.partition(",")
    page = replace(page, note=f"{style},{rest}, {how}")
    if how not in PIPELINES:
        return _taken(page, how, folder, np.random.default_rng([crc32(how.encode()), seed]))
    augraphy = importlib.import_module("augraphy")  # by name: where it is not installed, types and tests still run
    importlib.import_module("random").seed(seed)  # augraphy draws from both global generators
    np.random.seed(seed)  # noqa: NPY002
    pipeline = PIPELINES[how]
    pixels = _scanned(page.path, SCAN_DPI, SMALLEST_PX)
    for name, settings in pipeline.steps:
        pixels = getattr(augraphy, name)(p=1, **settings)(pixels)
    path = folder / f"{page.path.stem}-{how}{pipeline.ending}"
    _save(pixels, path, pipeline)
    return replace(page, path=path)


def _taken(page: OutsidePage, how: str, folder: Path, rng: np.random.Generator) -> OutsidePage:
    sheet = _scanned(page.path, RENDERED_DPI, LARGE_PX)[:, :, ::-1]
    take = photograph if how in SHOTS else machine_made
    taken = take(np.ascontiguousarray(sheet), how, rng)

    def moved(points: tuple[Point, ...]) -> tuple[Point, ...]:
        return tuple((float(x), float(y)) for x, y in taken.move(np.array(points, float).reshape(-1, 2)))

    outlines: list[Outline] = []
    for outline in page.outlines:
        a, b, c, d = moved(outline)
        outlines.append((a, b, c, d))
    path = taken.save(folder / f"{page.path.stem}-{how}")
    return replace(page, path=path, places=moved(page.places), outlines=tuple(outlines))


def _scanned(path: Path, dpi: float, smallest_px: int) -> npt.NDArray[np.uint8]:
    """Give the page as augraphy takes it: blue, green, red; a PDF at the resolution."""
    if path.suffix == ".pdf":
        with pypdfium2.PdfDocument(path) as document:
            # pypdfium2 declares the scale as a whole number but takes any
            options: dict[str, Any] = {"scale": dpi / 72}
            picture = document[0].render(**options).to_pil().convert("RGB")
    else:
        with Image.open(path) as stored:
            picture = stored.convert("RGB")
    times = smallest_px / max(picture.size)
    if times > 1:
        picture = picture.resize(
            (round(picture.width * times), round(picture.height * times)), Image.Resampling.BICUBIC
        )
    return np.ascontiguousarray(np.asarray(picture)[:, :, ::-1])


def _save(pixels: npt.NDArray[np.uint8], path: Path, pipeline: Pipeline) -> None:
    picture = Image.fromarray(np.ascontiguousarray(pixels if pixels.ndim == 2 else pixels[:, :, ::-1]))
    if pipeline.ending == ".tif":
        size = [round(length * dpi / SCAN_DPI) for length, dpi in zip(picture.size, FAX_DPI, strict=True)]
        picture = picture.convert("L").resize((size[0], size[1]), Image.Resampling.BILINEAR)
        picture.convert("1", dither=Image.Dither.NONE).save(path, compression="group4", dpi=FAX_DPI)
    elif pipeline.ending == ".jpg":
        picture.save(path, quality=pipeline.quality, dpi=(SCAN_DPI, SCAN_DPI))
    else:
        (picture.convert("L") if pipeline.grey else picture).save(path, dpi=(SCAN_DPI, SCAN_DPI))
