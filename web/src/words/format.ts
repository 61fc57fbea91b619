/**
 * Messages into sentences, in the same ICU patterns that the program uses. A sentence comes as pieces: text,
 * and numbers that open into their workings.
 */
import { parse, TYPE, type MessageFormatElement } from '@formatjs/icu-messageformat-parser';
import { IntlMessageFormat } from 'intl-messageformat';
import type { Argument, Language, Message } from '../api/types';
import { isDay, LOCALE, parseDay } from './days';

export interface Opening {
  text: string;
  opens: string;
}
export type Piece = string | Opening;
export type Patterns = Record<string, string>;

const UTC = { timeZone: 'UTC' } as const;
const FORMATS = {
  number: { integer: { maximumFractionDigits: 0 } },
  date: {
    short: { day: 'numeric', month: 'numeric', year: '2-digit', ...UTC },
    medium: { day: 'numeric', month: 'short', year: 'numeric', ...UTC },
    long: { day: 'numeric', month: 'long', year: 'numeric', ...UTC },
    full: { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric', ...UTC },
  },
} as const;

type Kind = 'number' | 'date' | 'text';

function kindOf(value: Argument | undefined): Kind {
  if (typeof value === 'number') return 'number';
  return isDay(value) ? 'date' : 'text';
}

/** Writes bare {n} as the program does (grouped numbers, days), and marks what opens with a tag of its own. */
class Marker {
  constructor(
    private readonly kinds: Record<string, Kind>,
    private readonly opens: Record<string, string>,
  ) {}

  all(elements: MessageFormatElement[], counted?: string): MessageFormatElement[] {
    return elements.map((element) => this.one(element, counted));
  }

  private one(element: MessageFormatElement, counted?: string): MessageFormatElement {
    switch (element.type) {
      case TYPE.argument: {
        const kind = this.kinds[element.value];
        if (kind === 'number') return this.mark({ type: TYPE.number, value: element.value, style: null }, element.value);
        if (kind === 'date') return this.mark({ type: TYPE.date, value: element.value, style: 'medium' }, element.value);
        return this.mark(element, element.value);
      }
      case TYPE.number:
        return this.mark(element, element.value);
      case TYPE.date:
        return this.mark(this.utc(element), element.value);
      case TYPE.pound:
        return counted === undefined ? element : this.mark(element, counted);
      case TYPE.plural:
      case TYPE.select: {
        const inner = element.type === TYPE.plural ? element.value : counted;
        const options = Object.fromEntries(
          Object.entries(element.options).map(([name, option]) => [name, { ...option, value: this.all(option.value, inner) }]),
        );
        return { ...element, options } as MessageFormatElement;
      }
      default:
        return element;
    }
  }

  private utc(element: Extract<MessageFormatElement, { type: TYPE.date }>): MessageFormatElement {
    const style = element.style;
    if (!style) return { ...element, style: 'medium' };
    if (typeof style === 'string') return element;
    return { ...element, style: { ...style, parsedOptions: { ...style.parsedOptions, ...UTC } } };
  }

  private mark(element: MessageFormatElement, name: string): MessageFormatElement {
    if (!(name in this.opens)) return element;
    return { type: TYPE.tag, value: `opens ${name}`, children: [element] };
  }
}

export class Formatter {
  private readonly trees = new Map<string, MessageFormatElement[]>();
  private readonly formats = new Map<string, IntlMessageFormat>();

  constructor(
    readonly language: Language,
    readonly patterns: Patterns,
  ) {}

  has(key: string): boolean {
    return key in this.patterns;
  }

  /** The sentence in pieces; "[key]" when the catalogue lacks it or the arguments do not fit. */
  pieces(message: Message): Piece[] {
    const format = this.format(message);
    if (!format) return [`[${message.key}]`];
    const values: Record<string, unknown> = {};
    for (const [name, value] of Object.entries(message.arguments)) {
      values[name] = isDay(value) ? (parseDay(value.day) ?? value.day) : (value ?? '?');
    }
    for (const [name, opens] of Object.entries(message.opens ?? {})) {
      values[`opens ${name}`] = (chunks: unknown[]) => ({ text: chunks.join(''), opens });
    }
    try {
      return joined(format.formatToParts(values as never).map((part) => part.value as Piece));
    } catch {
      return [`[${message.key}]`];
    }
  }

  text(message: Message): string {
    return this.pieces(message)
      .map((piece) => (typeof piece === 'string' ? piece : piece.text))
      .join('');
  }

  private tree(key: string): MessageFormatElement[] | undefined {
    let tree = this.trees.get(key);
    const pattern = this.patterns[key];
    if (!tree && pattern !== undefined) {
      tree = parse(pattern, { ignoreTag: true, requiresOtherClause: false, shouldParseSkeletons: true });
      this.trees.set(key, tree);
    }
    return tree;
  }

  private format(message: Message): IntlMessageFormat | undefined {
    const kinds: Record<string, Kind> = {};
    for (const [name, value] of Object.entries(message.arguments)) kinds[name] = kindOf(value);
    const opens = message.opens ?? {};
    const id = `${message.key}|${JSON.stringify(kinds)}|${Object.keys(opens).sort().join()}`;
    let format = this.formats.get(id);
    if (format) return format;
    try {
      const tree = this.tree(message.key);
      if (!tree) return undefined;
      const marked = new Marker(kinds, opens).all(tree);
      format = new IntlMessageFormat(marked, LOCALE[this.language], FORMATS as never);
    } catch {
      return undefined;
    }
    this.formats.set(id, format);
    return format;
  }
}

function joined(pieces: Piece[]): Piece[] {
  const list: Piece[] = [];
  for (const piece of pieces) {
    const last = list[list.length - 1];
    if (typeof piece === 'string' && typeof last === 'string') list[list.length - 1] = last + piece;
    else list.push(piece);
  }
  return list;
}
