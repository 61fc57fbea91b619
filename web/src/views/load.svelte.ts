/** Something fetched, fetched again when the programme changed; what was there stays until the new is. */
import { ApiFault } from '../api/client';
import { live } from '../api/live.svelte';
import type { Fault } from '../api/types';

export class Loaded<T> {
  value = $state.raw<T | undefined>(undefined);
  fault = $state.raw<Fault | null>(null);
  private turn = 0;

  constructor(private readonly fetchIt: () => Promise<T>) {}

  async fetch(): Promise<void> {
    const turn = ++this.turn;
    try {
      const value = await this.fetchIt();
      if (turn !== this.turn) return;
      this.value = value;
      this.fault = null;
    } catch (fault) {
      if (turn !== this.turn) return;
      // A program that is gone is told at the top of the page; it is asked again when it is back.
      if (fault instanceof ApiFault) this.fault = fault.fault;
    }
  }
}

/** Call while a component is set up. */
export function loaded<T>(fetchIt: () => Promise<T>): Loaded<T> {
  const result = new Loaded(fetchIt);
  $effect(() => {
    if (live.version > 0 && !live.gone) void result.fetch();
  });
  return result;
}
