"""Every kind of finding in one registry: what it says, by which rule and source, and what a person should do.

A code is part of the published record, so it is never renamed and never given another meaning. To add one, put a
``FindingCode`` into the module of its part (or a new module, named below) and a row into the documented table.
"""

from __future__ import annotations

from typing import get_args

from ..errors import InternalFault
from . import change, context, hearing, other_tests, watch
from .code import FindingCode, Part

__all__ = ["FINDING_CODES", "FindingCode", "Part", "finding_code"]

_MODULES = (hearing, change, context, other_tests, watch)

_PARTS: tuple[Part, ...] = get_args(Part)

FINDING_CODES: dict[str, FindingCode] = {
    code.code: code
    for code in sorted((code for module in _MODULES for code in module.CODES), key=lambda code: _PARTS.index(code.part))
}
"""All codes, in the order in which they are documented: by their parts."""


def finding_code(code: str) -> FindingCode:
    """Give what is registered of a code.

    Raises
    ------
    InternalFault
        When no such code is registered.
    """
    try:
        return FINDING_CODES[code]
    except KeyError:
        what = f"the finding '{code}' is not registered"
        raise InternalFault(what, "Register it in interpret/finding_codes") from None
