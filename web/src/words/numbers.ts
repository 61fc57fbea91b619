import type { Language } from '../api/types';
import { LOCALE } from './days';

const formats = new Map<string, Intl.NumberFormat>();

export function numberText(value: number | null | undefined, decimals: number, language: Language): string {
  if (value === null || value === undefined || Number.isNaN(value)) return '?';
  const key = `${language}${decimals}`;
  let format = formats.get(key);
  if (!format) {
    format = new Intl.NumberFormat(LOCALE[language], {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
    });
    formats.set(key, format);
  }
  return format.format(value);
}

/** A number without zeros at its end, with as many decimals as its size deserves. */
export function valueText(value: number, language: Language): string {
  return new Intl.NumberFormat(LOCALE[language], { maximumFractionDigits: decimalsOf(value) }).format(value);
}

/** As many decimals as `wildling explain` prints. */
export function decimalsOf(value: number): number {
  const size = Math.abs(value);
  if (value === Math.floor(value)) return 0;
  return size >= 100 ? 1 : size >= 1 ? 2 : 4;
}

/** A number as a person would type it: no marks for thousands. */
export function plainNumber(value: number, language: Language): string {
  const text = String(value);
  return language === 'id' ? text.replace('.', ',') : text;
}

/**
 * A number typed by a person: comma or dot before the decimals. Undefined when it is none, and for "1.250", which
 * is 1250 to one reader and 1.25 to another.
 */
export function parseNumber(text: string): number | undefined {
  const trimmed = text.trim();
  if (/^[+-]?[1-9]\d{0,2}([.,]\d{3})+$/.test(trimmed)) return undefined;
  const dotted = trimmed.replace(',', '.');
  if (!/^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(dotted)) return undefined;
  return Number(dotted);
}
