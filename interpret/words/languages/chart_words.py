"""What a language says on a redrawn chart."""

from __future__ import annotations

from dataclasses import dataclass

from ...record import Threshold


@dataclass(frozen=True, slots=True)
class ChartWords:
    """The words of one language; those in braces are filled in."""

    code: str
    title: str
    tested_on: str
    date_unknown: str
    several: str
    several_undated: str
    made_from: str
    made_from_files: str
    frequency_axis: str
    level_axis: str
    ears: dict[str, str]
    conductions: dict[str, str]
    masked: str
    aided: str
    measures: dict[str, str]
    no_response: str
    not_heard: str
    open_to_question: str
    to_check: str
    speech_region: str
    caution: str

    def kind(self, threshold: Threshold) -> str:
        """Name what a mark stands for: "right ear, bone, masked"."""
        parts = (
            self.ears[threshold.ear],
            self.conductions[threshold.conduction]
            if threshold.ear != "both" or threshold.conduction != "field"
            else "",
            self.masked if threshold.masked else "",
            self.aided if threshold.aided else "",
            self.measures.get(threshold.measure, ""),
        )
        return ", ".join(part for part in parts if part)

    def level(self, threshold: Threshold) -> str:
        """Write a level: "35 dB HL", "not heard at 110 dB HL", "35 dB HL (to check)"."""
        level = f"{threshold.level_db_hl:g} dB HL"
        told = level if threshold.response else self.not_heard.format(level=level)
        return f"{told} ({self.to_check})" if threshold.standing == "ask" else told
