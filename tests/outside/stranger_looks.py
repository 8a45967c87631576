"""The looks of `drawn_by_strangers`: what a stranger may choose who draws an audiogram, and how the choices vary."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from cases import CLINIC, OCTAVES, pick

Box = tuple[float, float, float, float]
A4 = (595.0, 842.0)
WIDE = (842.0, 595.0)
ALL = (125, *CLINIC)
FULL = (125, *OCTAVES)
HIGH = (*OCTAVES, 10000, 12500, 16000, 20000)
GREY = "#777777"


@dataclass(frozen=True, slots=True)
class Look:
    """How one page is drawn; lengths in points.

    ``sides`` are the sides of the plot that carry labels (l, r, t, b; L, T within the plot); ``zones`` shade the
    degrees and write their words; ``gaps`` leaves white round marks on their line; ``told`` prints each level beside
    its mark, ``rows`` all of them below the chart; ``field`` draws loudspeaker marks, of S or of A.
    """

    page: tuple[float, float] = A4
    boxes: tuple[Box, ...] = ((90, 250, 400, 380),)
    swapped: bool = False
    ticks: tuple[int, ...] = FULL
    labelled: tuple[int, ...] = FULL
    tested: tuple[int, ...] = OCTAVES
    levels: tuple[int, int] = (-10, 120)
    step: int = 10
    named_step: int = 10
    equal: bool = False
    margin: float = 0.5
    unit: str = "Hz"
    sides: str = "lt"
    staggered: bool = False
    minus: str = "-"
    titles: tuple[str, str] = ("Frequency (Hz)", "Hearing level (dB HL)")
    title: str = "Audiogram"
    face: str = "DejaVu Sans"
    size: float = 8
    paper: str = "#ffffff"
    plot: str = "#ffffff"
    ink: str = "#000000"
    frame: float = 1
    grid: str = "#aaaaaa"
    grid_pen: float = 0.5
    across: bool = True
    dash: tuple[float, ...] = ()
    fine: bool = False
    zones: str = ""
    banana: bool = False
    watermark: str = ""
    colours: tuple[str, str] = ("#dd0000", "#0000dd")
    radius: float = 5
    pen: float = 1.3
    fill: str = ""
    masked_air: bool = True
    joined: str = "both"
    gaps: bool = False
    bone_joined: bool = False
    bone: float = 0.16
    arrow: str = "open"
    key: str = ""
    around: str = ""
    ears: tuple[str, str] = ("Right ear", "Left ear")
    told: bool = False
    limit: int = 0
    units: bool = False
    field: str = ""
    filled_under: bool = False
    halo: bool = False
    rows: bool = False
    kinds: tuple[str, ...] = ("pdf", "pdf", "cairo-150", "100", "150", "200", "300", "jpg-150")


PHONE = Look(page=(360, 640), boxes=((46, 130, 290, 330),), size=8, radius=4.5, kinds=("144", "200"), around="bar")
STYLES: dict[str, Look] = {
    "letterhead": Look(boxes=((90, 470, 330, 290),), around="letter", key="beside", face="DejaVu Serif"),
    "gridless": Look(grid="", frame=2.5, key="below", sides="lb"),
    "zones": Look(zones="grey", key="inside", sides="lt"),
    "banana": Look(banana=True, grid="#cccccc", key="below"),
    "screen": Look(page=(800, 600), boxes=((90, 110, 520, 430),), around="bar", key="beside", size=11, radius=7,
                   kinds=("72", "72", "96"), grid="#d0d0d0", pen=1.6),
    "orange-blue": Look(colours=("#d55e00", "#0072b2"), sides="lb", key="inside"),
    "all-black": Look(colours=("#000000", "#000000"), frame=2, grid="#000000", grid_pen=0.35, key="beside"),
    "web-plot": Look(page=(700, 450), boxes=((80, 70, 470, 310),), plot="#e5ecf6", grid="#ffffff", grid_pen=1,
                     frame=0, sides="lb", colours=("#ef553b", "#636efa"), pen=2, key="beside", size=10, fill="air",
                     ticks=OCTAVES, labelled=OCTAVES, masked_air=False, titles=("Frequency (Hz)", "Threshold (dB HL)"),
                     kinds=("100", "144", "pdf", "cairo-100")),
    "matrix": Look(face="DejaVu Sans Mono", colours=("#000000", "#000000"), grid="#000000", dash=(0.6, 3),
                   around="form", size=9, kinds=("dots-100", "dots-144", "dots-200"), radius=6, pen=1, grid_pen=0.5,
                   key="below"),
    "sheet": Look(page=(620, 420), boxes=((70, 70, 510, 270),), equal=True, across=False, frame=0, grid="#d9d9d9",
                  grid_pen=0.8, sides="lt", colours=("#c00000", "#4472c4"), pen=2.2, key="below", size=9, fill="air",
                  ticks=CLINIC, labelled=CLINIC, tested=CLINIC, masked_air=False, title="Hearing test", ink="#595959"),
    "left-first": Look(page=WIDE, boxes=((70, 150, 320, 330), (480, 150, 320, 330)), swapped=True, key="below"),
    "to-20k": Look(ticks=HIGH, labelled=HIGH, tested=HIGH, unit="k", boxes=((80, 250, 450, 380),)),
    "half-octaves": Look(ticks=ALL, labelled=ALL, tested=CLINIC, staggered=True, fine=True, grid="#b8b8b8", size=7),
    "inside": Look(sides="LT", boxes=((40, 150, 515, 480),), titles=("Hz", "dB"), ticks=ALL, labelled=FULL),
    "all-sides": Look(sides="lrtb", unit="kHz", minus="\u2212", fine=True, ticks=ALL, labelled=ALL, tested=CLINIC),
    "watermark": Look(watermark="COPY", around="table", boxes=((90, 380, 380, 340),)),
    "small": Look(boxes=((70, 120, 190, 170),), size=5, radius=3, pen=0.8, around="text", key="beside",
                  kinds=("pdf", "200", "300")),
    "two-ears": Look(page=WIDE, boxes=((70, 190, 320, 300), (460, 190, 320, 300)), sides="lb", around="letter",
                     ticks=ALL, labelled=ALL, tested=CLINIC, equal=True, size=7),
    "phone": PHONE,
    "thin": Look(face="DejaVu Serif", grid_pen=0.2, grid="#000000", frame=0.4, pen=0.5, radius=4, size=8, sides="lb"),
    "german": Look(titles=("Frequenz in Hz", "Hörverlust in dB"), title="Tonaudiogramm", sides="lt", zones="lines",
                   levels=(-10, 110), key="below"),
    "values": Look(told=True, sides="lb", boxes=((90, 200, 420, 420),), key="below", colours=("#c00000", "#4472c4")),
    "rows": Look(rows=True, sides="lt", equal=True, boxes=((100, 180, 430, 330),), limit=25),
    "wide": Look(page=WIDE, boxes=((80, 150, 680, 250),), sides="lb", key="below", limit=20),
    "tall": Look(boxes=((150, 140, 260, 560),), sides="lrt", fine=True, limit=25),
    "filled": Look(filled_under=True, halo=True, grid="#dddddd", sides="lb", key="below", pen=2),
    "units": Look(units=True, unit="k", sides="lt", size=7, titles=("", "")),
    "blue-grid": Look(grid="#3a6fd0", ink="#1a3f90", grid_pen=0.6, sides="lt", key="beside"),
    "pink-grid": Look(grid="#e06a8a", ink="#a02040", grid_pen=0.6, fine=True, boxes=((90, 180, 400, 460),)),
    "field": Look(field="S", key="below", sides="lt"),
    "aided": Look(field="A", key="beside", sides="lb"),
    "twenties": Look(named_step=20, levels=(0, 120), step=10, grid="#99bb99", paper="#fbfff6", plot="#fbfff6"),
}  # fmt: skip

EAR_TITLES = (
    *(("Right ear", "Left ear"), ("RIGHT", "LEFT"), ("R", "L"), ("AD", "AS"), ("Rechtes Ohr", "Linkes Ohr")),
    *(("Oreille droite", "Oreille gauche"), ("Right Ear (AD)", "Left Ear (AS)"), ("Rechts", "Links")),
)
PALETTES = (
    *(("#dd0000", "#0000dd"), ("#cc3311", "#0077bb"), ("#ee3377", "#009988"), ("#b2182b", "#2166ac")),
    *(("#d55e00", "#0072b2"), ("#aa0000", "#000066"), ("#ff4040", "#40a0ff")),
)


def varied(rng: np.random.Generator, look: Look) -> Look:
    """Change a look here and there, each thing by its own lot, so that no two pages of a style are alike."""

    def some(share: float) -> bool:
        return bool(rng.random() < share)

    look = replace(
        look, radius=look.radius * float(rng.uniform(0.8, 1.25)), pen=look.pen * float(rng.uniform(0.8, 1.3))
    )
    look = replace(look, bone=float(rng.uniform(0.11, 0.24)) * (1.3 if look.equal else 1))
    look = replace(look, arrow=pick(rng, ("open", "filled", "down", "long", "apart", "beside")))
    look = replace(look, joined=pick(rng, ("both", "both", "dashed", "dotted", "none")), gaps=some(0.2))
    look = replace(look, bone_joined=some(0.2), margin=pick(rng, (0.5, 0.5, 0.3, 0.0, 1.0)))
    if len(set(look.colours)) > 1 and some(0.5):
        look = replace(look, colours=pick(rng, PALETTES))
    if len(look.boxes) == 1 and "L" not in look.sides and some(0.3):
        look = replace(look, sides=pick(rng, ("lt", "lb", "rb", "rt", "ltb", "lrb")))
    if not look.zones and some(0.15):
        look = replace(look, zones=pick(rng, ("grey", "lines", "colours")))
    if not look.fill and look.key and some(0.2):
        look = replace(look, fill=pick(rng, ("masked", "white")))
    if look.unit == "Hz" and some(0.25):
        unit, title = pick(
            rng, (("kHz", "kHz"), ("k", "Frequency"), ("0,5", "Frequency [kHz]"), ("Hz", "Frequency in Hertz"))
        )
        look = replace(look, unit=unit, titles=(title, pick(rng, (look.titles[1], "dB HL", "dB", "Level [dB HL]"))))
    if len(look.boxes) > 1:
        look = replace(look, ears=pick(rng, EAR_TITLES))
    look = replace(look, limit=look.limit or pick(rng, (0, 0, 0, 0, 20, 25)), halo=look.halo or some(0.1))
    if some(0.15):
        look = replace(look, levels=pick(rng, ((-20, 120), (-10, 110), (0, 110), (-10, 100))))
    return look
