import type { Role } from '../../analysis/session-types.ts';

export const roleWords: Readonly<Record<Role, string>> = {
  buildings: 'buildings',
  walls: 'walls',
  rain: 'rain grid',
  wind: 'wind grid',
  temperature: 'temperature grid',
  stations: 'rain stations',
  weather: 'weather record',
  findings: 'findings',
};

export const roleNames = Object.keys(roleWords) as readonly Role[];
