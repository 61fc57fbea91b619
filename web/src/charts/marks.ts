/** Charts of a reply as marks for Plot. Pure: what is drawn depends on the chart, the language and the width. */
import type { Chart, Curve, Ink } from '../api/types';
import { dayOfNumber } from '../words/days';

/** The six inks of the house, as on paper and map. */
export const INKS: Record<Ink, string> = {
  ink: '#1d1d1b',
  leaf: '#216b33',
  straw: '#8f6508',
  clay: '#9e381f',
  water: '#1a599e',
  smoke: '#8a8a86',
};

export interface Spot {
  x: number | Date;
  y: number;
  low?: number;
}

/** The points of a curve; a gap (NaN, which is null in JSON) stays in as NaN so that lines break there. */
export function spots(chart: Chart, curve: Curve): Spot[] {
  const list: Spot[] = [];
  curve.x.forEach((x, i) => {
    if (x === null) return;
    const low = curve.low[i];
    list.push({
      x: chart.x_is_day ? dayOfNumber(x) : x,
      y: curve.y[i] ?? NaN,
      ...(low === undefined ? {} : { low: low ?? NaN }),
    });
  });
  return list;
}

/** Where a curve's label stands: at its last point that is no gap. */
export function labelSpot(list: readonly Spot[]): Spot | undefined {
  for (let i = list.length - 1; i >= 0; i -= 1) if (!Number.isNaN(list[i]!.y)) return list[i];
  return undefined;
}

/** Bands first, then bars, lines and points: the interval is never drawn over what it bounds. */
export function inOrder(curves: readonly Curve[]): Curve[] {
  const rank = { band: 0, bars: 1, line: 2, points: 3 } as const;
  return [...curves].sort((a, b) => rank[a.shape] - rank[b.shape]);
}

/** Narrower than this there is no room beside the curves: their names stand above, in their inks. */
export const LABELS_FROM = 460;

/**
 * Middles for labels at the right edge, near where they were wanted, none over another.
 * @param tall height of each label; top and bottom: the room there is
 */
export function spread(wanted: readonly number[], tall: readonly number[], top: number, bottom: number): number[] {
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const placed = [...wanted];
  let free = top;
  for (const i of order) {
    placed[i] = Math.max(placed[i]!, free + tall[i]! / 2);
    free = placed[i]! + tall[i]! / 2;
  }
  let least = bottom;
  for (const i of [...order].reverse()) {
    placed[i] = Math.min(placed[i]!, least - tall[i]! / 2);
    least = placed[i]! - tall[i]! / 2;
  }
  return placed;
}
