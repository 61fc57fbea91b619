import { describe, expect, it } from 'vitest';
import type { Chart, Curve, Field, Node, Origin, Reply } from '../src/api/types';
import { inOrder, labelSpot, spots, spread } from '../src/charts/marks';
import { fromReply } from '../src/margin/reply';
import { markOf, MARKS } from '../src/margin/origins';
import { entriesOf } from '../src/views/fields';
import { gatesFirst } from '../src/views/planParts';
import { parseRoute } from '../src/views/address';

const word = (key: string) => ({ key, arguments: {} });

describe('origin marks', () => {
  it('are four, all different, and what is computed has none of them', () => {
    const marks = MARKS.map((origin) => markOf(origin));
    expect(new Set(marks).size).toBe(4);
    for (const origin of ['computed', 'chosen', undefined] as (Origin | undefined)[]) expect(marks).not.toContain(markOf(origin));
  });
});

describe('the letter', () => {
  it('tells what may not be planted right after its first words', () => {
    const part = (name: string) => ({ heading: word(`plan.heading.${name}`), sentences: [] });
    const order = gatesFirst([part('answer'), part('where'), part('hold'), part('next')]).map((one) => one.heading.key);
    expect(order).toEqual(['answer', 'hold', 'where', 'next'].map((name) => `plan.heading.${name}`));
  });
});

describe('fields', () => {
  const field = (name: string, more: Partial<Field> = {}): Field => ({ name, kind: 'text', required: false, repeats: false, choices: [], low: null, high: null, ...more });
  it('that were left empty are not sent', () => {
    expect(entriesOf([field('a'), field('b')], { a: ['  '], b: ['x '] })).toEqual({ entries: { b: ['x'] }, problems: {} });
  });
  it('that are needed say so', () => {
    expect(entriesOf([field('a', { required: true })], { a: [''] }).problems.a?.key).toBe('page.missing');
  });
  it('send numbers with a dot, within their range', () => {
    const rain = field('rain', { kind: 'number', low: 0, high: 2000 });
    expect(entriesOf([rain], { rain: ['12,5'] }).entries).toEqual({ rain: ['12.5'] });
    expect(entriesOf([rain], { rain: ['-1'] }).problems.rain?.key).toBe('page.outside');
    expect(entriesOf([field('n', { kind: 'whole', low: 0 })], { n: ['-2'] }).problems.n?.key).toBe('page.too_small');
    expect(entriesOf([field('n', { kind: 'whole' })], { n: ['1.5'] }).problems.n?.key).toBe('page.not_whole');
  });
  it('that repeat send every line', () => {
    expect(entriesOf([field('who', { repeats: true })], { who: ['a', '', 'b'] }).entries).toEqual({ who: ['a', 'b'] });
  });
});

describe('charts', () => {
  const curve = (more: Partial<Curve> = {}): Curve => ({ label: word('l'), shape: 'line', ink: 'ink', x: [0, 1], y: [1, null], low: [], ...more });
  const chart: Chart = { name: 'c', caption: word('c'), x_label: word('x'), y_label: word('y'), x_is_day: true, from_zero: true, curves: [] };
  it('keep gaps as gaps and count days from 1970', () => {
    const list = spots(chart, curve({ x: [0, 20000] }));
    expect(list[1]?.x).toEqual(new Date('2024-10-04'));
    expect(list[1]?.y).toBeNaN();
  });
  it('label a curve at its last point that is no gap', () => {
    expect(labelSpot(spots({ ...chart, x_is_day: false }, curve()))?.x).toBe(0);
    expect(labelSpot([])).toBeUndefined();
  });
  it('push labels apart, and keep them inside', () => {
    expect(spread([10, 10, 100], [14, 14, 14], 0, 100)).toEqual([10, 24, 93]);
    expect(spread([99, 98], [20, 20], 0, 100)).toEqual([90, 70]);
  });
  it('draw bands below what they bound', () => {
    expect(inOrder([curve({ shape: 'line' }), curve({ shape: 'band' })]).map((one) => one.shape)).toEqual(['band', 'line']);
  });
});

describe('workings inside a reply', () => {
  const node = (key: string, inputs: string[] = []): Node => ({ key, label: word(key), value: 1, unit: '', origin: 'computed', formula: inputs.length ? 'f' : '', source: '', note: '', inputs });
  const reply: Reply = { name: 'r', answer: word('a'), parts: [], tables: [], charts: [], findings: [], workings: [node('sum', ['a', 'b']), node('a'), node('b')] };
  it('open into their inputs and tell who uses them', () => {
    expect(fromReply(reply, 'sum')?.inputs.map((one) => one.key)).toEqual(['a', 'b']);
    expect(fromReply(reply, 'a')?.used_by.map((one) => one.key)).toEqual(['sum']);
    expect(fromReply(reply, 'c')).toBeUndefined();
  });
});

describe('addresses', () => {
  it('name a view and what is shown in it; what is not known is the letter', () => {
    expect(parseRoute('#ask/today')).toEqual({ view: 'ask', name: 'today' });
    expect(parseRoute('')).toEqual({ view: 'letter', name: '' });
    expect(parseRoute('#nowhere')).toEqual({ view: 'letter', name: '' });
  });
});
