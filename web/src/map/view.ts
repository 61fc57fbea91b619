// The map itself: MapLibre with our style and layers, and the words around it.
import * as libre from 'maplibre-gl';
import workerUrl from 'maplibre-gl/dist/maplibre-gl-worker.mjs?worker&url';
import 'maplibre-gl/dist/maplibre-gl.css';
import './map.css';
import { CLAY, hatch } from './colours';
import { element } from './dom';
import { blockAt, boxOf, labelPoints, type Block, type Land } from './land';
import type { Say } from './legend';
import { Margin } from './margin';
import { metresPerPixel, toMercator, type LonLat } from './mercator';
import { nearest, planOf, readPlaces, rowSpacingM, type Places } from './places';
import { RowsLayer } from './rows_layer';
import { SEEDLINGS_FROM_ZOOM, SeedlingsLayer } from './seedlings_layer';
import { styleOf, type Hillshade } from './style';
import { Tape } from './tape';
import { toolRow, type Acts } from './tools';
import { blockList, foundWords, legendSection, pickOf, type Found, type Pick } from './words_panel';

// Without this the worker file is missing in production and the map stays blank.
libre.setWorkerUrl(workerUrl);

export interface MapInput {
  land: Land;
  /** bytes of GET /api/places; null when there is no plan */
  places: ArrayBuffer | null;
  hillshade: Hillshade | null;
  /** a sentence by key and arguments in the language of the page */
  words: Say;
  language: 'en' | 'id';
  /** day of the plan that is shown, "2026-02-02"; null when there is none */
  day?: string | null;
  onPick?: (pick: Pick | null) => void;
}

export interface MapHandle {
  /** Takes over what has changed: another language, a new plan, other land. */
  update(changed: Partial<MapInput>): void;
  destroy(): void;
}

const PADDING = { top: 24, left: 24, right: 24, bottom: 56 }; // the margin strip lies over the lower edge
const SPACING_GUESS_M = 3; // only for drawing sizes, when no block has two rows

export class MapView implements MapHandle {
  #input: MapInput;
  #places: Places | null = null;
  #seedlings: SeedlingsLayer | null = null;
  #chosen: number | null = null;
  #measuring = false;
  #found: Found | undefined = undefined;
  #near: boolean | null = null;
  #map: libre.Map | null = null;
  readonly #tape = new Tape();
  readonly #margin = new Margin();
  readonly #root = element('div', { class: 'map-frame' });
  readonly #grid = element('div', { class: 'map-grid' });
  readonly #tools = element('div', { class: 'map-tools-place' });
  readonly #canvas = element('div', { class: 'map-canvas' });
  readonly #stage = element('div', { class: 'map-stage' }, this.#canvas);
  readonly #status = element('p', { class: 'map-status', 'aria-live': 'polite' });
  readonly #picked = element('section', { class: 'map-picked' });
  readonly #words = element('div', { class: 'map-words-rest' });

  constructor(into: HTMLElement, input: MapInput) {
    this.#input = input;
    this.#places = input.places === null ? null : readPlaces(input.places);
    this.#stage.append(this.#margin.root);
    const words = element('div', { class: 'map-words' }, this.#status, this.#picked, this.#words);
    this.#grid.append(this.#tools, this.#stage, words);
    this.#root.append(this.#grid);
    into.append(Object.assign(this.#root, { view: this })); // tests and measuring find the view there
    try {
      this.#map = this.#open();
    } catch {
      this.#canvas.classList.add('map-missing');
    }
    this.#sayAll();
  }

  /** For tests and measuring. */
  get map(): libre.Map | null {
    return this.#map;
  }

  get seedlings(): SeedlingsLayer | null {
    return this.#seedlings;
  }

  get places(): Places | null {
    return this.#places;
  }

  update(changed: Partial<MapInput>): void {
    const before = this.#input;
    this.#input = { ...before, ...changed };
    if (this.#input.land !== before.land) {
      for (const name of ['sites', 'blocks', 'water', 'stations'] as const) {
        this.#source(name)?.setData(this.#input.land[name]);
      }
      this.#source('site-points')?.setData(labelPoints(this.#input.land.sites.features));
      this.#source('block-points')?.setData(labelPoints(this.#input.land.blocks.features));
      this.#found = this.#foundAgain();
    }
    if (this.#input.hillshade?.url !== before.hillshade?.url && this.#map !== null) {
      // The ground lies below everything: a new style is the plain way to put it there.
      this.#map.setStyle(styleOf(this.#input.land, this.#input.hillshade), { diff: false });
    }
    if (!sameBytes(this.#input.places, before.places)) {
      this.#places = this.#input.places === null ? null : readPlaces(this.#input.places);
      this.#chosen = null;
      this.#found = undefined;
      if (this.#map?.isStyleLoaded()) this.#addPlaces(this.#map);
    }
    this.#sayAll();
  }

  destroy(): void {
    this.#map?.remove();
    this.#root.remove();
  }

  #source(name: string): libre.GeoJSONSource | undefined {
    return this.#map?.getSource<libre.GeoJSONSource>(name);
  }

  #open(): libre.Map {
    const { land, hillshade, words } = this.#input;
    const box = boxOf([...land.sites.features, ...land.blocks.features]);
    const map = new libre.Map({
      container: this.#canvas,
      style: styleOf(land, hillshade),
      attributionControl: false,
      dragRotate: false,
      pitchWithRotate: false,
      touchPitch: false,
      maxPitch: 0,
      maxZoom: 21,
      renderWorldCopies: false,
      fadeDuration: 0,
      locale: { 'Map.Title': words('map.label') },
      ...(box === null ? {} : { bounds: box, fitBoundsOptions: { padding: PADDING, maxZoom: 18 } }),
    });
    map.touchZoomRotate.disableRotation();
    map.keyboard.disableRotation();
    // Also after a new style: images and our own layers go with the old one.
    map.on('style.load', () => {
      if (!map.hasImage('hatch')) map.addImage('hatch', hatch(12, CLAY));
      this.#addPlaces(map);
    });
    map.on('move', () => this.#moved(map));
    map.on('mousemove', ({ lngLat }) => this.#margin.where(this.#input.words, { lon: lngLat.lng, lat: lngLat.lat }));
    map.on('click', ({ lngLat }) => this.#ask({ lon: lngLat.lng, lat: lngLat.lat }));
    map.getCanvas().addEventListener('keydown', (event) => this.#key(event, map));
    return map;
  }

  #key(event: KeyboardEvent, map: libre.Map): void {
    if (event.key === 'Enter') this.#ask({ lon: map.getCenter().lng, lat: map.getCenter().lat });
    else if (event.key === 'Escape' && this.#measuring) this.#measure(false);
    else return;
    event.preventDefault();
  }

  #addPlaces(map: libre.Map): void {
    for (const id of ['rows', 'seedlings']) if (map.getLayer(id)) map.removeLayer(id);
    this.#seedlings = null;
    if (this.#places === null || this.#places.kinds.length === 0) return;
    const spacing = rowSpacingM(this.#places) ?? SPACING_GUESS_M;
    this.#seedlings = new SeedlingsLayer(this.#places, spacing);
    this.#seedlings.choose(this.#chosen);
    map.addLayer(new RowsLayer(this.#places, spacing), 'stations');
    map.addLayer(this.#seedlings, 'stations');
  }

  #ask(at: LonLat): void {
    if (this.#measuring) {
      this.#tape.add(at);
      this.#sayTape();
      return;
    }
    const map = this.#map!;
    const block = blockAt(this.#input.land, at);
    const within = 14 / (512 * 2 ** map.getZoom());
    const near = map.getZoom() >= SEEDLINGS_FROM_ZOOM && this.#places !== null;
    const seedling = near ? nearest(this.#places!, toMercator(at), within) : null;
    const home = seedling === null ? block : this.#blockOf(seedling.block.code);
    this.#found = home === null ? null : { block: home, seedling };
    this.#sayFound();
    this.#input.onPick?.(pickOf(this.#found));
  }

  #blockOf(code: string): Block | null {
    return this.#input.land.blocks.features.find(({ properties }) => properties.code === code) ?? null;
  }

  // What was found, in the land as it is now.
  #foundAgain(): Found | undefined {
    if (!this.#found) return undefined;
    const block = this.#blockOf(this.#found.block.properties.code);
    return block === null ? undefined : { ...this.#found, block };
  }

  #show(block: Block): void {
    this.#map?.fitBounds(boxOf([block])!, { padding: 40, maxZoom: 18, animate: false });
    this.#found = { block, seedling: null };
    this.#sayFound();
    this.#input.onPick?.(pickOf(this.#found));
  }

  #measure(on: boolean): void {
    this.#measuring = on;
    this.#canvas.classList.toggle('map-measuring', on);
    this.#tape.clear();
    this.#sayTools();
    this.#sayTape();
    if (on) this.#map?.getCanvas().focus();
  }

  #moved(map: libre.Map): void {
    const { lat, lng } = map.getCenter();
    this.#margin.scale(this.#input.words, metresPerPixel(map.getZoom(), lat));
    this.#margin.where(this.#input.words, { lon: lng, lat });
    const near = map.getZoom() >= SEEDLINGS_FROM_ZOOM;
    if (near !== this.#near) {
      this.#near = near;
      this.#sayStatus();
    }
  }

  // Words from here on: each part is written anew from what the view knows.

  #sayAll(): void {
    const { words: say, land, hillshade } = this.#input;
    this.#margin.sayNorth(say);
    this.#map?.getCanvas().setAttribute('aria-label', `${say('map.label')}. ${say('map.keys')}`);
    if (this.#map !== null) this.#moved(this.#map);
    else this.#canvas.replaceChildren(element('p', {}, say('map.no_webgl')));
    this.#sayTools();
    this.#sayStatus();
    this.#sayFound();
    this.#words.replaceChildren(
      legendSection(say, land, this.#places, hillshade !== null),
      blockList(say, land, (block) => this.#show(block)),
      element('p', { class: 'map-small' }, this.#made()),
      element('p', { class: 'map-small' }, say('map.keys')),
    );
  }

  #made(): string {
    const { words: say, day } = this.#input;
    if (this.#places === null) return say('map.made.none');
    return day == null ? '' : say('map.made', { number: this.#places.plan, day: { day } });
  }

  #sayTools(): void {
    const map = this.#map;
    const acts: Acts = {
      nearer: () => void map?.zoomIn(),
      farther: () => void map?.zoomOut(),
      all: () => {
        const box = boxOf([...this.#input.land.sites.features, ...this.#input.land.blocks.features]);
        if (box !== null) map?.fitBounds(box, { padding: PADDING, maxZoom: 18, animate: false });
      },
      choose: (species) => {
        this.#chosen = species;
        this.#seedlings?.choose(species);
      },
      measure: (on) => this.#measure(on),
      takeBack: () => {
        this.#tape.takeBack();
        this.#sayTape();
      },
    };
    const state = { chosen: this.#chosen, measuring: this.#measuring };
    this.#tools.replaceChildren(toolRow(this.#input.words, this.#places, state, acts));
  }

  #sayStatus(): void {
    const say = this.#input.words;
    if (this.#measuring) return this.#sayTape();
    const there = this.#places !== null && this.#places.seedlings > 0;
    const key = this.#near === true ? 'map.seedlings.near' : 'map.seedlings.far';
    this.#status.textContent = there ? say(key, { count: this.#places!.seedlings }) : '';
  }

  #sayTape(): void {
    const say = this.#input.words;
    this.#source('tape')?.setData(this.#tape.shapes());
    if (!this.#measuring) return this.#sayStatus();
    const points = this.#tape.points.length;
    this.#status.textContent =
      points === 0
        ? say('map.measure.start')
        : say('map.measure.so_far', { points, metres: this.#tape.metres, last: this.#tape.lastMetres });
  }

  #sayFound(): void {
    const say = this.#input.words;
    const at = this.#found?.seedling?.at;
    this.#source('picked')?.setData({
      type: 'FeatureCollection',
      features:
        at === undefined
          ? []
          : [{ type: 'Feature', properties: {}, geometry: { type: 'Point', coordinates: [at.lon, at.lat] } }],
    });
    this.#picked.replaceChildren(element('h2', {}, say('map.picked.heading')), foundWords(say, this.#found));
  }
}

/** The same plan's seedlings, perhaps fetched again. A plan never changes, so its number tells. */
function sameBytes(a: ArrayBuffer | null, b: ArrayBuffer | null): boolean {
  if (a === null || b === null) return a === b;
  return a === b || (a.byteLength === b.byteLength && planOf(a) === planOf(b));
}
