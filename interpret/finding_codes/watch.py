"""The findings on what does not fit together, and on what guidance says should be seen."""

from __future__ import annotations

from .code import FindingCode

_LOOK = "Look at the page and at the test: something may be misread, swapped, or tested in another way"
_SEEN = "Advise that this pattern is one that guidance says should be seen; a doctor decides under local rules"

PLAUSIBILITY = (
    FindingCode("implausible-value", "plausibility", "A value that hardly can be so",
                "Bone worse than air by 10 dB or more; masked better than unmasked by 15 dB or more; air not "
                "masked between masked values where the other ear is better by 55 dB or more; neighbouring "
                "octaves 50 dB or more apart; a level beyond what a device gives",
                "common practice; IEC 60645-1 and ANSI S3.6", _LOOK, checked=False),
    FindingCode("shadow-curve", "plausibility", "One ear's whole unmasked curve may be the other ear's answer",
                "40 to 60 dB below the other ear's at four frequencies or more, alike within 15 dB, nothing masked",
                "common practice", "Have the worse ear tested with masking", checked=False),
    FindingCode("low-bone-not-heard", "plausibility", "No response by bone at a low frequency beside a heard air value",
                "250 or 500 Hz; where air was heard at a level at which bone was not, one of the two is doubtful; else "
                "the vibrator's limit hides the gap", "common practice", _LOOK, checked=False),
    FindingCode("printed-average-differs", "plausibility", "The values do not give the average that the page prints",
                "By 1 dB or more: printed averages are rounded to whole dB", "common practice", _LOOK, checked=False),
    FindingCode("ears-may-be-swapped", "plausibility", "What is printed of each ear fits the other ear's values",
                "Printed averages, or speech recognition thresholds within 10 dB, that fit crosswise and not straight",
                "common practice", "Look at the page's key and titles which ear is which", checked=False),
)  # fmt: skip

REFERRAL = (
    FindingCode("refer-sudden", "referral", "How soon a doctor should see a loss that the listener calls sudden",
                "Sudden is within 3 days: where it began in the last 30 days within 24 hours, else within 2 weeks",
                "NICE NG98, 1.1.2", "Advise to see a doctor in that time, whatever the thresholds are"),
    FindingCode("refer-if-sudden", "referral", "A difference between the ears of the size that a sudden loss has",
                "30 dB or more at three or more consecutive frequencies, against the other ear",
                "AAO-HNSF guideline 2019; NICE NG98, 1.1.2",
                "If it came within 3 days, see a doctor at once: within 24 hours where it began in the last 30 days"),
    FindingCode("refer-asymmetry", "referral", "An asymmetry of the size for which guidance considers imaging",
                "15 dB or more at two adjacent of 0.5, 1, 2, 4, 8 kHz", "NICE NG98, 1.3.2, as quoted", _SEEN),
    FindingCode("refer-one-sided", "referral", "A loss in one ear alone",
                "Averages of 0.5, 1, 2 and 4 kHz: better ear below 20 dB, worse ear 35 dB or more",
                "NICE NG98, 1.1; limits as commonly quoted of WHO 2021", _SEEN, checked=False),
    FindingCode("refer-gap", "referral", "A gap of the size at which a seller of hearing aids must advise a doctor",
                "Air-bone gap of 15 dB or more at 500, 1000 and 2000 Hz", "21 CFR 801.420(c)(3) and 801.422", _SEEN),
    FindingCode("refer-child", "referral", "The listener is a child: a doctor comes before a hearing aid",
                "Under 18 years", "21 CFR 801.422", _SEEN),
    FindingCode("refer-word-scores", "referral", "The ears' word scores differ by more than chance and by 15 % or more",
                "Best scores, 15 % or more, and beyond the binomial critical difference",
                "as quoted with MRI guidance; Thornton and Raffin 1978", _SEEN),
    FindingCode("refer-worsening", "referral", "Hearing that worsened between two tests within three months",
                "15 dB or more at two frequencies or more, or 10 dB or more on the mean of 0.5, 1, 2 and 4 kHz, within "
                "90 days", "NICE NG98, 1.1.2, for the time; J Med Genet, table of clinical parameters, for the size",
                "See a doctor within two weeks; at once if it came within 3 days"),
    FindingCode("implant-evaluation", "referral", "A published criterion for an implant evaluation is met in part",
                "80 dB or more at two of 0.5, 1, 2, 3, 4 kHz in both ears; or a better-ear average of 60 dB or more "
                "with a word score of 60 % or less", "NICE TA566; Zwolan 2020 as commonly quoted",
                "An implant evaluation may be discussed with a specialist; aids are tried first and local rules hold"),
)  # fmt: skip

CODES = (*PLAUSIBILITY, *REFERRAL)
