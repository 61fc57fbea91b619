import { describe, expect, it } from 'vitest';
import { Formatter } from '../src/words/format';
import { catalogue } from './catalogue';

const english = new Formatter('en', catalogue('en'));
const indonesian = new Formatter('id', catalogue('id'));
const made = (pattern: string, language: 'en' | 'id' = 'en'): Formatter => new Formatter(language, { k: pattern });

describe('sentences', () => {
  it('group bare numbers as the language does', () => {
    expect(made('{n} trees').text({ key: 'k', arguments: { n: 12345 } })).toBe('12,345 trees');
    expect(made('{n} pohon', 'id').text({ key: 'k', arguments: { n: 12345.5 } })).toBe('12.345,5 pohon');
  });
  it('write days without a time zone moving them', () => {
    const day = { key: 'k', arguments: { d: { day: '2026-02-02' } } };
    expect(made('{d, date, long}').text(day)).toBe('2 February 2026');
    expect(made('{d, date, long}', 'id').text(day)).toBe('2 Februari 2026');
    expect(made('{d}').text(day)).toBe('2 Feb 2026');
    expect(made('{d, date, ::yyyyMMMM}').text(day)).toBe('February 2026');
  });
  it('keep signs that are tags elsewhere', () => {
    expect(made('less than 5 mm: <5').text({ key: 'k', arguments: {} })).toBe('less than 5 mm: <5');
  });
  it('show the key where the catalogue has no sentence', () => {
    expect(english.text({ key: 'no.such', arguments: {} })).toBe('[no.such]');
  });
  it('show the key where an argument is missing', () => {
    expect(made('{a}').text({ key: 'k', arguments: {} })).toBe('[k]');
  });
  it('write what is not known as a question mark', () => {
    expect(made('{a} mm').text({ key: 'k', arguments: { a: null } })).toBe('? mm');
  });
});

describe('numbers that open', () => {
  it('are pieces with the key of their workings', () => {
    const message = { key: 'k', arguments: { area: 4.25, n: 3 }, opens: { area: 'block/B1/area' } };
    expect(made('{area, number} ha in {n} rows').pieces(message)).toEqual([{ text: '4.25', opens: 'block/B1/area' }, ' ha in 3 rows']);
  });
  it('open inside plurals too', () => {
    const message = { key: 'k', arguments: { n: 1200 }, opens: { n: 'programme/planted' } };
    expect(made('Plant {n, plural, one {# seedling} other {# seedlings}}.').pieces(message)).toEqual([
      'Plant ', { text: '1,200', opens: 'programme/planted' }, ' seedlings.',
    ]);
  });
  it('do not change the sentence', () => {
    const message = { key: 'k', arguments: { a: 1, d: { day: '2026-01-31' } }, opens: { a: 'x', d: 'y' } };
    const formatter = made('{a, number, integer} by {d, date, long}');
    expect(formatter.text(message)).toBe('1 by 31 January 2026');
    expect(formatter.text({ ...message, opens: {} })).toBe('1 by 31 January 2026');
  });
});

describe('the catalogues', () => {
  it('can be read in both languages, every pattern of them', () => {
    for (const formatter of [english, indonesian]) {
      const faulty = Object.keys(formatter.patterns).filter((key) => {
        const names = [...formatter.patterns[key]!.matchAll(/\{\s*(\w+)/g)].map((match) => match[1]!);
        const dates = new Set([...formatter.patterns[key]!.matchAll(/\{\s*(\w+)\s*,\s*date/g)].map((match) => match[1]!));
        const args = Object.fromEntries(names.map((name) => [name, dates.has(name) ? { day: '2026-02-02' } : 2]));
        return formatter.text({ key, arguments: args }) === `[${key}]`;
      });
      expect(faulty).toEqual([]);
    }
  });
  it('have the same keys and arguments', () => {
    expect(Object.keys(indonesian.patterns)).toEqual(Object.keys(english.patterns));
  });
});
