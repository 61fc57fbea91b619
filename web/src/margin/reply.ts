import type { Node, Reply, WorkingsAnswer } from '../api/types';

/** The workings as a reply carries them: without the formula's wording, which only the program knows. */
export function fromReply(reply: Reply, key: string): WorkingsAnswer | undefined {
  const node = reply.workings.find((candidate) => candidate.key === key);
  if (!node) return undefined;
  const byKey = new Map(reply.workings.map((candidate) => [candidate.key, candidate]));
  const inputs = node.inputs.map((input) => byKey.get(input)).filter((input): input is Node => input !== undefined);
  const users = reply.workings.filter((candidate) => candidate.inputs.includes(key)).slice(0, 20);
  return {
    node,
    formula: node.formula === '' ? null : { id: node.formula, text: '', source: '' },
    inputs,
    used_by: users.map((user) => ({ key: user.key, label: user.label })),
    parameter: null,
  };
}
