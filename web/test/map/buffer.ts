// Writes an invented buffer as src/plan/places_buffer.hpp describes it, for tests and measuring: square blocks of
// `side` places by `side`, spacing in metres, on a lattice of blocks around 113.5 E, 0.8 S. No two makers share code:
// the program's writer is tested against the same words in C++.
import { toMercator } from '../../src/map/mercator';

export interface Invented {
  blocks: number;
  side: number;
  spacingM: number;
  species: { name: string; local_name: string; group: string }[];
  /** every n-th place is left empty; 0 = none */
  emptyEvery: number;
}

const METRE = 1 / (2 * Math.PI * 6378137);

export function inventedBuffer({ blocks, side, spacingM, species, emptyEvery }: Invented): ArrayBuffer {
  const perBlock = side * side;
  const pieces = Math.ceil(perBlock / 2500);
  const [chunks, runs, n] = [blocks * pieces, blocks * side, blocks * perBlock];
  const kinds = Uint8Array.from({ length: n }, (_, i) =>
    emptyEvery > 0 && i % emptyEvery === 0 ? 255 : i % species.length,
  );
  const seedlings = kinds.reduce((sum, kind) => sum + (kind === 255 ? 0 : 1), 0);
  const list = Array.from({ length: blocks }, (_, b) => ({
    code: `B${b + 1}`,
    site: 'Invented',
    open: b % 7 !== 6,
    rows: side,
    places: perBlock,
    seedlings: kinds.subarray(b * perBlock, (b + 1) * perBlock).filter((kind) => kind !== 255).length,
    first_chunk: b * pieces,
    chunks: pieces,
    first_run: b * side,
    runs: side,
  }));
  const text = new TextEncoder().encode(JSON.stringify({ species, blocks: list }));
  const atChunks = Math.ceil((64 + text.length) / 8) * 8;
  const atOffsets = atChunks + 48 * chunks;
  const atLines = atOffsets + 8 * n;
  const atMarks = atLines + 16 * runs;
  const bytes = new ArrayBuffer(atMarks + 16 * runs + n);
  const view = new DataView(bytes);
  const origin = toMercator({ lon: 113.5, lat: -0.8 });
  [...'WPLC'].forEach((letter, i) => view.setUint8(i, letter.charCodeAt(0)));
  [1, 9, chunks, runs, n, seedlings, text.length].forEach((value, i) => view.setUint32(4 + 4 * i, value, true));
  view.setFloat64(32, origin.x, true);
  view.setFloat64(40, origin.y, true);
  view.setFloat64(48, METRE, true);
  new Uint8Array(bytes, 64, text.length).set(text);
  const wide = Math.ceil(Math.sqrt(blocks));
  const step = spacingM * METRE;
  for (let b = 0; b < blocks; b++) {
    const west = (b % wide) * side * step * 1.04;
    const north = Math.floor(b / wide) * side * step * 1.04;
    for (let piece = 0; piece < pieces; piece++) {
      const first = Math.floor((perBlock * piece) / pieces);
      const end = Math.floor((perBlock * (piece + 1)) / pieces);
      const top = north + Math.floor(first / side) * step;
      const bottom = north + Math.floor((end - 1) / side) * step;
      const half = ((side - 1) * step) / 2;
      const centre = { x: west + half, y: (top + bottom) / 2 };
      const at = atChunks + 48 * (b * pieces + piece);
      view.setFloat64(at, origin.x + centre.x, true);
      view.setFloat64(at + 8, origin.y + centre.y, true);
      [-half, top - centre.y, half, bottom - centre.y].forEach((edge, i) =>
        view.setFloat32(at + 16 + 4 * i, edge, true),
      );
      [b, b * perBlock + first, end - first, 0].forEach((value, i) => view.setUint32(at + 32 + 4 * i, value, true));
      for (let i = first; i < end; i++) {
        const place = atOffsets + 8 * (b * perBlock + i);
        view.setFloat32(place, west + (i % side) * step - centre.x, true);
        view.setFloat32(place + 4, north + Math.floor(i / side) * step - centre.y, true);
      }
    }
    for (let r = 0; r < side; r++) {
      const run = b * side + r;
      const y = north + r * step;
      [west, y, west + (side - 1) * step, y].forEach((value, i) =>
        view.setFloat32(atLines + 16 * run + 4 * i, value, true),
      );
      [b * perBlock + r * side, side, r + 1, 1].forEach((value, i) =>
        view.setUint32(atMarks + 16 * run + 4 * i, value, true),
      );
    }
  }
  new Uint8Array(bytes, atMarks + 16 * runs, n).set(kinds);
  return bytes;
}

export const FOUR_SPECIES = [
  { name: 'Inventa prima', local_name: 'satu', group: 'pioneer' },
  { name: 'Inventa secunda', local_name: '', group: 'early' },
  { name: 'Inventa tertia', local_name: 'tiga', group: 'late' },
  { name: 'Inventa quarta', local_name: '', group: '' },
];
