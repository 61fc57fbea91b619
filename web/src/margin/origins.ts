import type { Origin } from '../api/types';

/**
 * The class of a number's underline. Four marks tell where a number comes from; what is computed or chosen
 * rests on others and has a thin line that says only: this opens.
 */
export function markOf(origin: Origin | undefined): string {
  switch (origin) {
    case 'measured':
    case 'told':
    case 'documented':
    case 'assumed':
      return `mark-${origin}`;
    default:
      return 'mark-open';
  }
}

/** The four that the legend explains, in the order of how firm they are. */
export const MARKS = ['measured', 'told', 'documented', 'assumed'] as const;
