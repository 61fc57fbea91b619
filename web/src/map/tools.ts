// The row of controls above the map: scale, species to point out, tape.
import { button, element } from './dom';
import type { Say } from './legend';
import { countSpecies, type Places } from './places';

export interface Acts {
  nearer(): void;
  farther(): void;
  all(): void;
  choose(species: number | null): void;
  measure(on: boolean): void;
  takeBack(): void;
}

export interface ToolState {
  chosen: number | null;
  measuring: boolean;
}

export function toolRow(say: Say, places: Places | null, state: ToolState, acts: Acts): HTMLElement {
  const row = element('div', { class: 'map-tools' });
  row.append(
    button('+', acts.nearer, { 'aria-label': say('map.zoom.in'), title: say('map.zoom.in'), class: 'map-sign' }),
    button('−', acts.farther, { 'aria-label': say('map.zoom.out'), title: say('map.zoom.out'), class: 'map-sign' }),
    button(say('map.zoom.all'), acts.all),
    button(say(state.measuring ? 'map.measure.stop' : 'map.measure'), () => acts.measure(!state.measuring), {
      'aria-pressed': String(state.measuring),
    }),
  );
  if (state.measuring) row.append(button(say('map.measure.undo'), acts.takeBack));
  if (places !== null && places.species.length > 0) row.append(chooser(say, places, state.chosen, acts));
  return row;
}

function chooser(say: Say, places: Places, chosen: number | null, acts: Acts): HTMLElement {
  const select = element('select', {}, element('option', { value: '' }, say('map.choose.none')));
  const counts = countSpecies(places);
  places.species.forEach(({ name }, i) => {
    if (counts[i] === 0) return;
    select.append(element('option', { value: String(i) }, say('map.choose.option', { name, count: counts[i]! })));
  });
  select.value = chosen === null ? '' : String(chosen);
  select.addEventListener('change', () => acts.choose(select.value === '' ? null : Number(select.value)));
  return element('label', {}, say('map.choose.label'), ' ', select);
}
