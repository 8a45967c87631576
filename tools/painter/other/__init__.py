"""Pages that hold no audiogram, and empty forms: what a reader must leave alone."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ..sheet import Sheet
from . import curves, downward, hearing, words
from .plot import Split

OTHER_FAMILIES: dict[str, tuple[Split, Callable[[np.random.Generator, bool], Sheet], tuple[str, ...]]] = {
    "letter": ("train", words.letter, ()),
    "invoice": ("train", words.invoice, ()),
    "month": ("train", words.month, ()),
    "weather": ("train", curves.weather, ()),
    "bars": ("train", curves.bars, ()),
    "scatter": ("train", curves.scatter, ()),
    "growth": ("train", curves.growth, ()),
    "heart": ("train", curves.heart, ()),
    "graph-paper": ("train", curves.graph_paper, ()),
    "downward": ("train", downward.downward, ()),
    "tympanogram": ("train", hearing.tympanogram, ()),
    "emissions": ("train", hearing.emissions, ()),
    "speech-curve": ("train", hearing.speech_curve, ()),
    "aid-output": ("train", hearing.aid_output, ()),
    "bare-grid": ("train", hearing.bare_grid, ()),
    "blank-form": ("train", hearing.blank_form, ("blank",)),
    "note": ("bench", words.note, ()),
    "rota": ("bench", words.rota, ()),
    "price-list": ("bench", words.price_list, ()),
    "questions": ("bench", words.questions, ()),
    "sales": ("bench", curves.sales, ()),
    "groups": ("bench", curves.groups, ()),
    "breath": ("bench", curves.breath, ()),
    "depths": ("bench", curves.depths, ()),
    "reflexes": ("bench", hearing.reflexes, ()),
    "screening": ("bench", hearing.screening, ()),
    "room-noise": ("bench", hearing.room_noise, ()),
    "blank-pair": ("bench", hearing.blank_pair, ("blank",)),
}
"""By name: the split, what draws the page, and tags beside "none" ("blank" is an empty audiogram form)."""
