/** Fields as a person fills them in, and as the program wants them. Pure. */
import type { Entries, Field, Message } from '../api/types';
import { parseDay } from '../words/days';
import { parseNumber } from '../words/numbers';

export type Values = Record<string, string[]>;

/** Hyphens of names and choices are underscores in word keys. */
export const wordKey = (name: string): string => name.replace(/-/g, '_');

export function emptyValues(fields: readonly Field[], initial: Entries): Values {
  return Object.fromEntries(fields.map((field) => [field.name, initial[field.name]?.slice() ?? ['']]));
}

function problemOf(field: Field, text: string): Message | undefined {
  if (field.kind === 'day' && !parseDay(text)) return { key: 'page.not_a_day', arguments: { value: text } };
  if (field.kind !== 'number' && field.kind !== 'whole') return undefined;
  const number = parseNumber(text);
  if (number === undefined) return { key: 'page.not_a_number', arguments: { value: text } };
  if (field.kind === 'whole' && !Number.isInteger(number)) return { key: 'page.not_whole', arguments: { value: text } };
  const [low, high] = [field.low ?? -Infinity, field.high ?? Infinity];
  if (number < low || number > high) {
    return {
      key: field.high === null ? 'page.too_small' : field.low === null ? 'page.too_large' : 'page.outside',
      arguments: { value: text, low: field.low ?? '', high: field.high ?? '' },
    };
  }
  return undefined;
}

/** Entries to send (numbers with a dot, empty lines left out), and what is wrong by field. The program checks again. */
export function entriesOf(fields: readonly Field[], values: Values): { entries: Entries; problems: Record<string, Message> } {
  const entries: Entries = {};
  const problems: Record<string, Message> = {};
  for (const field of fields) {
    const texts = (values[field.name] ?? []).map((text) => text.trim()).filter((text) => text !== '');
    if (texts.length === 0) {
      if (field.required) problems[field.name] = { key: 'page.missing', arguments: {} };
      continue;
    }
    for (const text of texts) {
      const problem = problemOf(field, text);
      if (problem) problems[field.name] = problem;
    }
    const numeric = field.kind === 'number' || field.kind === 'whole';
    entries[field.name] = numeric ? texts.map((text) => String(parseNumber(text) ?? text)) : texts;
  }
  return { entries, problems };
}
