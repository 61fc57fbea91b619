/** The letter's tables and its picture, from the stored plan. Pure. */
import type { Argument, Cell, Chart, Column, LetterPart, Message, Plan, Table } from '../api/types';

const message = (key: string, args: Record<string, Argument> = {}): Message => ({ key, arguments: args });
const column = (name: string, decimals = 0): Column => ({ name, heading: message(`page.column.${name}`), decimals });
const cell = (value: Cell['value'], opens = ''): Cell => (opens === '' ? { value } : { value, opens });
const dayCell = (iso: string | null): Cell => cell(iso === null ? null : { day: iso });

/** What may not be planted yet stands before what, where and when. */
export function gatesFirst(letter: readonly LetterPart[]): LetterPart[] {
  const hold = letter.filter((part) => part.heading.key === 'plan.heading.hold');
  const rest = letter.filter((part) => part.heading.key !== 'plan.heading.hold');
  return [...rest.slice(0, 1), ...hold, ...rest.slice(1)];
}

function blocks(plan: Plan): Table {
  return {
    name: 'blocks',
    caption: message('page.table.blocks', { blocks: plan.blocks.length, open: plan.blocks.filter((part) => part.open).length }),
    columns: [column('block'), column('site'), column('area_ha', 2), column('state'), column('method'), column('planted'), column('rows')],
    rows: plan.blocks.map((part) => {
      const code = part.block.code;
      return [
        cell(code),
        cell(part.block.site),
        cell(part.area_ha, `block/${code}/area`),
        cell(message(part.open ? 'page.state.open' : 'page.state.hold')),
        cell(part.method === '' ? null : message(`ground.method.${part.method}`)),
        cell(part.planted, `block/${code}/planted`),
        cell(part.rows),
      ];
    }),
  };
}

function species(plan: Plan): Table {
  const rows = plan.species.filter((part) => part.planted > 0 || part.draft > 0);
  return {
    name: 'species',
    caption: message('page.table.species', { species: rows.length }),
    columns: [column('species'), column('local_name'), column('group'), column('planted'), column('draft'), column('ready')],
    rows: rows.map((part) => [
      cell(part.name),
      cell(part.local_name === '' ? null : part.local_name),
      cell(message(`paper.group.${part.group === '' ? 'unknown' : part.group}`)),
      cell(part.planted, `species/${part.name}/planted`),
      cell(part.draft),
      cell(part.ready),
    ]),
  };
}

function seed(plan: Plan): Table {
  return {
    name: 'seed',
    caption: message('page.table.seed', { species: plan.collections.length }),
    columns: [
      column('species'), column('way'), column('count'), column('fruit_kg', 1), column('trees'),
      column('collect_from'), column('collect_by'), column('sow_by'), column('timing'), column('stand_in'),
    ],
    rows: plan.collections.map((part) => [
      cell(part.species),
      cell(message(`page.way.${part.way}`)),
      cell(part.count),
      cell(part.fruit_kg),
      cell(part.trees_to_visit === 0 ? null : part.trees_to_visit),
      dayCell(part.collect_from),
      dayCell(part.collect_by),
      dayCell(part.sow_by),
      cell(part.timing === '' ? null : message(`page.timing.${part.timing}`)),
      cell(part.stand_in === '' ? null : part.stand_in),
    ]),
  };
}

function weeks(plan: Plan): Table {
  return {
    name: 'weeks',
    caption: message('page.table.weeks', { weeks: plan.weeks.length }),
    columns: [column('week'), column('days'), column('person_days', 1), column('people')],
    rows: plan.weeks.map((part) => [dayCell(part.first), cell(part.days), cell(part.person_days), cell(part.people)]),
  };
}

function money(plan: Plan): Table {
  const sums = plan.money;
  return {
    name: 'money',
    caption: {
      ...message('page.table.money', { years: sums.years, total: sums.total }),
      opens: { total: 'money/total' },
    },
    columns: [column('job'), column('person_days', 1), column('wages'), column('materials')],
    rows: [
      ...sums.by_job.map((part) => [cell(message(`tending.job.${part.name}`)), cell(part.person_days), cell(part.wages), cell(part.materials)]),
      [cell(message('page.all_work')), cell(sums.person_days), cell(sums.wages), cell(sums.materials)],
      [cell(message('page.seedlings_bought')), cell(null), cell(null), cell(sums.seedlings, 'money/seedlings')],
    ],
  };
}

export function planTables(plan: Plan): Table[] {
  return [blocks(plan), species(plan), seed(plan), weeks(plan), money(plan)].filter((table) => table.rows.length > 0);
}

/** First day of a ten-day period of a year without a leap day, in days since 1970-01-01. */
function periodDay(period: number): number {
  const month = Math.floor(period / 3);
  return Date.UTC(2001, month, 1 + 10 * (period % 3)) / 86400000;
}

function inside(period: number, first: number, last: number): boolean {
  return first <= last ? period >= first && period <= last : period >= first || period <= last;
}

/** In how many years of the log a ten-day period was good for planting; the chosen weeks stand out. */
export function windowChart(plan: Plan): Chart | undefined {
  const window = plan.window;
  const judged = window.periods.filter((part) => part.judged > 0);
  if (judged.length === 0) return undefined;
  const chosen = (part: { period: number }): boolean => window.found && inside(part.period, window.first_period, window.last_period);
  const curve = (label: string, ink: 'leaf' | 'smoke', parts: typeof judged): Chart['curves'][number] => ({
    label: message(label),
    shape: 'bars',
    ink,
    x: parts.map((part) => periodDay(part.period)),
    y: parts.map((part) => part.good),
    low: [],
  });
  const curves = [curve('page.window.inside', 'leaf', judged.filter(chosen)), curve('page.window.outside', 'smoke', judged.filter((part) => !chosen(part)))];
  return {
    name: 'window',
    caption: message(window.found ? 'page.window.caption' : 'page.window.caption_none', {
      station: window.station,
      years: Math.max(...judged.map((part) => part.judged)),
      days: window.days_in_log,
      missing: window.days_missing,
      first: window.log_first === null ? '?' : { day: window.log_first },
      last: window.log_last === null ? '?' : { day: window.log_last },
    }),
    x_label: message('page.window.x'),
    y_label: message('page.window.y'),
    x_is_day: true,
    from_zero: true,
    curves: [
      ...curves.filter((one) => one.x.length > 0),
      { label: message('page.window.judged'), shape: 'line', ink: 'ink', x: judged.map((part) => periodDay(part.period)), y: judged.map((part) => part.judged), low: [] },
    ],
  };
}

/** Keys of every number that opens in sentences and tables. */
export function openKeys(letter: readonly LetterPart[], tables: readonly Table[]): string[] {
  const sentences = letter.flatMap((part) => part.sentences).concat(tables.map((table) => table.caption));
  const cells = tables.flatMap((table) => table.rows.flat()).map((one) => one.opens ?? '');
  return [...new Set([...sentences.flatMap((sentence) => Object.values(sentence.opens ?? {})), ...cells])].filter((key) => key !== '');
}
