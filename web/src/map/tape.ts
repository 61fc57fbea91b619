// Measuring: points clicked one after the other, joined by a line, in metres on the ellipsoid.
import type { FeatureCollection, Position } from 'geojson';
import { lengthM } from './measure';
import type { LonLat } from './mercator';

export class Tape {
  #points: LonLat[] = [];

  get points(): readonly LonLat[] {
    return this.#points;
  }

  add(at: LonLat): void {
    this.#points.push(at);
  }

  takeBack(): void {
    this.#points.pop();
  }

  clear(): void {
    this.#points = [];
  }

  get metres(): number {
    return lengthM(this.#points);
  }

  /** Metres of the last piece. */
  get lastMetres(): number {
    return lengthM(this.#points.slice(-2));
  }

  shapes(): FeatureCollection {
    const positions: Position[] = this.#points.map(({ lon, lat }) => [lon, lat]);
    const points = positions.map((coordinates) => ({
      type: 'Feature' as const,
      properties: {},
      geometry: { type: 'Point' as const, coordinates },
    }));
    const line = { type: 'LineString' as const, coordinates: positions };
    return {
      type: 'FeatureCollection',
      features: positions.length < 2 ? points : [...points, { type: 'Feature', properties: {}, geometry: line }],
    };
  }
}
