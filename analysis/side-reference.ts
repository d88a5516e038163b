import stationSearchCsv from '../data/stations/search.csv?raw';
import cityNormalsCsv from '../data/stations/us-city-normals.csv?raw';
import weatherConstantsCsv from '../data/weather/constants.csv?raw';
import weatherClassCsv from '../data/weather/driving_rain_class.csv?raw';
import weatherObstructionCsv from '../data/weather/obstruction.csv?raw';
import weatherTerrainCsv from '../data/weather/terrain.csv?raw';
import { type ReferenceTable, table } from './reference.ts';

/** Tables of data/ by which stations and weather records are read: no statement asks for them, the Method view shows them. */
export const sideTables: readonly ReferenceTable[] = [
  table(
    'station_search',
    'stations/search.csv',
    'Adjusting the grid by stations',
    stationSearchCsv,
  ),
  table('city_normals', 'stations/us-city-normals.csv', 'Built-in station normals', cityNormalsCsv),
  table('weather_constants', 'weather/constants.csv', 'Weather records', weatherConstantsCsv),
  table(
    'weather_class',
    'weather/driving_rain_class.csv',
    'Classes of the driving-rain index',
    weatherClassCsv,
  ),
  table(
    'weather_terrain',
    'weather/terrain.csv',
    'Terrain of the ISO wall index',
    weatherTerrainCsv,
  ),
  table(
    'weather_obstruction',
    'weather/obstruction.csv',
    'Obstruction of the ISO wall index',
    weatherObstructionCsv,
  ),
];
