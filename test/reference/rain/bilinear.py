"""Bilinear values of two grids by gdalwarp (GDAL 3.6.2, `gdalwarp -r bilinear`), for test/rain/reference.test.ts.

Run from the repository's root with gdal-bin installed:  python3 test/reference/rain/bilinear.py
Writes test/reference/rain/bilinear.json. Grid values are nodes in the middle of raster cells, so the raster begins half
a cell before the first node. The global grid gets its first column again after the last one, because gdalwarp does not
wrap. gdalwarp gives no value where the cell that holds the point has no data, and weights the nodes that have some
elsewhere: the same renormalisation as in the method. Values that it refuses are null.
"""
import json
import os
import subprocess
import tempfile

OUT = "test/reference/rain/bilinear.json"
NODATA = -9999


def ascii_grid(path, width, height, west, south, step, rows):
    """Writes an Esri ASCII grid; `west`, `south` are the lowest node's centre."""
    head = (f"ncols {width}\nnrows {height}\nxllcenter {west}\nyllcenter {south}\n"
            f"cellsize {step}\nNODATA_value {NODATA}\n")
    with open(path, "w") as file:
        file.write(head + "\n".join(" ".join(str(v) for v in row) for row in rows) + "\n")


def at(folder, raster, x, y, step):
    half = step * 1e-4
    out = os.path.join(folder, "one.tif")
    box = [repr(v) for v in (x - half, y - half, x + half, y + half)]
    subprocess.run(["gdalwarp", "-q", "-overwrite", "-r", "bilinear", "-et", "0", "-ot", "Float64", "-te", *box,
                    "-ts", "1", "1", "-dstnodata", str(NODATA), raster, out], check=True, capture_output=True)
    text = subprocess.run(["gdallocationinfo", "-valonly", out, "0", "0"], check=True, capture_output=True).stdout
    value = float(text)
    return None if value == NODATA else value


def region():
    """12 × 9 nodes at 2.5° from 100° W, 50° N; about one in seven without data, and a block of six."""
    width, height, west, north, step = 12, 9, -100, 50, 2.5
    block = {(r, c) for r in (5, 6) for c in (6, 7, 8)}
    value = lambda r, c: NODATA if (r, c) in block or (5 * r + 3 * c) % 7 == 3 else 300 + (137 * r + 211 * c) % 1700
    rows = [[value(r, c) for c in range(width)] for r in range(height)]
    points = [[round(west + step * (0.07 + 10.8 * ((k * 0.6180339) % 1)), 5),
               round(north - step * (0.05 + 7.9 * ((k * 0.7548777) % 1)), 5)] for k in range(60)]
    points += [[-100, 50], [-95, 47.5], [-72.5, 30], [-83.75, 36.25], [-81.1, 36.3]]
    return dict(width=width, height=height, west=west, north=north, step=step, rows=rows), points


def world():
    """The default grid, first column repeated at 180° E."""
    with open("node_modules/vega-datasets/data/annual-precip.json") as file:
        data = json.load(file)
    rows = [data["values"][r * 360:(r + 1) * 360] for r in range(168)]
    rows = [row + row[:1] for row in rows]
    points = [[-122.33, 47.61], [-123.1, 49.25], [-66.1, 18.45], [-90.07, 29.95], [-112.07, 33.45], [-63.57, 44.65],
              [-52.71, 47.56], [-157.86, 21.31], [-0.13, 51.51], [0, 0], [179.25, 51.9], [179.999, -16.4],
              [-179.5, 52.125], [-180, 66.5], [180, 66.5], [-71, 42], [-118.5, 34.5], [120.96, -79.9]]
    return dict(width=361, height=168, west=-180, north=87, step=1, rows=rows), points


def values(grid, points):
    with tempfile.TemporaryDirectory() as folder:
        raster = os.path.join(folder, "grid.asc")
        south = grid["north"] - (grid["height"] - 1) * grid["step"]
        ascii_grid(raster, grid["width"], grid["height"], grid["west"], south, grid["step"], grid["rows"])
        return [{"longitude": x, "latitude": y, "mm": at(folder, raster, x, y, grid["step"])} for x, y in points]


def nulls(rows):
    return [[None if v == NODATA else v for v in row] for row in rows]


region_grid, region_points = region()
world_grid, world_points = world()
result = {
    "source": "gdalwarp -r bilinear, GDAL 3.6.2, by test/reference/rain/bilinear.py",
    "region": {**region_grid, "rows": nulls(region_grid["rows"]), "points": values(region_grid, region_points)},
    "world": {"points": values(world_grid, world_points)},
}
with open(OUT, "w") as file:
    json.dump(result, file, separators=(",", ":"))
    file.write("\n")
