/** [longitude, latitude] in degrees, WGS 84. */
export type Position = [longitude: number, latitude: number];

/** A point or a line, as RFC 7946 writes it. */
export type Geometry =
  | { readonly type: 'Point'; readonly coordinates: Position }
  | { readonly type: 'LineString'; readonly coordinates: Position[] }
  | { readonly type: 'MultiLineString'; readonly coordinates: Position[][] };

/** A geometry with its properties, as RFC 7946 writes it. */
export interface Feature<Properties> {
  readonly type: 'Feature';
  readonly id: string;
  /** Null where the plan does not say where it lies. */
  readonly geometry: Geometry | null;
  readonly properties: Properties;
}

/** A run with its weakest place. */
export interface RunProperties {
  readonly kind: 'run';
  readonly run: string;
  readonly from: string;
  readonly to: string;
  readonly lengthM: number;
  readonly build: string;
  readonly condition: string;
  /** Of the run's hot strands; null where it has none that is fed. */
  readonly lowestVolts: number | null;
}

/** A post with the lowest of its hot strands. Null where no strand is hot. */
export interface PostProperties {
  readonly kind: 'post';
  readonly post: string;
  readonly junction: string | null;
  readonly run: string | null;
  readonly condition: string;
  readonly strand: string | null;
  readonly status: string | null;
  readonly distanceM: number | null;
  readonly voltsToEarth: number | null;
  readonly voltsToGrounded: number | null;
  readonly animalVolts: number | null;
  /** Whether the post reaches the target. */
  readonly holds: boolean | null;
  readonly weakest: boolean;
}

/** RFC 7946, with three members of our own beside the features. */
export interface FenceGeoJson {
  readonly type: 'FeatureCollection';
  readonly title: string;
  readonly condition: string;
  readonly targetVolts: number;
  readonly features: readonly Feature<RunProperties | PostProperties>[];
}
