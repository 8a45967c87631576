"""English on the redrawn chart."""

from __future__ import annotations

from ..chart_words import ChartWords

CHART = ChartWords(
    code="en",
    title="Audiogram",
    tested_on="tested on {date}",
    date_unknown="test date not read",
    several="{n} tests, the latest in full colour",
    several_undated="{n} tests in the order of the page, the last in full colour; not every date was read",
    made_from="Drawn anew by octavo from its reading of {name}, page {page} of {pages}",
    made_from_files="Drawn anew by octavo from its readings of {names}",
    frequency_axis="Frequency (Hz)",
    level_axis="Hearing level (dB HL)",
    ears={"right": "right ear", "left": "left ear", "both": "both ears, loudspeaker", "unspecified": "ear not named"},
    conductions={"air": "air", "bone": "bone", "field": "loudspeaker"},
    masked="masked",
    aided="aided",
    measures={"mcl": "most comfortable level", "ucl": "uncomfortable level"},
    no_response="no response at this level",
    not_heard="not heard at {level}",
    open_to_question="open to question: look at the original",
    to_check="to check",
    speech_region="average conversation at 1 m (ANSI S3.5-1997)",
    caution="This is a reading of a chart. It is not a hearing test and not a diagnosis. Every value was taken from a "
    "picture of the page: check it against the original before use.",
)
