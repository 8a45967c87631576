"""Audiograms as data people plot them: Vega-Lite's themes, facets with shared axes, keys and ticks of its own.

Needs PyPI's ``vl-convert-python`` (group outside); not for CI. The library lays out the page, so no places are told.
"""

from __future__ import annotations

import importlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from cases import BONES, CLINIC, OCTAVES, OutsidePage, Wish, aside, deal, hearing_test, pick

from octavo.interpret.record import Threshold

Spec = dict[str, Any]
Kind = tuple[str, str, bool]
EARS = ("Right ear", "Left ear")
THEMES = (
    *("", "", "", "dark", "dark", "ggplot2", "ggplot2", "quartz", "quartz"),
    *("carbonwhite", "carbong90", "carbong100"),
)
PALETTES = (
    *(("red", "blue"), ("#d62728", "#1f77b4"), ("#e45756", "#4c78a8"), ("#d55e00", "#0072b2")),
    ("crimson", "royalblue"),
)
LEVELS = ((-10, 120), (-10, 110), (0, 120), (-20, 120), (-10, 100))
SHAPES: dict[Kind, tuple[str, str]] = {  # Vega's name or path, and the letter that may stand for it
    ("right", "air", False): ("circle", "O"), ("left", "air", False): ("M-.7,-.7L.7,.7M.7,-.7L-.7,.7", "X"),
    ("right", "air", True): ("triangle-up", "\u25b3"), ("left", "air", True): ("square", "\u25a1"),
    ("right", "bone", False): ("M.4,-.8L-.4,0L.4,.8", "<"), ("left", "bone", False): ("M-.4,-.8L.4,0L-.4,.8", ">"),
    ("right", "bone", True): ("M.3,-.8L-.3,-.8L-.3,.8L.3,.8", "["),
    ("left", "bone", True): ("M-.3,-.8L.3,-.8L.3,.8L-.3,.8", "]"),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Look:
    """How one page is drawn; ``facet`` is how charts of an ear each stand: ``column`` beside, ``row`` above each other.

    ``letters`` sets marks as text; ``named`` spaces the frequencies by name; ``tests`` are two dates side by side.
    """

    sizes: tuple[tuple[int, int], ...] = ((400, 300), (600, 450), (500, 500), (300, 300), (700, 400))
    facet: str = ""
    letters: bool = False
    named: bool = False
    tests: int = 1
    mark: int = 0


STYLES: dict[str, Look] = {
    "both": Look(),
    "facet-columns": Look(((300, 300), (400, 350), (260, 330)), facet="column"),
    "facet-rows": Look(((400, 280), (500, 240)), facet="row"),
    "letters": Look(letters=True),
    "named": Look(named=True),
    "several": Look(((300, 300), (400, 350), (260, 330)), tests=2),
    "wide": Look(((900, 260),)),
    "tall": Look(((180, 700),)),
    "tiny": Look(((160, 140),), mark=30),
}


@dataclass(frozen=True, slots=True)
class Choice:
    """What the lot gave a page."""

    size: tuple[int, int]
    levels: tuple[int, int]
    step: int
    ticks: tuple[int, ...]
    in_k: bool
    beside: float
    mark: int
    pen: float
    palette: tuple[str, str]
    key: Spec
    x_title: str
    y_title: str
    x_side: str


def page(seed: int, folder: Path, kind: str = "") -> OutsidePage:
    """Draw page number ``seed`` into ``folder`` (see `deal`); ``kind`` overrules the lot: pdf, or dots to the inch."""
    rng, style, look = deal(22, seed, STYLES)
    theme, way = pick(rng, THEMES), kind or pick(rng, ("pdf", "72", "72", "96", "144", "200"))
    choice = _chosen(rng, look)
    tested = pick(rng, (OCTAVES, CLINIC))
    wish = Wish(tested, choice.levels[1] - 10, choice.levels[0], pick(rng, BONES), masked_air=bool(rng.random() < 0.6))
    tests = [hearing_test(rng, wish) for _ in range(look.tests)]
    dates = ("12 March 2021", "9 September 2024") if look.tests > 1 else (pick(rng, ("", "Pure tone audiogram")),)
    charts = [_chart(test, title, look, choice) for test, title in zip(tests, dates, strict=True)]
    spec: Spec = charts[0]
    if len(charts) > 1:
        spec = {"hconcat": charts, "resolve": {"scale": {"color": "independent", "shape": "independent"}}}
    spec |= {"$schema": "https://vega.github.io/schema/vega-lite/v5.20.json", "padding": 20}
    spec |= {} if theme else {"background": "white"}
    path = folder / f"vega-{seed:04d}-{style}.{'pdf' if way == 'pdf' else 'png'}"
    themed = {"theme": theme} if theme else {}
    vl_convert: Any = importlib.import_module("vl_convert")  # by name: where it is not installed, types still run
    if way == "pdf":
        path.write_bytes(vl_convert.vegalite_to_pdf(spec, **themed))
    else:
        path.write_bytes(vl_convert.vegalite_to_png(spec, ppi=float(way), **themed))
    truth = tuple(one for test in tests for one in test)
    count = 2 if look.facet or look.tests > 1 else 1
    return OutsidePage(path, truth, count, f"{style}, {theme or 'plain'} {way}", ((0.0, 0.0),) * len(truth), ())


def _chosen(rng: np.random.Generator, look: Look) -> Choice:
    keys: tuple[Spec, ...] = ({}, {"orient": "bottom"}, {"orient": "bottom", "columns": 2}, {"orient": "left"})
    return Choice(
        pick(rng, look.sizes),
        pick(rng, LEVELS),
        pick(rng, (10, 10, 20)),
        pick(rng, (OCTAVES, (125, *OCTAVES))),
        bool(rng.random() < 0.4),
        pick(rng, (0.09, 0.12, 0.16)),
        look.mark or pick(rng, (60, 90, 130, 180)),
        pick(rng, (1, 1.5, 2, 2.5)),
        pick(rng, PALETTES),
        pick(rng, keys[:2] if look.facet or look.tests > 1 else keys),
        pick(rng, ("Frequency (Hz)", "Frequency", "Frequency [Hz]")),
        pick(rng, ("dB HL", "Hearing level (dB HL)", "Threshold (dB HL)")),
        pick(rng, ("bottom", "bottom", "top")),
    )


def _chart(truth: Sequence[Threshold], title: str, look: Look, choice: Choice) -> Spec:
    rows = [_row(one, look, choice) for one in truth]
    axes = _axes(truth, look, choice)
    layers = [*_lines(rows, axes, choice), _marks(truth, axes, look, choice), *_arrows(rows, axes, choice)]
    wide, high = choice.size
    titled: Spec = {"title": title} if title else {}
    if look.facet:
        facet = {"field": "ear", "type": "nominal", "title": None, "sort": list(EARS)}
        spec = {"layer": layers, "width": wide, "height": high}
        return {"data": {"values": rows}, "facet": {look.facet: facet}, "spec": spec} | titled
    return {"data": {"values": rows}, "layer": layers, "width": wide, "height": high} | titled


def _row(one: Threshold, look: Look, choice: Choice) -> Spec:
    side = 0.0 if look.named else aside(one, choice.beside)
    return {
        "hz": one.frequency_hz * 2**side,
        "name": _named(one.frequency_hz, choice),
        "db": one.level_db_hl,
        "ear": EARS[one.ear == "left"],
        "what": _told((one.ear, one.conduction, one.masked)),
        "air": one.conduction == "air",
        "heard": one.response,
        "letter": SHAPES[one.ear, one.conduction, one.masked][1],
        "arrow": "\u2198" if one.ear == "left" else "\u2199",
    }


def _told(kind: Kind) -> str:
    ear, conduction, masked = kind
    return f"{ear.capitalize()} {'AC' if conduction == 'air' else 'BC'}{' masked' if masked else ''}"


def _named(hz: float, choice: Choice) -> str:
    return f"{hz / 1000:g}k" if choice.in_k and hz >= 1000 else f"{hz:g}"


def _axes(truth: Sequence[Threshold], look: Look, choice: Choice) -> Spec:
    if look.named:
        order = [_named(hz, choice) for hz in sorted({one.frequency_hz for one in truth})]
        x: Spec = {"field": "name", "type": "ordinal", "sort": order, "axis": {"labelAngle": 0}}
    else:
        scale = {"type": "log", "domain": [choice.ticks[0] / 1.4, 8000 * 1.4], "nice": False}
        said = "datum.value >= 1000 ? datum.value / 1000 + 'k' : datum.value" if choice.in_k else "datum.value"
        axis = {"values": list(choice.ticks), "labelExpr": said, "labelAngle": 0, "orient": choice.x_side}
        x = {"field": "hz", "type": "quantitative", "scale": scale, "axis": axis | {"labelOverlap": False}}
    low, high = choice.levels
    down = {"domain": [low, high], "reverse": True, "nice": False}
    axis = {"values": list(range(low, high + 1, choice.step))}
    y = {"field": "db", "type": "quantitative", "scale": down, "axis": axis, "title": choice.y_title}
    return {"x": x | {"title": choice.x_title}, "y": y}


def _lines(rows: list[Spec], axes: Spec, choice: Choice) -> list[Spec]:
    marks = [{"type": "line", "strokeWidth": choice.pen, "color": colour} for colour in choice.palette]
    ears = [e for e, ear in enumerate(EARS) if any(row["ear"] == ear for row in rows)]
    return [_layer(EARS[e], "datum.air && datum.heard", marks[e], axes) for e in ears]


def _layer(ear: str, wanted: str, mark: Spec, encoding: Spec) -> Spec:
    return {"transform": [{"filter": f"datum.ear == '{ear}' && {wanted}"}], "mark": mark, "encoding": encoding}


def _marks(truth: Sequence[Threshold], axes: Spec, look: Look, choice: Choice) -> Spec:
    kinds = sorted({(one.ear, one.conduction, one.masked) for one in truth}, key=lambda k: (k[0] == "left", k[1:]))
    if look.letters:
        domain, field = list(EARS), "ear"
        colours = list(choice.palette)
    else:
        domain, field = [_told(kind) for kind in kinds], "what"
        colours = [choice.palette[kind[0] == "left"] for kind in kinds]
    shared = {"field": field, "type": "nominal", "title": None, "legend": choice.key}
    colour = shared | {"scale": {"domain": domain, "range": colours}}
    if look.letters:
        mark = {"type": "text", "fontSize": round(1.8 * choice.mark**0.5)}
        return {"mark": mark, "encoding": axes | {"color": colour, "text": {"field": "letter"}}}
    shape = shared | {"scale": {"domain": domain, "range": [SHAPES[kind][0] for kind in kinds]}}
    mark = {"type": "point", "size": choice.mark, "strokeWidth": choice.pen, "filled": False}
    return {"mark": mark, "encoding": axes | {"color": colour, "shape": shape}}


def _arrows(rows: list[Spec], axes: Spec, choice: Choice) -> list[Spec]:
    layers = []
    for e, ear in enumerate(EARS):
        if any(row["ear"] == ear and not row["heard"] for row in rows):
            reach = 1.15 * choice.mark**0.5
            mark = {"type": "text", "color": choice.palette[e], "fontSize": round(1.6 * choice.mark**0.5)}
            mark |= {"dx": reach if ear == EARS[1] else -reach, "dy": 1.1 * reach}
            layers.append(_layer(ear, "!datum.heard", mark, axes | {"text": {"field": "arrow"}}))
    return layers
