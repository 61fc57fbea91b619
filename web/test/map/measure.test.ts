import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { distanceM, lengthM, roundLengthM } from '../../src/map/measure';
import { Tape } from '../../src/map/tape';

describe('lengths on the ellipsoid', () => {
  // Lengths of a degree on WGS 84, as in any table of the ellipsoid.
  it('gives a degree along the equator', () => {
    expect(distanceM({ lon: 110, lat: 0 }, { lon: 111, lat: 0 })).toBeCloseTo(111319.491, 2);
  });

  it('gives a degree along a meridian at the equator', () => {
    expect(distanceM({ lon: 110, lat: -0.5 }, { lon: 110, lat: 0.5 })).toBeCloseTo(110574.276, 1);
  });

  // The same figures hold the program's own lengths (GeographicLib) to account.
  const rows = readFileSync(new URL('../../../tests/reference/geodesic/data.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
    .slice(1)
    .map((line) => /^([^,]*),"([^"]*)",[^,]*,([^,]*),/.exec(line)!);
  it.each(rows.map(([, what, ring, perimeter]) => [what, ring, perimeter]))(
    'agrees with %s',
    (_what, ring, perimeter) => {
      const points = ring!.split(' ').map((pair) => {
        const [lon, lat] = pair.split(',').map(Number);
        return { lon: lon!, lat: lat! };
      });
      expect(lengthM([...points, points[0]!])).toBeCloseTo(Number(perimeter), 3);
    },
  );

  it('is the same there and back', () => {
    const [a, b] = [
      { lon: 113.28, lat: -0.83 },
      { lon: 113.29, lat: -0.81 },
    ];
    expect(distanceM(a, b)).toBeCloseTo(distanceM(b, a), 6);
  });

  it('is nothing for one point', () => {
    expect(distanceM({ lon: 1, lat: 2 }, { lon: 1, lat: 2 })).toBe(0);
    expect(lengthM([{ lon: 1, lat: 2 }])).toBe(0);
  });
});

describe('the tape', () => {
  it('adds up its pieces and takes the last back', () => {
    const tape = new Tape();
    for (const lon of [110, 110.001, 110.003]) tape.add({ lon, lat: 0 });
    expect(tape.metres).toBeCloseTo(333.96, 1);
    expect(tape.lastMetres).toBeCloseTo(222.64, 1);
    tape.takeBack();
    expect(tape.metres).toBeCloseTo(111.32, 1);
  });

  it('is drawn as points and, from two on, a line', () => {
    const tape = new Tape();
    tape.add({ lon: 110, lat: 0 });
    expect(tape.shapes().features).toHaveLength(1);
    tape.add({ lon: 111, lat: 0 });
    expect(tape.shapes().features).toHaveLength(3);
  });
});

describe('the scale bar', () => {
  it('takes the longest round length that fits', () => {
    expect([130, 99, 51, 49, 19, 1.2].map(roundLengthM)).toEqual([100, 50, 50, 20, 10, 1]);
  });
});
