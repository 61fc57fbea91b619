// Reads the bytes of GET /api/places (src/plan/places_buffer.hpp says what stands where). Nothing is copied: the
// arrays look into the buffer.
import type { LonLat, Point } from './mercator';
import { toLonLat } from './mercator';

export type Group = 'pioneer' | 'early' | 'late' | '';

export interface PlaceSpecies {
  name: string;
  local_name: string;
  group: Group;
}

export interface PlaceBlock {
  code: string;
  site: string;
  open: boolean;
  rows: number;
  places: number;
  seedlings: number;
  first_chunk: number;
  chunks: number;
  first_run: number;
  runs: number;
}

export interface Chunk {
  centre: Point;
  /** least x, least y, most x, most y; Web Mercator */
  box: readonly [number, number, number, number];
  block: number;
  first: number;
  count: number;
}

export interface Places {
  plan: number;
  seedlings: number;
  species: PlaceSpecies[];
  blocks: PlaceBlock[];
  chunks: Chunk[];
  /** x, y of every place from its chunk's centre */
  offsets: Float32Array;
  origin: Point;
  /** length of one metre in Web Mercator, near enough for choosing detail */
  metre: number;
  /** x, y, x, y of every run from the origin */
  lines: Float32Array;
  /** first place, places, row, number of the first place */
  marks: Uint32Array;
  /** index of species, 255 = left empty */
  kinds: Uint8Array;
}

export const EMPTY = 255;
const HEADER = 64;
const CHUNK = 48;

/** Number of the plan, without reading the rest; 0 when there is no header. */
export function planOf(bytes: ArrayBuffer): number {
  return bytes.byteLength < HEADER ? 0 : new DataView(bytes).getUint32(8, true);
}

/** @throws Error when the bytes are not such a buffer, are cut short or too long */
export function readPlaces(bytes: ArrayBuffer): Places {
  const view = new DataView(bytes);
  if (bytes.byteLength < HEADER || view.getUint32(0) !== 0x57504c43 || view.getUint32(4, true) !== 1) {
    throw new Error('places: not a buffer of version 1');
  }
  const u32 = (at: number) => view.getUint32(at, true);
  const [plan, chunks, runs, n, seedlings, textBytes] = [u32(8), u32(12), u32(16), u32(20), u32(24), u32(28)];
  const atChunks = Math.ceil((HEADER + textBytes) / 8) * 8;
  const atOffsets = atChunks + CHUNK * chunks;
  const atLines = atOffsets + 8 * n;
  const atMarks = atLines + 16 * runs;
  const atKinds = atMarks + 16 * runs;
  if (bytes.byteLength !== atKinds + n) throw new Error('places: the buffer has not the length its header says');
  const text = new TextDecoder('utf-8', { fatal: true }).decode(new Uint8Array(bytes, HEADER, textBytes));
  const { species, blocks } = JSON.parse(text) as { species: PlaceSpecies[]; blocks: PlaceBlock[] };
  return {
    plan,
    seedlings,
    species,
    blocks,
    chunks: Array.from({ length: chunks }, (_, i) => readChunk(view, atChunks + CHUNK * i)),
    offsets: new Float32Array(bytes, atOffsets, 2 * n),
    origin: { x: view.getFloat64(32, true), y: view.getFloat64(40, true) },
    metre: view.getFloat64(48, true),
    lines: new Float32Array(bytes, atLines, 4 * runs),
    marks: new Uint32Array(bytes, atMarks, 4 * runs),
    kinds: new Uint8Array(bytes, atKinds, n),
  };
}

function readChunk(view: DataView, at: number): Chunk {
  const f32 = (i: number) => view.getFloat32(at + 16 + 4 * i, true);
  const u32 = (i: number) => view.getUint32(at + 32 + 4 * i, true);
  const centre = { x: view.getFloat64(at, true), y: view.getFloat64(at + 8, true) };
  return {
    centre,
    box: [centre.x + f32(0), centre.y + f32(1), centre.x + f32(2), centre.y + f32(3)],
    block: u32(0),
    first: u32(1),
    count: u32(2),
  };
}

/** Chunks whose box meets the view. */
export function chunksIn(places: Places, west: number, north: number, east: number, south: number): Chunk[] {
  return places.chunks.filter(({ box }) => box[0] <= east && box[2] >= west && box[1] <= south && box[3] >= north);
}

export interface Address {
  place: number;
  block: PlaceBlock;
  row: number;
  number: number;
  species: PlaceSpecies | null;
  at: LonLat;
}

/** The seedling nearest to a position, at most `within` away (Web Mercator); places left empty do not count. */
export function nearest(places: Places, at: Point, within: number): Address | null {
  let best = -1;
  let bestSquare = within * within;
  let bestChunk: Chunk | null = null;
  for (const chunk of chunksIn(places, at.x - within, at.y - within, at.x + within, at.y + within)) {
    const x = at.x - chunk.centre.x;
    const y = at.y - chunk.centre.y;
    for (let i = chunk.first; i < chunk.first + chunk.count; i++) {
      const square = (places.offsets[2 * i]! - x) ** 2 + (places.offsets[2 * i + 1]! - y) ** 2;
      if (square <= bestSquare && places.kinds[i] !== EMPTY) {
        best = i;
        bestSquare = square;
        bestChunk = chunk;
      }
    }
  }
  return bestChunk === null ? null : addressOf(places, best, bestChunk);
}

function addressOf(places: Places, place: number, chunk: Chunk): Address {
  const block = places.blocks[chunk.block]!;
  let low = block.first_run;
  let high = block.first_run + block.runs - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (places.marks[4 * middle]! <= place) low = middle;
    else high = middle - 1;
  }
  return {
    place,
    block,
    row: places.marks[4 * low + 2]!,
    number: places.marks[4 * low + 3]! + place - places.marks[4 * low]!,
    species: places.species[places.kinds[place]!] ?? null,
    at: toLonLat({
      x: chunk.centre.x + places.offsets[2 * place]!,
      y: chunk.centre.y + places.offsets[2 * place + 1]!,
    }),
  };
}

/** Metres between neighbouring rows, from the first block that has two; null when none has. */
export function rowSpacingM(places: Places): number | null {
  for (const block of places.blocks) {
    for (let r = block.first_run; r + 1 < block.first_run + block.runs; r++) {
      if (places.marks[4 * (r + 1) + 2] !== places.marks[4 * r + 2]! + 1) continue;
      const [x0, y0, x1, y1, x, y] = places.lines.subarray(4 * r, 4 * r + 6) as unknown as number[];
      const length = Math.hypot(x1! - x0!, y1! - y0!);
      if (length === 0) continue;
      return Math.abs((x1! - x0!) * (y! - y0!) - (y1! - y0!) * (x! - x0!)) / length / places.metre;
    }
  }
  return null;
}

/** How many seedlings of each species the plan has, those on hold with them. */
export function countSpecies(places: Places): number[] {
  const counts = places.species.map(() => 0);
  for (const kind of places.kinds) if (kind !== EMPTY) counts[kind] = (counts[kind] ?? 0) + 1;
  return counts;
}
