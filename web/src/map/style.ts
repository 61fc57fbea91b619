// The quiet style: our own ground, no outside source, no glyph files (labels are drawn from the page's fonts).
import type { LayerSpecification, StyleSpecification } from 'maplibre-gl';
import { CLAY, GROUND, INK, LEAF, SITE, WATER } from './colours';
import { labelPoints, type Land } from './land';
import { SEEDLINGS_FROM_ZOOM } from './seedlings_layer';

export interface Hillshade {
  url: string;
  /** west, south, east, north */
  bounds: readonly [number, number, number, number];
}

// The page's own font (page.css), in quotes of its own: the library hands the name to CSS as it stands, where a word
// that begins with a digit needs them.
const FONT = ["'Source Sans 3'"];
const nothing = { type: 'FeatureCollection' as const, features: [] };

export function styleOf(land: Land, hillshade: Hillshade | null): StyleSpecification {
  const sources: StyleSpecification['sources'] = {
    sites: { type: 'geojson', data: land.sites },
    blocks: { type: 'geojson', data: land.blocks },
    water: { type: 'geojson', data: land.water },
    stations: { type: 'geojson', data: land.stations },
    // Points of their own: an area is cut in tiles, and its label would stand once in each.
    'site-points': { type: 'geojson', data: labelPoints(land.sites.features) },
    'block-points': { type: 'geojson', data: labelPoints(land.blocks.features) },
    tape: { type: 'geojson', data: nothing },
    picked: { type: 'geojson', data: nothing },
  };
  if (hillshade !== null) {
    const [west, south, east, north] = hillshade.bounds;
    sources['hillshade'] = {
      type: 'image',
      url: hillshade.url,
      coordinates: [
        [west, north],
        [east, north],
        [east, south],
        [west, south],
      ],
    };
  }
  return { version: 8, sources, layers: [...groundLayers(hillshade !== null), ...landLayers(), ...markLayers()] };
}

function groundLayers(shaded: boolean): LayerSpecification[] {
  const ground: LayerSpecification = { id: 'ground', type: 'background', paint: { 'background-color': GROUND } };
  if (!shaded) return [ground];
  return [
    ground,
    {
      id: 'hillshade',
      type: 'raster',
      source: 'hillshade',
      paint: {
        'raster-opacity': 0.45,
        'raster-brightness-min': 0.35,
        'raster-contrast': 0.35,
        'raster-fade-duration': 0,
      },
    },
  ];
}

// Open ground is filled, ground on hold is hatched: the pattern says the same as the colour.
function landLayers(): LayerSpecification[] {
  const openFill = ['interpolate', ['linear'], ['zoom'], 13.5, 0.3, SEEDLINGS_FROM_ZOOM, 0.14, 17, 0.07];
  return [
    {
      id: 'blocks-open',
      type: 'fill',
      source: 'blocks',
      filter: ['==', ['get', 'open'], true],
      paint: { 'fill-color': LEAF, 'fill-opacity': openFill as never },
    },
    {
      id: 'blocks-hold',
      type: 'fill',
      source: 'blocks',
      filter: ['!=', ['get', 'open'], true],
      paint: { 'fill-pattern': 'hatch', 'fill-opacity': ['interpolate', ['linear'], ['zoom'], 15, 0.75, 17, 0.3] },
    },
    {
      id: 'water',
      type: 'line',
      source: 'water',
      layout: { 'line-cap': 'round', 'line-join': 'round' },
      paint: { 'line-color': WATER, 'line-width': ['interpolate', ['linear'], ['zoom'], 12, 1.2, 18, 4] },
    },
    {
      id: 'block-edges-open',
      type: 'line',
      source: 'blocks',
      filter: ['==', ['get', 'open'], true],
      paint: { 'line-color': LEAF, 'line-width': ['interpolate', ['linear'], ['zoom'], 12, 0.5, 16, 1.6] },
    },
    {
      id: 'block-edges-hold',
      type: 'line',
      source: 'blocks',
      filter: ['!=', ['get', 'open'], true],
      paint: { 'line-color': CLAY, 'line-width': 1.4, 'line-dasharray': [3, 2] },
    },
    {
      id: 'sites',
      type: 'line',
      source: 'sites',
      paint: { 'line-color': SITE, 'line-width': 1.2, 'line-opacity': 0.7 },
    },
  ];
}

function label(id: string, source: string, field: string, minzoom: number, size: number): LayerSpecification {
  return {
    id,
    type: 'symbol',
    source,
    minzoom,
    layout: { 'text-field': ['get', field], 'text-font': FONT, 'text-size': size, 'text-padding': 4 },
    paint: { 'text-color': INK, 'text-halo-color': GROUND, 'text-halo-width': 1.6 },
  };
}

function markLayers(): LayerSpecification[] {
  const ring = { 'circle-color': GROUND, 'circle-stroke-color': INK, 'circle-stroke-width': 2 };
  return [
    {
      id: 'stations',
      type: 'circle',
      source: 'stations',
      paint: { ...ring, 'circle-radius': 5, 'circle-stroke-color': WATER },
    },
    {
      id: 'tape',
      type: 'line',
      source: 'tape',
      paint: { 'line-color': INK, 'line-width': 2, 'line-dasharray': [2, 1] },
    },
    {
      id: 'tape-ends',
      type: 'circle',
      source: 'tape',
      filter: ['==', ['geometry-type'], 'Point'],
      paint: { ...ring, 'circle-radius': 4 },
    },
    {
      id: 'picked',
      type: 'circle',
      source: 'picked',
      paint: { ...ring, 'circle-opacity': 0, 'circle-radius': ['interpolate', ['linear'], ['zoom'], 15.5, 6, 20, 24] },
    },
    { ...label('site-names', 'site-points', 'code', 9, 14), maxzoom: 14 } as LayerSpecification,
    label('block-codes', 'block-points', 'code', 13.8, 13),
    stationNames(),
  ];
}

// Below the ring, not over it.
function stationNames(): LayerSpecification {
  const names = label('station-names', 'stations', 'name', 11, 12) as Extract<LayerSpecification, { type: 'symbol' }>;
  return { ...names, layout: { ...names.layout, 'text-anchor': 'top', 'text-offset': [0, 0.6] } };
}
