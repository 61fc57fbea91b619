import { describe, expect, it } from 'vitest';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { longDay, parseDay, shortDay } from '../src/words/days';
import { decimalsOf, numberText, parseNumber, plainNumber, valueText } from '../src/words/numbers';
import { catalogue } from './catalogue';

describe('days', () => {
  it('are read from their parts alone', () => {
    expect(parseDay('2026-02-28')?.toISOString()).toBe('2026-02-28T00:00:00.000Z');
    expect(parseDay('2026-02-30')).toBeUndefined();
    expect(parseDay('28/02/2026')).toBeUndefined();
  });
  it('are written in the language, and as they came when they are no day', () => {
    expect(longDay('2026-08-17', 'id')).toBe('17 Agustus 2026');
    expect(shortDay('2026-08-17', 'en')).toBe('17 Aug 2026');
    expect(longDay('soon', 'en')).toBe('soon');
  });
});

describe('numbers', () => {
  it('have the decimals that are asked for', () => {
    expect(numberText(1234.5, 1, 'en')).toBe('1,234.5');
    expect(numberText(1234.5, 2, 'id')).toBe('1.234,50');
    expect(numberText(null, 2, 'id')).toBe('?');
  });
  it('get more decimals the smaller they are', () => {
    expect([250, 123.4, 2.5, 0.05].map(decimalsOf)).toEqual([0, 1, 2, 4]);
  });
  it('have no zeros at their end when nobody asked for decimals', () => {
    expect([0.2, 60, 55.6123, 1234.5].map((value) => valueText(value, 'en'))).toEqual(['0.2', '60', '55.61', '1,234.5']);
  });
  it('may be typed with comma or dot', () => {
    expect([' 12,5', '12.5', '-0,25', '.5', '1e3', '0.125'].map(parseNumber)).toEqual([12.5, 12.5, -0.25, 0.5, 1000, 0.125]);
  });
  it('that one reader takes for thousands and another for decimals are refused', () => {
    expect(['1.250', '1,250', '12.500', '1,250,000', 'twelve', '', '1 2'].map(parseNumber)).toEqual(Array(7).fill(undefined));
  });
  it('that stand in a field read back as themselves', () => {
    for (const value of [0.05, 1100, 2.75, -3.5, 0.1234]) {
      expect(parseNumber(plainNumber(value, 'id'))).toBe(value);
      expect(parseNumber(plainNumber(value, 'en'))).toBe(value);
    }
  });
});

describe("the page's own words", () => {
  const source = fileURLToPath(new URL('../src/', import.meta.url));
  const files = readdirSync(source, { recursive: true, encoding: 'utf8' }).filter((name) => /\.(ts|svelte)$/.test(name) && !name.startsWith('map/'));
  const text = files.map((name) => readFileSync(source + name, 'utf8')).join('\n');
  const known = catalogue('en');
  it('are in the catalogue wherever the page names them', () => {
    const named = [...text.matchAll(/['"`](page\.[a-z_.]+[a-z_])['"`]/g)].map((match) => match[1]!);
    expect(named.length).toBeGreaterThan(60);
    expect([...new Set(named)].filter((key) => !(key in known))).toEqual([]);
  });
  it('are all used', () => {
    const starts = [...text.matchAll(/`(page\.[a-z_.]*)\$\{/g)].map((match) => match[1]!);
    const column = (key: string): boolean => key.startsWith('page.column.') && text.includes(`'${key.slice(12)}'`);
    const unused = Object.keys(known).filter((key) => key.startsWith('page.') && !text.includes(`'${key}'`) && !column(key) && !starts.some((start) => key.startsWith(start)));
    expect(unused).toEqual([]);
  });
});
