// What stands on the edge of the map: scale bar, north, where the pointer is.
import north from '../../../data/symbols/north.svg?raw';
import { element, symbol } from './dom';
import type { Say } from './legend';
import { roundLengthM } from './measure';
import type { LonLat } from './mercator';

export class Margin {
  readonly root = element('div', { class: 'map-margin' });
  readonly #bar = element('span', { class: 'map-bar' });
  readonly #words = element('span', {});
  readonly #where = element('span', { class: 'map-where' });
  readonly #north = element('span', { class: 'map-north' });

  constructor() {
    this.root.append(this.#north, element('span', { class: 'map-scale' }, this.#bar, this.#words), this.#where);
  }

  sayNorth(say: Say): void {
    this.#north.replaceChildren(symbol(north, ''), element('span', {}, say('map.north')));
  }

  scale(say: Say, metresPerPixel: number): void {
    const metres = roundLengthM(130 * metresPerPixel);
    this.#bar.style.width = `${metres / metresPerPixel}px`;
    const km = metres >= 1000;
    this.#words.textContent = say('map.scale', { length: km ? metres / 1000 : metres, unit: km ? 'km' : 'm' });
  }

  where(say: Say, { lon, lat }: LonLat): void {
    const ending = lat < 0 ? (lon < 0 ? '.south_west' : '.south_east') : lon < 0 ? '.north_west' : '';
    this.#where.textContent = say(`map.coordinates${ending}`, { lat: Math.abs(lat), lon: Math.abs(lon) });
  }
}
