import { describe, expect, it } from 'vitest';
import { toLonLat, toMercator } from '../../src/map/mercator';
import { chunksIn, countSpecies, nearest, readPlaces, rowSpacingM } from '../../src/map/places';
import { codes } from '../../src/map/seedlings_layer';
import { rowLevel, sortRows } from '../../src/map/rows_layer';
import { FOUR_SPECIES, inventedBuffer } from './buffer';

const invented = () => inventedBuffer({ blocks: 4, side: 60, spacingM: 2.7, species: FOUR_SPECIES, emptyEvery: 10 });

/** Where place `i` of a block stands, from its chunk. */
function positionOf(places: ReturnType<typeof readPlaces>, place: number) {
  const chunk = places.chunks.find(({ first, count }) => place >= first && place < first + count)!;
  return { x: chunk.centre.x + places.offsets[2 * place]!, y: chunk.centre.y + places.offsets[2 * place + 1]! };
}

describe('the buffer of places', () => {
  it('gives counts, names and places as written', () => {
    const places = readPlaces(invented());
    expect(places.kinds.length).toBe(4 * 3600);
    expect(places.seedlings).toBe(4 * 3240);
    expect(places.blocks[3]!.code).toBe('B4');
    expect(places.species[0]!.local_name).toBe('satu');
    expect(places.chunks).toHaveLength(8);
  });

  it('is refused when cut short, too long or of another kind', () => {
    const bytes = invented();
    expect(() => readPlaces(bytes.slice(0, bytes.byteLength - 1))).toThrow(/length/);
    expect(() => readPlaces(bytes.slice(0, 20))).toThrow(/version 1/);
    const other = bytes.slice(0);
    new DataView(other).setUint8(0, 65);
    expect(() => readPlaces(other)).toThrow(/version 1/);
    const longer = new ArrayBuffer(bytes.byteLength + 8);
    new Uint8Array(longer).set(new Uint8Array(bytes));
    expect(() => readPlaces(longer)).toThrow(/length/);
  });

  it('finds block, row and number of the nearest seedling', () => {
    const places = readPlaces(invented());
    const place = 3600 + 12 * 60 + 7; // block 2, row 13, number 8
    const found = nearest(places, positionOf(places, place), 1e-7)!;
    expect([found.block.code, found.row, found.number]).toEqual(['B2', 13, 8]);
    expect(found.species).toEqual(FOUR_SPECIES[place % 4]);
  });

  it('agrees with a search over all places', () => {
    const places = readPlaces(invented());
    const within = 40 * places.metre;
    for (let turn = 0; turn < 50; turn++) {
      const at = positionOf(places, (turn * 2711) % places.kinds.length);
      at.x += Math.sin(turn) * 2e-7;
      at.y += Math.cos(turn) * 2e-7;
      let best = -1;
      let least = Infinity;
      for (let i = 0; i < places.kinds.length; i++) {
        const here = positionOf(places, i);
        const far = Math.hypot(here.x - at.x, here.y - at.y);
        if (places.kinds[i] !== 255 && far < least) [best, least] = [i, far];
      }
      expect(nearest(places, at, within)?.place).toBe(least <= within ? best : undefined);
    }
  });

  it('passes over places that are left empty', () => {
    const places = readPlaces(invented());
    const found = nearest(places, positionOf(places, 0), 1e-6)!;
    expect(found.place).not.toBe(0);
  });

  it('finds nothing where there is nothing', () => {
    expect(nearest(readPlaces(invented()), toMercator({ lon: 10, lat: 50 }), 1e-6)).toBeNull();
  });

  it('tells the distance of the rows', () => {
    expect(rowSpacingM(readPlaces(invented()))).toBeCloseTo(2.7, 1);
  });

  it('gives only the chunks that meet the view', () => {
    const places = readPlaces(invented());
    const [west, north, east, south] = places.chunks[0]!.box;
    expect(chunksIn(places, 0, 0, 1, 1)).toHaveLength(8);
    expect(chunksIn(places, west, north, west, north)).toEqual([places.chunks[0]]);
    expect(chunksIn(places, east + 1e-3, north, east + 2e-3, south)).toEqual([]);
  });

  it('counts the seedlings of each species', () => {
    expect(countSpecies(readPlaces(invented())).reduce((a, b) => a + b)).toBe(4 * 3240);
  });
});

describe('what the drawing layers make of it', () => {
  it('hides empty places and marks groups', () => {
    const places = readPlaces(invented());
    const made = codes(places, null);
    expect(made[0]).toBe(255);
    expect([...made.subarray(1, 5)]).toEqual([1, 2, 3, 0]);
  });

  it('lets a chosen species stand out and the others step back', () => {
    const made = codes(readPlaces(invented()), 2);
    expect(made[2]).toBe(2 + 8);
    expect(made[1]).toBe(1 + 4);
  });

  it('draws every 2^level-th row as a prefix', () => {
    const places = readPlaces(invented());
    const { upTo } = sortRows(places);
    expect(upTo[0]).toBe(2 * 240);
    expect(upTo[1]).toBe(2 * 120);
    expect(upTo[2]).toBe(2 * 60);
  });

  it('thins rows until they stand apart', () => {
    expect(rowLevel(10)).toBe(0);
    expect(rowLevel(3)).toBe(1);
    expect(rowLevel(0.01)).toBe(7);
  });
});

describe('Web Mercator', () => {
  it('comes back to the same place', () => {
    const back = toLonLat(toMercator({ lon: 113.28, lat: -0.83 }));
    expect(back.lon).toBeCloseTo(113.28, 10);
    expect(back.lat).toBeCloseTo(-0.83, 10);
  });
});
