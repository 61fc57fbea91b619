import type { Day, Language } from '../api/types';

/** en-GB writes days before months, as field teams do; the same locales as the program (base/words.cpp). */
export const LOCALE: Record<Language, string> = { en: 'en-GB', id: 'id-ID' };

/** A civil day, "2026-02-02", as a moment at UTC midnight. Undefined when it is no day. */
export function parseDay(iso: string): Date | undefined {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(iso);
  if (!parts) return undefined;
  const [year, month, day] = [Number(parts[1]), Number(parts[2]), Number(parts[3])];
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day ? date : undefined;
}

export function isDay(value: unknown): value is Day {
  return typeof value === 'object' && value !== null && typeof (value as Day).day === 'string';
}

const formats = new Map<string, Intl.DateTimeFormat>();
function dateFormat(language: Language, options: Intl.DateTimeFormatOptions): Intl.DateTimeFormat {
  const key = language + JSON.stringify(options);
  let format = formats.get(key);
  if (!format) {
    format = new Intl.DateTimeFormat(LOCALE[language], { ...options, timeZone: 'UTC' });
    formats.set(key, format);
  }
  return format;
}

/** "2 February 2026", "2 Februari 2026"; what is no day comes back as it is. */
export function longDay(iso: string, language: Language): string {
  const date = parseDay(iso);
  return date ? dateFormat(language, { day: 'numeric', month: 'long', year: 'numeric' }).format(date) : iso;
}

/** "2 Feb 2026", for tables. */
export function shortDay(iso: string, language: Language): string {
  const date = parseDay(iso);
  return date ? dateFormat(language, { day: 'numeric', month: 'short', year: 'numeric' }).format(date) : iso;
}

export function monthName(month: number, language: Language): string {
  return dateFormat(language, { month: 'short' }).format(new Date(Date.UTC(2001, month, 1)));
}

export function dayTick(date: Date, language: Language, withYear: boolean): string {
  return dateFormat(language, withYear ? { month: 'short', year: 'numeric' } : { day: 'numeric', month: 'short' }).format(date);
}

const DAY_MS = 86400000;
/** Days since 1970-01-01, as charts count them. */
export function dayOfNumber(days: number): Date {
  return new Date(days * DAY_MS);
}
