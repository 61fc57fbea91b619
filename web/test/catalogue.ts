import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Language } from '../src/api/types';

const folder = fileURLToPath(new URL('../../data/words/', import.meta.url));

/** All word files of a language in one, as the program serves them. */
export function catalogue(language: Language): Record<string, string> {
  const all: Record<string, string> = {};
  for (const name of readdirSync(folder)) {
    if (name.endsWith(`.${language}.json`)) Object.assign(all, JSON.parse(readFileSync(folder + name, 'utf8')));
  }
  return Object.fromEntries(Object.entries(all).sort(([a], [b]) => (a < b ? -1 : 1)));
}
