import geodesic from 'geographiclib-geodesic';

/** [longitude, latitude] in degrees. */
export type LonLat = readonly [longitude: number, latitude: number];

/** Metres between two points along the WGS84 ellipsoid (C. F. F. Karney, Algorithms for geodesics, J. Geod. 87, 2013). */
export function geodesicM([lon1, lat1]: LonLat, [lon2, lat2]: LonLat): number {
  return geodesic.Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2, geodesic.Geodesic.DISTANCE).s12!;
}

/** Metres along a line of points. */
export function lineM(line: readonly LonLat[]): number {
  let sum = 0;
  for (let i = 1; i < line.length; i++) sum += geodesicM(line[i - 1]!, line[i]!);
  return sum;
}
