"""Writes projections.csv: EPSG codes of map projections and of longitude/latitude, with their definition text.

From the EPSG data set of the IOGP (https://epsg.org, free to pass on with this attribution) as PROJ ships it.
    /usr/bin/python3 data/grid/projections.py > data/grid/projections.csv

A definition text leaves grid files for datum shifts out. A code is kept where its text alone lands within 300 m of the
full transformation at the centre of its area of use: less than half a node of the finest rain grids.
"""
import math
import sys

from osgeo import gdal, osr

gdal.PushErrorHandler("CPLQuietErrorHandler")
osr.UseExceptions()
idle = {"+no_defs", "+wktext", "+type=crs", "+units=m"}
# Axes that point south or west, and kinds that the page's library does not know.
unknown = ("+axis=", "+proj=col_urban", "+proj=labrd", "+pm=")
farthest_m = 300


def spatial(load, arg):
    reference = osr.SpatialReference()
    getattr(reference, load)(arg)
    reference.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return reference


wgs84 = spatial("ImportFromEPSG", 4326)


def centre(info):
    west, east = info.west_lon_degree, info.east_lon_degree
    east += 360 if east < west else 0
    return (west + east) / 2, (info.south_lat_degree + info.north_lat_degree) / 2


def off_m(full, text, info):
    at = centre(info)
    there = [osr.CoordinateTransformation(wgs84, r).TransformPoint(*at)[:2] for r in (full, spatial("ImportFromProj4", text))]
    return math.dist(*there) * full.GetLinearUnits()


def row(info):
    full = spatial("ImportFromEPSG", int(info.code))
    text = full.ExportToProj4()
    if not text or any(word in text for word in unknown):
        return None
    if full.IsGeographic() and abs(full.GetAngularUnits() - math.pi / 180) > 1e-12:
        return None
    if full.IsProjected() and not off_m(full, text, info) < farthest_m:
        return None
    return int(info.code), " ".join(w for w in text.split() if w not in idle)


def rows():
    kinds = (osr.OSR_CRS_TYPE_PROJECTED, osr.OSR_CRS_TYPE_GEOGRAPHIC_2D)
    for info in osr.GetCRSInfoListFromDatabase("EPSG"):
        if info.type not in kinds:
            continue
        try:
            found = row(info)
        except RuntimeError:
            continue
        if found:
            yield found


sys.stdout.write("epsg,definition\n")
for code, text in sorted(rows()):
    sys.stdout.write(f"{code},{text}\n")
