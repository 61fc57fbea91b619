import { describe, expect, it } from 'vitest';
import { hatch } from '../../src/map/colours';
import { blockAt, boxOf, type Land } from '../../src/map/land';
import { styleOf } from '../../src/map/style';

const ring = (x: number, y: number, side: number) => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
  [x, y],
];
const block = (code: string, coordinates: number[][][]) => ({
  type: 'Feature' as const,
  geometry: { type: 'Polygon' as const, coordinates },
  properties: {
    code,
    site: 'S',
    ground_type: '',
    cover: '',
    area_ha: 1,
    open: true,
    planted: 0,
    draft: 0,
    rows: 0,
    method: '',
  },
});
const none = { type: 'FeatureCollection' as const, features: [] };
const land = {
  sites: none,
  water: none,
  stations: none,
  blocks: {
    type: 'FeatureCollection',
    features: [block('B1', [ring(0, 0, 10), ring(4, 4, 2)]), block('B2', [ring(20, 0, 5)])],
  },
} as Land;

describe('the land', () => {
  it('knows the block of a position', () => {
    expect(blockAt(land, { lon: 1, lat: 1 })?.properties.code).toBe('B1');
    expect(blockAt(land, { lon: 22, lat: 3 })?.properties.code).toBe('B2');
    expect(blockAt(land, { lon: 15, lat: 3 })).toBeNull();
  });

  it('leaves holes out', () => {
    expect(blockAt(land, { lon: 5, lat: 5 })).toBeNull();
  });

  it('bounds its shapes', () => {
    expect(boxOf(land.blocks.features)).toEqual([0, 0, 25, 10]);
    expect(boxOf([])).toBeNull();
  });
});

describe('the style', () => {
  it('asks for nothing from outside', () => {
    const text = JSON.stringify(styleOf(land, { url: '/api/hillshade', bounds: [0, 0, 1, 1] }));
    expect(text).not.toMatch(/https?:|glyphs|sprite/);
  });

  it('has the hillshade only when there is one', () => {
    expect(styleOf(land, null).layers.some(({ id }) => id === 'hillshade')).toBe(false);
    expect(styleOf(land, { url: '/api/hillshade', bounds: [0, 0, 1, 1] }).layers[1]!.id).toBe('hillshade');
  });
});

describe('the hatching', () => {
  it('joins at its edges', () => {
    const { data } = hatch(12, '#9e381f');
    const alpha = (x: number, y: number) => data[4 * ((y % 12) * 12 + (x % 12)) + 3];
    for (let x = 0; x < 12; x++) expect(alpha(x, 0)).toBe(alpha(x + 1, 11));
  });
});
