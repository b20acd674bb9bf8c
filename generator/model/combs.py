"""The bed that a notched trowel leaves."""

from __future__ import annotations

from math import pi, radians, sin

from generator.model.profiles import TrowelProfile


def comb_bed(trowel: TrowelProfile) -> float:
    """Mean thickness of the combed bed, in mm.

    Area of a notch over the pitch (computed from first principles): square w*h, V w*h/2, U a rectangle on a
    half circle, w*(h - w/2) + pi*w*w/8; less by the sine of the angle at which the trowel is held from the wall.
    """
    width, height = trowel.width, trowel.height
    notch = {
        "square": width * height,
        "v": width * height / 2,
        "u": width * (height - width / 2) + pi * width * width / 8,
    }[trowel.notch]
    return notch / (width + trowel.land) * sin(radians(trowel.angle_deg))
