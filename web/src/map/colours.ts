// The inks of page, map and paper: each has one meaning. Shape, size or pattern always says the same.
import type { Group } from './places';

export const INK = '#221f1a';
export const LEAF = '#216b33';
export const STRAW = '#b8851a';
export const CLAY = '#9e381f';
export const WATER = '#1a599e';
export const GROUND = '#f6f2e7';
export const SITE = '#5b564b';

/** Code of a group in the drawing layer. */
export const GROUP_CODE: Record<Group, number> = { pioneer: 0, early: 1, late: 2, '': 3 };
export const GROUP_INK: Record<Group, string> = { pioneer: STRAW, early: LEAF, late: INK, '': CLAY };

export function rgb(hex: string): [number, number, number] {
  const n = Number.parseInt(hex.slice(1), 16);
  return [(n >> 16) / 255, ((n >> 8) & 255) / 255, (n & 255) / 255];
}

/** A tile of slanted lines for ground on hold, `size` pixels wide, transparent between the lines. */
export function hatch(size: number, hex: string): { width: number; height: number; data: Uint8Array } {
  const [r, g, b] = rgb(hex).map((part) => Math.round(part * 255)) as [number, number, number];
  const data = new Uint8Array(4 * size * size);
  for (let y = 0; y < size; y++) {
    for (let x = 0; x < size; x++) {
      const off = (x + y) % size;
      const alpha = off === 0 ? 255 : off === 1 || off === size - 1 ? 110 : 0;
      data.set([r, g, b, alpha], 4 * (y * size + x));
    }
  }
  return { width: size, height: size, data };
}
