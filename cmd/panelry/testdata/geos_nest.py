"""Holds nest.json against GEOS: each sheet's pieces inside it and its scrap, by
the edge; two pieces apart by the spacing, unless they are of one block; the area
of all pieces as the report says. Usage: geos_nest.py nest.json [curved], with
curved where curves are flattened, so that distances are not exact."""
import itertools
import json
import sys

from shapely.geometry import Polygon, box

BLOCK = 50 / 2600**0.5  # 1 mm across, between sides that lean by 10 in 50
NM = 2e-5  # lengths are exact to 1e-6 mm


def polygon(outline):
    rings = outline["rings_mm"]
    return Polygon(rings[0], rings[1:])


flat = 0.021 if "curved" in sys.argv else NM
nest = json.load(open(sys.argv[1]))
pieces, area, room = 0, 0.0, 0.0
for sheet in nest["sheets"]:
    w, h = sheet["size_mm"]
    edge, spacing = sheet["edge_mm"], sheet["spacing_mm"]
    inside = polygon(sheet["scrap"]) if "scrap" in sheet else box(0, 0, w, h)
    shapes = [polygon(p["outline"]) for p in sheet["pieces"]]
    used = 0.0
    for p, s in zip(sheet["pieces"], shapes):
        assert s.is_valid, p["id"]
        assert s.difference(inside.buffer(NM)).area < 1e-6, f"{p['id']} stands out"
        assert s.distance(inside.exterior) >= edge - flat, f"{p['id']} lies in the edge"
        used += s.area
    for i, j in itertools.combinations(range(len(shapes)), 2):
        a, b = sheet["pieces"][i]["id"], sheet["pieces"][j]["id"]
        assert shapes[i].intersection(shapes[j]).area < 1e-3, f"{a} lies on {b}"
        if {a.split()[0], b.split()[0]} == {"path#left", "path#right"} and a.split()[1:] == b.split()[1:]:
            assert abs(shapes[i].distance(shapes[j]) - BLOCK) < NM, f"{a} and {b} have moved apart"
            continue
        d = shapes[i].distance(shapes[j])
        assert d >= spacing - flat, f"{a} and {b} are {d} mm apart, not {spacing}"
    assert abs(100 * used / inside.area - sheet["used_percent"]) < 0.02, "used_percent"
    pieces += len(shapes)
    area += used
    room += inside.area
assert abs(100 * area / room - nest["density_percent"]) < 0.02, "density_percent"
print(f"held {pieces} pieces")
