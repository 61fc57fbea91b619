import * as Plot from '@observablehq/plot';
import type { Chart, Language, Message } from '../api/types';
import { dayTick, LOCALE } from '../words/days';
import { inOrder, INKS, labelSpot, LABELS_FROM, spots, spread, type Spot } from './marks';

/** One class for every plot: Plot writes a style element per class, and the page's policy allows exactly this one. */
export const PLOT_CLASS = 'wildling-plot';

const MARGIN_TOP = 26;
const MARGIN_BOTTOM = 38;
const LABEL_ROOM = 124;

/** Some value is smaller than nothing, so the axis cannot start there. */
function lowest(all: readonly Spot[]): number {
  return Math.min(0, ...all.map((spot) => Math.min(spot.y, spot.low ?? spot.y)).filter((y) => !Number.isNaN(y)));
}

export function drawChart(chart: Chart, say: (message: Message) => string, language: Language, width: number): Element {
  const height = Math.round(Math.min(280, Math.max(190, width * 0.4)));
  const labelled = chart.curves.length > 1 && width >= LABELS_FROM;
  const curves = inOrder(chart.curves).map((curve) => ({ curve, list: spots(chart, curve), ink: INKS[curve.ink], name: say(curve.label) }));
  const every = curves.flatMap((entry) => entry.list);
  const barWidth = Math.max(1, Math.min(8, (0.7 * (width - 70 - (labelled ? LABEL_ROOM : 16))) / new Set(every.map((spot) => Number(spot.x))).size));
  const marks: Plot.Markish[] = [];
  const number = new Intl.NumberFormat(LOCALE[language], { maximumFractionDigits: 2 });
  for (const { curve, list, ink } of curves) {
    if (curve.shape === 'band') marks.push(Plot.areaY(list, { x: 'x', y1: 'low', y2: 'y', fill: ink, fillOpacity: 0.25 }));
    if (curve.shape === 'bars') {
      marks.push(
        chart.x_is_day || every.length > 40
          ? Plot.ruleX(list, { x: 'x', y1: 0, y2: 'y', stroke: ink, strokeWidth: barWidth })
          : Plot.rectY(list, { x1: (d: Spot) => Number(d.x) - 0.4, x2: (d: Spot) => Number(d.x) + 0.4, y1: 0, y2: 'y', fill: ink }),
      );
    }
    if (curve.shape === 'line') marks.push(Plot.lineY(list, { x: 'x', y: 'y', stroke: ink, strokeWidth: 1.8 }));
    if (curve.shape === 'points') marks.push(Plot.dot(list, { x: 'x', y: 'y', stroke: ink, fill: 'white', r: 3, strokeWidth: 1.6 }));
  }
  const years = every.length > 1 && chart.x_is_day && Math.abs(Number(every[every.length - 1]!.x) - Number(every[0]!.x)) > 400 * 86400000;
  const base = lowest(every);
  const options: Plot.PlotOptions = {
    className: PLOT_CLASS,
    width,
    height,
    marginLeft: 52,
    marginRight: labelled ? LABEL_ROOM : 16,
    marginTop: MARGIN_TOP,
    marginBottom: MARGIN_BOTTOM,
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
  };
  if (!labelled) return Plot.plot(options);
  // Drawn once to learn where the curves end, then with a label at the end of each, none over another.
  const y = (Plot.plot(options) as unknown as Plot.Plot).scale('y');
  const ends = curves.flatMap(({ list, ink, name }) => {
    const spot = labelSpot(list);
    return spot && y ? [{ ink, name, y: Number(y.apply(spot.y)) }] : [];
  });
  const lines = ends.map((end) => Math.ceil(end.name.length / 17));
  const heights = spread(ends.map((end) => end.y), lines.map((count) => 14 * count + 3), MARGIN_TOP, height - MARGIN_BOTTOM);
  const labels = ends.map((end, i) =>
    Plot.text([end.name], { frameAnchor: 'top-right', textAnchor: 'start', lineAnchor: 'middle', dx: 8, dy: heights[i]! - MARGIN_TOP, fill: end.ink, fontWeight: 'bold', lineWidth: 8.5 }),
  );
  return Plot.plot({ ...options, marks: [...(options.marks ?? []), ...labels] });
}
