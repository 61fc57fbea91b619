// What GET /api/land says, and finding a block in it.
import type {
  Feature,
  FeatureCollection,
  LineString,
  MultiLineString,
  MultiPolygon,
  Point,
  Polygon,
  Position,
} from 'geojson';
import type { LonLat } from './mercator';

export interface BlockProperties {
  code: string;
  site: string;
  ground_type: string;
  cover: string;
  area_ha: number;
  open: boolean;
  /** from the newest plan; null when there is none, or it does not know the block */
  planted: number | null;
  draft: number | null;
  rows: number | null;
  method: string;
}

export interface SiteProperties {
  code: string;
}

export interface StationProperties {
  name: string;
}

export type Block = Feature<Polygon | MultiPolygon, BlockProperties>;

export interface Land {
  sites: FeatureCollection<Polygon | MultiPolygon, SiteProperties>;
  blocks: FeatureCollection<Polygon | MultiPolygon, BlockProperties>;
  water: FeatureCollection<LineString | MultiLineString>;
  stations: FeatureCollection<Point, StationProperties>;
}

/** west, south, east, north */
export type Box = [number, number, number, number];

function eachPosition(coordinates: unknown, see: (at: Position) => void): void {
  if (!Array.isArray(coordinates)) return;
  if (typeof coordinates[0] === 'number') see(coordinates as Position);
  else for (const part of coordinates) eachPosition(part, see);
}

export function boxOf(features: readonly Feature[]): Box | null {
  const box: Box = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { geometry } of features) {
    if (!('coordinates' in geometry)) continue;
    eachPosition(geometry.coordinates, (at) => {
      box[0] = Math.min(box[0], at[0]!);
      box[1] = Math.min(box[1], at[1]!);
      box[2] = Math.max(box[2], at[0]!);
      box[3] = Math.max(box[3], at[1]!);
    });
  }
  return box[0] <= box[2] ? box : null;
}

/** One point for each feature's label: the middle of its first outline's box of corners. */
export function labelPoints(features: readonly Feature[]): FeatureCollection<Point> {
  const points = features.flatMap(({ geometry, properties }) => {
    const ring =
      geometry.type === 'Polygon'
        ? geometry.coordinates[0]
        : geometry.type === 'MultiPolygon'
          ? geometry.coordinates[0]?.[0]
          : undefined;
    if (ring === undefined) return [];
    const box = boxOf([{ type: 'Feature', properties: null, geometry: { type: 'LineString', coordinates: ring } }]);
    if (box === null) return [];
    const coordinates = [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2];
    return [{ type: 'Feature' as const, properties, geometry: { type: 'Point' as const, coordinates } }];
  });
  return { type: 'FeatureCollection', features: points };
}

function ringHolds(ring: readonly Position[], { lon, lat }: LonLat): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [x1, y1] = ring[i] as [number, number];
    const [x2, y2] = ring[j] as [number, number];
    if (y1 > lat !== y2 > lat && lon < x1 + ((lat - y1) / (y2 - y1)) * (x2 - x1)) inside = !inside;
  }
  return inside;
}

/** The block a position lies in; holes do not belong to it. */
export function blockAt(land: Land, at: LonLat): Block | null {
  return (
    land.blocks.features.find(({ geometry }) => {
      const parts = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates;
      return parts.some((rings) => rings.reduce((inside, ring) => inside !== ringHolds(ring, at), false));
    }) ?? null
  );
}
