"""The findings that hold thresholds against groups of people, laws, and the sounds of speech."""

from __future__ import annotations

from .code import FindingCode

_GROUPS = "Take it as a statement on groups: it does not say what one ear lost to age or noise"

CODES = (
    FindingCode("age-percentile", "age and noise",
                "The share of people of the same age and sex whose threshold is this one or better",
                "Median a(age-18)^b with a normal distribution of two half-spreads, 18 to 80 years; 0 dB HL stands for "
                "the median at 18 years; 3 to 8 kHz above 70 years informative only",
                "ISO 7029:2017, tables 1 to 5", _GROUPS),
    FindingCode("noise-expectation", "age and noise",
                "The shift that the given noise is expected to have brought to a group",
                "N50 = (u + v lg t)(L - L0)^2 with its spreads; with age H + N - HN/120 where H + N exceeds 40 dB",
                "ISO 1999:2013, tables 1 and 3", _GROUPS),
    FindingCode("handicap", "handicap", "The hearing handicap of an ear or of both, percent, by one named formula",
                "1.5 % for each dB of the average over 25 dB, 100 % from 92 dB; both ears: the better one five times",
                "AAO/AMA 1979 (0.5, 1, 2, 3 kHz); AMA 1959 (0.5, 1, 2 kHz)",
                "Take it for a legal convention that differs from place to place, not for a measure of difficulty"),
    FindingCode("handicap-biap", "handicap", "The grade of BIAP's average for unlike ears",
                "7 parts of the better ear's average and 3 of the worse one's, rounded up; no response counts as 120 "
                "dB",
                "BIAP 02/1 bis", "Take it for a convention, not for a measure of difficulty"),
    FindingCode("audibility-quiet", "audibility",
                "How much of normal speech reaches the unaided ear in quiet, as an index from 0 to 1, at 1, 2 and 4 m",
                "Speech intelligibility index by third octaves; thresholds between tested frequencies by the logarithm "
                "of frequency, held beyond the ends; 6 dB less for each doubling of the distance",
                "ANSI S3.5-1997", "Take it for how much can be heard, not for how much is understood"),
    FindingCode("audibility-noise", "audibility",
                "How much of normal speech at 1 m reaches the unaided ear in noise of the same level and spectrum",
                "Speech intelligibility index by third octaves", "ANSI S3.5-1997",
                "Take it for how much can be heard, not for how much is understood"),
    *(
        FindingCode(f"speech-region-{name}", "audibility", f"How much of these sounds of speech is heard: {sounds}",
                    f"Audible share of the bands of {where}: heard from 75 %, not heard to 25 %",
                    "ANSI S3.5-1997 for the share; where the sounds lie is common practice",
                    "Use it to explain what is missed; sounds differ between voices and languages", checked=False)
        for name, sounds, where in (
            ("voice", "the voice, vowels, m, n", "160 to 630 Hz"),
            ("vowels", "vowels, l, r, p, h, g", "0.8 to 1.6 kHz"),
            ("stops", "ch, sh, k, t", "2 to 3.15 kHz"), ("hiss", "f, s, th", "4 to 8 kHz"),
        )
    ),
    FindingCode("gain-indication", "audibility", "The insertion gain that a published rule would begin with",
                "NAL-R: X + 0.31 H + k, for linear aids in adults; not for conductive parts",
                "Byrne and Dillon 1986", "Leave fitting and its check to a licensed professional; newer rules exist"),
)  # fmt: skip
