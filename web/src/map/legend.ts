// The legend in words: what each sign on the map means, and from which scale on it is drawn.
import early from '../../../data/symbols/early.svg?raw';
import late from '../../../data/symbols/late.svg?raw';
import pioneer from '../../../data/symbols/pioneer.svg?raw';
import unknown from '../../../data/symbols/unknown_group.svg?raw';
import { element, symbol } from './dom';
import type { Group } from './places';

/** A sentence by key; days as {day: "2026-02-02"}. */
export type Say = (key: string, args?: Record<string, string | number | { day: string }>) => string;

const SYMBOLS: Record<Group, [string, string]> = {
  pioneer: [pioneer, 'pioneer'],
  early: [early, 'early'],
  late: [late, 'late'],
  '': [unknown, 'unknown'],
};

export function groupSymbol(group: Group): SVGElement {
  const [svg, name] = SYMBOLS[group] ?? SYMBOLS[''];
  return symbol(svg, `map-ink-${name}`);
}

export interface Shown {
  groups: readonly Group[];
  hold: boolean;
  open: boolean;
  water: boolean;
  stations: boolean;
  rows: boolean;
  hillshade: boolean;
}

function entry(sign: Element, words: string): HTMLLIElement {
  return element('li', {}, sign, element('span', {}, words));
}

const swatch = (name: string) => element('span', { class: `map-swatch map-swatch-${name}`, 'aria-hidden': 'true' });

export function legend(say: Say, shown: Shown): HTMLElement {
  const list = element('ul', { class: 'map-legend' });
  if (shown.open) list.append(entry(swatch('open'), say('map.legend.open')));
  if (shown.hold) list.append(entry(swatch('hold'), say('map.legend.hold')));
  for (const group of shown.groups) {
    list.append(entry(groupSymbol(group), say(`map.legend.${group === '' ? 'unknown' : group}`)));
  }
  if (shown.rows) list.append(entry(swatch('rows'), say('map.legend.rows')));
  if (shown.water) list.append(entry(swatch('water'), say('map.legend.water')));
  if (shown.stations) list.append(entry(swatch('station'), say('map.legend.station')));
  if (shown.hillshade) list.append(entry(swatch('shade'), say('map.legend.hillshade')));
  return list;
}
