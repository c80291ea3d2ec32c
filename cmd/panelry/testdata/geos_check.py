"""Holds written kits against GEOS (through shapely): areas, containment and
distances of all panels and of all placed pieces, and that panels and gaps make
up the frame. Usage: geos_check.py KIT.json ...
Prints what was held, or what is wrong and exits with 1."""

import json
import sys

from shapely.geometry import Polygon, box
from shapely.ops import unary_union

# rings_mm is exact for straight outlines; 2 nm is what rounding a slanted
# corner and the line beside it can come to, in mm. Curves are flattened
# within 0.01 mm.
ROUNDING = 2e-6


def polygon(outline):
    rings = outline["rings_mm"]
    p = Polygon(rings[0], rings[1:])
    if not p.is_valid:
        raise SystemExit(f"not a valid polygon: {rings}")
    return p


def pairs(shapes, within):
    """All pairs of shapes whose boxes are that near, from left to right."""
    order = sorted(range(len(shapes)), key=lambda i: shapes[i].bounds[0])
    for k, i in enumerate(order):
        for j in order[k + 1:]:
            if shapes[j].bounds[0] > shapes[i].bounds[2] + within:
                break
            yield i, j


def check_apart(what, shapes, names, least):
    for i, j in pairs(shapes, least + 1):
        if shapes[i].distance(shapes[j]) < least - ROUNDING:
            raise SystemExit(f"{what}: {names[i]} and {names[j]} are {shapes[i].distance(shapes[j])} mm apart, not {least}")
        if shapes[i].intersection(shapes[j]).area > ROUNDING * shapes[i].length:
            raise SystemExit(f"{what}: {names[i]} and {names[j]} overlap")


def check_inside(what, window, shapes, names):
    for s, name in zip(shapes, names):
        if not window.buffer(ROUNDING, join_style=2).contains(s):
            raise SystemExit(f"{what}: {name} is not inside")


def check_covered(kit, frame, panels):
    """Panels grown by half a gap cover the frame, but for what a warning says
    was left out, and for what stands off at a meeting point: there at most a
    few gaps across."""
    if any(w["code"] == "slivers" and "left out" in w["text"] for w in kit["warnings"]):
        return
    gap = kit["front"]["gap_mm"]
    grown = unary_union([p.buffer(gap / 2 + 1e-5, join_style=2, mitre_limit=50) for p in panels])
    bare = frame.difference(grown)
    parts = getattr(bare, "geoms", [bare])
    worst = max((p.area for p in parts), default=0)
    if worst > max(gap, 0.001) ** 2 * 4:
        raise SystemExit(f"front: {worst} mm2 in one place belong to no panel and no gap")


def main(path):
    with open(path, encoding="utf-8") as f:
        kit = json.load(f)
    panels = [polygon(p["outline"]) for p in kit["panels"]]
    names = [p["name"] for p in kit["panels"]]
    x, y, w, h = kit["front"]["frame_mm"]
    check_inside("front", box(x, y, x + w, y + h), panels, names)
    check_apart("front", panels, names, kit["front"]["gap_mm"])
    for p, shape in zip(kit["panels"], panels):
        if abs(shape.area - p["area_mm2"]) > 1e-6 * shape.area:
            raise SystemExit(f"{p['name']}: area {p['area_mm2']}, GEOS has {shape.area}")
    check_covered(kit, box(x, y, x + w, y + h), panels)
    kinds = {k["id"]: polygon(k["outline"]) for k in kit["kinds"]}
    placed = 0
    for sheet in kit["sheets"]:
        w, h = sheet["size_mm"]
        e = sheet["edge_mm"]
        pieces = [polygon(p["outline"]) for p in sheet["pieces"]]
        names = [p["id"] for p in sheet["pieces"]]
        check_inside(sheet["file"], box(e, e, w - e, h - e), pieces, names)
        check_apart(sheet["file"], pieces, names, sheet["spacing_mm"])
        for p, shape in zip(sheet["pieces"], pieces):
            if abs(shape.area - kinds[p["kind"]].area) > ROUNDING * shape.length:
                raise SystemExit(f"{p['id']}: not as large as its kind")
        used = 100 * sum(s.area for s in pieces) / (w * h)
        if abs(used - sheet["used_percent"]) > 0.006:
            raise SystemExit(f"{sheet['file']}: {sheet['used_percent']} % used, GEOS has {used}")
        placed += len(pieces)
    if placed != kit["totals"]["pieces"] or placed != sum(k["count"] for k in kit["kinds"]):
        raise SystemExit(f"{placed} pieces placed, totals say {kit['totals']['pieces']}")
    print(f"held {len(panels)} panels and {placed} pieces on {len(kit['sheets'])} sheets")


for kit_file in sys.argv[1:]:
    main(kit_file)
