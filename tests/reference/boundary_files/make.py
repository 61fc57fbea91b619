#!/usr/bin/python3
"""Makes the small boundary files beside it with GDAL's Python binding (python3-gdal 3.6.2). All places are invented."""
import pathlib
import zipfile

from osgeo import ogr, osr

HERE = pathlib.Path(__file__).parent
ogr.UseExceptions()


def system(code):
    reference = osr.SpatialReference()
    reference.ImportFromEPSG(code)
    reference.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return reference


def square(x, y, side):
    return f"POLYGON(({x} {y},{x + side} {y},{x + side} {y + side},{x} {y + side},{x} {y}))"


def write(driver, name, layers):
    target = HERE / name
    for old in HERE.glob(target.stem + ".*"):
        old.unlink()
    source = ogr.GetDriverByName(driver).CreateDataSource(str(target))
    for title, code, rows in layers:
        layer = source.CreateLayer(title, system(code), ogr.wkbUnknown if driver == "GPKG" else ogr.wkbPolygon)
        layer.CreateField(ogr.FieldDefn("name", ogr.OFTString))
        for wkt, text in rows:
            feature = ogr.Feature(layer.GetLayerDefn())
            feature["name"] = text
            feature.SetGeometry(ogr.CreateGeometryFromWkt(wkt))
            layer.CreateFeature(feature)
    source = None


circle = "CURVEPOLYGON(CIRCULARSTRING(500000 9900000,500100 9900000,500000 9900000))"
write("GPKG", "curved.gpkg", [("sites", 32749, [(circle, "circle")])])
write("GPKG", "mixed.gpkg", [("first", 32749, [(square(500000, 9900000, 100), "A")]),
                             ("second", 32750, [(square(500000, 9900000, 100), "B")])])
for name in ("one", "two"):
    write("ESRI Shapefile", name + ".shp", [(name, 32749, [(square(500000, 9900000, 100), name)])])
with zipfile.ZipFile(HERE / "several.zip", "w", zipfile.ZIP_DEFLATED) as pack:
    for part in sorted(HERE.glob("one.*")) + sorted(HERE.glob("two.*")):
        pack.write(part, part.name)
        part.unlink()
