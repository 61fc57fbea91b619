/** Questions and notes under plain headings, in the order a person meets them. Pure. */

export interface Group<T> {
  /** of the heading: `page.group.KEY` */
  key: string;
  list: T[];
}

const QUESTIONS: Record<string, string[]> = {
  weather: ['today', 'season', 'water', 'spells', 'fire', 'heat', 'quality', 'trend', 'pair', 'hindcast', 'simulate'],
  field: ['due', 'tomorrow', 'settle', 'pay', 'rates'],
  year: ['calendar', 'crew', 'refill', 'money', 'burnt'],
};

const NOTES: Record<string, string[]> = {
  weather: ['day', 'look', 'fire-word', 'wet-months'],
  field: ['send', 'work', 'slip', 'dispatch', 'walk', 'count', 'firebreak', 'tool', 'trouble'],
  means: ['income', 'price', 'wage', 'told', 'burn', 'access', 'depot'],
};

function grouped<T extends { name: string }>(all: readonly T[], order: Record<string, string[]>): Group<T>[] {
  const groups = Object.entries(order).map(([key, names]) => ({
    key,
    list: names.flatMap((name) => all.filter((one) => one.name === name)),
  }));
  const known = new Set(Object.values(order).flat());
  groups.push({ key: 'other', list: all.filter((one) => !known.has(one.name)) });
  return groups.filter((group) => group.list.length > 0);
}

/** What no heading claims stands under "other": nothing the program offers is left out. */
export const questionGroups = <T extends { name: string }>(all: readonly T[]): Group<T>[] => grouped(all, QUESTIONS);
export const noteGroups = <T extends { name: string }>(all: readonly T[]): Group<T>[] => grouped(all, NOTES);
