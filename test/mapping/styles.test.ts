import { describe, expect, test } from 'vitest';
import type { SheetShape } from '../../analysis/mapping/column-map.ts';
import { guessMap } from '../../analysis/mapping/guess.ts';
import { sheet, told } from './sheets.ts';

/** Invented sheets. What each heading means is common practice of such lists, no source. */
interface Case {
  readonly of: string;
  readonly wanted: 'buildings' | 'walls' | 'any';
  readonly lines: readonly string[];
  readonly shape: SheetShape;
  readonly told: readonly string[];
}

const check = ({ wanted, lines, shape, told: expected }: Case): void => {
  const { map, missing } = guessMap(sheet(...lines), wanted);
  expect({ shape: map.shape, told: told(map) }).toEqual({ shape, told: expected });
  expect(missing).toEqual([]);
};

const city: readonly Case[] = [
  {
    of: 'footprints in capitals',
    wanted: 'buildings',
    lines: [
      'OBJECTID|BLDG_ID|YEARBUILT|NUMFLOORS|HEIGHT_FT|LAT_DD|LONG_DD|SHAPE_Area|SHAPE_Length',
      '1|B20011|1962|3|38.5|47.61234|-122.33121|1200.55|140.2',
      '2|B20012|1998|12|131|47.62001|-122.35177|3100.1|260.9',
    ],
    shape: 'buildings',
    told: [
      'BLDG_ID: building_id',
      'YEARBUILT: year_built',
      'NUMFLOORS: storeys',
      'HEIGHT_FT: height_m in ft',
      'LAT_DD: latitude',
      'LONG_DD: longitude',
    ],
  },
  {
    of: 'an assessor with abbreviations',
    wanted: 'buildings',
    lines: [
      'PIN|Situs Addr|Situs City|Zip|Bldg Yr Built|No. Stories|Bldg Type|Ext. Wall|Assessed Value',
      '0412-A|12 Alder St|Tacoma|98402|1987|2|Apartment|Stucco|410000',
      '0413-B|80 Heron Ave|Tacoma|98403|2001|3|Office|Brick veneer|990000',
    ],
    shape: 'wall columns',
    told: [
      'PIN: building_id',
      'Situs Addr: address',
      'Situs City: city',
      'Zip: postal_code',
      'Bldg Yr Built: year_built',
      'No. Stories: storeys',
      'Bldg Type: use',
      'Ext. Wall: material of 1',
    ],
  },
  {
    of: 'camelCase with coordinates',
    wanted: 'any',
    lines: [
      'buildingId,siteName,yearBuilt,numberOfFloors,geoLat,geoLon,postalCode,stateProvince'.replaceAll(
        ',',
        '|',
      ),
      'A-1|Fern Hall|1975|4|45.52011|-122.67102|97204|OR',
      'A-2|Moss Hall|1976|5|45.53011|-122.66102|97205|OR',
    ],
    shape: 'buildings',
    told: [
      'buildingId: building_id',
      'siteName: name',
      'yearBuilt: year_built',
      'numberOfFloors: storeys',
      'geoLat: latitude',
      'geoLon: longitude',
      'postalCode: postal_code',
      'stateProvince: region',
    ],
  },
  {
    of: 'x and y that are degrees',
    wanted: 'buildings',
    lines: ['Facility ID|X_COORD|Y_COORD', 'F1|-122.3301|47.6101', 'F2|-122.4301|47.7101'],
    shape: 'buildings',
    told: ['Facility ID: building_id', 'X_COORD: longitude', 'Y_COORD: latitude'],
  },
  {
    of: 'x and y of a projection beside degrees',
    wanted: 'buildings',
    lines: [
      'Structure ID|X_COORD|Y_COORD|Latitude (WGS84)|Longitude (WGS84)',
      'S1|1271103.2|228411.9|47.6101|-122.3301',
      'S2|1271903.7|229411.1|47.7101|-122.4301',
    ],
    shape: 'buildings',
    told: [
      'Structure ID: building_id',
      'Latitude (WGS84): latitude',
      'Longitude (WGS84): longitude',
    ],
  },
  {
    of: 'a roof and a renovation that are no dates of the building',
    wanted: 'buildings',
    lines: [
      'Asset No|ZIP+4|Year Constructed|Year Renovated|Roof Year|Roof Type|Eave Overhang (in)',
      '11|98101-2040|1960|1999|2010|Flat|24',
      '12|98102-2041|1961|1998|2011|Gable|18',
    ],
    shape: 'buildings',
    told: [
      'Asset No: building_id',
      'ZIP+4: postal_code',
      'Year Constructed: year_built',
      'Roof Type: roof',
      'Eave Overhang (in): overhang_mm in in',
    ],
  },
  {
    of: 'a consumption list with climate',
    wanted: 'buildings',
    lines: [
      'Property Id|Property Name|Postal Code|Primary Property Type|Year Built|HDD65F|Mean Temp (°F)|IECC Climate Zone',
      '901|Elm Court|98101|Multifamily|1999|4797|53|4C',
      '902|Oak Court|98102|Hotel|2003|4810|52|4C',
    ],
    shape: 'buildings',
    told: [
      'Property Id: building_id',
      'Property Name: name',
      'Postal Code: postal_code',
      'Primary Property Type: use',
      'Year Built: year_built',
      'HDD65F: hdd18_c in F-days',
      'Mean Temp (°F): mean_temp_c in F',
      'IECC Climate Zone: climate_zone',
    ],
  },
  {
    of: 'heights in metres told by the storeys',
    wanted: 'buildings',
    lines: [
      'ID|Lat|Lng|Height|Floors',
      '1|49.28112|-123.12111|32|10',
      '2|49.28212|-123.13111|9.5|3',
    ],
    shape: 'buildings',
    told: [
      'ID: building_id',
      'Lat: latitude',
      'Lng: longitude',
      'Height: height_m',
      'Floors: storeys',
    ],
  },
  {
    of: 'Canadian postal codes with coordinates and a coast',
    wanted: 'buildings',
    lines: [
      'Site #|Municipality|Prov.|Post Code|Lat.|Long.|Dist. to Coast (mi)|Terrain Class',
      '4|Victoria|BC|V8W 1P6|48.42561|-123.36561|0.4|Exposed',
      '5|Nanaimo|BC|V9R 5J6|49.16591|-123.94011|0.7|Sheltered',
    ],
    shape: 'buildings',
    told: [
      'Site #: building_id',
      'Municipality: city',
      'Prov.: region',
      'Post Code: postal_code',
      'Lat.: latitude',
      'Long.: longitude',
      'Dist. to Coast (mi): distance_to_coast_km in mi',
      'Terrain Class: terrain',
    ],
  },
];

const insurer: readonly Case[] = [
  {
    of: 'a schedule of values',
    wanted: 'buildings',
    lines: [
      'Loc #|Bldg Name|Street Address|City|St|Zip Code|Yr Blt|# Stories|Const. Class|Occ Desc|Insured Bldg Value (USD)|Contents Value|BI Value',
      '1|Larch House|1 Pine Rd|Kent|WA|98030|1994|3|Type V-B|Apartments|4,250,000|100,000|80,000',
      '2|Cedar House|3 Pine Rd|Kent|WA|98031|1996|4|Type III|Apartments|6,250,000|150,000|90,000',
    ],
    shape: 'buildings',
    told: [
      'Loc #: building_id',
      'Bldg Name: name',
      'Street Address: address',
      'City: city',
      'St: region',
      'Zip Code: postal_code',
      'Yr Blt: year_built',
      '# Stories: storeys',
      'Const. Class: construction_type',
      'Occ Desc: use',
      'Insured Bldg Value (USD): insured_value in USD',
    ],
  },
  {
    of: 'thousands',
    wanted: 'buildings',
    lines: [
      'LocID|Latitude|Longitude|TIV ($000)|Ccy|No. of Bldgs|Policy No|Deductible %',
      'L-1|29.7601|-95.3701|12,500|USD|4|P-77|2',
      'L-2|29.9511|-90.0715|900|USD|1|P-78|5',
    ],
    shape: 'buildings',
    told: [
      'LocID: building_id',
      'Latitude: latitude',
      'Longitude: longitude',
      'TIV ($000): insured_value in thousand',
      'Ccy: currency',
      'No. of Bldgs: building_count',
    ],
  },
  {
    of: 'millions of Canadian dollars',
    wanted: 'buildings',
    lines: ['Risk Number|Postcode|Sum Insured (CAD M)', 'R1|V8W 1P6|12.5', 'R2|V9R 5J6|3'],
    shape: 'buildings',
    told: [
      'Risk Number: building_id',
      'Postcode: postal_code',
      'Sum Insured (CAD M): insured_value in million CAD',
    ],
  },
  {
    of: 'total and building values side by side',
    wanted: 'buildings',
    lines: [
      'Location Number|ZIP|Building Value|Contents|Total Insured Value|Flood Zone|Distance to Coast (miles)',
      '1|33139|$3,000,000|$20,000|$3,020,000|AE|0.2',
      '2|33140|$4,000,000|$30,000|$4,030,000|X|0.8',
    ],
    shape: 'buildings',
    told: [
      'Location Number: building_id',
      'ZIP: postal_code',
      'Total Insured Value: insured_value',
      'Distance to Coast (miles): distance_to_coast_km in mi',
    ],
  },
  {
    of: 'the wall finish and leaks of underwriters',
    wanted: 'buildings',
    lines: [
      'Location ID|Lat|Lon|Year of Construction|Exterior Finish|Water Intrusion History|Replacement Cost',
      'A1|47.6101|-122.3301|2001|EIFS|None reported|$9,000,000',
      'A2|47.6201|-122.3401|1997|Stucco|Leaks|$8,000,000',
    ],
    shape: 'wall columns',
    told: [
      'Location ID: building_id',
      'Lat: latitude',
      'Lon: longitude',
      'Year of Construction: year_built',
      'Exterior Finish: material of 1',
      'Water Intrusion History: leak_history',
      'Replacement Cost: insured_value',
    ],
  },
  {
    of: 'two claddings a location',
    wanted: 'buildings',
    lines: [
      'Loc ID|Zip|Primary Cladding|Secondary Cladding|Gross Wall Area SF',
      '7|98101|Stucco|Thin stone|12,000',
      '8|98102|EIFS|Brick|8,000',
    ],
    shape: 'wall columns',
    told: [
      'Loc ID: building_id',
      'Zip: postal_code',
      'Primary Cladding: material of primary',
      'Secondary Cladding: material of secondary',
      'Gross Wall Area SF: wall_area_m2 in sq ft',
    ],
  },
  {
    of: 'areas by cladding',
    wanted: 'buildings',
    lines: [
      'Building ID|Postal Code|stucco_area_sf|Brick Area (SF)|Stone SF',
      '7|98101|9000|3000|400',
      '8|98102|8000||',
    ],
    shape: 'wall columns',
    told: [
      'Building ID: building_id',
      'Postal Code: postal_code',
      'stucco_area_sf: area_m2 of stucco in sq ft',
      'Brick Area (SF): area_m2 of brick in sq ft',
      'Stone SF: area_m2 of stone in sq ft',
    ],
  },
  {
    of: 'units in the values',
    wanted: 'buildings',
    lines: [
      'Account ID|Zip|Bldg Ht|Exterior Wall Area|Total Insurable Value',
      '7|98101|35 ft|1,200 sq ft|$4.2M',
      '8|98102|41 ft|1,900 sq ft|$5M',
    ],
    shape: 'buildings',
    told: [
      'Account ID: building_id',
      'Zip: postal_code',
      'Bldg Ht: height_m in ft',
      'Exterior Wall Area: wall_area_m2 in sq ft',
      'Total Insurable Value: insured_value in million',
    ],
  },
  {
    of: 'an identifier beside a plain number of the row',
    wanted: 'buildings',
    lines: [
      'No.|Site Code|Property|Postal|Vintage|Levels',
      '1|ST-01|Larch|98101|1990|3',
      '2|ST-02|Fir|98102|1991|4',
    ],
    shape: 'buildings',
    told: [
      'Site Code: building_id',
      'Property: name',
      'Postal: postal_code',
      'Vintage: year_built',
      'Levels: storeys',
    ],
  },
];

const consultant: readonly Case[] = [
  {
    of: 'a log of elevations',
    wanted: 'walls',
    lines: [
      'Bldg No.|Elevation|Cladding Type|Area (sf)|WRB|Gap (in)|Substrate|Date Inspected|Basis|Photo',
      '1|North|3-coat stucco|1200|2 layers grade D|0|OSB|2021-05-01|Opening|p1',
      '1|East|Thin stone|900|1 layer|0.25|Plywood|2021-05-01|Visual|p2',
    ],
    shape: 'walls',
    told: [
      'Bldg No.: building_id',
      'Elevation: azimuth_deg',
      'Cladding Type: material',
      'Area (sf): area_m2 in sq ft',
      'WRB: drainage',
      'Gap (in): gap_mm in in',
      'Substrate: sheathing',
      'Date Inspected: recorded_on',
      'Basis: source',
    ],
  },
  {
    of: 'walls named and numbered',
    wanted: 'walls',
    lines: [
      'Building|Wall #|Facing|Siding|Wall Area m²|Year Installed|Kick-out|Windows|Deck?',
      'A|W1|NE|Fiber cement|110|1999|Y|4|N',
      'A|W2|SW|Vinyl|90|1999|N|6|Y',
    ],
    shape: 'walls',
    told: [
      'Building: building_id',
      'Wall #: wall_id',
      'Facing: azimuth_deg',
      'Siding: material',
      'Wall Area m²: area_m2',
      'Year Installed: installed',
      'Kick-out: kickout',
      'Windows: windows_count',
      'Deck?: balcony_or_deck',
    ],
  },
  {
    of: 'walls side by side by direction',
    wanted: 'buildings',
    lines: [
      'Building ID|Lat|Long|N elev. material|N elev. area SF|S elev. material|S elev. area SF|WRB',
      'A|47.6101|-122.3301|Stucco|900|Brick|800|two papers',
      'B|47.6201|-122.3401|EIFS|700|EIFS|600|drainage mat',
    ],
    shape: 'wall columns',
    told: [
      'Building ID: building_id',
      'Lat: latitude',
      'Long: longitude',
      'N elev. material: material of north',
      'N elev. area SF: area_m2 of north in sq ft',
      'S elev. material: material of south',
      'S elev. area SF: area_m2 of south in sq ft',
      'WRB: drainage',
    ],
  },
  {
    of: 'walls side by side by number',
    wanted: 'buildings',
    lines: [
      'Bldg ID|ZIP|wall1_material|wall1_area_m2|Wall 2 Cladding|Wall 2 facing|Sheathing',
      'A|98101|Stucco|90|Brick|W|OSB',
      'B|98102|EIFS|70|EIFS|E|Plywood',
    ],
    shape: 'wall columns',
    told: [
      'Bldg ID: building_id',
      'ZIP: postal_code',
      'wall1_material: material of 1',
      'wall1_area_m2: area_m2 of 1',
      'Wall 2 Cladding: material of 2',
      'Wall 2 facing: azimuth_deg of 2',
      'Sheathing: sheathing of 1',
    ],
  },
  {
    of: 'directions whose cells are the cladding',
    wanted: 'buildings',
    lines: [
      'Building No|Postal Code|North|East|South|West',
      '1|98101|Stucco|Stucco|Brick|Brick',
      '2|98102|EIFS|Stucco|Brick|',
    ],
    shape: 'wall columns',
    told: [
      'Building No: building_id',
      'Postal Code: postal_code',
      'North: material of north',
      'East: material of east',
      'South: material of south',
      'West: material of west',
    ],
  },
  {
    of: 'a row a wall with the building repeated',
    wanted: 'buildings',
    lines: [
      'Property ID|Property Name|Lat|Lng|Year Built|Cladding|Wall Area (SF)|Drainage Layer',
      'P1|Larch|47.6101|-122.3301|1999|Stucco|900|two papers',
      'P1|Larch|47.6101|-122.3301|1999|Brick|400|air gap',
      'P2|Fir|47.6201|-122.3401|2003|EIFS|700|none',
      'P2|Fir|47.6201|-122.3401|2003|Stucco|100|one paper',
    ],
    shape: 'wall rows',
    told: [
      'Property ID: building_id',
      'Property Name: name',
      'Lat: latitude',
      'Lng: longitude',
      'Year Built: year_built',
      'Cladding: material',
      'Wall Area (SF): area_m2 in sq ft',
      'Drainage Layer: drainage',
    ],
  },
  {
    of: 'a row a wall with its direction',
    wanted: 'any',
    lines: [
      'Facility Code|ZIP|Wall Orientation|Exterior Cladding|Cavity Depth (mm)',
      'P1|98101|N|Stucco|0',
      'P1|98101|S|Brick|25',
    ],
    shape: 'wall rows',
    told: [
      'Facility Code: building_id',
      'ZIP: postal_code',
      'Wall Orientation: azimuth_deg',
      'Exterior Cladding: material',
      'Cavity Depth (mm): gap_mm',
    ],
  },
  {
    of: 'walls alone, whichever table is wanted',
    wanted: 'any',
    lines: [
      'Structure|Wall Mark|Facade Orientation|Facade Material|Drainage Efficiency|Roof Runoff',
      'B1|a|90|Stucco|0.9|yes',
      'B1|b|180|Adhered stone veneer|0.75|no',
    ],
    shape: 'walls',
    told: [
      'Structure: building_id',
      'Wall Mark: wall_id',
      'Facade Orientation: azimuth_deg',
      'Facade Material: material',
      'Drainage Efficiency: drainage_eff_pct in fraction',
      'Roof Runoff: runoff',
    ],
  },
  {
    of: 'inches as fractions',
    wanted: 'walls',
    lines: ['Building|Veneer|Air Gap', 'B1|Thin brick|3/16"', 'B1|Stucco|1/4"'],
    shape: 'walls',
    told: ['Building: building_id', 'Veneer: material', 'Air Gap: gap_mm in in'],
  },
  {
    of: 'recladding and a soffit',
    wanted: 'buildings',
    lines: [
      'Building Ref|Zip|Orig. Year Built|Recladding Year|Soffit Depth (in)|Nearest Obstruction (ft)|Exposure',
      'X1|98101|1988|2008|18|40|Sheltered',
      'X2|98102|1989||12|90|Medium',
    ],
    shape: 'buildings',
    told: [
      'Building Ref: building_id',
      'Zip: postal_code',
      'Orig. Year Built: year_built',
      'Recladding Year: reclad_year',
      'Soffit Depth (in): overhang_mm in in',
      'Nearest Obstruction (ft): obstruction_m in ft',
      'Exposure: terrain',
    ],
  },
];

describe('open building data of a city', () => {
  test.each(city)('$of', check);
});
describe('a schedule of an insurer', () => {
  test.each(insurer)('$of', check);
});
describe('a log of a consultant', () => {
  test.each(consultant)('$of', check);
});
