"""English for the findings beside the tones: speech, middle ear, emissions, plausibility, referral."""

from __future__ import annotations

TITLES = {
    "srt-agreement": "SRT less PTA, dB",
    "srt-better-than-average": "SRT much better than the PTA",
    "word-recognition": "Word recognition, best score",
    "word-recognition-between-ears": "Word recognition, worse ear less the other",
    "word-recognition-change": "Word recognition, change",
    "word-recognition-below-expected": "Word recognition below what the PTA lets expect",
    "rollover": "Rollover index",
    "tympanogram-type": "Tympanogram",
    "tympanogram-type-differs": "Tympanogram, the printed type does not fit its numbers",
    "ear-canal-volume": "Ear-canal volume",
    "tympanogram-width": "Tympanogram width",
    "tympanogram-screening": "Tympanogram, screening",
    "reflex-ipsilateral": "Reflex, ipsilateral",
    "reflex-contralateral": "Reflex, contralateral, ear stimulated",
    "reflex-pattern": "Reflexes absent or elevated",
    "reflex-decay": "Reflex decay",
    "emissions-dpoae": "DPOAE",
    "emissions-teoae": "TEOAE",
    "emissions-result-differs": "Emissions, the printed result does not fit the numbers",
    "emissions-and-thresholds": "Emissions do not fit the thresholds",
    "implausible-value": "Hardly can be so",
    "shadow-curve": "Curve may be the other ear's answer",
    "low-bone-not-heard": "Low-frequency bone not heard",
    "printed-average-differs": "The printed average does not fit the values",
    "ears-may-be-swapped": "The ears may be swapped",
    "refer-if-sudden": "Size of a sudden loss; if it came within 3 days, a doctor at once",
    "refer-asymmetry": "Asymmetry that guidance says should be seen",
    "refer-one-sided": "One-sided loss that guidance says should be seen",
    "refer-gap": "Gap that guidance says should be seen",
    "refer-child": "A child: a doctor first",
    "refer-word-scores": "Difference of word scores that guidance says should be seen",
    "refer-worsening": "Worsened fast: guidance says to be seen within two weeks",
    "implant-evaluation": "An implant evaluation may be discussed with a specialist",
}

NUMBERS = {
    "srt_db_hl": "SRT",
    "average_db_hl": "PTA",
    "other_average_db_hl": "other ear",
    "words": "words",
    "other_words": "other list",
    "alike_from_percent": "alike by chance from %",
    "alike_to_percent": "to %",
    "score_percent": "score %",
    "other_score_percent": "other %",
    "best_percent": "best %",
    "least_percent": "least %",
    "limit": "limit",
    "peak_dapa": "daPa",
    "peak_mmho": "mmho",
    "volume_ml": "mL",
    "width_dapa": "width daPa",
    "printed_db_hl": "printed",
    "read_db_hl": "read",
}

PATIENT = {
    "heading-words": "How you understand words",
    "word-recognition": "Your {ear} ear got {percent} of 100 words right when they were loud enough{term_words}.",
    "word-recognition-alike": "Your two ears understand words about equally well.",
    "word-recognition-differ": "Your {ear} ear understands fewer words than the other one.",
    "heading-seen": "What to ask a doctor about",
    "refer-if-sudden": (
        "Did one ear get much worse within three days? Then see a doctor at once, today if you can. If it has "
        "been so for a long time, tell your audiologist."
    ),
    "refer-asymmetry": "Your two ears hear so differently that a doctor should have a look.",
    "refer-one-sided": "One ear hears much less than the other one. A doctor should have a look.",
    "refer-gap": "Sound seems to be held up on its way into your {ear} ear. A doctor should have a look.",
    "refer-child": "A child should see a doctor before getting a hearing aid.",
    "refer-word-scores": "Your two ears understand words differently. A doctor should have a look.",
    "refer-worsening": "Your {ear} ear hears less than a short time ago. Please see a doctor within two weeks.",
    "implant-evaluation": (
        "If hearing aids do not help enough, you can ask a specialist whether an implant could. It is only a "
        "question to ask{term_implant}."
    ),
}

TERMS = {
    "words": "word recognition",
    "implant": "a cochlear implant evaluation",
}
