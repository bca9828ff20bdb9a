#!/usr/bin/env python3
"""Reads the drawings back with an outside reader of DXF: read_dxf.py LOBEWRIGHT JOB LOBE...

Every kind of drawing must be without a fault, and each lobe's outline must enclose the area that the lobe's own
table of polar radii does, with the same extents, to 1e-4 of the job's unit.
"""
import csv
import io
import math
import subprocess
import sys

try:
    import ezdxf
    from ezdxf.math import bulge_to_arc
except ImportError:
    print("SKIPPED: no reader of DXF is installed here (python3-ezdxf)")
    sys.exit(0)

program, job, *lobes = sys.argv[1:]


def output(*arguments):
    return subprocess.run([program, *arguments], check=True, capture_output=True, text=True).stdout


def drawn(*options):
    document = ezdxf.read(io.StringIO(output("draw", job, "--format", "dxf", *options)))
    faults = document.audit()
    assert not faults.errors and not faults.fixes, [each.message for each in faults.errors + faults.fixes]
    return document


def area_and_extents(points):
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1]))
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return twice / 2, (min(xs), min(ys), max(xs), max(ys))


def outline_of(document):
    chains = [e for e in document.modelspace() if e.dxftype() == "POLYLINE" and e.dxf.layer == "OUTLINE"]
    assert len(chains) == 1 and chains[0].is_closed, chains
    vertices = list(chains[0].vertices)
    points = []
    for here, there in zip(vertices, vertices[1:] + vertices[:1]):
        start, end, bulge = here.dxf.location.vec2, there.dxf.location.vec2, here.dxf.bulge
        points.append((start.x, start.y))
        if bulge == 0:
            continue
        centre, first, last, radius = bulge_to_arc(start, end, bulge)
        turn = (last - first) % math.tau
        steps = 1 + int(turn / 1e-4)
        along = [first + turn * i / steps for i in range(1, steps)]
        arc = [(centre.x + radius * math.cos(a), centre.y + radius * math.sin(a)) for a in along]
        points.extend(arc if bulge > 0 else reversed(arc))
    return points


def points_of_table(lobe):
    """Nose up, as the drawing has it: the nose's direction is that of cam angle 0 on a lobe of arcs."""
    rows = list(csv.DictReader(io.StringIO(output("table", job, "--lobe", lobe, "--every", "0.01"))))
    nose = next(float(r["shaft_angle"]) for r in rows if float(r["cam_angle"]) == 0)
    turned = sorted(((float(r["shaft_angle"]) - nose) % 360, float(r["polar_radius"])) for r in rows[:-1])
    return [(r * math.cos(math.radians(a + 90)), r * math.sin(math.radians(a + 90))) for a, r in turned]


for options in (["shaft"], ["degree-wheel"], *(["motion", "--lobe", lobe] for lobe in lobes)):
    drawn("--what", *options)
for lobe in lobes:
    area, extents = area_and_extents(outline_of(drawn("--what", "lobe", "--lobe", lobe)))
    wanted_area, wanted_extents = area_and_extents(points_of_table(lobe))
    print(lobe, "area", area, wanted_area, "extents", extents, wanted_extents)
    assert abs(area - wanted_area) < 1e-4
    assert all(abs(a - b) < 1e-4 for a, b in zip(extents, wanted_extents))
print(f"{len(lobes)} passed, 0 failed")
