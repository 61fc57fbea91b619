// The words beside the map: what is picked, what the signs mean, and the blocks as a list that says the same as the map.
import { button, element } from './dom';
import type { Block, Land } from './land';
import { groupSymbol, legend, type Say } from './legend';
import type { Group, Places } from './places';
import type { Address } from './places';

/** What a click or Enter found. */
export interface Pick {
  block: string;
  row?: number;
  number?: number;
  species?: string;
}

export type Found = { block: Block; seedling: Address | null } | null;

export function pickOf(found: Found): Pick | null {
  if (found === null) return null;
  const block = found.block.properties.code;
  const { seedling } = found;
  if (seedling === null) return { block };
  const address = { block, row: seedling.row, number: seedling.number };
  return seedling.species === null ? address : { ...address, species: seedling.species.name };
}

/** Sentences about what was found; `undefined`: nothing was asked yet. */
export function foundWords(say: Say, found: Found | undefined): HTMLElement {
  const box = element('div', { class: 'map-found', 'aria-live': 'polite' });
  if (found === undefined) box.append(element('p', {}, say('map.picked.hint')));
  else if (found === null) box.append(element('p', {}, say('map.picked.empty')));
  else box.append(...seedlingWords(say, found.seedling), ...blockWords(say, found.block));
  return box;
}

function seedlingWords(say: Say, seedling: Address | null): HTMLElement[] {
  if (seedling?.species == null) return [];
  const { species, row, number, block } = seedling;
  const key = species.local_name === '' ? 'map.picked.seedling' : 'map.picked.seedling_named';
  const args = { block: block.code, row, number, species: species.name, local_name: species.local_name };
  return [
    element('p', { class: 'map-answer' }, say(key, args)),
    element('p', {}, groupSymbol(species.group), ' ', say('map.picked.group', { group: species.group || 'other' })),
  ];
}

function blockWords(say: Say, block: Block): HTMLElement[] {
  const { code, site, area_ha: area, open, planted, rows } = block.properties;
  return [
    element('p', {}, say('map.picked.block', { block: code, site, area })),
    element('p', {}, say(open ? 'map.picked.open' : 'map.picked.hold', { planted: planted ?? 0, rows: rows ?? 0 })),
  ];
}

/** Groups that the plan's species have, in the order of the legend. */
export function groupsOf(places: Places | null): Group[] {
  const order: Group[] = ['pioneer', 'early', 'late', ''];
  return order.filter((group) => places?.species.some((species) => species.group === group) ?? false);
}

export function legendSection(say: Say, land: Land, places: Places | null, hillshade: boolean): HTMLElement {
  const blocks = land.blocks.features;
  return element(
    'section',
    {},
    element('h2', {}, say('map.legend.heading')),
    legend(say, {
      groups: groupsOf(places),
      open: blocks.some(({ properties }) => properties.open),
      hold: blocks.some(({ properties }) => !properties.open),
      rows: places !== null && places.marks.length > 0,
      water: land.water.features.length > 0,
      stations: land.stations.features.length > 0,
      hillshade,
    }),
  );
}

export function blockList(say: Say, land: Land, show: (block: Block) => void): HTMLElement {
  const details = element('details', { class: 'map-blocks' }, element('summary', {}, say('map.blocks.heading')));
  const list = element('ul', {});
  // The list is made when it is opened: a large programme has hundreds of blocks.
  details.addEventListener('toggle', () => {
    if (!details.open || list.childElementCount > 0) return;
    for (const block of land.blocks.features) list.append(blockLine(say, block, show));
  });
  details.append(land.blocks.features.length === 0 ? element('p', {}, say('map.blocks.none')) : list);
  return details;
}

function blockLine(say: Say, block: Block, show: (block: Block) => void): HTMLLIElement {
  const { code, site, area_ha: area, open, planted, draft } = block.properties;
  const label = say('map.blocks.show', { block: code });
  return element(
    'li',
    {},
    button(code, () => show(block), { 'aria-label': label, title: label }),
    ' ',
    say('map.blocks.line', { site, area, open: String(open), planted: planted ?? 0, draft: draft ?? 0 }),
  );
}
