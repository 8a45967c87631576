"""The findings that pure-tone thresholds give: averages, degree, type, configuration, ears."""

from __future__ import annotations

from .code import FindingCode

_LOOK = "Look first at the values that it rests on, where it stands as ask"

CODES = (
    FindingCode("average", "averages", "The pure-tone average of one ear and conduction over named frequencies",
                "The mean of the thresholds; none where a frequency is missing; at least where one was not heard",
                "Fletcher 1929; AMA 1959; WHO; BIAP 02/1 bis; BSA 2018; 29 CFR 1904.10", _LOOK),
    FindingCode("average-better-ear", "averages", "The pure-tone average of the better ear, taken as the person's",
                "The lower of the two ears' averages; none where one ear has none", "WHO 1991 and 2021", _LOOK),
    FindingCode("average-binaural", "averages", "The mean of both ears' pure-tone averages",
                "Half the sum of the two ears' averages; none where one ear has none", "common practice", _LOOK,
                checked=False),
    FindingCode("degree", "degree", "The degree of the loss of one ear, or of the person, by a named scheme",
                "The band of the scheme that the average falls into; between two whole-dB bands the upper one",
                "interpret/tables/degree_scales.csv, with the source of each scale",
                "Name the scheme whenever the word is passed on: one word means other levels in other countries"),
)  # fmt: skip
