#!/usr/bin/env python3
"""Writes table files by programs that share no code with the reader, each with a CSV twin of what it holds.

list.xlsx         openpyxl: a merged title, dates, moments, percentages, booleans, an error, formulas, leading zeros, three sheets
list-1904.xlsx    openpyxl: the same dates counted from 1904
list.csv          the twin of both, from the values as given to openpyxl
other.xlsx        GDAL: the places of places.csv as a workbook
places.geojson    GDAL: points, one without geometry;  places-rfc7946.geojson by the newer standard, places.geojsonl a feature a line
places.csv        the twin: GDAL's own reading of places.geojson
outlines.geojson  GDAL: polygons only
metres.geojson    GDAL: points in EPSG:3857, with a `crs` member

Needs Debian's python3-openpyxl and gdal-bin. Nothing is random, so that a second run writes the same tables.
"""
import csv
import datetime
import re
import subprocess
import zipfile
from pathlib import Path

import openpyxl
from openpyxl.styles import Font
from openpyxl.utils.datetime import CALENDAR_MAC_1904

HEAD = ["Ref", "Name", "Zip", "Built", "Surveyed", "Checked at", "Opens", "Share", "Area", "Sprinklered", "Note", "Double", "Fault"]
DATE, MOMENT, TIME = datetime.date, datetime.datetime, datetime.time
ROWS = [
    ["B-1", "Café “Tern” & Söhne <1>", "02108", 1987, DATE(2026, 7, 1), MOMENT(2026, 7, 1, 14, 30), TIME(8, 15), 0.07, 47.6062095123456, True, None],
    ["B-2", "two\nlines", "00501", 2001, DATE(1904, 2, 29), MOMENT(1999, 12, 31, 23, 59, 59), TIME(23, 59, 59), 0.5, 1234567.891, False, "12,5"],
    [None] * 11,
    ["B-3", "  kept blanks ", "98101", -3, DATE(2000, 2, 29), MOMENT(2026, 1, 1), TIME(0, 0), 1, 1e-7, None, "0041"],
    ["B-4", 42, "1E5", 1e21, DATE(2100, 3, 1), None, None, 1.255, 123456789012345, True, "#N/A in words"],
]


def plain(value):
    """A value as the reader is to give it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, datetime.datetime):
        return value.date().isoformat() if value.time() == TIME(0) else value.isoformat()
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    if isinstance(value, float):
        return {1e21: "1e+21", 1e-7: "1e-7"}.get(value, repr(value))
    return str(value)


def twin_row(row):
    cells = [plain(value) for value in row]
    if row[0] is None:
        return [""] * len(HEAD)
    cells[7] = {0.07: "7%", 0.5: "50%", 1: "100%", 1.255: "125.5%"}[row[7]]
    built = row[3]
    return cells + ["" if row[0] == "B-4" else str(2 * built), "#N/A" if row[0] == "B-2" else ""]


def with_results(path):
    """openpyxl stores formulas without results; a spreadsheet program stores both. Puts results where the twin has them."""
    results = {"L4": "3974", "L5": "4002", "L7": "-6"}
    parts = {}
    with zipfile.ZipFile(path) as book:
        for name in book.namelist():
            parts[name] = book.read(name)
    sheet = parts["xl/worksheets/sheet2.xml"].decode()
    for cell, result in results.items():
        sheet, n = re.subn(rf'(<c r="{cell}"[^>]*><f>[^<]*</f>)<v ?/>|(<c r="{cell}"[^>]*><f>[^<]*</f>)<v></v>',
                           lambda m: f"{m[1] or m[2]}<v>{result}</v>", sheet)
        assert n == 1, cell
    parts["xl/worksheets/sheet2.xml"] = sheet.encode()
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as book:
        for name, data in parts.items():
            book.writestr(zipfile.ZipInfo(name, (2026, 1, 1, 0, 0, 0)), data, zipfile.ZIP_DEFLATED)


def workbook(path, epoch=None):
    book = openpyxl.Workbook()
    if epoch:
        book.epoch = epoch
    hidden = book.active
    hidden.title = "Lists"
    hidden.append(["yes"])
    hidden.sheet_state = "hidden"
    sheet = book.create_sheet("Stock & <state>")
    book.active = 1
    sheet.append(["Tern Estates: buildings as of 1 July 2026"])
    sheet["A1"].font = Font(bold=True)
    sheet.merge_cells("A1:M1")
    sheet.append([])
    sheet.append(HEAD)
    for i, row in enumerate(ROWS, start=4):
        if row[0] is None:
            continue
        for column, value in enumerate(row, start=1):
            cell = sheet.cell(i, column, value)
            if column == 8:
                cell.number_format = "0.0%"
            if column == 5:
                cell.number_format = 'd" of "mmm yyyy' if i % 2 else "yyyy-mm-dd"
        sheet.cell(i, 12, f"=D{i}*2")
        if row[0] == "B-2":
            sheet.cell(i, 13, "#N/A")
    sheet["Z900"].font = Font(bold=True)
    empty = book.create_sheet("Nothing")
    empty["B2"].font = Font(bold=True)
    book.save(path)
    with_results(path)


def ogr(*args):
    subprocess.run(["ogr2ogr", *args], check=True)


def places():
    for old in Path(".").glob("places*"):
        old.unlink()
    given = Path("given.csv")
    with given.open("w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out)
        writer.writerow(["code", "name", "storeys", "share", "WKT"])
        writer.writerow(["01", "Résidence \"Nord\", bâtiment 3", 4, 0.125, "POINT (-63.600691 44.669052)"])
        writer.writerow(["02", "", 12, "", "POINT (-122.3320708 47.6062095)"])
        writer.writerow(["03", "no place", 3, 1.5, ""])
        writer.writerow(["04", "东塔", "", -2.75, "POINT (-179.999 -0.5)"])
    vrt = Path("given.vrt")
    vrt.write_text(
        '<OGRVRTDataSource><OGRVRTLayer name="given"><SrcDataSource>given.csv</SrcDataSource>'
        "<GeometryType>wkbPoint</GeometryType><LayerSRS>EPSG:4326</LayerSRS>"
        '<GeometryField encoding="WKT" field="WKT"/><Field name="code" type="String"/><Field name="name" type="String"/>'
        '<Field name="storeys" type="Integer"/><Field name="share" type="Real"/></OGRVRTLayer></OGRVRTDataSource>')
    ogr("-f", "GeoJSON", "places.geojson", "given.vrt", "-lco", "COORDINATE_PRECISION=9")
    ogr("-f", "GeoJSON", "places-rfc7946.geojson", "given.vrt", "-lco", "RFC7946=YES")
    ogr("-f", "GeoJSONSeq", "places.geojsonl", "given.vrt")
    ogr("-f", "CSV", "places.csv", "places.geojson", "-lco", "GEOMETRY=AS_XY")
    Path("other.xlsx").unlink(missing_ok=True)
    ogr("-f", "XLSX", "other.xlsx", "places.csv", "-oo", "AUTODETECT_TYPE=NO")
    for name in ["outlines.geojson", "metres.geojson"]:
        Path(name).unlink(missing_ok=True)
    ogr("-f", "GeoJSON", "metres.geojson", "given.vrt", "-t_srs", "EPSG:3857")
    ogr("-f", "GeoJSON", "outlines.geojson", "given.vrt", "-nlt", "POLYGON", "-dialect", "SQLite",
        "-sql", "SELECT code, ST_Buffer(geometry, 0.001, 2) AS geometry FROM given WHERE code <> '03'")
    given.unlink()
    vrt.unlink()


workbook("list.xlsx")
workbook("list-1904.xlsx", CALENDAR_MAC_1904)
with open("list.csv", "w", newline="", encoding="utf-8") as out:
    writer = csv.writer(out)
    writer.writerow(HEAD)
    writer.writerows(twin_row(row) for row in ROWS)
places()
