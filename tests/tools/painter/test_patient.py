"""Invented tests hold what an audiometer and a listener can give."""

from __future__ import annotations

import numpy as np

from octavo.tools.painter import patient

PLAN = patient.TestPlan((250.0, 500.0, 1000.0, 2000.0, 4000.0, 8000.0), (-10.0, 120.0), loudness=("mcl", "ucl"))


def test_what_is_not_heard_is_neither_comfortable_nor_too_loud() -> None:
    # common practice: loudness is tested above the threshold; some lay on thresholds at 120 dB HL that were not heard
    loud = 0
    for seed in range(300):
        tones = patient.hearing_test(np.random.default_rng(seed), PLAN)
        air = [t for t in tones if t.conduction == "air"]
        masked = {(t.ear, t.frequency_hz): t for t in sorted(air, key=lambda t: t.masked) if t.measure == "threshold"}
        for tone in air:
            if tone.measure != "threshold":
                heard_from = masked[tone.ear, tone.frequency_hz]
                assert tone.level_db_hl > heard_from.level_db_hl
                assert heard_from.response
                loud += 1
    assert loud > 1000
