"""The paper of a chart: shading, lines, ticks, frame, and the words along its axes."""

from __future__ import annotations

from itertools import pairwise

from .. import fonts
from ..pen import XY, Pen
from .axes import INTER_OCTAVES, Axes
from .look import LabelForm, Lettering, Look, Rule, Ruling

# An invented outline of where everyday speech lies: (Hz, softest dB HL, loudest dB HL).
_SPEECH = ((250, 22, 42), (500, 24, 60), (1000, 22, 62), (2000, 20, 56), (4000, 18, 48), (6000, 20, 40))


def is_inter(hz: float) -> bool:
    """Tell whether a printed frequency is an inter-octave one."""
    return hz in INTER_OCTAVES or hz in (9000, 10000, 11200, 14000, 18000)


def draw_ruling(pen: Pen, axes: Axes, ruling: Ruling) -> None:
    """Draw everything of the chart that lies under its marks, except words along the axes."""
    pen.corners(round_ends=False, round_joins=False)
    left, top, right, bottom = axes.frame
    for low, high, colour, _ in ruling.bands:
        pen.rect((left, axes.y(low), right, axes.y(high)), None, fill=colour)
    if ruling.speech is not None:
        usable = [point for point in _SPEECH if axes.scale.printed[0] <= point[0] <= axes.scale.printed[-1]]
        edge = [(axes.x(hz), axes.y(soft)) for hz, soft, _ in usable]
        edge += [(axes.x(hz), axes.y(loud)) for hz, _, loud in reversed(usable)]
        pen.path(edge, None, closed=True, fill=ruling.speech)
    _level_lines(pen, axes, ruling)
    over = ruling.overhang
    for hz in axes.scale.printed:
        rule = ruling.inter if is_inter(hz) else ruling.octave
        _rule(pen, (axes.x(hz), top - over), (axes.x(hz), bottom + over), rule)
    _frame_and_ticks(pen, axes, ruling)


def _rule(pen: Pen, a: XY, b: XY, rule: Rule) -> None:
    if rule.width > 0:
        pen.line(a, b, rule.colour, rule.width, rule.dash)


def _level_lines(pen: Pen, axes: Axes, ruling: Ruling) -> None:
    left, _, right, _ = axes.frame
    low, high = (int(level) for level in axes.scale.levels)
    over = ruling.overhang
    for level in range(low, high + 1, 5):
        y = axes.y(level)
        if level % ruling.level_every == 0:
            _rule(pen, (left - over, y), (right + over, y), ruling.level)
        else:
            _rule(pen, (left, y), (right, y), ruling.minor)
    if low <= 0:
        _rule(pen, (left, axes.y(0)), (right, axes.y(0)), ruling.zero)


def _frame_and_ticks(pen: Pen, axes: Axes, ruling: Ruling) -> None:
    left, top, right, bottom = axes.frame
    frame = ruling.frame
    if ruling.frame_sides == "box" and frame.width > 0:
        pen.rect(axes.frame, frame.colour, frame.width, frame.dash)
    elif ruling.frame_sides == "axes" and frame.width > 0:
        pen.path(((left, top), (left, bottom), (right, bottom)), frame.colour, frame.width, frame.dash)
    if ruling.tick <= 0:
        return
    reach = -ruling.tick if ruling.ticks_inward else ruling.tick
    colour, width = (frame.colour, max(frame.width, 0.5)) if frame.width > 0 else (ruling.octave.colour, 0.6)
    for hz in axes.scale.printed:
        pen.line((axes.x(hz), bottom), (axes.x(hz), bottom + reach), colour, width)
    low, high = (int(level) for level in axes.scale.levels)
    for level in range(low, high + 1, ruling.level_every):
        pen.line((left, axes.y(level)), (left - reach, axes.y(level)), colour, width)


def label_text(hz: float, form: LabelForm) -> str:
    """Write a frequency the way a form prints it."""
    khz = f"{hz / 1000:g}"
    if form == "khz":
        return khz
    if form == "khz-bare":
        return khz.removeprefix("0")
    if form == "khz-comma":
        return khz.replace(".", ",")
    if form in ("k", "K") and hz >= 1000:
        return khz + form
    if form in ("space", "comma") and hz >= 1000:
        return f"{int(hz) // 1000}{' ' if form == 'space' else ','}{int(hz) % 1000:03d}"
    return f"{hz:g}"


def room(lettering: Lettering, ruling: Ruling) -> tuple[float, float, float, float]:
    """Say how much room the words round the frame need, in points: left, top, right, bottom."""
    size, gap = lettering.size, lettering.gap + max(ruling.overhang, 0 if ruling.ticks_inward else ruling.tick)
    level = gap + fonts.width(lettering.face, "-120", size)
    caption = lettering.caption_size * 1.5
    frequency = gap + _label_depth(lettering)
    turned = caption if lettering.level_caption and lettering.level_caption_turned else 0.0
    flat = caption if lettering.level_caption and not lettering.level_caption_turned else 0.0
    title = lettering.title_size * 1.5 if lettering.title else 0.0
    words = caption if lettering.frequency_caption else 0.0
    above, below = lettering.frequency_side != "below", lettering.frequency_side != "above"
    return (
        level * (lettering.level_side != "right") + turned * (lettering.level_side != "right") + 2,
        (frequency + words) * above + title + flat + 2,
        level * (lettering.level_side != "left") + turned * (lettering.level_side == "right") + 6,
        (frequency + words * (not above)) * below + 2,
    )


def _label_depth(lettering: Lettering) -> float:
    return lettering.size * (1.75 if lettering.inter_row and lettering.inter_labelled else 0.75)


def draw_words(pen: Pen, axes: Axes, look: Look, chart: int) -> tuple[int, int]:
    """Write the labels, captions and the title of a chart.

    Returns
    -------
    tuple of int
        How many frequencies and how many levels carry a label.
    """
    lettering = look.lettering
    for low, high, _, words in look.ruling.bands:
        if words:
            middle = (axes.y(low) + axes.y(high)) / 2 + lettering.size * 0.25
            size = lettering.size * 0.75
            pen.text((axes.frame[2] - 4, middle), words, lettering.face, size, (0.4, 0.4, 0.4), anchor=1.0, chart=chart)
    counts = _frequency_labels(pen, axes, look, chart), _level_labels(pen, axes, look, chart)
    _captions(pen, axes, look, chart)
    return counts


def _label_plan(axes: Axes, lettering: Lettering) -> list[tuple[float, float]]:
    """Give the frequencies that get a label, each with its size: neighbours never run into one another.

    All labels shrink alike where they are crowded; where that would make them too small to print, the inter-octave
    ones are left out, as forms do.
    """
    for hz_list in (list(axes.scale.printed), [hz for hz in axes.scale.printed if hz not in INTER_OCTAVES]):
        if not lettering.inter_labelled and any(hz in INTER_OCTAVES for hz in hz_list):
            continue
        sizes = [lettering.size * (lettering.inter_size if is_inter(hz) else 1.0) for hz in hz_list]
        rows = [lettering.inter_row and is_inter(hz) for hz in hz_list]
        fit = 1.0
        for row in (False, True):
            members = [k for k, own in enumerate(rows) if own == row]
            for a, b in pairwise(members):
                words = [label_text(hz_list[k], lettering.label_form) for k in (a, b)]
                widths = [fonts.width(lettering.face, words[n], sizes[k]) for n, k in enumerate((a, b))]
                fit = min(fit, 0.88 * (axes.x(hz_list[b]) - axes.x(hz_list[a])) / (sum(widths) / 2))
        if min(sizes) * fit >= 4.2 and fit > 0.7:
            break
    return [(hz, size * fit) for hz, size in zip(hz_list, sizes, strict=True)]


def _frequency_labels(pen: Pen, axes: Axes, look: Look, chart: int) -> int:
    lettering, face = look.lettering, look.lettering.face
    plan = _label_plan(axes, lettering)
    _, top, _, bottom = axes.frame
    reach = lettering.gap + max(look.ruling.overhang, 0 if look.ruling.ticks_inward else look.ruling.tick)
    for hz, size in plan:
        text = label_text(hz, lettering.label_form)
        rise = fonts.ink_box(face, "0", size)[3]
        out = reach + (lettering.size if lettering.inter_row and is_inter(hz) else 0.0)
        places = [top - out] * (lettering.frequency_side != "below")
        places += [bottom + out + rise] * (lettering.frequency_side != "above")
        for y in places:
            pen.text(
                (axes.x(hz), y),
                text,
                face,
                size,
                lettering.colour,
                anchor=0.5,
                role="frequency-label",
                chart=chart,
                whole=True,
            )
    return len(plan)


def _level_labels(pen: Pen, axes: Axes, look: Look, chart: int) -> int:
    lettering, face = look.lettering, look.lettering.face
    left, _, right, _ = axes.frame
    reach = lettering.gap + max(look.ruling.overhang, 0 if look.ruling.ticks_inward else look.ruling.tick)
    low, high = (int(level) for level in axes.scale.levels)
    levels = [level for level in range(low, high + 1, 10) if level % lettering.level_every == 0]
    size = min(lettering.size, 9.0 * axes.db_pt * lettering.level_every / 10)
    drop = fonts.ink_box(face, "0", size)[3] / 2
    for level in levels:
        at_y = axes.y(level) + drop
        if lettering.level_side != "right":
            pen.text(
                (left - reach, at_y),
                str(level),
                face,
                size,
                lettering.colour,
                anchor=1.0,
                role="level-label",
                chart=chart,
            )
        if lettering.level_side != "left":
            pen.text((right + reach, at_y), str(level), face, size, lettering.colour, role="level-label", chart=chart)
    return len(levels)


def _captions(pen: Pen, axes: Axes, look: Look, chart: int) -> None:
    lettering, face, size = look.lettering, look.lettering.face, look.lettering.caption_size
    left, top, right, bottom = axes.frame
    reach = lettering.gap + max(look.ruling.overhang, 0 if look.ruling.ticks_inward else look.ruling.tick)
    above = lettering.frequency_side != "below"
    edge = top - (reach + _label_depth(lettering)) * above
    if lettering.frequency_caption:
        y = edge - size * 0.5 if above else bottom + reach + _label_depth(lettering) + size * 1.25
        edge -= size * 1.5 * above
        pen.text(
            ((left + right) / 2, y), lettering.frequency_caption, face, size, lettering.colour, anchor=0.5, chart=chart
        )
    if lettering.level_caption and lettering.level_caption_turned:
        level_width = reach + fonts.width(face, "-120", lettering.size)
        x = right + level_width + size if lettering.level_side == "right" else left - level_width - size * 0.4
        pen.text(
            (x, (top + bottom) / 2),
            lettering.level_caption,
            face,
            size,
            lettering.colour,
            anchor=0.5,
            turn=90,
            chart=chart,
        )
    elif lettering.level_caption:
        on_right = lettering.level_side == "right"
        x = right if on_right else left - reach
        pen.text(
            (x, edge - size * 0.5),
            lettering.level_caption,
            face,
            size,
            lettering.colour,
            anchor=1.0 * on_right,
            chart=chart,
        )
        edge -= size * 1.5
    if lettering.title:
        title_at = ((left + right) / 2, edge - lettering.title_size * 0.4)
        title_face = lettering.title_face or face
        pen.text(
            title_at, lettering.title, title_face, lettering.title_size, lettering.title_colour, anchor=0.5, chart=chart
        )
