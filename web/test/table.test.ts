import { describe, expect, it } from 'vitest';
import type { Cell, Message } from '../src/api/types';
import { isFigures, sortRows } from '../src/table/sort';

const row = (...values: Cell['value'][]): Cell[] => values.map((value) => ({ value }));
const say = (message: Message): string => message.key;
const first = (rows: Cell[][]): unknown[] => rows.map((cells) => cells[0]!.value);

describe('sorted rows', () => {
  it('count codes as people do', () => {
    expect(first(sortRows([row('B10'), row('B2'), row('B1')], 0, 'ascending', 'en-GB', say))).toEqual(['B1', 'B2', 'B10']);
  });
  it('compare numbers as numbers, downwards too', () => {
    expect(first(sortRows([row(9), row(10), row(-1)], 0, 'descending', 'en-GB', say))).toEqual([10, 9, -1]);
  });
  it('leave empty cells last in either direction', () => {
    const rows = [row(null), row(2), row(1)];
    expect(first(sortRows(rows, 0, 'ascending', 'en-GB', say))).toEqual([1, 2, null]);
    expect(first(sortRows(rows, 0, 'descending', 'en-GB', say))).toEqual([2, 1, null]);
  });
  it('put days in order of time, whatever their words', () => {
    const rows = [row({ day: '2026-10-01' }), row({ day: '2026-09-30' })];
    expect(first(sortRows(rows, 0, 'ascending', 'en-GB', say))).toEqual([{ day: '2026-09-30' }, { day: '2026-10-01' }]);
  });
  it('compare messages by their words', () => {
    const words = (message: Message): string => ({ x: 'zebra', y: 'ant' })[message.key] ?? '';
    const rows = [row({ key: 'x', arguments: {} }), row({ key: 'y', arguments: {} })];
    expect(first(sortRows(rows, 0, 'ascending', 'en-GB', words))).toEqual([{ key: 'y', arguments: {} }, { key: 'x', arguments: {} }]);
  });
  it('keep their order where they are equal, and leave the table alone', () => {
    const rows = [row(1, 'a'), row(1, 'b'), row(0, 'c')];
    expect(sortRows(rows, 0, 'descending', 'en-GB', say).map((cells) => cells[1]!.value)).toEqual(['a', 'b', 'c']);
    expect(first(rows)).toEqual([1, 1, 0]);
  });
});

it('columns of numbers are told from columns of words', () => {
  expect(isFigures([row(1), row(null)], 0)).toBe(true);
  expect(isFigures([row(1), row('?')], 0)).toBe(false);
  expect(isFigures([row(null)], 0)).toBe(false);
});
