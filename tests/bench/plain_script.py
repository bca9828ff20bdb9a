#!/usr/bin/env python3
"""The plain way to a camshaft's program, for the benchmark: dense contour points, shapely's buffer for the path of the
cutter's centre, its simplification within the tolerance, and a line of text for each block.

    plain_script.py TOLERANCE [--check] > program.ngc

Eight lobes like those of the Basalt four under a flat tappet, a disc of 50 mm, roughing in rings of 0.75 mm, a finish pass and
a spring pass. --check sweeps the cutter along the finish passes again, as the words have it, and tells the worst deviation.
"""
import sys

import numpy as np
from shapely.geometry import LineString, Polygon

CUTTER = 25.0
BLANK = 8.5
CLEAR = 3.0
FEED = 80.0  # mm/min along the surface
INLETS, EXHAUSTS = (34.0, 48.0, 100.0, 114.0), (20.0, 62.0, 86.0, 128.0)
POINTS = 7200


def polynomial_lift(beta, lift, half_angle, powers):
    """The lift and its slope by the angle: 1 + sum c u^p on both flanks."""
    u = np.minimum(np.abs(beta) / half_angle, 1.0)
    value, slope = np.ones_like(u), np.zeros_like(u)
    for p in powers:
        c = -np.prod([q / (q - p) for q in powers if q != p])
        value += c * u**p
        slope += c * p * u ** (p - 1)
    return lift * value, lift * slope * np.sign(beta) / half_angle


def exhaust_contour(base, tolerance):
    beta = np.linspace(-np.pi, np.pi, POINTS, endpoint=False)
    lift, slope = polynomial_lift(beta, 2.2, np.radians(80.0), (2, 8, 14, 20))
    height = base + lift
    return np.column_stack(
        (height * np.cos(beta) - slope * np.sin(beta), height * np.sin(beta) + slope * np.cos(beta))
    )


def arc(centre, radius, start, end, tolerance):
    # 0.02 of the tolerance between the chords and the arc
    step = 2.0 * np.arccos(1.0 - 0.02 * tolerance / radius)
    angle = np.linspace(start, end, max(3, int(np.ceil(abs(end - start) / step)) + 1))
    return np.column_stack((centre[0] + radius * np.cos(angle), centre[1] + radius * np.sin(angle)))


def inlet_contour(base, tolerance):
    lift, flank, half = 2.4, 16.0, np.radians(66.0)
    top, past = base + lift, flank - base
    nose = (flank**2 - past**2 - top**2 - 2 * past * top * np.cos(half)) / (2 * (flank - top - past * np.cos(half)))
    centre = np.array((-past * np.cos(half), -past * np.sin(half)))
    lean = np.arctan2(-centre[1], top - nose - centre[0])
    upper = np.vstack(
        (
            arc((top - nose, 0.0), nose, 0.0, lean, tolerance),
            arc(centre, flank, lean, half, tolerance)[1:],
            arc((0.0, 0.0), base, half, np.pi, tolerance)[1:],
        )
    )
    return np.vstack((upper, upper[-2:0:-1] * (1.0, -1.0)))


def centre_path(contour, distance, tolerance):
    """Angle and radius of the cutter's centre round one turn."""
    segments = int(np.ceil(np.pi / 4.0 / np.arccos(1.0 - 0.1 * tolerance / distance)))
    ring = np.asarray(Polygon(contour).buffer(distance, resolution=segments).exterior.coords)[:-1]
    angle, radius = np.arctan2(ring[:, 1], ring[:, 0]), np.hypot(ring[:, 0], ring[:, 1])
    order = np.argsort(angle)
    angle, radius = angle[order], radius[order]
    return np.append(angle, angle[0] + 2.0 * np.pi), np.append(radius, radius[0])


def blocks(angle, radius, tolerance):
    """As few chords as the simplification finds, straight in angle and radius."""
    middle = radius.mean()
    line = LineString(np.column_stack((angle * middle, radius))).simplify(tolerance)
    knots = np.asarray(line.coords)
    return knots[:, 0] / middle, knots[:, 1]


def words(angle, radius, turn, feed):
    degrees = np.degrees(angle - angle[0]) + turn
    ways = np.hypot(np.diff(angle) * (radius[1:] - CUTTER), np.diff(radius))
    return [f"X{x:.4f} A{a:.4f} F{f:.4f}" for x, a, f in zip(radius[1:], degrees[1:], feed / ways)]


def worst_deviation(contour, angle, radius):
    """Of what the disc leaves along the words, between the knots too."""
    dense = np.linspace(angle[0], angle[-1], 4 * POINTS)
    centres = np.interp(dense, angle, radius)[:, None] * np.column_stack((np.cos(dense), np.sin(dense)))
    swept = LineString(centres).buffer(CUTTER, resolution=1000)
    left = np.asarray(min(swept.interiors, key=lambda ring: Polygon(ring).area * -1).coords)
    design = Polygon(contour).exterior
    def polar(points):
        a = np.arctan2(points[:, 1], points[:, 0])
        order = np.argsort(a)
        return a[order], np.hypot(points[:, 0], points[:, 1])[order]
    a, r = polar(left)
    b, s = polar(np.asarray(design.coords)[:-1])
    return np.abs(np.interp(b, a, r, period=2.0 * np.pi) - s).max()


def main():
    tolerance, check = float(sys.argv[1]), "--check" in sys.argv
    out = ["(eight lobes)", "G18 G21 G90", "G54 G61", "S160 M3", f"G0 X{BLANK + CUTTER + CLEAR:.4f}", "G0 Z20.", "G0 A0.", "G93"]
    turn, worst = 0.0, 0.0
    lobes = sorted([(z, inlet_contour) for z in INLETS] + [(z, exhaust_contour) for z in EXHAUSTS])
    for z, contour_of in lobes:
        contour = contour_of(6.0, tolerance)
        out.append(f"G0 Z{z:.4f}")
        rings = [(1.75, 0.05), (1.0, 0.05), (0.25, 0.05), (0.0, tolerance), (0.0, tolerance)]
        for left_on, within in rings:
            path = centre_path(contour, CUTTER + left_on, within)
            angle, radius = blocks(*path, 0.8 * within)
            out.append(f"G0 A{turn:.4f}")
            out.append(f"G1 X{radius[0]:.4f} F60.")
            out += words(angle, radius, turn, FEED)
            out.append(f"G0 X{BLANK + CUTTER + CLEAR:.4f}")
            turn += 360.0
        if check:
            worst = max(worst, worst_deviation(contour, angle, radius))
    out.append("M5")
    out.append("M30")
    print("\n".join(out))
    if check:
        print(f"worst deviation {worst:.5f} mm", file=sys.stderr)


main()
