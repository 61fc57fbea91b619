import type { Cell, CellValue, Message } from '../api/types';
import { isDay } from '../words/days';

export type Direction = 'ascending' | 'descending';

export function isMessage(value: CellValue): value is Message {
  return typeof value === 'object' && value !== null && typeof (value as Message).key === 'string';
}

/** What a cell is compared by: its number, its day, or its words in the reader's language; null = nothing there. */
export function sortKey(value: CellValue | undefined, say: (message: Message) => string): number | string | null {
  if (value === null || value === undefined || value === '') return null;
  if (isDay(value)) return value.day;
  if (isMessage(value)) return say(value);
  return value;
}

/**
 * The rows in the order of one column; rows that are equal there keep their order, and empty cells come last in
 * either direction. Codes sort as people count: B2 before B10.
 */
export function sortRows(
  rows: readonly Cell[][],
  column: number,
  direction: Direction,
  locale: string,
  say: (message: Message) => string,
): Cell[][] {
  const collator = new Intl.Collator(locale, { numeric: true });
  const sign = direction === 'ascending' ? 1 : -1;
  const keyed = rows.map((row) => ({ row, key: sortKey(row[column]?.value, say) }));
  keyed.sort((a, b) => {
    if (a.key === null || b.key === null) return a.key === b.key ? 0 : a.key === null ? 1 : -1;
    if (typeof a.key === 'number' && typeof b.key === 'number') return sign * (a.key - b.key);
    return sign * collator.compare(String(a.key), String(b.key));
  });
  return keyed.map((entry) => entry.row);
}

/** Columns of figures stand to the right: every cell that is not empty is a number. */
export function isFigures(rows: readonly Cell[][], column: number): boolean {
  let seen = false;
  for (const row of rows) {
    const value = row[column]?.value;
    if (value === null || value === undefined) continue;
    if (typeof value !== 'number') return false;
    seen = true;
  }
  return seen;
}
