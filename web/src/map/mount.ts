// The map's door for the page; load it lazily: `const { mountMap } = await import('./map/mount')`.
import { MapView, type MapHandle, type MapInput } from './view';

export type { Land } from './land';
export type { Say } from './legend';
export type { Hillshade } from './style';
export type { MapHandle, MapInput } from './view';
export type { Pick } from './words_panel';

/** Draws the map into the element, which gives its size; `update` takes over what changes. */
export function mountMap(into: HTMLElement, input: MapInput): MapHandle {
  return new MapView(into, input);
}
