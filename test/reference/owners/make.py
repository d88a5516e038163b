#!/usr/bin/env python3
"""Writes three lists as their owners keep them; people, streets and companies are invented.

city-buildings.csv       in the manner of a city's open building data: codes, feet, X/Y, upper-case headings
schedule-of-values.xlsx  in the manner of an insurer's schedule: title lines, amounts in thousands, no coordinates, totals
inspection-log.csv       in the manner of a consultant's log: a row a wall, semicolons, decimal commas, Windows-1252

Needs Debian's python3-openpyxl. The numbers are drawn with a fixed seed, so that a second run writes the same rows.
"""
import csv
import random
from openpyxl import Workbook
from openpyxl.styles import Font

rng = random.Random(20261125)
STREETS = ["Alder", "Quarry", "Lantern", "Millrace", "Heron", "Foundry", "Orchard", "Tidewater", "Juniper", "Garnet"]


def address():
    return f"{rng.randint(10, 4800)} {rng.choice(STREETS)} {rng.choice(['St', 'Ave', 'Ct', 'Way'])}"


def city():
    """Around Tacoma, WA: 80 buildings, three of them with the slips that such files have."""
    head = ["OBJECTID", "BLDG_ID", "SITE_ADDR", "ZIPCODE", "ST", "YR_BUILT", "NUM_FLOORS", "HT_FT", "BLDG_USE",
            "EXT_WALL", "X_COORD", "Y_COORD", "EXT_WALL_AREA_SF", "PERMIT_STATUS"]
    uses = ["MULTI-FAMILY", "OFFICE", "RETAIL", "SINGLE FAMILY", "WAREHOUSE", "SCHOOL"]
    walls = ["STUCCO", "SYNTH STUCCO", "BRICK VENEER", "FIBER CEMENT", "MANUFACTURED STONE", "VINYL", "STUCCO"]
    rows = []
    for i in range(80):
        floors = rng.choice([1, 2, 2, 3, 3, 4, 5, 6, 8])
        lon, lat = round(-122.44 + rng.uniform(-.09, .09), 6), round(47.25 + rng.uniform(-.06, .06), 6)
        rows.append([i + 1, f"T{10400 + 7 * i}", address(), rng.choice([98402, 98403, 98405, 98406, 98407]), "WA",
                     rng.randint(1925, 2021), floors, floors * 11 + rng.randint(0, 4), rng.choice(uses),
                     rng.choice(walls), lon, lat, f"{floors * rng.randint(2200, 6400):,}", "FINAL"])
    rows[11][10], rows[11][11] = rows[11][11], rows[11][10]
    rows[29][10] = abs(rows[29][10])
    rows[47][1] = rows[46][1]
    with open("city-buildings.csv", "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out)
        writer.writerow(head)
        writer.writerows(rows)


PLACES = [("Mobile", "AL", "36602"), ("Savannah", "GA", "31401"), ("Houston", "TX", "77002"), ("Tampa", "FL", "33602"),
          ("Charlotte", "NC", "28202"), ("Portland", "OR", "97204"), ("Boston", "MA", "02108"), ("Denver", "CO", "80202"),
          ("Phoenix", "AZ", "85004"), ("Newark", "NJ", "07102")]


def schedule():
    """60 locations over ten cities by postal code alone, values in thousands of dollars."""
    book = Workbook()
    sheet = book.active
    sheet.title = "SOV 2026"
    sheet.append(["Larkfield Mutual Assurance: Schedule of Values as of 1 July 2026"])
    sheet["A1"].font = Font(bold=True)
    sheet.append(["Named insured: Copperline Residential Partners"])
    sheet.append([])
    sheet.append(["Loc #", "Location Name", "Street Address", "City", "State", "Zip Code", "Year Built", "# Stories",
                  "Occupancy", "Const. Type", "Exterior Cladding", "Roof Shape", "Bldg Value ($000)", "Contents ($000)",
                  "Policy Key"])
    use = ["Apartments", "Office", "Hotel", "Retail", "Townhomes"]
    clad = ["EIFS", "Stucco", "Brick veneer", "Hardcoat stucco", "Fiber cement", "Adhered stone veneer", "Metal panel"]
    total = 0
    for i in range(60):
        place, state, postal = PLACES[i % 10]
        value = rng.randint(900, 48000)
        total += value
        sheet.append([i + 1, f"{rng.choice(STREETS)} {rng.choice(['House', 'Court', 'Commons', 'Place'])} {i + 1}", address(),
                      place, state, postal, rng.randint(1968, 2022), rng.choice([2, 3, 4, 5, 7, 12]), rng.choice(use),
                      rng.choice(["V-A", "V-B", "III-A", "I-A"]), rng.choice(clad), rng.choice(["Flat", "Gable", "Hip"]),
                      value, rng.randint(50, 3000), f"LM-{7100 + i}"])
    sheet.append(["Total", "", "", "", "", "", "", "", "", "", "", "", total, "", ""])
    notes = book.create_sheet("Notes")
    notes.append(["Values are replacement cost as reported by the insured; no survey was made."])
    book.save("schedule-of-values.xlsx")


def log():
    """One development of nine buildings near Halifax, NS: a row a wall, the building's columns repeated."""
    head = ["Ref", "Bldg", "Building name", "Lat", "Long", "Province", "Built", "Storeys", "Elevation", "Cladding",
            "Area (m²)", "Backup", "Drainage", "Gap (mm)", "Basis", "Visited", "Kick-outs", "Remarks"]
    rows, ref = [], 0
    for b in range(9):
        lat, lon = 44.66 + rng.uniform(-.01, .01), -63.6 + rng.uniform(-.01, .01)
        built, storeys = rng.randint(1992, 2008), rng.choice([3, 4, 4, 6])
        for side in ["N", "E", "S", "W"]:
            ref += 1
            clad = rng.choice(["Stucco", "Stucco", "Adhered stone", "Fibre cement siding"])
            drainage, gap = rng.choice([("2 layers of paper", ""), ("felt", ""), ("strapping", "19,0"), ("", "")])
            rows.append([f"W-{ref:03}", f"B{b + 1}", f"Résidence Tern {b + 1}", f"{lat:.5f}".replace(".", ","),
                         f"{lon:.5f}".replace(".", ","), "Nova Scotia", built, storeys, side, clad,
                         f"{storeys * rng.uniform(60, 140):.1f}".replace(".", ","), rng.choice(["OSB", "plywood", ""]),
                         drainage, gap, rng.choice(["site visit", "drawings", "opening"]), f"2026-0{rng.randint(3, 9)}-1{rng.randint(0, 9)}",
                         rng.choice(["yes", "no", ""]), rng.choice(["“soft” at sill", "stain below window", "", "not reached"])])
    with open("inspection-log.csv", "w", newline="", encoding="cp1252") as out:
        writer = csv.writer(out, delimiter=";")
        writer.writerow(head)
        writer.writerows(rows)


city()
schedule()
log()
