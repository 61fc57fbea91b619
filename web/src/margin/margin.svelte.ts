/** The margin: which number is open, and the way that led to it. */
import { ApiFault, getOrigins, getWorkings } from '../api/client';
import type { Entries, Fault, Message, Node, Origin, Reply, WorkingsAnswer } from '../api/types';
import { untrack } from 'svelte';
import { fromReply } from './reply';

/** Where a number stands: in the plan, or in the reply to a question. */
export interface ReplyPlace {
  reply: Reply;
  entries: Entries;
  slow: boolean;
}
export interface Stop {
  key: string;
  label: Message | null;
}

class Margin {
  trail = $state.raw<Stop[]>([]);
  shown = $state.raw<WorkingsAnswer | null>(null);
  fault = $state.raw<Fault | null>(null);
  busy = $state(false);
  /** Origins of the numbers seen so far, for their underlines. */
  origins = $state.raw<Record<string, Origin>>({});
  place: ReplyPlace | null = null;
  private back: HTMLElement | null = null;
  private asked = 0;

  get open(): boolean {
    return this.trail.length > 0;
  }

  know(origins: Record<string, Origin>): void {
    const before = untrack(() => this.origins);
    if (Object.entries(origins).some(([key, origin]) => before[key] !== origin)) this.origins = { ...before, ...origins };
  }

  learn(nodes: readonly Node[]): void {
    this.know(Object.fromEntries(nodes.map((node) => [node.key, node.origin])));
  }

  /** Asks for the origins of numbers of the plan that are shown; those that are known already are asked for again. */
  async lookUp(keys: readonly string[]): Promise<void> {
    try {
      this.know(await getOrigins([...new Set(keys)]));
    } catch {
      // Without an answer the lines stay thin; each number still opens.
    }
  }

  async start(key: string, place: ReplyPlace | null, from: HTMLElement | null): Promise<void> {
    this.back = from;
    this.place = place;
    this.trail = [{ key, label: null }];
    await this.fetch(key);
  }

  async deeper(key: string): Promise<void> {
    const at = this.trail.findIndex((stop) => stop.key === key);
    this.trail = at >= 0 ? this.trail.slice(0, at + 1) : [...this.trail, { key, label: null }];
    await this.fetch(key);
  }

  async refresh(): Promise<void> {
    const last = this.trail[this.trail.length - 1];
    if (last) await this.fetch(last.key, true);
  }

  close(): void {
    this.trail = [];
    this.shown = null;
    this.fault = null;
    const back = this.back;
    this.back = null;
    back?.focus();
  }

  private async fetch(key: string, quietly = false): Promise<void> {
    const turn = ++this.asked;
    this.busy = true;
    if (!quietly) this.fault = null;
    try {
      const answer = await this.answer(key);
      if (turn !== this.asked || this.trail[this.trail.length - 1]?.key !== key) return;
      this.shown = answer;
      this.learn([answer.node, ...answer.inputs]);
      this.trail = this.trail.map((stop) => (stop.key === key ? { key, label: answer.node.label } : stop));
    } catch (fault) {
      if (turn !== this.asked) return;
      this.shown = null;
      this.fault = fault instanceof ApiFault ? fault.fault : { kind: 'io', where: '', message: { key: 'page.gone', arguments: {} } };
    } finally {
      if (turn === this.asked) this.busy = false;
    }
  }

  private async answer(key: string): Promise<WorkingsAnswer> {
    const place = this.place;
    if (!place) return getWorkings(key);
    const own = fromReply(place.reply, key);
    if (place.slow && own) return own;
    try {
      return await getWorkings(key, { name: place.reply.name, entries: place.entries });
    } catch (fault) {
      if (own) return own;
      throw fault;
    }
  }
}

export const margin = new Margin();
