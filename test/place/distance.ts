const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Great-circle distance by the haversine formula, km. */
export function kilometres(lat1: number, lon1: number, lat2: number, lon2: number): number {
  const half = (a: number, b: number): number => Math.sin(radians(b - a) / 2) ** 2;
  const h = half(lat1, lat2) + Math.cos(radians(lat1)) * Math.cos(radians(lat2)) * half(lon1, lon2);
  return 2 * 6371.0088 * Math.asin(Math.sqrt(h));
}
