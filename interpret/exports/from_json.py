"""A page record read back from its JSON, field by field as the record's own classes declare it."""

from __future__ import annotations

import json
import math
import types
from dataclasses import Field, fields, is_dataclass
from functools import cache
from typing import Any, Literal, NoReturn, TypeVar, Union, cast, get_args, get_origin, get_type_hints

from ..errors import UnreadableFile
from ..record import (
    SCHEMA,
    Audiogram,
    Immittance,
    OtoacousticEmission,
    PageRecord,
    PrintedAverage,
    Reflex,
    Remark,
    Report,
    Speech,
)

_Kind = TypeVar("_Kind")
_MAY_LACK: dict[type, frozenset[str]] = {
    Remark: frozenset({"ear", "conduction", "frequency_hz", "chart", "at"}),
    Audiogram: frozenset({"printed_averages"}),
    Report: frozenset({"facts"}),
    Speech: frozenset({"probability", "box"}),
    Immittance: frozenset({"probability", "box"}),
    Reflex: frozenset({"probability", "box"}),
    OtoacousticEmission: frozenset({"probability", "box"}),
    PrintedAverage: frozenset({"why_ask", "probability", "box"}),
}
# Page fractions run from 0 to 1; the corner of a chart that the page's edge cuts off lies a little outside.
_BOUNDS: dict[str, tuple[float, float]] = {
    "page": (1, math.inf),
    "pages": (1, math.inf),
    "chart": (0, math.inf),
    "labels_read": (0, math.inf),
    "worst_misfit": (0, math.inf),
    "frequency_hz": (1, 100_000),
    "frequencies_hz": (1, 100_000),
    "probe_hz": (1, 100_000),
    "level_db_hl": (-100, 200),
    "score_percent": (0, 100),
    "words": (1, 1000),
    "decay_percent": (0, 100),
    "ear_canal_volume_ml": (0, 100),
    "width_dapa": (0, 2000),
    "probability": (0, 1),
    "at": (-0.5, 1.5),
    "box": (-0.5, 1.5),
    "outline": (-0.5, 1.5),
}


def from_json(text: str) -> PageRecord:
    """Read a record from one line (or any layout) of JSON.

    Parameters
    ----------
    text : str
        One JSON object as ``to_json_line`` writes it.

    Returns
    -------
    PageRecord
        Equal to the record that was written, but for its rounding.

    Raises
    ------
    UnreadableFile
        When the text is not JSON, not of this schema, or a field is missing, unknown or of the wrong kind; the
        message names the field by its path.
    """
    try:
        value = json.loads(text, parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as fault:
        do = "Give the JSON that octavo wrote, one record a line"
        raise UnreadableFile(f"not a page record: {fault}", do) from fault
    if isinstance(value, dict) and value.get("schema", SCHEMA) != SCHEMA:
        written = f"not a page record of {SCHEMA} but of '{value['schema']}'"
        raise UnreadableFile(written, "Use the octavo that wrote it, or read the page again")
    return _object(PageRecord, value, "")


def _refuse_constant(name: str) -> NoReturn:
    raise ValueError(f"{name} is not a JSON number")


def _wrong(path: str, what: str) -> UnreadableFile:
    do = "Give the JSON that octavo wrote, unchanged"
    return UnreadableFile(f"not a page record: {path or 'the whole'} {what}", do)


@cache
def _hints(kind: type) -> dict[str, Any]:
    return get_type_hints(kind)


@cache
def _fields(kind: type) -> dict[str, Field[Any]]:
    return {field.name: field for field in fields(kind)}


def _object(kind: type[_Kind], value: object, path: str) -> _Kind:
    if not isinstance(value, dict):
        raise _wrong(path, "is not an object")
    known = _fields(kind)
    given = cast("dict[str, object]", value)
    for key in given:
        if key not in known:
            raise _wrong(path, f"has the unknown field '{key}'")
    for name in known:
        if name not in given and name not in _MAY_LACK.get(kind, ()):
            raise _wrong(path, f"lacks the field '{name}'")
    hints = _hints(kind)
    read = {key: _value(hints[key], item, f"{path}.{key}" if path else key, key) for key, item in given.items()}
    return kind(**read)


def _value(kind: Any, value: object, path: str, key: str) -> Any:
    origin = get_origin(kind)
    if origin in (Union, types.UnionType):
        if value is None:
            return None
        kind = next(option for option in get_args(kind) if option is not type(None))
        origin = get_origin(kind)
    if origin is Literal:
        if value not in get_args(kind):
            raise _wrong(path, f"is none of {', '.join(get_args(kind))}")
        return value
    if origin is tuple:
        return _tuple(get_args(kind), value, path, key)
    if origin is dict:
        if not isinstance(value, dict):
            raise _wrong(path, "is not an object")
        return cast("dict[str, Any]", value)
    if is_dataclass(kind):
        return _object(cast("type[Any]", kind), value, path)
    return _plain(kind, value, path, key)


def _tuple(kinds: tuple[Any, ...], value: object, path: str, key: str) -> tuple[Any, ...]:
    if not isinstance(value, list):
        raise _wrong(path, "is not a list")
    items = cast("list[object]", value)
    each = [kinds[0]] * len(items) if kinds[-1] is Ellipsis else list(kinds)
    if len(each) != len(items):
        raise _wrong(path, f"has {len(items)} entries and not {len(each)}")
    return tuple(
        _value(kind, item, f"{path}[{index}]", key) for index, (kind, item) in enumerate(zip(each, items, strict=True))
    )


def _plain(kind: type, value: object, path: str, key: str) -> bool | int | float | str:
    if kind is str and isinstance(value, str):
        return value
    if kind is bool and isinstance(value, bool):
        return value
    if kind in (int, float) and isinstance(value, int | float) and not isinstance(value, bool):
        if kind is int and isinstance(value, float) and not value.is_integer():
            raise _wrong(path, "is not a whole number")
        low, high = _BOUNDS.get(key, (-math.inf, math.inf))
        if not (math.isfinite(value) and low <= value <= high):
            raise _wrong(path, f"is {value}, outside {low:g} to {high:g}")
        return int(value) if kind is int else float(value)
    raise _wrong(path, f"is not {'text' if kind is str else 'true or false' if kind is bool else 'a number'}")
