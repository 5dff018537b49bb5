"""What a machine is to cut, as DXF at full size in millimetres. Needs ezdxf (extra `machine`), which is imported here alone.

Layers say what is to be done: OUTLINE, DRILL_2.9, DRILL_2.9_DEEP_4, SINK_6_ANGLE_90, SLOT_3.175, CENTRE, DATUM, TEXT.
"""

from __future__ import annotations

import io
from fractions import Fraction
from typing import Any

from fractions_shop.errors import ShopError

try:
    import ezdxf
    from ezdxf.enums import TextEntityAlignment
except ImportError:
    raise ShopError(
        "a machine file needs ezdxf, which is not installed: pip install 'fractions-shop[machine]'"
    ) from None

from fractions_shop.figures.drawing import text_width
from fractions_shop.requests.pictures.frame import folded
from fractions_shop.show import own_mark
from fractions_shop.show.machine_plan import Layered, Loop, Machined, MachinePlan, Ring, layers

#: Between parts that stand side by side, in mm; how high their names are, and how long a datum's cross.
_APART, _TEXT, _CROSS = Fraction(20), Fraction(3), Fraction(4)
#: How far a part's note may go on beneath a narrower part, in mm.
_NOTE = Fraction(100)
#: Colours by their numbers in the index of the file format: the drawing's own, and those that tell layers apart.
_COLOURS = {"outline": 7, "drill": 1, "sink": 6, "slot": 5, "centre": 3}
_MILLIMETRES, _METRIC, _CROSSES = 4, 1, 2


def dxf(plan: MachinePlan) -> str:
    """The file, the same text for the same plan: one part with its datum at zero, several side by side.

    Figures are the binary numbers next to the exact ones, which is far below a nanometre.
    """
    # Else the file would tell when it was written, and differ each time.
    fixed = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        drawing: Any = ezdxf.new("R2010", units=_MILLIMETRES)
        drawing.header["$MEASUREMENT"] = _METRIC
        # Places are shown as crosses of 1 mm, where a bare point could not be seen.
        drawing.header["$PDMODE"], drawing.header["$PDSIZE"] = _CROSSES, 1.0
        for name, kind in layers(plan.parts).items():
            drawing.layers.add(name, color=_COLOURS[kind])
        for name in ("DATUM", "TEXT"):
            drawing.layers.add(name, color=8)
        space = drawing.modelspace()
        for part, left in placed(plan):
            _part(space, part, left)
        space.reset_extents(*_extents(plan))
        # The library gathers these in a set, and would write them in another order each time.
        drawing.classes.add_required_classes(drawing.dxfversion)
        drawing.classes.classes = dict(sorted(drawing.classes.classes.items()))
        out = io.StringIO()
        drawing.write(out)
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = fixed
    return f"{own_mark.DXF}{out.getvalue()}"


def placed(plan: MachinePlan) -> list[tuple[Machined, Fraction]]:
    """Each part with the X of its datum in the file; of one part alone that is zero."""
    if len(plan.parts) == 1:
        return [(plan.parts[0], Fraction(0))]
    row, left = [], Fraction(0)
    for part in plan.parts:
        # A whole number of mm, so that what stands in the file is easily told from the datum.
        datum = Fraction(-((part.box[0] - left) // 1))
        row.append((part, datum))
        words = max(text_width(said, _TEXT) for said in _words(part, datum))
        left = datum + max(part.box[2], part.box[0] + words) + _APART
    return row


def _extents(plan: MachinePlan) -> tuple[tuple[float, float, float], tuple[float, float, float]]:
    """The lower left and upper right corner of all outlines, which viewers begin with."""
    row = placed(plan)
    left, right = min(x + part.box[0] for part, x in row), max(x + part.box[2] for part, x in row)
    low, high = min(part.box[1] for part, _ in row), max(part.box[3] for part, _ in row)
    return (float(left), float(low), 0.0), (float(right), float(high), 0.0)


def _part(space: Any, part: Machined, left: Fraction) -> None:
    for each in part.shapes:
        _shape(space, each, left)
    for x, y in ((_CROSS, Fraction(0)), (Fraction(0), _CROSS)):
        space.add_line(
            (float(left - x), float(-y)), (float(left + x), float(y)), dxfattribs={"layer": "DATUM"}
        )
    for n, words in enumerate(_words(part, left)):
        text = space.add_text(words, height=float(_TEXT), dxfattribs={"layer": "TEXT"})
        below = part.box[1] - _CROSS - _TEXT * 2 * (n + 1)
        text.set_placement((float(left + part.box[0]), float(below)), align=TextEntityAlignment.LEFT)


def _words(part: Machined, left: Fraction) -> list[str]:
    """What stands beneath a part."""
    room = max(part.box[2] - part.box[0], _NOTE)
    note = folded(part.note, room, _TEXT) if part.note else []
    limits = (
        ["a size with limits is drawn at one that lies within them:", *part.limited] if part.limited else []
    )
    face = "what is deep or sunk is cut from the face that is shown" if part.from_the_face else ""
    said = [
        f"{part.name}: {part.made}",
        *note,
        part.doubtful,
        *limits,
        face,
        f"datum at X {float(left):g}" if left else "",
    ]
    return list(filter(None, said))


def _shape(space: Any, each: Layered, left: Fraction) -> None:
    attributes = {"layer": each.layer}
    shape = each.shape
    if isinstance(shape, Ring):
        space.add_circle((float(shape.x + left), float(shape.y)), float(shape.radius), dxfattribs=attributes)
    elif isinstance(shape, Loop):
        corners = [(float(x + left), float(y), float(bulge)) for x, y, bulge in shape.corners]
        space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs=attributes)
    else:
        space.add_point((float(shape.x + left), float(shape.y)), dxfattribs=attributes)
