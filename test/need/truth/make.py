"""Truth tables of the drainage-need rules, written from the method's text alone.

Run `python3 make.py` beside the tables to write them again. What is true, false
or unknown for each input value is typed here by hand; the script only crosses
the conditions (Kleene: false and unknown is false, true and unknown is unknown)
and names the first missing fact in the order material, sheathing, scope, climate.
No value comes from the program that the tables check.

Columns: rain_mm is exact (low = high); mean_temp_c in deg C; latitude in deg N.
Clauses: UBC 1997 2506.4; IBC 2510.6 (2000-2021), 1408.4.1; IRC R703.6.3, R703.7.3,
R703.9; NBC 9.27.2.2 (from memory); dry limit IECC Table C301.3; the rainy-climate
rule is common practice, no source. Boards as wood-based: judgement.
"""
import csv
from itertools import product
from pathlib import Path

COLUMNS = (
    "case,country,use,storeys,construction_type,climate_zone,mean_temp_c,rain_mm,"
    "p_rain_over_threshold,moisture_index,hdd18_c,latitude,marine_possible,material,"
    "sheathing,expected"
).split(",")
T, F = "true", "false"  # anything else is the missing fact

MATERIALS = (
    "stucco one_coat_stucco adhered_stone eifs eifs_barrier eifs_drained anchored_brick "
    "fiber_cement wood vinyl metal_panel curtain_wall other"
).split()
SHEATHINGS = "osb plywood fiberboard boards gypsum foam open_framing masonry concrete".split()
PLASTER = "stucco one_coat_stucco".split()
PLASTER_OR_STONE = PLASTER + ["adhered_stone"]
EIFS = "eifs eifs_barrier eifs_drained".split()
CAVITYLESS = "stucco one_coat_stucco adhered_stone eifs eifs_barrier fiber_cement wood".split()
WOOD_BASED = "osb plywood fiberboard boards".split()
FRAMING = "osb plywood fiberboard boards gypsum foam open_framing".split()


def option(words, truth, **facts):
    """One value of a condition: its words, its truth (or the missing fact), its input facts."""
    return words, truth, facts


def members(column, names, true_names):
    known = [option(f"{column} {n}", T if n in true_names else F, **{column: n}) for n in names]
    return known + [option(f"{column} blank", column)]


def pick(options, *words):
    return [o for w in words for o in options if o[0] == w]


def kleene(truths):
    """`truths` in the order in which a missing fact is named."""
    if F in truths:
        return "does not ask"
    missing = [t for t in truths if t != T]
    return f"cannot tell: {missing[0]}" if missing else "asks"


def rows(context, *conditions):
    for combination in product(*conditions):
        facts = dict(context)
        for _, _, given in combination:
            facts.update(given)
        words = "; ".join(o[0] for o in combination if o[0])
        yield {"case": words, **facts, "expected": kleene([o[1] for o in combination])}


def write(rule, *groups):
    """Keeps the first of equal inputs; equal inputs must expect the same."""
    seen = {}
    for row in (r for group in groups for r in group):
        full = {c: str(row.get(c, "")) for c in COLUMNS}
        key = tuple(full[c] for c in COLUMNS[1:-1])
        assert seen.setdefault(key, full)["expected"] == full["expected"], (rule, full)
    assert len({r["case"] for r in seen.values()}) == len(seen), rule
    with open(Path(__file__).with_name(f"{rule}.csv"), "w", newline="") as f:
        out = csv.DictWriter(f, COLUMNS, lineterminator="\n")
        out.writeheader()
        out.writerows(seen.values())


IBC = {"country": "US", "use": "apartment", "storeys": 4, "construction_type": "V",
       "marine_possible": "no"}
IRC = {"country": "US", "use": "house", "storeys": 2, "marine_possible": "no"}
STATES_M = ("material stucco", "material vinyl", "material blank")
STATES_S = ("sheathing osb", "sheathing gypsum", "sheathing blank")
WOOD = members("sheathing", SHEATHINGS, WOOD_BASED)
FRAMED = members("sheathing", SHEATHINGS, FRAMING)


def wall_rule(rule, context, materials, sheathings, true_wall, false_wall):
    """Rules of material and substrate alone: the whole vocabulary crossed."""
    wall = rows(context, materials, sheathings)
    yes, no = (
        [option(f"material {m}; sheathing {s}", t, material=m, sheathing=s)]
        for (m, s), t in ((true_wall, T), (false_wall, F))
    )
    # The choice between IBC and IRC comes before the rule; climate is no condition of it.
    other = [
        option("use and storeys blank", T, use="", storeys="", construction_type=""),
        option("zone 3B, a dry one", T, climate_zone="3B"),
        option("zone written without a letter", T, climate_zone="7"),
    ]
    write(rule, wall, rows(context, yes, other), rows(context, no, other))


# --- cement plaster and adhered stone -------------------------------------------------
STONE = members("material", MATERIALS, PLASTER_OR_STONE)
ON_OSB, ON_MASONRY = ("stucco", "osb"), ("stucco", "masonry")
wall_rule("ubc-1997-2506.4", IBC, members("material", MATERIALS, PLASTER), WOOD, ON_OSB, ON_MASONRY)
wall_rule("ibc-2510.6", IBC, STONE, WOOD, ON_OSB, ON_MASONRY)
wall_rule("irc-r703.6.3", IRC, STONE, WOOD, ON_OSB, ON_MASONRY)


def climate_rule(rule, context, materials, sheathings, states_m, states_s, climates, states_c):
    """The 27 combinations, then every climate, every material and every sheathing."""
    m, s, c = pick(materials, *states_m), pick(sheathings, *states_s), pick(climates, *states_c)
    write(
        rule,
        rows(context, m, s, c),
        rows(context, m[:1], s[:1], climates),
        rows(context, materials, s[:1], c),
        rows(context, m[:1], sheathings, c),
        rows({**context, "use": "", "storeys": "", "construction_type": ""},
             [option("use blank", T)], m[:1], s[:1], c),
    )


def zones(truth_by_zone):
    return [option(f"zone {z}", t, climate_zone=z) for z, t in truth_by_zone.items()]


WET = {"rain_mm": 1400, "mean_temp_c": 20, "latitude": 30, "marine_possible": "no"}
RECORD_ONLY = zones({
    "1A": T, "2A": T, "3A": T,
    "4A": F, "5A": F, "6A": F, "7A": F,
    "1B": F, "2B": F, "3B": F, "3C": F, "4C": F,
    # The letter would decide in zones 1 to 3; from 4 up the number alone rules it out.
    "1": "climate_zone", "2": "climate_zone", "3": "climate_zone", "4": F, "7": F,
}) + [
    option("zone blank", "climate_zone"),
    option("zone blank, rain and temperature known: no stand-in here", "climate_zone", **WET),
    option("zone 3A, little rain", T, climate_zone="3A", rain_mm=150, mean_temp_c=20, latitude=33,
           marine_possible="no"),
    option("zone 4A, much rain", F, climate_zone="4A", **WET),
]
climate_rule("ibc-2018-2510.6-exc-2", IBC, STONE, WOOD, STATES_M, STATES_S, RECORD_ONLY,
             ("zone 3A", "zone 4A", "zone blank"))

# --- dry, moist or marine ---------------------------------------------------------------
ZONE = "climate_zone"  # the fact that would settle the regime


def standin(words, dry, rain, temp="", lat=35, marine="no"):
    return option(words, dry, rain_mm=rain, mean_temp_c=temp, latitude=lat, marine_possible=marine)


# Truth of "the climate is dry". 15 deg C is 59 deg F: limit 17.38 in = 441.452 mm;
# 25 deg C is 77 deg F: 25.3 in = 642.62 mm; 0 deg C is 32 deg F: 5.5 in = 139.7 mm;
# 30 deg C is 86 deg F: 29.26 in = 743.2 mm; -15 deg C is 5 deg F: below zero.
DRY = zones({
    "1A": F, "2A": F, "3A": F, "4A": F, "5A": F, "6A": F, "7A": F, "3C": F, "4C": F, "5C": F,
    "1B": T, "2B": T, "3B": T, "4B": T, "5B": T, "6B": T, "7B": T,
    "3": ZONE, "4": ZONE, "7": ZONE, "8": ZONE,
}) + [
    option("zone 4A outranks a low rain", F, climate_zone="4A", rain_mm=100, mean_temp_c=15,
           latitude=35, marine_possible="no"),
    option("zone 4B outranks a high rain", T, climate_zone="4B", rain_mm=1400, mean_temp_c=15,
           latitude=35, marine_possible="no"),
    option("zone 4B outranks a possible marine place", T, climate_zone="4B", rain_mm=300,
           mean_temp_c=12, latitude=45, marine_possible="yes"),
    option("zone 4C outranks a low rain", F, climate_zone="4C", rain_mm=300, mean_temp_c=12,
           latitude=45, marine_possible="no"),
    option("zone 4 without a letter, rain below the limit", ZONE, climate_zone="4", rain_mm=100,
           mean_temp_c=15, latitude=35, marine_possible="no"),
    option("zone 4 without a letter, rain above the limit", ZONE, climate_zone="4", rain_mm=1400,
           mean_temp_c=15, latitude=35, marine_possible="no"),
    option("zone, rain and temperature blank", ZONE),
    option("rain blank, temperature known", ZONE, mean_temp_c=15, latitude=35, marine_possible="no"),
    standin("15 C, just below the limit", T, 441.4, 15),
    standin("15 C, just above the limit", F, 441.5, 15),
    standin("15 C, just below the limit, marine possible", ZONE, 441.4, 15, 45, "yes"),
    standin("15 C, just above the limit, marine possible", F, 441.5, 15, 45, "yes"),
    standin("25 C, just below the limit", T, 642.6, 25),
    standin("25 C, just above the limit", F, 642.7, 25),
    standin("25 C, just below the limit, marine possible", ZONE, 642.6, 25, 34, "yes"),
    standin("25 C, just above the limit, marine possible", F, 642.7, 25, 34, "yes"),
    standin("0 C, just below the limit", T, 139.6, 0, 45),
    standin("0 C, rain equal to the limit", F, 139.7, 0, 45),
    standin("0 C, just below the limit, north of 49 N", T, 139.6, 0, 60),
    standin("30 C, 28 in: below its own limit though above 27.5 in", T, 711.2, 30, 33),
    standin("-15 C, limit below zero", F, 100, -15, 64),
    standin("no temperature, 27.5 in", F, 698.5),
    standin("no temperature, 27.5 in, marine possible", F, 698.5, marine="yes"),
    standin("no temperature, 27.5 in, north of 49 N", F, 698.5, lat=58),
    standin("no temperature, 27.4 in", ZONE, 695.96),
    standin("no temperature, 27.4 in, marine possible", ZONE, 695.96, marine="yes"),
    standin("no temperature, 4.7 in", ZONE, 119.38),
    standin("no temperature, 4.6 in", ZONE, 116.84),
    standin("no temperature, 4.5 in south of 49 N", T, 114.3),
    standin("no temperature, 4.5 in south of 49 N, marine possible", ZONE, 114.3, marine="yes"),
    standin("no temperature, 4.5 in at 48.9 N", T, 114.3, lat=48.9),
    standin("no temperature, 4.5 in at 49 N", ZONE, 114.3, lat=49),
    standin("no temperature, 4.5 in, latitude blank", ZONE, 114.3, lat=""),
    standin("no temperature, 4.5 in at 60 N", ZONE, 114.3, lat=60),
]
NOT = {T: F, F: T}
MOIST_OR_MARINE = [(words, NOT.get(truth, truth), facts) for words, truth, facts in DRY]
for clause, context in (("ibc-2021-2510.6", IBC), ("irc-2021-r703.7.3", IRC)):
    for number, climates, states in (
        (1, DRY, ("zone 3B", "zone 3A", "zone 7")),
        (2, MOIST_OR_MARINE, ("zone 3A", "zone 3B", "zone 7")),
    ):
        climate_rule(f"{clause}.{number}", context, STONE, WOOD, STATES_M, STATES_S, climates, states)

# --- EIFS ---------------------------------------------------------------------------------
EIFS_M = members("material", MATERIALS, EIFS)
wall_rule("irc-eifs-r703.9", IRC, EIFS_M, FRAMED, ("eifs", "gypsum"), ("eifs", "masonry"))

USES = "house townhouse apartment hotel office retail institution industrial other".split()
GROUP_R = members("use", USES, "house townhouse apartment hotel".split())
TYPE = members("construction_type", "I II III IV V".split(), ["V"])
EIFS_3 = pick(EIFS_M, "material eifs", "material stucco", "material blank")
FRAMED_3 = pick(FRAMED, "sheathing gypsum", "sheathing concrete", "sheathing blank")
USE_3 = pick(GROUP_R, "use apartment", "use office", "use blank")
TYPE_3 = pick(TYPE, "construction_type V", "construction_type I", "construction_type blank")
EIFS_BASE = {"country": "US", "storeys": 4, "marine_possible": "no"}
write(
    "ibc-eifs-1408.4.1",
    rows(EIFS_BASE, EIFS_3, FRAMED_3, USE_3, TYPE_3),
    rows(EIFS_BASE, EIFS_M, FRAMED_3[:1], USE_3[:1], TYPE_3[:1]),
    rows(EIFS_BASE, EIFS_3[:1], FRAMED, USE_3[:1], TYPE_3[:1]),
    rows(EIFS_BASE, EIFS_3[:1], FRAMED_3[:1], GROUP_R, TYPE),
    rows({**EIFS_BASE, "storeys": ""}, [option("storeys blank", T)], EIFS_3[:1], FRAMED_3[:1], USE_3, TYPE_3),
)

# --- Canada -------------------------------------------------------------------------------
PART5, AREA = "Part 5 applies", "building area, Part 9 or Part 5"


def canada_scope(use, storeys, truth):
    return option(f"use {use or 'blank'}, storeys {storeys or 'blank'}", truth, use=use, storeys=storeys)


SCOPE = [canada_scope(*s) for s in (
    ("house", 2, T), ("apartment", 5, PART5), ("house", "", "storeys"), ("", 2, "use"),
    ("apartment", 3, AREA), ("office", 2, PART5), ("", "", "use"),
)]
MORE_SCOPE = [canada_scope(*s) for s in (
    ("house", 1, T), ("house", 3, T), ("house", 4, PART5),
    ("townhouse", 1, T), ("townhouse", 3, T), ("townhouse", 4, PART5), ("townhouse", "", "storeys"),
    ("apartment", 1, AREA), ("apartment", 4, PART5), ("apartment", "", "storeys"),
    # Residential by Groups, so as an apartment building.
    ("hotel", 3, AREA), ("hotel", 4, PART5),
    ("office", 4, PART5), ("office", "", PART5), ("retail", 1, PART5), ("retail", "", PART5),
    ("institution", 1, PART5), ("institution", "", PART5), ("industrial", 1, PART5),
    ("industrial", "", PART5), ("other", 1, PART5), ("other", "", PART5),
    # No use would bring a fourth storey under Part 9, so use is not what is missing.
    ("", 3, "use"), ("", 4, PART5),
)]


def moisture(mi, hdd, truth):
    words = f"moisture index {mi or 'blank'}, degree-days {hdd or 'blank'}"
    return option(words, truth, moisture_index=mi, hdd18_c=hdd)


MI, HDD = "moisture_index", "hdd18_c"
MOISTURE = [moisture(*m) for m in (
    ("1.40", 2600, T), ("1.01", 3399, T), ("1.01", 3400, T), ("1.01", 5000, T), ("1.01", "", T),
    ("1.00", 3399, T), ("1.00", 3400, F), ("1.00", "", HDD),
    ("0.91", 3399, T), ("0.91", 3400, F), ("0.91", "", HDD),
    ("0.90", 3399, F), ("0.90", 3400, F), ("0.90", "", F), ("0.30", 2600, F),
    ("", 3399, MI), ("", 3400, MI), ("", "", MI),
)]
MOISTURE_4 = [MOISTURE[4], MOISTURE[13], MOISTURE[10], MOISTURE[17]]  # asks, not, degree-days, index
CANADA = {"country": "CA", "latitude": 49.2, "marine_possible": "no"}
STUCCO_OSB = [option("", T, material="stucco", sheathing="osb")]
ANY_MATERIAL = members("material", MATERIALS, MATERIALS)[:-1] + [option("material blank", T)]
ANY_SHEATHING = members("sheathing", SHEATHINGS, SHEATHINGS)[:-1] + [option("sheathing blank", T)]
VINYL = [option("material vinyl", T, material="vinyl")]
ON_PLYWOOD = [option("sheathing plywood", T, sheathing="plywood")]
NO_RECORD = [option("material and sheathing blank", T)]
write(
    "nbc-9.27.2.2",
    rows(CANADA, STUCCO_OSB, SCOPE, MOISTURE),
    rows(CANADA, STUCCO_OSB, MORE_SCOPE, MOISTURE_4),
    rows(CANADA, ANY_MATERIAL, ON_PLYWOOD, SCOPE[:1], MOISTURE_4),
    rows(CANADA, VINYL, ANY_SHEATHING, SCOPE[:1], MOISTURE_4),
    rows(CANADA, NO_RECORD, SCOPE[:2], MOISTURE_4),
    rows({**CANADA, "latitude": ""}, [option("latitude blank", T)], ON_PLYWOOD, VINYL, SCOPE[:1], MOISTURE_4),
)

# --- practice -----------------------------------------------------------------------------
RAINY = [
    option(f"p {p or 'blank'}", truth, p_rain_over_threshold=p, rain_mm=rain)
    for p, rain, truth in (
        ("0.95", 700, T), ("0.05", 350, F), ("0.5", 508, "rain"),
        ("1", 1400, T), ("0.9", 640, T), ("0.89", 635, "rain"),
        ("0.11", 400, "rain"), ("0.1", 395, F), ("0", 100, F), ("", "", "rain"),
    )
]
climate_rule("practice-rainy-climate", IBC, members("material", MATERIALS, CAVITYLESS), FRAMED,
             STATES_M, ("sheathing osb", "sheathing masonry", "sheathing blank"), RAINY,
             ("p 0.95", "p 0.05", "p 0.5"))
