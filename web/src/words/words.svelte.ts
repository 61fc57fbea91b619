/** The catalogue of the language in use. Everything that shows words reads it, so a switch redraws the page. */
import { getWords } from '../api/client';
import type { Argument, Language, Message } from '../api/types';
import { shortDay, longDay } from './days';
import { Formatter, type Piece } from './format';
import { numberText, valueText } from './numbers';

const KEPT = 'wildling.language';

class Words {
  language = $state<Language>('en');
  formatter = $state.raw<Formatter>(new Formatter('en', {}));
  private readonly loaded = new Map<Language, Promise<Formatter>>();

  /** The language this browser chose before, if it did. */
  chosen(): Language | undefined {
    try {
      const kept = localStorage.getItem(KEPT);
      return kept === 'en' || kept === 'id' ? kept : undefined;
    } catch {
      return undefined;
    }
  }

  load(language: Language): Promise<Formatter> {
    let promise = this.loaded.get(language);
    if (!promise) {
      promise = getWords(language).then((patterns) => new Formatter(language, patterns));
      promise.catch(() => this.loaded.delete(language));
      this.loaded.set(language, promise);
    }
    return promise;
  }

  async use(language: Language, keep = false): Promise<void> {
    const formatter = await this.load(language);
    this.formatter = formatter;
    this.language = language;
    document.documentElement.lang = language;
    if (!keep) return;
    try {
      localStorage.setItem(KEPT, language);
    } catch {
      // A browser that keeps nothing asks again next time.
    }
  }

  /** After the program was replaced by another version, its words are read anew. */
  async reload(): Promise<void> {
    this.loaded.clear();
    await this.use(this.language);
  }

  get ready(): boolean {
    return Object.keys(this.formatter.patterns).length > 0;
  }
}

export const words = new Words();

/** A sentence by key: t('page.stale'), t('page.show_all', {count: 3}). */
export function t(key: string, args: Record<string, Argument> = {}): string {
  return words.formatter.text({ key, arguments: args });
}
export function say(message: Message): string {
  return words.formatter.text(message);
}
export function pieces(message: Message): Piece[] {
  return words.formatter.pieces(message);
}
export function has(key: string): boolean {
  return words.formatter.has(key);
}
/** The word of a key, or what came in where the catalogue has none. */
export function wordOr(key: string, otherwise: string): string {
  return words.formatter.has(key) ? t(key) : otherwise;
}
export const num = (value: number | null | undefined, decimals = 0): string => numberText(value, decimals, words.language);
export const val = (value: number): string => valueText(value, words.language);
export const day = (iso: string): string => shortDay(iso, words.language);
export const dayInWords = (iso: string): string => longDay(iso, words.language);
/** Units are written as the program writes them; those that are words have a translation. */
export const unitText = (unit: string): string => (unit === '' ? '' : wordOr(`page.unit.${unit.replace(/[^a-z0-9]+/gi, '_')}`, unit));
