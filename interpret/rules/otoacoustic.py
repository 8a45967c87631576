"""Otoacoustic emissions: pass or refer by the usual criteria, and whether that fits the thresholds."""

from __future__ import annotations

from collections.abc import Iterator

from ..finding import Finding, standing_of
from ..record import EmissionBand, EmissionResult, OtoacousticEmission
from ..settings import Case
from .doubt import Level, Row, row_of
from .truth import MET, NO, NOT_MET, Truth, above, as_read, at_most

# Common practice [memory]: signal to noise of 6 dB (transient ones 3 to 6), -10 dB SPL, at 3 of 4 frequencies.
SNR_DB = 6.0
LEAST_DB_SPL = -10.0
SHARE = 0.75
CRITERION = "6 dB above noise and -10 dB SPL at 3 of 4 frequencies, common practice"

# Emissions are usually seen to about 30 to 40 dB HL of cochlear loss and not beyond (common practice).
RAISED_ABOVE_DB, NORMAL_TO_DB = 40.0, 20.0
PRESENT_RULE = f"present, threshold above {RAISED_ABOVE_DB:g} dB HL, common practice"
ABSENT_RULE = f"absent, threshold to {NORMAL_TO_DB:g} dB HL, common practice"
_BOTH: tuple[EmissionResult, EmissionResult] = ("pass", "refer")
_WHOLE_HZ = (1000.0, 2000.0, 4000.0)
_SAME_FREQUENCY = 1.07
"""A band is held against the threshold of a frequency no farther off than this factor (a tenth of an octave)."""


def conclude(case: Case) -> Iterator[Finding]:
    """Give the findings on every measurement of otoacoustic emissions."""
    for one in case.audiogram.otoacoustic:
        computed = result_of(one)
        word = computed or one.result
        asks = one.standing == "ask"
        if word is not None:
            name = CRITERION if computed else "as the report states"
            yield Finding(
                f"emissions-{one.method}", name, ear=one.ear, word=word, could_be=_BOTH if asks else (),
                standing=one.standing,
            )  # fmt: skip
        if computed and one.result and computed != one.result:
            yield Finding(
                "emissions-result-differs", CRITERION, ear=one.ear, could_be=(computed, f"printed {one.result}"),
                standing=one.standing,
            )  # fmt: skip
        yield from _against_thresholds(one, word, row_of(case.audiogram.thresholds, one.ear))


def band_result(band: EmissionBand) -> EmissionResult | None:
    """Give whether an emission stands out at one frequency; None where its numbers are not stated.

    Notes
    -----
    The same edge is used for both methods; for transient emissions some take 3 dB.
    """
    snr = band.snr_db
    if snr is None and band.amplitude_db_spl is not None and band.noise_db_spl is not None:
        snr = band.amplitude_db_spl - band.noise_db_spl
    if snr is None:
        return None
    loud = band.amplitude_db_spl is None or band.amplitude_db_spl > LEAST_DB_SPL
    return "pass" if snr >= SNR_DB and loud else "refer"


def result_of(one: OtoacousticEmission) -> EmissionResult | None:
    """Give the result of a measurement by its numbers; None where no band states any."""
    results = [result for band in one.bands if (result := band_result(band))]
    if not results:
        return None
    return "pass" if results.count("pass") >= SHARE * len(results) else "refer"


def _against_thresholds(one: OtoacousticEmission, whole: EmissionResult | None, row: Row) -> Iterator[Finding]:
    told = False
    for band in one.bands:
        result = band_result(band) or band.result
        hz = next((hz for hz in row if 1 / _SAME_FREQUENCY <= hz / band.frequency_hz <= _SAME_FREQUENCY), None)
        if result is not None and hz is not None:
            told = True
            yield from _conflict(one, result, {hz: row[hz]}, band.frequency_hz)
    here = {hz: row[hz] for hz in _WHOLE_HZ if hz in row}
    if not told and whole is not None and len(here) == len(_WHOLE_HZ):
        yield from _conflict(one, whole, here, None)


def _conflict(
    one: OtoacousticEmission, result: EmissionResult, here: dict[float, Level], hz: float | None
) -> Iterator[Finding]:
    """Tell where an emission is present though every threshold is raised, or absent though every one is normal."""

    def judged(full: bool) -> Truth:
        spans = [level.span if full else as_read(level) for level in here.values()]
        found = Truth(surely=True, possibly=True)
        for span in spans:
            found &= above(span, RAISED_ABOVE_DB) if result == "pass" else at_most(span, NORMAL_TO_DB)
        return found

    rests_on = tuple(frequency for frequency, level in here.items() if level.ask)
    asks = bool(rests_on) or one.standing == "ask"
    read, full = judged(full=False), judged(full=True)
    if one.standing == "ask":
        full = Truth(surely=False, possibly=full != NO or read != NO)
    if not read.surely and not (asks and full.possibly):
        return
    levels = [level.db_hl for level in here.values()]
    yield Finding(
        "emissions-and-thresholds", PRESENT_RULE if result == "pass" else ABSENT_RULE, ear=one.ear, frequency_hz=hz,
        word=MET if read.surely else NOT_MET, could_be=(NOT_MET, MET) if asks and not full.surely else (),
        numbers=(("level_db_hl", min(levels) if result == "pass" else max(levels)),),
        standing="ask" if one.standing == "ask" else standing_of(rests_on), rests_on=rests_on,
        no_response_hz=tuple(frequency for frequency, level in here.items() if not level.response),
    )  # fmt: skip
