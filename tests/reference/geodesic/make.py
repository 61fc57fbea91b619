#!/usr/bin/env python3
"""Areas and perimeters on WGS 84 by another way than the program's.

Edges: Vincenty (1975), Survey Review 23(176), inverse and direct. Area: each edge cut into 5000 geodesic
pieces, their ends put into the cylindrical equal-area projection of the ellipsoid (Snyder 1987, USGS
Professional Paper 1395, equations 10-14 to 10-17), shoelace formula there. Writes data.csv.
"""
import csv
import math
import pathlib

A, F = 6378137.0, 1 / 298.257223563
B, E2 = A * (1 - F), F * (2 - F)
E = math.sqrt(E2)


def inverse(p, q):
    u1, u2 = (math.atan((1 - F) * math.tan(math.radians(x[1]))) for x in (p, q))
    l = math.radians(q[0] - p[0])
    lam = l
    for _ in range(100):
        s = math.hypot(math.cos(u2) * math.sin(lam),
                       math.cos(u1) * math.sin(u2) - math.sin(u1) * math.cos(u2) * math.cos(lam))
        c = math.sin(u1) * math.sin(u2) + math.cos(u1) * math.cos(u2) * math.cos(lam)
        sigma = math.atan2(s, c)
        sina = math.cos(u1) * math.cos(u2) * math.sin(lam) / s
        cos2a = 1 - sina * sina
        cm = c - 2 * math.sin(u1) * math.sin(u2) / cos2a if cos2a > 1e-14 else 0.0
        k = F / 16 * cos2a * (4 + F * (4 - 3 * cos2a))
        new = l + (1 - k) * F * sina * (sigma + k * s * (cm + k * c * (2 * cm * cm - 1)))
        if abs(new - lam) < 1e-15:
            break
        lam = new
    usq = cos2a * (A * A - B * B) / (B * B)
    aa = 1 + usq / 16384 * (4096 + usq * (-768 + usq * (320 - 175 * usq)))
    bb = usq / 1024 * (256 + usq * (-128 + usq * (74 - 47 * usq)))
    ds = bb * s * (cm + bb / 4 * (c * (2 * cm * cm - 1) - bb / 6 * cm * (4 * s * s - 3) * (4 * cm * cm - 3)))
    azimuth = math.atan2(math.cos(u2) * math.sin(lam),
                         math.cos(u1) * math.sin(u2) - math.sin(u1) * math.cos(u2) * math.cos(lam))
    return B * aa * (sigma - ds), azimuth


def direct(p, azimuth, length):
    u1 = math.atan((1 - F) * math.tan(math.radians(p[1])))
    s1 = math.atan2(math.tan(u1), math.cos(azimuth))
    sina = math.cos(u1) * math.sin(azimuth)
    cos2a = 1 - sina * sina
    usq = cos2a * (A * A - B * B) / (B * B)
    aa = 1 + usq / 16384 * (4096 + usq * (-768 + usq * (320 - 175 * usq)))
    bb = usq / 1024 * (256 + usq * (-128 + usq * (74 - 47 * usq)))
    sigma = length / (B * aa)
    for _ in range(50):
        cm = math.cos(2 * s1 + sigma)
        ds = bb * math.sin(sigma) * (cm + bb / 4 * (math.cos(sigma) * (2 * cm * cm - 1)
            - bb / 6 * cm * (4 * math.sin(sigma) ** 2 - 3) * (4 * cm * cm - 3)))
        sigma = length / (B * aa) + ds
    cm = math.cos(2 * s1 + sigma)
    lat = math.atan2(math.sin(u1) * math.cos(sigma) + math.cos(u1) * math.sin(sigma) * math.cos(azimuth),
                     (1 - F) * math.hypot(sina, math.sin(u1) * math.sin(sigma)
                                          - math.cos(u1) * math.cos(sigma) * math.cos(azimuth)))
    lam = math.atan2(math.sin(sigma) * math.sin(azimuth),
                     math.cos(u1) * math.cos(sigma) - math.sin(u1) * math.sin(sigma) * math.cos(azimuth))
    k = F / 16 * cos2a * (4 + F * (4 - 3 * cos2a))
    l = lam - (1 - k) * F * sina * (sigma + k * math.sin(sigma) * (cm + k * math.cos(sigma) * (2 * cm * cm - 1)))
    return p[0] + math.degrees(l), math.degrees(lat)


def flat(p):
    s = math.sin(math.radians(p[1]))
    q = (1 - E2) * (s / (1 - E2 * s * s) + math.atanh(E * s) / E)
    return A * math.radians(p[0]), A * q / 2


def measure(ring):
    perimeter, points = 0.0, []
    for p, q in zip(ring, ring[1:] + ring[:1]):
        length, azimuth = inverse(p, q)
        perimeter += length
        points += [flat(direct(p, azimuth, length * i / 5000)) for i in range(5000)]
    x0, y0 = points[0]
    points = [(x - x0, y - y0) for x, y in points]
    area = sum(x * v - u * y for (x, y), (u, v) in zip(points, points[1:] + points[:1])) / 2
    return abs(area), perimeter


def box(west, south, width, height):
    return [(west, south), (west + width, south), (west + width, south + height), (west, south + height)]


RINGS = {
    "1 km box on the equator": box(113.28, -0.0045, 0.009, 0.009),
    "1 km box at 0.83 S": box(113.28, -0.83, 0.009, 0.009),
    "10 km box at 0.83 S": box(113.28, -0.83, 0.09, 0.09),
    "1 km box at 18.8 N": box(98.9, 18.8, 0.01, 0.01),
    "100 m box at 10 N": box(-84.0, 10.0, 0.0009, 0.0009),
    "50 km triangle at 23 S": [(-47.0, -23.0), (-46.5, -23.1), (-46.8, -22.6)],
    "across the 180th meridian": box(179.995, -16.5, 0.01, 0.01),
}

if __name__ == "__main__":
    with open(pathlib.Path(__file__).parent / "data.csv", "w", newline="") as out:
        table = csv.writer(out, lineterminator="\n")
        table.writerow(["what", "ring", "area_m2", "perimeter_m", "source"])
        for what, ring in RINGS.items():
            area, perimeter = measure(ring)
            table.writerow([what, " ".join(f"{x:.6f},{y:.6f}" for x, y in ring), f"{area:.2f}",
                            f"{perimeter:.4f}", "make.py"])
