import { describe, expect, it } from 'vitest';
import { noteGroups, questionGroups } from '../src/views/groups';

const named = (...names: string[]): { name: string }[] => names.map((name) => ({ name }));

describe('groups', () => {
  it('begin with the question of every morning, whatever the order of the program', () => {
    expect(questionGroups(named('money', 'fire', 'today'))[0]).toEqual({ key: 'weather', list: named('today', 'fire') });
  });
  it('leave nothing out: what no heading claims stands last', () => {
    const groups = noteGroups(named('day', 'something-new', 'burn'));
    expect(groups.map((group) => group.key)).toEqual(['weather', 'means', 'other']);
    expect(groups.at(-1)?.list).toEqual(named('something-new'));
  });
  it('have no empty headings', () => {
    expect(questionGroups([])).toEqual([]);
  });
});
