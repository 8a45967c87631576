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
    FindingCode("air-bone-gap", "type", "The air-bone gap at one frequency, and the type of the loss there",
                "Gap present: over 10 dB (gap-10), or 15 dB or more (gap-15); with bone within normal limits "
                "conductive, else mixed; without a gap sensorineural",
                "a textbook chapter on audiologic evaluation; GENDEAF 1996 for gap-15, as commonly quoted",
                "Take a single small gap for nothing: under 20 to 30 dB many are spurious (Scand Audiol 1990;19:187)"),
    FindingCode("bone-may-be-felt", "type", "A bone threshold so loud that it may have been felt instead of heard",
                "40 dB at 250 Hz, 60 dB at 500 Hz, 70 dB at 1 kHz, vibrator behind the ear", "ISO 8253-1:2010, 8.4",
                "Take a gap here for no proof of a conductive part"),
    FindingCode("loss-type", "type", "The type of the loss of one ear",
                "The gap rule over the averages of 0.5, 1 and 2 kHz, or where those are normal or lack bone over the "
                "frequencies that have bone and are beyond normal",
                "a textbook chapter on audiologic evaluation; GENDEAF 1996 for gap-15, as commonly quoted",
                "Where the two rules differ, say so; where masking is not shown, find the masked values"),
    FindingCode("air-masking-not-shown", "type", "An unmasked air threshold that may be the other ear's answer",
                "BSA rule 1: worse than the other ear's air by 40 dB (inserts 55 dB) or more; rule 3: the same against "
                "the other ear's bone; ASHA: exceeds the other ear's bone by more than that",
                "BSA, rules 1 and 3 of masking; ASHA 2005",
                "Look for a masked value; without one take the threshold for this level or worse", checked=False),
    FindingCode("bone-masking-not-shown", "type", "An unmasked bone threshold that cannot be placed at an ear",
                "BSA rule 2: better than the worse ear's air by 10 dB or more, and no masked bone is shown; ASHA: a "
                "gap of more than 10 dB in the ear",
                "BSA, rule 2 of masking; ASHA 2005",
                "Look for a masked value; without one the ear's bone is this level or worse",
                checked=False),
    FindingCode("configuration", "configuration", "The shape of the curve of one ear's air thresholds, in one word",
                "Slope from 0.5 to 4 kHz by octave: to 5 dB flat, to 10 gently, to 20 steeply, beyond precipitously "
                "sloping; rising, trough, peaked, notched, high-frequency, corner as interpret/rules/shape says; "
                "beside it the 15 dB rules of J Med Genet and those of GENDEAF 2001",
                "after Carhart 1945; J Med Genet, table of clinical parameters; Stephens 2001 (GENDEAF)",
                "Take the word for a summary: the numbers and the chart say more", checked=False),
    *(
        FindingCode(f"pitch-{name}", "configuration", f"The hearing of {pitch} pitch: its least and most level",
                    f"Levels at {where}, with the scheme's word for their mean", "common practice",
                    "Take the word for a description, not for a grade of the ear", checked=False)
        for name, pitch, where in (("low", "low", "250 and 500 Hz"), ("middle", "middle", "1, 1.5 and 2 kHz"),
                                   ("high", "high", "3, 4, 6 and 8 kHz"))
    ),
    FindingCode("notch", "configuration", "Whether the higher frequencies show a notch, by one named criterion",
                "Wilson and McArdle: 3, 4 or 6 kHz worse than 2 and than 8 kHz by 10 dB; notch index: mean of 2, 3, 4 "
                "kHz above the mean of 1 and 8 kHz; Coles, Niskar and Hoffman as commonly quoted",
                "Wilson and McArdle 2013; Rabinowitz and Dobie 2003; Coles 2000; Niskar 2001; Hoffman 2017",
                "A notch does not prove noise: 53 % of railway men without exposure showed one (Lie 2015)"),
    FindingCode("asymmetry", "ears", "Whether one ear is clearly worse than the other, by one named criterion",
                "Saliba: 15 dB at 3 kHz; NICE NG98: 15 dB at two adjacent of 0.5, 1, 2, 4, 8 kHz; J Med Genet: over 15 "
                "dB at two; CNS 2017: 10 dB at two contiguous or 15 at one; AAO-HNS: 15 dB on the mean of 0.5 to 3 "
                "kHz; Sunderland: 20 dB at two adjacent; DOH: 20 dB at one of 0.5, 1, 2, 4 (the last three as commonly "
                "quoted)",
                "as named in each rule",
                "Exclude a conductive difference first; where the criteria differ, say which was used"),
)  # fmt: skip
