#!/usr/bin/python3
"""Areas of polygons by a way independent of GeographicLib: projected by PROJ to an azimuthal equal-area plane
(+proj=laea) around the polygon's middle and summed there by OGR. Prints data.csv."""
from osgeo import ogr, osr

CASES = [
    ("square 18 N", [(102.60, 17.90), (102.61, 17.90), (102.61, 17.91), (102.60, 17.91)]),
    ("square on the equator", [(113.0, -0.005), (113.01, -0.005), (113.01, 0.005), (113.0, 0.005)]),
    ("triangle 8 S", [(110.0, -8.0), (110.05, -8.01), (110.02, -7.96)]),
    ("strip 20 km long 1 S", [(113.0, -1.0), (113.18, -1.02), (113.18, -1.021), (113.0, -1.002)]),
    ("spiral 45 S", [(170.0, -45.0), (170.01, -45.0), (170.01, -44.99), (170.003, -44.99), (170.003, -44.996), (170.006, -44.996),
                     (170.006, -44.993), (170.008, -44.993), (170.008, -44.998), (170.0, -44.998)]),
]


def area(points):
    lon0 = sum(p[0] for p in points) / len(points)
    lat0 = sum(p[1] for p in points) / len(points)
    wgs = osr.SpatialReference()
    wgs.ImportFromEPSG(4326)
    wgs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    plane = osr.SpatialReference()
    plane.ImportFromProj4(f"+proj=laea +lat_0={lat0} +lon_0={lon0} +ellps=WGS84 +units=m")
    ring = ogr.Geometry(ogr.wkbLinearRing)
    for p in points + points[:1]:
        ring.AddPoint_2D(*p)
    polygon = ogr.Geometry(ogr.wkbPolygon)
    polygon.AddGeometry(ring)
    polygon.Transform(osr.CoordinateTransformation(wgs, plane))
    return polygon.GetArea()


print("name,area_m2,points,source")
for name, points in CASES:
    text = " ".join(f"{lon} {lat}" for lon, lat in points)
    print(f'{name},{area(points):.2f},{text},"PROJ 9.1.1 laea plane, GDAL 3.6.2 (make.py)"')
