"""Hypothesis strategies: any record that the published schema allows."""

from __future__ import annotations

import math
from typing import get_args

from hypothesis import strategies as st

from octavo.interpret.finding import Finding
from octavo.interpret.finding_codes import FINDING_CODES
from octavo.interpret.reasons import REASONS
from octavo.interpret.record import (
    Audiogram,
    AxisScale,
    Chart,
    Conduction,
    Ear,
    EmissionBand,
    EmissionMethod,
    EmissionResult,
    Fact,
    FactName,
    FrequencyAxis,
    Immittance,
    LevelAxis,
    Measure,
    OtoacousticEmission,
    PageRecord,
    Point,
    PrintedAverage,
    Reflex,
    Remark,
    Report,
    Seen,
    Side,
    Source,
    Speech,
    SpeechMeasure,
    Standing,
    TakenBy,
    Threshold,
    Tympanogram,
)

# A file name that is not UTF-8 comes from the system with single surrogates from U+DC80 on.
TEXT = st.text(st.characters(exclude_categories=("Cs",)) | st.sampled_from("\udc80\udcff\u2028\x85\n\x1b"), max_size=12)
MAYBE_TEXT = st.none() | TEXT


def rounded(low: float, high: float, decimals: int) -> st.SearchStrategy[float]:
    """Numbers that the record's rounding leaves as they are."""
    scale = 10**decimals
    return st.integers(round(low * scale), round(high * scale)).map(lambda whole: round(whole / scale, decimals))


def point() -> st.SearchStrategy[Point]:
    return st.tuples(rounded(0, 1, 5), rounded(0, 1, 5))


LINE = st.tuples(point(), point())
SCALE = st.sampled_from(get_args(AxisScale))
HERTZ = rounded(20, 20_000, 2)
LEVEL = rounded(-20, 130, 2)
MISFIT = rounded(0, 10, 4)
JSON = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**53), 2**53) | TEXT, lambda inner: st.lists(inner, max_size=2)
)
OBJECT = st.dictionaries(TEXT, JSON, max_size=2)
FINDING = st.builds(
    Finding,
    st.sampled_from(sorted(FINDING_CODES)),
    TEXT,
    ear=st.none() | st.sampled_from(get_args(Ear)),
    frequency_hz=st.none() | HERTZ,
    word=MAYBE_TEXT,
    number=st.none() | LEVEL,
    unit=st.just("dB"),
    low=LEVEL,
    high=LEVEL | st.just(math.inf),
    standing=st.sampled_from(("sure", "ask")),
    rests_on=st.lists(HERTZ, max_size=2).map(tuple),
).map(Finding.to_json)
FINDINGS = st.just({}) | st.fixed_dictionaries(
    {
        "scheme": OBJECT,
        "normal_limit": OBJECT,
        "gap_rule": st.just("gap-10"),
        "age_years": st.none() | rounded(0, 100, 2),
        "sex": st.sampled_from(("female", "male", None)),
        "noise": st.none() | OBJECT,
        "found": st.lists(FINDING, max_size=2),
    }
)
CHART = st.builds(
    Chart,
    st.tuples(point(), point(), point(), point()),
    st.none() | st.builds(FrequencyAxis, SCALE, st.tuples(HERTZ, HERTZ), LINE, st.integers(0, 20), MISFIT),
    st.none() | st.builds(LevelAxis, SCALE, st.tuples(LEVEL, LEVEL), LINE, st.integers(0, 20), MISFIT),
)
SEEN = st.builds(Seen, st.none() | st.integers(0, 3), st.none() | point(), st.none() | HERTZ, st.none() | LEVEL)
CODES = st.lists(st.sampled_from(sorted(REASONS)), max_size=2, unique=True).map(tuple)


def threshold() -> st.SearchStrategy[Threshold]:
    return st.builds(
        Threshold,
        ear=st.sampled_from(get_args(Ear)),
        conduction=st.sampled_from(get_args(Conduction)),
        masked=st.booleans(),
        frequency_hz=st.sampled_from((125.0, 250.0, 500.0, 750.0, 1000.0, 2000.0, 4000.0, 8000.0, 12500.0)),
        level_db_hl=LEVEL,
        aided=st.booleans(),
        measure=st.sampled_from(get_args(Measure)),
        response=st.booleans(),
        standing=st.sampled_from(("sure", "ask")),
        probability=rounded(0, 1, 4),
        why_ask=CODES,
        seen=st.none() | SEEN,
    )


STANDING = st.sampled_from(get_args(Standing))
SIDE = st.sampled_from(get_args(Side))
PERCENT = rounded(0, 100, 2)
CHANCE = rounded(0, 1, 4)
BOX = st.none() | st.tuples(*(rounded(0, 1, 5) for _ in range(4)))
SPEECH = st.builds(
    Speech,
    st.sampled_from(get_args(Ear)),
    st.sampled_from(get_args(SpeechMeasure)),
    level_db_hl=st.none() | LEVEL,
    score_percent=st.none() | PERCENT,
    words=st.none() | st.integers(1, 100),
    word_list=MAYBE_TEXT,
    phonemes=st.booleans(),
    conduction=st.sampled_from(get_args(Conduction)),
    masked=st.booleans(),
    aided=st.booleans(),
    snr_db=st.none() | LEVEL,
    response=st.booleans(),
    standing=STANDING,
    why_ask=CODES,
    probability=CHANCE,
    box=BOX,
)
TYMPANOGRAM = st.builds(
    Tympanogram,
    st.none() | st.booleans(),
    st.none() | rounded(-400, 200, 0),
    st.none() | rounded(0, 5, 2),
    st.none() | rounded(0, 6, 2),
    st.none() | rounded(0, 400, 0),
    st.sampled_from((226.0, 1000.0)),
    MAYBE_TEXT,
)
REFLEX = st.builds(
    Reflex, SIDE, st.none() | HERTZ, st.none() | LEVEL, st.booleans(), st.none() | PERCENT, STANDING, CODES, CHANCE, BOX
)
IMMITTANCE = st.builds(
    Immittance, SIDE, st.none() | TYMPANOGRAM, st.lists(REFLEX, max_size=4).map(tuple), STANDING, CODES, CHANCE, BOX
)
RESULT = st.sampled_from((*get_args(EmissionResult), None))
BAND = st.builds(EmissionBand, HERTZ, *(st.none() | LEVEL for _ in range(3)), RESULT)
EMISSION = st.builds(
    OtoacousticEmission, SIDE, st.sampled_from(get_args(EmissionMethod)), st.lists(BAND, max_size=4).map(tuple),
    RESULT, STANDING, CODES, CHANCE, BOX,
)  # fmt: skip
PRINTED_AVERAGE = st.builds(
    PrintedAverage,
    st.sampled_from(get_args(Ear)),
    st.lists(HERTZ, min_size=1, max_size=4).map(tuple),
    LEVEL,
    st.sampled_from(get_args(Conduction)),
    STANDING,
    CODES,
    CHANCE,
    BOX,
)
FACT = st.builds(Fact, st.sampled_from(get_args(FactName)), TEXT, TEXT, BOX, CHANCE, STANDING, CODES)
AUDIOGRAM = st.builds(
    Audiogram,
    MAYBE_TEXT,
    MAYBE_TEXT,
    st.lists(CHART, max_size=2).map(tuple),
    st.lists(threshold(), max_size=6).map(tuple),
    st.lists(SPEECH, max_size=2).map(tuple),
    st.lists(IMMITTANCE, max_size=2).map(tuple),
    st.lists(EMISSION, max_size=2).map(tuple),
    FINDINGS,
    st.lists(PRINTED_AVERAGE, max_size=2).map(tuple),
)
REMARK = st.builds(
    Remark,
    st.sampled_from(sorted(REASONS)),
    TEXT,
    st.none() | st.sampled_from(get_args(Ear)),
    st.none() | st.sampled_from(get_args(Conduction)),
    st.none() | HERTZ,
    st.none() | st.integers(0, 3),
    st.none() | point(),
)
SOURCE = st.builds(
    Source, TEXT, st.text("0123456789abcdef", min_size=64, max_size=64), st.integers(1, 9), st.integers(9, 99),
    st.sampled_from(get_args(TakenBy)),
)  # fmt: skip


@st.composite
def page_records(draw: st.DrawFn) -> PageRecord:
    """Draw a record; its page stands as sure only where all its values do."""
    audiograms = tuple(draw(st.lists(AUDIOGRAM, max_size=2)))
    sure = all(t.standing == "sure" for audiogram in audiograms for t in audiogram.thresholds)
    standing = draw(st.sampled_from(("sure", "ask"))) if sure else "ask"
    patient, born, transducer, reliability = (draw(MAYBE_TEXT) for _ in range(4))
    report = Report(patient, born, transducer, reliability, draw(st.lists(FACT, max_size=3).map(tuple)))
    remarks = tuple(draw(st.lists(REMARK, max_size=2)))
    return PageRecord(draw(SOURCE), standing, audiograms, report, remarks)
