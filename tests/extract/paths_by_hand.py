"""Paths as a drawn page holds them, made by hand."""

from __future__ import annotations

import math

import numpy as np

from octavo.extract.page import DrawnPath

BOX = (0.0, 0.0, 1000.0, 1000.0)
RED, BLUE, WHITE = (200, 20, 20), (20, 20, 200), (255, 255, 255)
Ink = tuple[int, int, int]
# four Bezier curves with this handle follow a circle within 0.03% of its radius
HANDLE = 4 / 3 * math.tan(math.pi / 8)


def line(number: int, *points: tuple[float, float], ink: Ink = RED) -> DrawnPath:
    return DrawnPath(np.array(points, float), np.ones(len(points), bool), ink, None, 2.0, False, number)


def ring(number: int, x: float, y: float, radius: float = 15.0, ink: Ink = RED) -> DrawnPath:
    quarter = np.array([(1, 0), (1, HANDLE), (HANDLE, 1), (0, 1)])
    points = [quarter[:1]]
    for turns in range(4):
        cos, sin = (round(v) for v in (math.cos(turns * math.pi / 2), math.sin(turns * math.pi / 2)))
        points.append(quarter[1:] @ np.array([(cos, sin), (-sin, cos)]))
    on = np.array([True, *(False, False, True) * 4])
    return DrawnPath(np.concatenate(points) * radius + (x, y), on, ink, None, 2.0, False, number)


def saltire(number: int, x: float, y: float, *, ink: Ink = RED) -> tuple[DrawnPath, DrawnPath]:
    one = line(number, (x - 14, y - 14), (x + 14, y + 14), ink=ink)
    return one, line(number + 1, (x - 14, y + 14), (x + 14, y - 14), ink=ink)
