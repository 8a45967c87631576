"""The findings of the tests beside the thresholds: speech, middle ear, otoacoustic emissions."""

from __future__ import annotations

from .code import FindingCode

_ORIGINAL = "Look at the numbers on the page first: types and ranges differ between books"

SPEECH = (
    FindingCode("srt-agreement", "speech", "Whether the SRT agrees with the pure-tone average of the ear",
                "SRT less the average of 0.5, 1 and 2 kHz, or of the best two where they differ by more than 20 dB: to "
                "6 dB good, to 12 dB fair, beyond poor; beside it within 10 dB",
                "Brandy 2002, as commonly quoted; common practice",
                "Where they do not agree, doubt one of the two tests before anything rests on them", checked=False),
    FindingCode("srt-better-than-average", "speech", "An SRT that is much better than the pure tones let expect",
                "Better than the average by more than 12 dB", "common practice (texts say 10 to 12 dB)",
                "Have the pure tones tested again; a steep shape explains it, too", checked=False),
    FindingCode("word-recognition", "speech", "The grade of an ear's best word recognition score, unaided in quiet",
                "From 90 % excellent, 76 good, 60 fair, 50 poor, below very poor; with the range of scores that a "
                "second list may give by chance",
                "after Goetzinger 1978, edges differ between books; Thornton and Raffin 1978",
                "Name list, level and number of words beside the grade", checked=False),
    FindingCode("word-recognition-between-ears", "speech", "Whether the ears' best scores differ by more than chance",
                "Binomial critical difference at 95 % by the number of words; one word from its edge is borderline",
                "Thornton and Raffin 1978; Carney and Schlauch 2007",
                "A score inside of the range is not different, however it looks"),
    FindingCode("word-recognition-change", "speech", "Whether an ear's best score changed between tests by more than "
                "chance", "Binomial critical difference at 95 % by the number of words; one word from its edge is "
                "borderline", "Thornton and Raffin 1978; Carney and Schlauch 2007",
                "A score inside of the range is no change, however it looks"),
    FindingCode("word-recognition-below-expected", "speech", "A score far below what the pure tones let expect",
                "Average of 0.5, 1 and 2 kHz to 40 dB HL and a best score below 76 % (octavo's edges)",
                "a textbook chapter names 68 % at 35 dB a warning sign",
                "Have it looked at: the score says more than the thresholds", checked=False),
    FindingCode("rollover", "speech", "Whether the score falls where words get louder, by one named limit",
                "(best - least) / best, the least at a level above that of the best, beyond the limit; the two scores "
                "must differ by more than chance", "Jerger and Jerger 1971; Dirks 1977; Meyer and Mishler 1985; Bess "
                "1979", "Take the limit that belongs to the word list; have it looked at where it is met"),
)  # fmt: skip

MIDDLE_EAR = (
    FindingCode("tympanogram-type", "middle ear", "The type of a tympanogram by its numbers, 226-Hz probe",
                "A: peak from -100 to 50 daPa and of normal height; As below, Ad above 0.3 to 1.4 mmho (children 0.22 "
                "to 0.81); C: peak below -100 daPa; B: no peak, with the volume of 0.6 to 1.5 mL (children 0.4 to "
                "1.0) normal, large (a hole or a tube) or small (wax, or the probe on the wall)",
                "Jerger 1970; Liden 1969; ranges as commonly quoted of Margolis and Heller 1987 and ASHA 1990",
                _ORIGINAL, checked=False),
    FindingCode("tympanogram-type-differs", "middle ear", "The printed type is not the one that the numbers give",
                "By the letters", "common practice", "Look which of the two is right: limits differ between clinics",
                checked=False),
    FindingCode("ear-canal-volume", "middle ear", "The equivalent volume in front of the ear drum",
                "Adults 0.6 to 1.5 mL, children of 3 to 5 years 0.4 to 1.0 mL", "as commonly quoted of ASHA 1990",
                _ORIGINAL, checked=False),
    FindingCode("tympanogram-width", "middle ear", "The width of the peak at half of its height",
                "Adults 51 to 114 daPa, children of 3 to 5 years 59 to 151 daPa",
                "as commonly quoted of Margolis and Heller 1987", _ORIGINAL, checked=False),
    FindingCode("tympanogram-screening", "middle ear", "Whether a child's tympanogram passes a screening",
                "From 1 year to school age refer below 0.3 mmho or beyond 200 daPa width, infants 0.2 mmho or 235 "
                "daPa; a flat trace refers", "as commonly quoted of ASHA 1997",
                "Leave what follows to the local programme", checked=False),
    FindingCode("reflex-ipsilateral", "middle ear", "A reflex of the stimulated ear, measured in the same ear",
                "Present to 100 dB HL, elevated above, absent without a response", "common practice",
                "Take one elevated frequency for little: 12 % of normal and cochlear ears have one (Gelfand 1990)",
                checked=False),
    FindingCode("reflex-contralateral", "middle ear", "A reflex of the stimulated ear, measured in the other ear",
                "Present to 100 dB HL, elevated above, absent without a response", "common practice",
                "Take one elevated frequency for little: 12 % of normal and cochlear ears have one (Gelfand 1990)",
                checked=False),
    FindingCode("reflex-pattern", "middle ear", "Where reflexes are absent or elevated at 0.5, 1 and 2 kHz",
                "Whenever one ear is stimulated: its loss or its hearing nerve (VIII); whenever measured in one ear: "
                "its middle ear or facial nerve (VII); the crossed ones alone: the brain stem",
                "a textbook chapter; the crossed ones alone by common teaching",
                "Leave the cause to a doctor: a pattern is no diagnosis"),
    FindingCode("reflex-decay", "middle ear", "Whether a reflex falls while its tone goes on",
                "By half of its height or more within 10 s, tone of 0.5 or 1 kHz, 10 dB above the reflex threshold",
                "a textbook chapter", "A positive one is for a doctor to look at"),
)  # fmt: skip

EMISSIONS = (
    *(
        FindingCode(f"emissions-{method}", "emissions", f"Whether {name} otoacoustic emissions pass",
                    "6 dB above noise and above -10 dB SPL at 3 of 4 frequencies; without numbers as the report states",
                    "common practice, criteria differ", "Name the criterion beside the result", checked=False)
        for method, name in (("dpoae", "distortion product"), ("teoae", "transient evoked"))
    ),
    FindingCode("emissions-result-differs", "emissions", "The printed result is not the one that the numbers give",
                "By the criterion above", "common practice", "Look by which criterion the device judged",
                checked=False),
    FindingCode("emissions-and-thresholds", "emissions", "Emissions and thresholds do not fit each other",
                "Present though the threshold is above 40 dB HL, or absent though it is to 20 dB HL",
                "common practice", "Have both tested again: either may be wrong, and if both are right a doctor should "
                "know", checked=False),
)  # fmt: skip

CODES = (*SPEECH, *MIDDLE_EAR, *EMISSIONS)
