"""Pages with everything blacked out that may say who somebody is.

What stands outside the charts is guilty until it is known to be harmless: every spot of ink goes, whatever it is
(print, handwriting, stamp, photo, bar code, logo), but for the plots and axis labels of charts that were read, words of
a short list, numbers beside such words, and ruled lines. So nothing has to be recognised as an identifier to be
covered. What cannot be settled that way, above all writing within a plot, is a doubt, and a page with a doubt is not
given out.
"""

from .cover import BlankedPage, Doubt, Told, blank_page

__all__ = ["BlankedPage", "Doubt", "Told", "blank_page"]
