"""The findings that comparing two tests gives."""

from __future__ import annotations

from .code import FindingCode

_WORK = "Leave what follows for the work place to whoever is responsible for it under local rules"

CODES = (
    FindingCode("threshold-change", "change", "The change of one threshold between two tests, worse as positive",
                "To 5 dB within retest; 10 dB perhaps better or worse; 15 dB or more better or worse",
                "common practice; for the spread Henry 2001, JRRD 38, 567-581",
                "Have a change of 10 dB or more tested again before it is believed", checked=False),
    FindingCode("average-change", "change", "The change of an ear's mean of 0.5, 1, 2 and 4 kHz between two tests",
                "10 dB or more is a change", "common practice",
                "Have a change tested again before it is believed", checked=False),
    FindingCode("standard-threshold-shift", "change", "OSHA's standard threshold shift of an ear from its baseline",
                "Mean shift at 2, 3 and 4 kHz of 10 dB or more; with appendix F what age adds between the tests is "
                "taken off the latest thresholds first (tables F-1 and F-2; all but men of 20 to 32 years as commonly "
                "quoted)",
                "29 CFR 1910.95(g)(10)(i) and appendix F; 1904.10(b)(1)", _WORK),
    FindingCode("recordable-shift", "change", "Whether the shift is a recordable case, if it is work-related",
                "A standard threshold shift, and a mean at 2, 3 and 4 kHz of 25 dB or more in the same ear, never "
                "corrected for age",
                "29 CFR 1904.10(a), in force from 2003", _WORK),
    FindingCode("significant-shift", "change", "NIOSH's significant threshold shift of an ear",
                "15 dB or more at any of 0.5, 1, 2, 3, 4, 6 kHz, same ear and frequency, confirmed by an immediate "
                "retest; no correction for age",
                "NIOSH 1998 (98-126), as in the footnotes of 96-110",
                "Test the ear again at once: one test is no proof"),
)  # fmt: skip
