/** The view named behind # in the address: "#letter", "#ask/today". */
export const VIEWS = ['letter', 'map', 'ask', 'write', 'gates', 'take', 'numbers', 'sheets'] as const;
export type View = (typeof VIEWS)[number];

export function parseRoute(hash: string): { view: View; name: string } {
  const [first = '', name = ''] = hash.replace(/^#\/?/, '').split('/');
  const view = (VIEWS as readonly string[]).includes(first) ? (first as View) : 'letter';
  return { view, name: decodeURIComponent(name) };
}
