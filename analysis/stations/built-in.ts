import type { StationFile } from './read.ts';

/** The stations that ship, as the build has read and compared them with the default grid (data/stations/build.ts). */
export function decodeStations(text: string): StationFile {
  const { stations, ...file } = JSON.parse(text);
  const numbers = (name: string) => Float64Array.from(stations[name] as number[]);
  return {
    ...file,
    stations: {
      n: stations.n,
      longitude: numbers('longitude'),
      latitude: numbers('latitude'),
      mm: numbers('mm'),
      gridMm: numbers('gridMm'),
      row: Int32Array.from(stations.row as number[]),
      name: stations.name,
    },
  };
}
