// Web Mercator as the buffer and the drawing layers use it: one turn of the globe is 1, x from 0 at 180 degrees
// west, y from 0 in the north. Never used for lengths or areas that people see.

export interface LonLat {
  lon: number;
  lat: number;
}

export interface Point {
  x: number;
  y: number;
}

const EQUATOR_M = 2 * Math.PI * 6378137;

export function toMercator({ lon, lat }: LonLat): Point {
  const up = Math.asinh(Math.tan((lat * Math.PI) / 180));
  return { x: (lon + 180) / 360, y: (1 - up / Math.PI) / 2 };
}

export function toLonLat({ x, y }: Point): LonLat {
  return { lon: x * 360 - 180, lat: (Math.atan(Math.sinh((1 - 2 * y) * Math.PI)) * 180) / Math.PI };
}

/** Metres of ground under one pixel of the screen; `zoom` counts in tiles of 512 pixels. */
export function metresPerPixel(zoom: number, lat: number): number {
  return (EQUATOR_M * Math.cos((lat * Math.PI) / 180)) / (512 * 2 ** zoom);
}

/** The matrix (columns first, 4 x 4) with its origin moved to `at`, in double precision. */
export function shifted(matrix: ArrayLike<number>, at: Point, into: Float32Array): Float32Array {
  for (let i = 0; i < 12; i++) into[i] = matrix[i]!;
  for (let i = 0; i < 4; i++) into[12 + i] = matrix[i]! * at.x + matrix[4 + i]! * at.y + matrix[12 + i]!;
  return into;
}
