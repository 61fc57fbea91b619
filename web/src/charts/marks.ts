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
