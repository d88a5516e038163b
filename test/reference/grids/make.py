"""Makes the grid files of this folder and what GDAL reads in them (readings.json).

    /usr/bin/python3 test/reference/grids/make.py

Needs GDAL's Python (3.6.2 was used), numpy and the NetCDF utility nccopy. Rain is invented: a smooth hump, so that a value
betrays a shifted or flipped node. GDAL is the outside reader: `nodes` are its values at node centres with their degrees
by PROJ; `between` are its bilinear values at points between nodes (gdal.Warp to one tiny cell around each point).
"""
import json
import os
import re
import subprocess
import sys

import numpy as np
from osgeo import gdal, osr

gdal.UseExceptions()
osr.UseExceptions()
here = os.path.dirname(os.path.abspath(__file__))
width, height = 23, 19
no_data = -9999.0


def path(name):
    return os.path.join(here, name)


def reference(code):
    srs = osr.SpatialReference()
    srs.SetFromUserInput(code)
    srs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    return srs


degrees = reference("EPSG:4326")


def rain(holes=True):
    """mm a year by node, a multiple of 1/8 so that every type holds it."""
    x, y = np.meshgrid(np.arange(width), np.arange(height))
    mm = np.round((900 + 500 * np.sin(x / 6) * np.cos(y / 5) + 11 * x - 7 * y) * 8) / 8
    if holes:
        mm[:4, :5] = no_data
        mm[9, 11] = no_data
    return mm


# Upper left corner and step of each projection, over North America.
frames = {
    "EPSG:4326": (-105.5, 45.25, 0.25, -0.25),
    "EPSG:5070": (-700000, 2300000, 24000, -24000),
    "EPSG:26917": (300000, 4700000, 8000, -8000),
    "EPSG:3978": (300000, 100000, 30000, -30000),
    "EPSG:2263": (600000, 500000, 40000, -40000),
    "ESRI:102009": (-500000, 500000, 30000, -30000),
    "+proj=lcc +lat_1=25 +lat_2=60 +lat_0=42.5 +lon_0=-100 +x_0=0 +y_0=0 +ellps=WGS84 +units=m": (-400000, 300000, 20000, -20000),
    "+proj=stere +lat_0=90 +lat_ts=60 +lon_0=-105 +x_0=0 +y_0=0 +R=6371200 +units=m": (-300000, -4200000, 25000, -25000),
    "+proj=tmerc +lat_0=40 +lon_0=-90 +k=0.9996 +x_0=500000 +y_0=100 +datum=NAD83 +units=us-ft": (1500000, 300000, 60000, -60000),
}


def geotiff(name, code, kind=gdal.GDT_Float32, options=(), bands=1, point=False, scale=None, hole=no_data, unit="", south_up=False, values=None):
    x0, y0, dx, dy = frames[code]
    if south_up:
        y0, dy = y0 + dy * height, -dy
    values = rain() if values is None else values
    memory = gdal.GetDriverByName("MEM").Create("", width, height, bands, kind)
    memory.SetGeoTransform((x0, dx, 0, y0, 0, dy))
    memory.SetProjection(reference(code).ExportToWkt())
    if point:
        memory.SetMetadataItem("AREA_OR_POINT", "Point")
    for b in range(bands):
        band = memory.GetRasterBand(b + 1)
        data = values if bands == 1 else np.where(values == no_data, no_data, np.round(values / (360 if unit == "mm/day" else 12)) + b)
        if scale:
            data = np.where(data == no_data, hole, np.round((data - scale[1]) / scale[0]))
            band.SetScale(scale[0])
            band.SetOffset(scale[1])
        else:
            data = np.where(data == no_data, np.nan if hole is None else hole, data)
        if hole is not None:
            band.SetNoDataValue(hole)
        if unit:
            band.SetUnitType(unit)
        band.WriteArray(data[::-1] if south_up else data)
    driver = "COG" if "COG" in options else "GTiff"
    rest = [o for o in options if o != "COG"]
    gdal.GetDriverByName(driver).CreateCopy(path(name), memory, options=rest)
    readings[name] = reading(path(name), bands)


def to_degrees(srs, points):
    change = osr.CoordinateTransformation(srs, degrees)
    return [change.TransformPoint(x, y)[:2] for x, y in points]


def value_of(band, raw):
    hole = band.GetNoDataValue()
    if np.isnan(raw) or (hole is not None and raw == hole):
        return None
    scale, offset = band.GetScale(), band.GetOffset()
    return float(raw) * (1 if scale is None else scale) + (0 if offset is None else offset)


def nodes_of(data, subset=11):
    """Every eleventh node: [longitude, latitude, value by band]."""
    gt, srs = data.GetGeoTransform(), data.GetSpatialRef() or degrees
    srs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    arrays = [data.GetRasterBand(b + 1) for b in range(data.RasterCount)]
    places, values = [], []
    for k in range(0, data.RasterXSize * data.RasterYSize, subset):
        column, row = k % data.RasterXSize, k // data.RasterXSize
        places.append((gt[0] + (column + 0.5) * gt[1], gt[3] + (row + 0.5) * gt[5]))
        values.append([value_of(b, b.ReadAsArray(column, row, 1, 1)[0, 0]) for b in arrays])
    spots = places if srs.IsGeographic() else to_degrees(srs, places)
    return [[*spot, value] for spot, value in zip(spots, values)]


def between_of(data):
    """GDAL's bilinear values of band 1 at points between nodes, clear of missing ones: [longitude, latitude, value]."""
    gt, srs = data.GetGeoTransform(), data.GetSpatialRef() or degrees
    srs.SetAxisMappingStrategy(osr.OAMS_TRADITIONAL_GIS_ORDER)
    band = data.GetRasterBand(1)
    out = []
    for column, row in ((7.3, 6.8), (13.9, 12.2), (18.45, 3.35), (6.1, 15.7)):
        x, y = gt[0] + (column + 0.5) * gt[1], gt[3] + (row + 0.5) * gt[5]
        cell = abs(gt[1]) * 1e-3
        box = (x - cell / 2, y - cell / 2, x + cell / 2, y + cell / 2)
        one = gdal.Warp("", data, format="MEM", outputBounds=box, width=1, height=1, resampleAlg="bilinear", outputType=gdal.GDT_Float64, errorThreshold=0)
        spot = (x, y) if srs.IsGeographic() else to_degrees(srs, [(x, y)])[0]
        out.append([*spot, value_of(band, one.GetRasterBand(1).ReadAsArray()[0, 0])])
    return out


def reading(name, bands=1):
    data = gdal.Open(name)
    gt = data.GetGeoTransform()
    read = {"width": data.RasterXSize, "height": data.RasterYSize, "nodes": nodes_of(data)}
    if bands == 1 and gt[5] < 0:
        read["between"] = between_of(data)
    return read


readings = {}
tiled = ("TILED=YES", "BLOCKXSIZE=16", "BLOCKYSIZE=16")
packings = {"plain": (), "deflate": ("COMPRESS=DEFLATE",), "lzw": ("COMPRESS=LZW",)}
for word, packing in packings.items():
    predictor = lambda n: (f"PREDICTOR={n}",) if packing else ()
    geotiff(f"strip-{word}-float.tif", "EPSG:4326", options=(*packing, *predictor(3)))
    geotiff(f"tile-{word}-float.tif", "EPSG:5070", options=(*tiled, *packing, *predictor(3)))
    geotiff(f"strip-{word}-scaled.tif", "EPSG:26917", gdal.GDT_Int16, (*packing, *predictor(2)), scale=(0.125, 700), hole=-32768)
    geotiff(f"tile-{word}-scaled.tif", "EPSG:3978", gdal.GDT_Int16, (*tiled, *packing, *predictor(2)), scale=(0.125, 700), hole=-32768)
geotiff("cog-deflate.tif", "EPSG:5070", options=("COG", "COMPRESS=DEFLATE", "BLOCKSIZE=128", "OVERVIEWS=IGNORE_EXISTING"))
geotiff("cog-lzw.tif", "EPSG:4326", options=("COG", "COMPRESS=LZW", "BLOCKSIZE=128"))
geotiff("point-degrees.tif", "EPSG:4326", point=True)
geotiff("point-albers.tif", "EPSG:5070", options=tiled, point=True)
geotiff("feet.tif", "EPSG:2263")
geotiff("own-lambert.tif", list(frames)[6])
geotiff("own-lambert-code.tif", "ESRI:102009")
geotiff("own-polar.tif", list(frames)[7])
geotiff("own-mercator-feet.tif", list(frames)[8])
geotiff("no-data-nan.tif", "EPSG:4326", hole=None)
geotiff("south-up.tif", "EPSG:4326", south_up=True)
geotiff("big-endian.tif", "EPSG:5070", options=("ENDIANNESS=BIG", "BIGTIFF=YES", *tiled))
geotiff("inches.tif", "EPSG:4326", unit="in", values=np.where(rain() == no_data, no_data, rain() / 32))
geotiff("months.tif", "EPSG:4326", gdal.GDT_Int16, ("INTERLEAVE=PIXEL", "COMPRESS=DEFLATE"), bands=12, unit="mm")
geotiff("months-by-band.tif", "EPSG:4326", gdal.GDT_Int16, ("INTERLEAVE=BAND", *tiled, "COMPRESS=DEFLATE"), bands=12, unit="mm/day")

# What must be refused in words.
geotiff("two-bands.tif", "EPSG:4326", gdal.GDT_Int16, bands=2)
geotiff("all-missing.tif", "EPSG:4326", values=np.full((height, width), no_data))
geotiff("undeclared-missing.tif", "EPSG:4326", values=np.where(rain() == no_data, -9998, rain()))


def bare(name, transform, code):
    data = gdal.GetDriverByName("GTiff").Create(path(name), width, height, 1, gdal.GDT_Float32)
    if transform:
        data.SetGeoTransform(transform)
    if code:
        data.SetProjection(reference(code).ExportToWkt())
    data.GetRasterBand(1).WriteArray(rain(False))
    data = None


bare("rotated.tif", (-100, 0.2, 0.05, 45, 0.05, -0.2), "EPSG:4326")
bare("nowhere.tif", None, None)
bare("no-system.tif", (500000, 1000, 0, 4600000, 0, -1000), None)
bare("no-system-degrees.tif", (-100, 0.25, 0, 45, 0, -0.25), None)
bare("unknown-kind.tif", (0, 100000, 0, 0, 0, -100000), "+proj=vandg +lon_0=0 +x_0=0 +y_0=0 +R=6371007 +units=m")
bare("unknown-code.tif", (-900000, 20000, 0, -900000, 0, -20000), "EPSG:2065")
os.system(f"rm -f {here}/*.aux.xml")

# A long list of tiles, which the reader fetches apart; sparse: the tiles but two are not in the file.
for order in ("LITTLE", "BIG"):
    name = f"many-tiles-{order.lower()}.tif"
    data = gdal.GetDriverByName("GTiff").Create(path(name), 448, 448, 1, gdal.GDT_Int16, [*tiled, "SPARSE_OK=TRUE", f"ENDIANNESS={order}"])
    data.SetGeoTransform((-110, 0.05, 0, 50, 0, -0.05))
    data.SetProjection(degrees.ExportToWkt())
    data.GetRasterBand(1).SetNoDataValue(-1)
    data.GetRasterBand(1).WriteArray(np.arange(256, dtype=np.int16).reshape(16, 16), 208, 160)
    data.GetRasterBand(1).WriteArray(np.arange(256, 512, dtype=np.int16).reshape(16, 16), 224, 160)
    data = None


# NetCDF: written through GDAL's multidimensional interface, which lays attributes out as given.
def netcdf(name, variables, sizes, form="NC4", groups=None):
    driver = gdal.GetDriverByName("netCDF")
    data = driver.CreateMultiDimensional(path(name), options=[f"FORMAT={form}"])
    root = data.GetRootGroup()
    dims = {d: root.CreateDimension(d, None, None, n) for d, n in sizes.items()}
    kinds = {"f4": gdal.GDT_Float32, "f8": gdal.GDT_Float64, "i2": gdal.GDT_Int16, "i4": gdal.GDT_Int32}
    for var, (kind, on, values, attributes) in variables.items():
        array = root.CreateMDArray(var, [dims[d] for d in on], gdal.ExtendedDataType.Create(kinds[kind]))
        for key, value in attributes.items():
            if key == "_FillValue":
                array.SetNoDataValueDouble(value)
                continue
            if isinstance(value, str):
                array.CreateAttribute(key, [], gdal.ExtendedDataType.CreateString()).Write(value)
            else:
                many = isinstance(value, (list, tuple))
                as_kind = gdal.ExtendedDataType.Create(kinds[kind] if key in ("missing_value", "valid_range", "valid_min", "valid_max") else gdal.GDT_Float64)
                array.CreateAttribute(key, [len(value)] if many else [], as_kind).Write(value)
        numpy_kind = {"f4": np.float32, "f8": np.float64, "i2": np.int16, "i4": np.int32}[kind]
        array.Write(np.ascontiguousarray(values, dtype=numpy_kind))
    data = None


lat = ("f8", ("lat",), 45.125 - 0.25 * np.arange(height), {"units": "degrees_north", "standard_name": "latitude"})
lon = ("f8", ("lon",), -105.375 + 0.25 * np.arange(width), {"units": "degrees_east", "standard_name": "longitude"})
lon360 = ("f8", ("lon",), 254.625 + 0.25 * np.arange(width), {"units": "degrees_east"})
up = ("f8", ("lat",), lat[2][::-1], lat[3])
sizes = {"lat": height, "lon": width}
precip = {"units": "mm", "standard_name": "precipitation_amount", "_FillValue": no_data}
monthly = np.stack([np.where(rain() == no_data, no_data, np.round(rain() / 12) + m) for m in range(12)])
mid_months = [15, 45, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349]


def packed(mm):
    return np.where(mm == no_data, -32768, np.round((mm - 1000) / 0.25))


pack = {"units": "mm/year", "scale_factor": 0.25, "add_offset": 1000.0, "_FillValue": -32768, "valid_range": [-6000, 6000]}
for form, end in (("NC", "classic"), ("NC2", "offset64"), ("NC4", "hdf5")):
    netcdf(f"plain-{end}.nc", {"lat": lat, "lon": lon, "precip": ("f4", ("lat", "lon"), rain(), precip)}, sizes, form)
    netcdf(f"ascending-360-{end}.nc", {"lat": up, "lon": lon360, "pr": ("f4", ("lat", "lon"), rain()[::-1], precip)}, sizes, form)
    netcdf(f"lon-first-{end}.nc", {"lat": lat, "lon": lon, "pr": ("f4", ("lon", "lat"), rain().T, precip)}, sizes, form)
    netcdf(f"packed-{end}.nc", {"lat": lat, "lon": lon, "rain": ("i2", ("lat", "lon"), packed(rain()), pack)}, sizes, form)
    time = ("f8", ("time",), mid_months, {"units": "days since 2001-01-01", "standard_name": "time"})
    netcdf(f"months-{end}.nc", {"time": time, "lat": lat, "lon": lon, "ppt": ("f4", ("time", "lat", "lon"), monthly, {**precip, "units": "mm/month"})}, {"time": 12, **sizes}, form)
    flux = np.where(monthly == no_data, no_data, monthly / 2**21)
    netcdf(f"flux-{end}.nc", {"time": time, "lat": lat, "lon": lon, "pr": ("f4", ("time", "lat", "lon"), flux, {"units": "kg m-2 s-1", "standard_name": "precipitation_flux", "_FillValue": no_data})}, {"time": 12, **sizes}, form)

missing = {"units": "cm", "missing_value": -1.0, "long_name": "annual rain"}
netcdf("missing-value.nc", {"lat": lat, "lon": lon, "annual": ("f4", ("lat", "lon"), np.where(rain() == no_data, -1, rain() / 8), missing)}, sizes, "NC")
years = np.concatenate([monthly, np.where(monthly == no_data, no_data, monthly + 12)])
two_years = ("f8", ("time",), mid_months + [365 + d for d in mid_months], {"units": "days since 2001-01-01"})
netcdf("two-years.nc", {"time": two_years, "lat": lat, "lon": lon, "pr": ("f4", ("time", "lat", "lon"), years, precip)}, {"time": 24, **sizes}, "NC")
daily = ("f8", ("time",), np.arange(24), {"units": "days since 2001-01-01"})
netcdf("days.nc", {"time": daily, "lat": lat, "lon": lon, "pr": ("f4", ("time", "lat", "lon"), years, precip)}, {"time": 24, **sizes}, "NC")
other = ("f4", ("lat", "lon"), rain(), {"units": "K", "_FillValue": no_data})
netcdf("several.nc", {"lat": lat, "lon": lon, "tas": other, "pr": ("f4", ("lat", "lon"), rain(), precip)}, sizes, "NC4")
netcdf("several-unknown.nc", {"lat": lat, "lon": lon, "alpha": other, "beta": other}, sizes, "NC4")
wind = np.where(rain() == no_data, no_data, rain() / 64)
netcdf("wind.nc", {"lat": lat, "lon": lon, "sfcWind": ("f4", ("lat", "lon"), wind, {"units": "knots", "standard_name": "wind_speed", "_FillValue": no_data})}, sizes, "NC4")
warm = np.where(rain() == no_data, no_data, 250 + rain() / 32)
netcdf("temperature.nc", {"lat": lat, "lon": lon, "tas": ("f4", ("lat", "lon"), warm, {"units": "K", "standard_name": "air_temperature", "_FillValue": no_data})}, sizes, "NC")
gauss = ("f8", ("lat",), 45 - 0.25 * np.arange(height) ** 1.1, lat[3])
netcdf("uneven.nc", {"lat": gauss, "lon": lon, "pr": ("f4", ("lat", "lon"), rain(), precip)}, sizes, "NC")
globe = {"lat": 31, "lon": 60}
world = np.round(1000 + 300 * np.add.outer(np.cos(np.arange(31)), np.sin(np.arange(60))))
netcdf("globe-360.nc", {"lat": ("f8", ("lat",), 90 - 6 * np.arange(31), lat[3]), "lon": ("f8", ("lon",), 6 * np.arange(60), lon[3]), "pr": ("f4", ("lat", "lon"), world, precip)}, globe, "NC4")
chunked = path("months-chunked.nc")
subprocess.run(["nccopy", "-d", "4", "-s", "-c", "time/4,lat/8,lon/8", path("months-hdf5.nc"), chunked], check=True)
subprocess.run(["nccopy", "-k", "cdf5", path("plain-hdf5.nc"), path("cdf5.nc")], check=True)


def node_values(name, variable):
    """Values GDAL reads by node, with degrees: [longitude, latitude, [value by step]]."""
    root = gdal.OpenEx(path(name), gdal.OF_MULTIDIM_RASTER).GetRootGroup()
    array = root.OpenMDArray(variable)
    names = [d.GetName() for d in array.GetDimensions()]
    raw = array.GetUnscaled().ReadAsArray() if array.GetScale() is not None else array.ReadAsArray()
    hole = array.GetNoDataValueAsDouble()
    stored = array.ReadAsArray()
    lats, lons = (root.OpenMDArray(d).ReadAsArray() for d in ("lat", "lon"))
    out = []
    for k in range(0, len(lats) * len(lons), 11):
        r, c = k // len(lons), k % len(lons)
        at = tuple({"lat": r, "lon": c}.get(d, slice(None)) for d in names)
        values, holes = np.atleast_1d(raw[at]), np.atleast_1d(stored[at])
        out.append([float(lons[c]), float(lats[r]), [None if h == hole or np.isnan(v) else float(v) for v, h in zip(values, holes)]])
    return out


variables = {"plain": "precip", "ascending-360": "pr", "lon-first": "pr", "packed": "rain", "months": "ppt", "flux": "pr"}
for stem, variable in variables.items():
    for end in ("classic", "offset64", "hdf5"):
        name = f"{stem}-{end}.nc"
        readings[name] = {"width": width, "height": height, "nodes": node_values(name, variable)}
for name, variable in (("two-years.nc", "pr"), ("several.nc", "pr"), ("wind.nc", "sfcWind"), ("temperature.nc", "tas"), ("months-chunked.nc", "ppt")):
    readings[name] = {"width": width, "height": height, "nodes": node_values(name, variable)}
readings["globe-360.nc"] = {"width": 60, "height": 31, "nodes": node_values("globe-360.nc", "pr")}

# Esri ASCII, by GDAL, and by hand with centres.
memory = gdal.GetDriverByName("MEM").Create("", width, height, 1, gdal.GDT_Float32)
memory.SetGeoTransform((-105.5, 0.25, 0, 45.25, 0, -0.25))
memory.GetRasterBand(1).SetNoDataValue(no_data)
memory.GetRasterBand(1).WriteArray(rain())
gdal.GetDriverByName("AAIGrid").CreateCopy(path("corner.asc"), memory, options=["DECIMAL_PRECISION=3"])
lines = open(path("corner.asc")).read().replace("xllcorner    -105.5", "XLLCENTER    -105.375").replace("yllcorner    40.5", "YLLCENTER    40.625")
open(path("centre.asc"), "w").write(lines)
open(path("metres.asc"), "w").write(re.sub("-105.37.*", "500000", lines))
for name in ("corner.asc", "centre.asc"):
    readings[name] = reading(path(name))
os.system(f"rm -f {here}/*.prj {here}/*.aux.xml")

# Projections: PROJ's coordinates of places, by EPSG code.
codes = {5070: (-96, 39), 3978: (-75, 46), 26917: (-81, 43), 26717: (-81, 43), 32618: (-74, 41), 2263: (-73.9, 40.7), 2227: (-122, 37.5), 3857: (-100, 40), 3347: (-79, 44), 32161: (-66, 18.3), 2163: (-90, 35), 3035: (10, 50), 27700: (-1, 52), 2154: (3, 47), 3413: (-120, 66), 6350: (-84, 34), 2193: (172, -41), 3577: (145, -30)}
places = {}
for code, (x, y) in codes.items():
    to = osr.CoordinateTransformation(degrees, reference(f"EPSG:{code}")).TransformPoint(x, y)
    places[code] = [x, y, *to[:2]]
json.dump({"gdal": gdal.__version__, "files": readings, "projections": places}, open(path("readings.json"), "w"), separators=(",", ":"))
sys.stdout.write(f"{len(readings)} files\n")
