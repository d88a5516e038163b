import type { Role } from '../../analysis/session-types.ts';

export const roleWords: Readonly<Record<Role, string>> = {
  buildings: 'buildings',
  walls: 'walls',
  rain: 'rain grid',
  stations: 'rain stations',
  weather: 'weather record',
};
