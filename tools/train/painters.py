"""Processes that paint pages."""

from __future__ import annotations


def start_painter(fonts: str | None = None) -> None:
    """Set up a painting process: one thread, and the fonts of a folder where the packages are not installed."""
    import cv2

    cv2.setNumThreads(1)
    if fonts:
        from ..painter.fonts import use_folder

        use_folder(fonts)
