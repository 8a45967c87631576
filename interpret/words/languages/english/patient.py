"""English: what a patient is told, sentence by sentence."""

from __future__ import annotations

PATIENT = {
    "title": "Your hearing test in plain words",
    "dated": "This is about the test of {date}.",
    "undated": "The date of the test could not be read.",
    "reading": (
        "A computer read the numbers from a picture of your chart. It did not test your hearing. It cannot "
        "say why you hear as you do."
    ),
    "ask": "A person has to check some of the numbers first. What rests on them is marked (?).",
    "no-audiogram": "No hearing chart was found on this page.",
    "heading-hearing": "How you hear",
    "level": (
        "A number says how loud a sound had to be before you could hear it{term_threshold}. It is counted "
        "in decibels, or dB. A small number is good: a soft sound is enough. A whisper is about 30 dB. "
        "People talking are about 60 dB."
    ),
    "ear": "Your {ear} ear",
    "pitch-low": "Low sounds, like a drum or a deep voice: {levels}.",
    "pitch-middle": "Middle sounds, like most of a voice: {levels}.",
    "pitch-high": "High sounds, like birds or the letters s and f: {levels}.",
    "levels": "you need {least} to {most} dB",
    "levels-one": "you need about {least} dB",
    "levels-silent": "you need {least} dB or more, and not every tone was heard",
    "degree": 'The scale "{rule}" calls this: {word}{term_degree}.',
    "degree-at-least": 'The scale "{rule}" calls this: {word}, or more{term_degree}.',
    "degree-person": 'For both ears together the scale "{rule}" says: {word}.',
    "degree-missing": "There are too few numbers to give this a name.",
    "could-be": "Until the numbers are checked it could also be: {words}.",
    "loss-type:within normal limits": "",
    "loss-type:conductive": (
        "Sound seems to be held up on its way in, before it reaches the inner ear{term_conductive}."
    ),
    "loss-type:sensorineural": (
        "Sound seems to get in well. The inner ear or its nerve passes on less of it{term_sensorineural}."
    ),
    "loss-type:mixed": "Sound seems to be held up on its way in, and the inner ear passes on less as well{term_mixed}.",
    "loss-type:cannot tell without bone": "This chart does not show which part of the ear it is about.",
    "loss-type:cannot tell, masking not shown": (
        "This chart does not show for sure which part of the ear it is about. One ear may have helped the "
        "other in the test{term_masking}."
    ),
    "loss-type:cannot tell, not heard": (
        "This chart does not show which part of the ear it is about. Some tones were not heard even when loud."
    ),
    "heading-speech": "What this means for talking",
    "audible-quiet": (
        "A normal voice, one metre away in a quiet room: your {ear} ear gets {near} of its "
        "sounds{term_audibility}. From four metres it gets {far}."
    ),
    "audible-noise": "With noise as loud as the voice it gets {noisy}. Even good ears get only about 5 in 10 then.",
    "tenths": "about {count} in 10",
    "tenths-none": "hardly any",
    "tenths-all": "nearly all",
    "regions-not-heard": "Your {ear} ear does not get these sounds well: {sounds}.",
    "regions-partly": "Your {ear} ear gets these sounds in part: {sounds}.",
    "speech-region-voice": "the deep part of a voice, m and n",
    "speech-region-vowels": "a, e, o, and also l and r",
    "speech-region-stops": "k, t, ch and sh",
    "speech-region-hiss": "f, s and th",
    "heading-ears": "Your two ears",
    "asymmetry-met": (
        "Your {ear} ear hears less than the other one, by at least one rule that doctors use. Please ask a "
        "doctor about it{term_asymmetry}."
    ),
    "asymmetry-open": "It could be that your {ear} ear hears less than the other one. Have the numbers checked.",
    "asymmetry-small": (
        "Your {ear} ear hears a little less than the other one. A difference this small can come from the test."
    ),
    "asymmetry-none": "Your two ears hear about the same.",
    "heading-age": "You and others of your age",
    "age-percentile": (
        "Think of 100 people of your age and sex. About {count} of them hear high sounds as well as your "
        "{ear} ear, or better."
    ),
    "heading-other": "Other tests",
    "word-recognition": "Your {ear} ear got {number} of 100 words right{term_words}.",
    "tympanogram-type:A": "Your {ear} ear drum moves as it should{term_tympanogram}.",
    "tympanogram-type:As": "Your {ear} ear drum moves a little less than most{term_tympanogram}.",
    "tympanogram-type:Ad": "Your {ear} ear drum moves a little more than most{term_tympanogram}.",
    "tympanogram-type:C": "There is less air behind your {ear} ear drum{term_tympanogram}. Please ask about it.",
    "tympanogram-type:B": "Your {ear} ear drum hardly moves{term_tympanogram}. Please ask a doctor about it.",
    "emissions:pass": "Your {ear} inner ear answers sounds with tiny echoes{term_emissions}.",
    "emissions:refer": (
        "The tiny echoes of your {ear} inner ear did not show in the test{term_emissions}. Please ask about it."
    ),
    "heading-doctor": "A doctor should know",
    "refer-sudden:within 24 hours": "You said that your hearing went suddenly. Please see a doctor today.",
    "refer-sudden:within 2 weeks": "You said that your hearing went suddenly. Please see a doctor within two weeks.",
    "refer-if-sudden": "Did the hearing of your {ear} ear get worse within days? Then see a doctor today.",
    "refer-ears-differ": "Your ears are not alike. There is advice that a doctor should look at this.",
    "refer-gap": "There is advice that a doctor should look at your {ear} ear before you get a hearing aid.",
    "refer-child": "You are under 18. A doctor comes first, before a hearing aid.",
    "implant-evaluation": (
        "If hearing aids do not help you enough, you can ask a specialist about an implant{term_implant}."
    ),
    "heading-tips": "What helps when people talk",
    "heading-questions": "What you can ask your audiologist",
    "heading-cautions": "Please note",
    "better-ear": "Sit so that your {ear} ear is toward the person who talks.",
}

TERMS = {
    "threshold": "your threshold",
    "degree": "the degree of hearing loss",
    "conductive": "a conductive loss",
    "sensorineural": "a sensorineural loss",
    "mixed": "a mixed loss",
    "masking": "which masking prevents",
    "audibility": "audibility",
    "asymmetry": "an asymmetry",
    "implant": "a cochlear implant",
    "words": "your word recognition",
    "tympanogram": "a tympanogram shows this",
    "emissions": "otoacoustic emissions",
}

TIPS = (
    "Ask people to face you and to speak clearly, not loudly.",
    "Come closer. At half the distance a voice is much louder.",
    "Turn off the music or the TV while you talk.",
    "Sit where the light falls on the face of the other person.",
    "Say what you heard, and ask for the part that you missed.",
    "In a group, ask that one person talks at a time.",
)

QUESTIONS = (
    "What do my numbers mean for my day?",
    "Has my hearing changed since the last test?",
    "Which part of my ear is it about?",
    "Do I need another test, or a doctor?",
    "What can help me at home, at school or at work?",
    "When should I be tested again?",
)

CAUTIONS = (
    "This page explains a picture of a chart. It is not a hearing test, and it does not say what you have.",
    "Compare the numbers with your chart before you use them.",
    (
        "See a doctor soon if you hear much less all at once, or mainly in one ear. Go soon as well if your"
        " ear hurts or runs, if you feel dizzy, or if one ear rings."
    ),
    "Ask a hearing professional about hearing aids and other help, and about work.",
    "Names for hearing differ between countries. This page names the scale that it used.",
)
