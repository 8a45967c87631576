"""Words of printed keys of audiometric symbols in eight languages (trade terms; common practice), parts of patterns."""

RIGHT = r"right|rechts|recht(?:es|er\w*)|droite?|derech[ao]|destr[ao]|direit[ao]|höger"
LEFT = r"left|links|link(?:es|er\w*)|gauche|izquierd[ao]|sinistr[ao]|esquerd[ao]|vänster"
AIR = r"air|ac|ll|va|ca|luft\w*|luchtgeleiding|a[ée]rien\w*|a[ée]re[ao]"
BONE = r"bone|bc|kl|vo|co|knochen\w*|osseu\w*|os|[óo]ss?e[ao]|beengeleiding|benledning"
SHORT = ("ll", "kl", "va", "vo", "ca", "co")
"""What keys call air and bone for short (English; German Luft- and Knochenleitung; Spanish and Italian vía; French
conduction), as tables do."""
LOUD = (
    r"uncomfortable|discomfort|ull|ucl|ldl|unbehaglich\w*|(?:d['’])?inconfort\w*|molestia|incomodidad|disconfort|"
    r"fastidio|desconforto|onbehaaglijk\w*|onaangenaam\w*|obehag\w*"
)
COMFORTABLE = r"comfortable|mcl|angenehm\w*|confortable|cómod[ao]|confortevole|confortável|behaglig\w*"
