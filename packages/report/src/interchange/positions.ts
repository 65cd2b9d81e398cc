import type { LonLat } from '@postvolt/core';
import type { Geometry, Position } from './geojson-types.js';

/** Seven decimals: a centimetre. Longitudes from -180 to 180. */
export function position([longitude, latitude]: LonLat): Position {
  const east = longitude > 180 ? longitude - 360 : longitude < -180 ? longitude + 360 : longitude;
  return [Number(east.toFixed(7)), Number(latitude.toFixed(7))];
}

/** A line as a geometry; cut in two where it crosses the 180th meridian (RFC 7946, 3.1.9). */
export function lineGeometry(line: readonly LonLat[]): Geometry {
  const parts: Position[][] = [[position(line[0]!)]];
  for (const point of line.slice(1)) {
    const next = position(point);
    const last = parts.at(-1)!.at(-1)!;
    if (Math.abs(next[0] - last[0]) > 180) {
      const side = last[0] > 0 ? 180 : -180;
      const toSide = Math.abs(side - last[0]);
      const beyond = Math.abs(-side - next[0]);
      const t = toSide + beyond > 0 ? toSide / (toSide + beyond) : 0;
      const latitude = Number((last[1] + t * (next[1] - last[1])).toFixed(7));
      parts.at(-1)!.push([side, latitude]);
      parts.push([[-side, latitude]]);
    }
    parts.at(-1)!.push(next);
  }
  return parts.length === 1
    ? { type: 'LineString', coordinates: parts[0]! }
    : { type: 'MultiLineString', coordinates: parts };
}
