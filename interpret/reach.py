"""How far audiometers reach: what reading and rules both hold a level against."""

from __future__ import annotations

AIR_REACH_DB: dict[float, float] = {
    125: 70, 250: 90, 500: 120, 750: 120, 1000: 120, 1500: 120, 2000: 120, 3000: 120, 4000: 120, 6000: 110, 8000: 100,
}  # fmt: skip
BONE_REACH_DB: dict[float, float] = {
    250: 45, 500: 60, 750: 70, 1000: 70, 1500: 70, 2000: 70, 3000: 70, 4000: 70, 6000: 50,
}  # fmt: skip
"""What a type 1 audiometer must reach at least, Hz to dB HL (IEC 60645-1 and ANSI S3.6 [memory]); many reach further,
by air often 105 or 110 dB HL at 250 Hz (common practice). At the other frequencies they reach no farther."""

LEAST_END_DB: dict[str, float] = {"air": 55.0, "bone": 25.0}
"""No audiometer ends below this at any frequency up to 8000 Hz (common practice; IEC 60645-1: even screening ones reach
70 dB by air, vibrators 35), so that nothing softer can have gone unheard."""
