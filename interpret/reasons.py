"""Every ``why_ask`` and remark code, in one place: what it means, and what a person should do about it.

A code is part of the published record, so it is never renamed and never given another meaning.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from .errors import InternalFault
from .record import Conduction, Ear, Point, Remark

Kind = Literal["ask", "remark", "either"]
"""Where a code may stand: in a threshold's ``why_ask``, in the page's ``remarks``, or in both."""


@dataclass(frozen=True, slots=True)
class Reason:
    """One registered code.

    Attributes
    ----------
    code : str
        The code as it stands in the record.
    kind : {"ask", "remark", "either"}
        Where it may stand.
    name : str
        Its short name, for headings and tables.
    text : str
        What it says, one sentence without a full stop.
    do : str
        What a person should do, one sentence without a full stop.
    page_asks : bool
        As a remark, it forbids the page to stand as ``sure``: something on the page may be unread or wrong.
    """

    code: str
    kind: Kind
    name: str
    text: str
    do: str
    page_asks: bool = True


_OF_VALUES = (
    Reason("low-certainty", "ask", "not certain enough", "The reading as a whole is not certain enough to stand alone",
           "Compare the value with the mark on the page"),
    Reason("between-steps", "ask", "between two steps",
           "The mark stands about half way between two steps of the level axis",
           "Look which step was meant"),
    Reason("marks-overlap", "ask", "marks overlap", "Other marks or lines cover part of this mark",
           "Look which marks stand there, one by one"),
    Reason("faint", "ask", "faint mark", "The mark is faint, broken or nearly lost in the background",
           "Look at the original whether a mark stands there, and which"),
    Reason("two-readings", "ask", "two readings", "Two readings explain what stands there about equally well",
           "Choose the right one on the page"),
    Reason("ear-uncertain", "ask", "ear uncertain", "It is not certain which ear the mark belongs to",
           "Look at the shape, the colour and the chart's title"),
    Reason("masking-uncertain", "ask", "masking uncertain", "It is not certain whether the mark is the masked one",
           "Compare the mark with the page's key"),
    Reason("frequency-uncertain", "ask", "frequency uncertain", "The mark stands between two frequencies",
           "Look which frequency was meant"),
    Reason("arrow-uncertain", "ask", "arrow uncertain",
           "It is not certain whether a no-response arrow hangs from the mark",
           "Look whether an arrow hangs from the mark: with one, the tone was not heard"),
    Reason("colour-and-shape-differ", "either", "colour and shape differ",
           "The mark's colour names one ear and its shape the other",
           "Decide the ear from the page: its key, the joining lines, the chart's title"),
    Reason("implausible", "either", "implausible value",
           "The value hardly fits its neighbours or what an audiometer can give",
           "Check the value against the page; if the page shows it so, keep it"),
)  # fmt: skip

_OF_CHARTS = (
    Reason("axis-uncertain", "either", "axis uncertain", "The printed labels of an axis do not all fit one scale",
           "Check the frequencies and levels against the labels on the page"),
    Reason("no-labels-read", "either", "no labels read", "Too few labels of the chart's axes could be read",
           "Read the chart by eye, or scan the page anew at 300 dpi"),
    Reason("other-quantity", "either", "another quantity",
           "The chart's title or level axis names something other than hearing thresholds",
           "Look what the chart shows: reflexes, attenuation, gain or levels in dB SPL are no thresholds in dB HL"),
    Reason("chart-not-read", "remark", "chart not read", "Something like a chart stands here and was not read",
           "Look whether it is an audiogram, and read it by eye"),
    Reason("missing-expected", "either", "a mark may be missing", "A mark is expected here and none was read",
           "Look whether a mark stands on the page at this place"),
    Reason("unexplained-ink", "either", "unexplained ink",
           "Ink of a mark's size in the chart, or beside a table's number, is neither grid, label, line nor a mark "
           "that was read",
           "Look whether a mark was missed there"),
    Reason("symbol-set-unknown", "either", "symbol set unknown",
           "The page does not show which symbol convention it follows",
           "Name the convention with --symbols, or check ear, conduction and masking of every mark"),
    Reason("chart-and-table-differ", "either", "chart and table differ",
           "The chart and the printed table give different values",
           "Find out which of the two is right"),
    Reason("printed-average-differs", "either", "printed average differs",
           "The values do not give the average that the page prints",
           "Check the values of the average's frequencies, and the average, against the page"),
    Reason("pages-differ", "either", "two pages differ",
           "Two pages of the file show the same test with different values",
           "Compare the two pages and find out which is right"),
    Reason("table-row-unread", "remark", "a row of a table was not read",
           "A row of numbers under or beside frequencies has a name that was not understood",
           "Look at the table which ear and conduction the row belongs to"),
    Reason("no-response-without-level", "remark", "no response, level not told",
           "The table says that there was no response and names no level",
           "Look at the chart or ask for the level that was not heard"),
    Reason("test-date-uncertain", "either", "test date uncertain",
           "It is not certain which test date the values belong to",
           "Look at the dates on the page"),
)  # fmt: skip

_OF_OTHER_TESTS = (
    Reason("label-uncertain", "ask", "label uncertain",
           "It is not certain which of the page's labels this value belongs to",
           "Look what the value stands for on the page"),
    Reason("unit-missing", "ask", "no unit printed", "The page prints no unit beside the number",
           "Check that the number is in the unit in which it is given here"),
    Reason("unit-differs", "ask", "another unit", "The page prints a unit beside the number that is not the usual one",
           "Convert the number, or correct the unit"),
    Reason("reference-unclear", "ask", "dB of what",
           "The page prints dB alone, which for speech in its language usually are dB SPL and may be dB HL",
           "Find out which the audiometer was set to: 0 dB HL of speech are about 20 dB SPL"),
    Reason("numbers-differ", "ask", "numbers do not fit", "Numbers that follow from each other do not fit on the page",
           "Check the numbers one by one: score and words, level less noise and ratio, the frequencies of an average"),
    Reason("conditions-unclear", "ask", "conditions unclear",
           "It is not certain how the test was done: aided, masked, or in which noise",
           "Look what the page says beside the value"),
    Reason("stimulus-ear-unnamed", "ask", "one ear named",
           "The page names one ear for a crossed reflex and does not say whether it heard the sound or was measured",
           "Find out which ear the clinic names: here it is taken for the measured one"),
    Reason("dash-unclear", "ask", "a dash", "A dash stands where a result is expected: absent, or not tested",
           "Find out what the clinic means by it"),
    Reason("frequencies-unnamed", "ask", "frequencies not named",
           "The page does not say which frequencies the average is of",
           "Find out which frequencies the clinic averages: the usual ones are given here"),
    Reason("test-not-read", "remark", "a test was not read",
           "Results of speech, middle-ear or emission tests seem to stand on the page and were not all read",
           "Read them by eye"),
    Reason("from-curve", "ask", "read from a curve", "The value was measured on a drawn curve, no number states it",
           "Compare the value with the curve"),
)  # fmt: skip

_OF_FACTS = (
    Reason("text-uncertain", "ask", "letters uncertain", "It is not certain that every letter was read right",
           "Compare the words with the page, letter by letter"),
    Reason("date-order-unclear", "ask", "order of the date unclear",
           "The date's day, month or year may change places, and nothing on the page shows which is which",
           "Find out how the clinic writes dates; the likelier reading is given here"),
    Reason("century-unclear", "ask", "century unclear", "The date gives its year with two digits",
           "Look which century is meant"),
    Reason("dates-disagree", "ask", "dates disagree",
           "The page's dates cannot all be right: birth before the test, calibration before the test, one birth date",
           "Check the dates on the page, the birth date first"),
    Reason("date-impossible", "remark", "no such day", "A date stands here that is no day of the calendar",
           "Look at the date on the page; it is not given"),
)  # fmt: skip

_OF_PAGES = (
    Reason("no-audiogram", "remark", "no audiogram", "No audiogram was found on this page",
           "If the page shows one, scan it anew at 300 dpi", page_asks=False),
    Reason("page-not-read", "remark", "page not read", "The page could not be read to its end",
           "Read the page by eye, or scan it anew"),
    Reason("second-picture-unread", "remark", "second picture unread",
           "The file holds a further picture, which was not read",
           "Save the pictures as separate files and read each"),
    Reason("later-frames-unread", "remark", "later frames unread",
           "The file is an animation; only its first frame was read",
           "Save the wanted frame as a picture of its own"),
    Reason("ocr-missing", "remark", "no text recognition",
           "The printed words were not read: the text recognition program is missing or failed",
           "Install Tesseract with English and read the page again"),
    Reason("text-layer-distrusted", "remark", "text layer set aside",
           "The PDF's own words do not fit what the page shows; the words were read from the picture",
           "Nothing need be done unless labels look wrong", page_asks=False),
    Reason("resolution-unknown", "remark", "resolution unknown",
           "The file does not say its resolution, or says one not credible",
           "Nothing need be done: positions were taken from the chart itself", page_asks=False),
    Reason("fax-stretched", "remark", "fax stretched",
           "The picture's pixels are not square, as a fax's are, and were stretched",
           "Nothing need be done unless the page looks too tall or too flat", page_asks=False),
    Reason("low-resolution", "remark", "low resolution", "The picture is coarse for its chart",
           "Scan the page at 200 to 300 dpi if you can", page_asks=False),
    Reason("skewed", "remark", "page was skewed", "The page was turned or skewed and was straightened for the reading",
           "Nothing need be done unless values look wrong", page_asks=False),
    Reason("negative", "remark", "page was a negative", "The page is light on dark and was inverted for the reading",
           "Nothing need be done unless colours and ears look wrong", page_asks=False),
    Reason("mirrored", "remark", "page looks mirrored",
           "The page looks mirrored, so that right and left may be swapped",
           "Scan the page from its front and read it again"),
    Reason("page-box-repaired", "remark", "page size repaired",
           "The PDF states an impossible page size, which was repaired",
           "Check that the whole page was read"),
)  # fmt: skip

_OF_FILES = (
    Reason("patient-not-named", "ask", "patient not named", "The page does not say whose it is, or it was not read",
           "Look whose page it is"),
    Reason("patient-uncertain", "ask", "patient uncertain",
           "It is not certain that these pages, and no others of the file, are of one patient",
           "Compare name, record number and birth date on the pages"),
    Reason("perhaps-one-patient", "ask", "perhaps one patient",
           "Other pages may be of the same patient, but what they say of the patient does not agree",
           "Compare name, record number and birth date on the pages"),
    Reason("page-missing", "ask", "page missing",
           "The pages' own numbers show that a page of this report is not in the file",
           "Look for the page that is missing"),
    Reason("pseudonym-uncertain", "remark", "pseudonym uncertain",
           "The patient was not read for certain, and may stand elsewhere under another pseudonym and with other dates",
           "Compare this page with the patient's others only after looking whose it is", page_asks=False),
)  # fmt: skip

_ALL = (*_OF_VALUES, *_OF_CHARTS, *_OF_OTHER_TESTS, *_OF_FACTS, *_OF_PAGES, *_OF_FILES)
REASONS: dict[str, Reason] = {reason.code: reason for reason in _ALL}
"""All codes, in the order in which they are documented: of values, of charts, of other tests, of pages, of files."""


def reason(code: str) -> Reason:
    """Give the registered reason of a code.

    Raises
    ------
    InternalFault
        When no such code is registered.
    """
    try:
        return REASONS[code]
    except KeyError:
        raise InternalFault(f"the code '{code}' is not registered", "Register it in interpret/reasons.py") from None


def remark(
    code: str,
    *,
    ear: Ear | None = None,
    conduction: Conduction | None = None,
    frequency_hz: float | None = None,
    chart: int | None = None,
    at: Point | None = None,
) -> Remark:
    """Build a remark with the registered text, at the place named.

    Parameters
    ----------
    code : str
        A registered code that may stand as a remark.
    ear, conduction, frequency_hz, chart, at : optional
        Where it applies; ``chart`` counts from 0 in its audiogram, ``at`` is in page fractions.

    Raises
    ------
    InternalFault
        When the code is not registered, or may stand only in ``why_ask``.
    """
    found = reason(code)
    if found.kind == "ask":
        raise InternalFault(f"the code '{code}' stands in why_ask only", "Give the values concerned this code instead")
    return Remark(code, f"{found.text}.", ear, conduction, frequency_hz, chart, at)
