import * as Plot from '@observablehq/plot';
import type { Chart, Language, Message } from '../api/types';
import { dayTick, LOCALE } from '../words/days';
import { inOrder, INKS, labelSpot, spots, type Spot } from './marks';

/** One class for every plot: Plot writes a style element per class, and the page's policy allows exactly this one. */
export const PLOT_CLASS = 'wildling-plot';

/** Some value is smaller than nothing, so the axis cannot start there. */
function lowest(all: readonly Spot[]): number {
  return Math.min(0, ...all.map((spot) => Math.min(spot.y, spot.low ?? spot.y)).filter((y) => !Number.isNaN(y)));
}

export function drawChart(chart: Chart, say: (message: Message) => string, language: Language, width: number): Element {
  const curves = inOrder(chart.curves).map((curve) => ({ curve, list: spots(chart, curve), ink: INKS[curve.ink], name: say(curve.label) }));
  const every = curves.flatMap((entry) => entry.list);
  const marks: Plot.Markish[] = [];
  const number = new Intl.NumberFormat(LOCALE[language], { maximumFractionDigits: 2 });
  for (const { curve, list, ink } of curves) {
    if (curve.shape === 'band') marks.push(Plot.areaY(list, { x: 'x', y1: 'low', y2: 'y', fill: ink, fillOpacity: 0.25 }));
    if (curve.shape === 'bars') {
      marks.push(
        chart.x_is_day || list.length > 40
          ? Plot.ruleX(list, { x: 'x', y1: 0, y2: 'y', stroke: ink, strokeWidth: Math.max(1, Math.min(8, (width - 120) / list.length - 1)) })
          : Plot.rectY(list, { x1: (d: Spot) => Number(d.x) - 0.4, x2: (d: Spot) => Number(d.x) + 0.4, y1: 0, y2: 'y', fill: ink }),
      );
    }
    if (curve.shape === 'line') marks.push(Plot.lineY(list, { x: 'x', y: 'y', stroke: ink, strokeWidth: 1.8 }));
    if (curve.shape === 'points') marks.push(Plot.dot(list, { x: 'x', y: 'y', stroke: ink, fill: 'white', r: 3, strokeWidth: 1.6 }));
  }
  const labels = curves.flatMap(({ list, ink, name }) => {
    const spot = labelSpot(list);
    return spot ? [{ ...spot, ink, name }] : [];
  });
  const alone = labels.length < 2; // the axis and the caption name a single curve
  const years = every.length > 1 && chart.x_is_day && Math.abs(Number(every[every.length - 1]!.x) - Number(every[0]!.x)) > 400 * 86400000;
  if (!alone) {
    marks.push(
      Plot.text(labels, {
        x: 'x', y: 'y', text: 'name', fill: 'ink', textAnchor: 'end', dy: -8, dx: -2, stroke: '#fbf8f0', strokeWidth: 4, lineWidth: 16, fontWeight: 'bold',
      }),
    );
  }
  const base = lowest(every);
  return Plot.plot({
    className: PLOT_CLASS,
    width,
    height: Math.round(Math.min(280, Math.max(190, width * 0.4))),
    marginLeft: 52,
    marginRight: 16,
    marginTop: 26,
    marginBottom: 38,
    color: { type: 'identity' },
    x: {
      label: say(chart.x_label),
      labelArrow: 'none',
      ...(chart.x_is_day
        ? { type: 'utc' as const, tickFormat: (d: Date) => dayTick(d, language, years), ticks: Math.max(2, Math.floor(width / 110)) }
        : { ticks: Math.max(2, Math.floor(width / 70)), tickFormat: (d: number) => (Math.abs(d) >= 1000 && d < 3000 ? String(d) : number.format(d)) }),
    },
    y: {
      label: say(chart.y_label),
      labelArrow: 'none',
      grid: true,
      ticks: 5,
      nice: true,
      tickFormat: (d: number) => number.format(d),
      ...(chart.from_zero ? {} : { zero: false }),
    },
    marks: [...(chart.from_zero || base < 0 ? [Plot.ruleY([0], { stroke: INKS.ink, strokeOpacity: 0.6 })] : []), ...marks],
  });
}
