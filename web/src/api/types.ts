/** What the program on this computer sends (room desk). Held against its real JSON by test/shapes.test.ts. */

export type Language = 'en' | 'id';
export type Day = { day: string };
export type Argument = string | number | null | Day;

/** A sentence before it has a language. `opens`: argument name to key of the workings its number comes from. */
export interface Message {
  key: string;
  arguments: Record<string, Argument>;
  opens?: Record<string, string>;
}

export type Origin = 'measured' | 'told' | 'documented' | 'assumed' | 'computed' | 'chosen';

export interface Node {
  key: string;
  label: Message;
  value: number | null;
  unit: string;
  origin: Origin;
  formula: string;
  source: string;
  note: string;
  inputs: string[];
}

export interface Formula {
  id: string;
  text: string;
  source: string;
}

export interface Parameter {
  key: string;
  value: number;
  low: number | null;
  high: number | null;
  unit: string;
  origin: Origin;
  source: string;
  note: string;
  row_version: number;
}

export interface WorkingsAnswer {
  node: Node;
  formula: Formula | null;
  inputs: Node[];
  used_by: { key: string; label: Message }[];
  parameter: Parameter | null;
}

export type Severity = 'note' | 'changed' | 'set_aside';
export interface Finding {
  severity: Severity;
  where: string;
  message: Message;
}

export interface Intake {
  file: string;
  kind: string;
  day: string;
  kept: number;
  set_aside: number;
  findings: Finding[];
}

export interface LetterPart {
  heading: Message;
  sentences: Message[];
}

export type CellValue = Message | string | number | Day | null;
export interface Cell {
  value: CellValue;
  opens?: string;
}
export interface Column {
  name: string;
  heading: Message;
  decimals: number;
}
export interface Table {
  name: string;
  caption: Message;
  columns: Column[];
  rows: Cell[][];
}

export type Ink = 'ink' | 'leaf' | 'straw' | 'clay' | 'water' | 'smoke';
export type Shape = 'line' | 'bars' | 'points' | 'band';
export interface Curve {
  label: Message;
  shape: Shape;
  ink: Ink;
  x: (number | null)[];
  y: (number | null)[];
  low: (number | null)[];
}
export interface Chart {
  name: string;
  caption: Message;
  x_label: Message;
  y_label: Message;
  x_is_day: boolean;
  from_zero: boolean;
  curves: Curve[];
}

export interface Reply {
  name: string;
  answer: Message;
  parts: LetterPart[];
  tables: Table[];
  charts: Chart[];
  findings: Finding[];
  workings: Node[];
}

export type FieldKind = 'text' | 'day' | 'number' | 'whole' | 'yes_no' | 'choice';
export interface Field {
  name: string;
  kind: FieldKind;
  required: boolean;
  repeats: boolean;
  choices: string[];
  low: number | null;
  high: number | null;
}
export interface Question {
  name: string;
  slow: boolean;
  fields: Field[];
}
export interface NoteKind {
  name: string;
  fields: Field[];
}
export type Entries = Record<string, string[]>;

export interface Fault {
  kind: string;
  where: string;
  message: Message;
}

export type JobState = 'waiting' | 'running' | 'done' | 'failed' | 'cancelled' | 'interrupted';
export interface Job {
  id: string | number;
  kind: string;
  state: JobState;
  share: number;
  step: Message | null;
  error: Fault | null;
  result?: unknown;
}

export interface PlanState {
  number: number;
  stale: boolean;
  today: string;
  seed: string;
}

export interface State {
  program_version: string;
  file: string;
  programme: string;
  language: Language;
  data_version: number;
  today: string;
  writable: boolean;
  invented_figures: boolean;
  plan: PlanState | null;
  job: Job | null;
}

/** The stored plan: what the letter view reads of it. */
export interface PlanHead {
  number: number;
  programme: string;
  invented_figures: boolean;
  fingerprint: string;
  seed: string;
  program_version: string;
  today: string;
}
export interface PeriodPart {
  period: number;
  good: number;
  judged: number;
}
export interface WindowPart {
  has_log: boolean;
  found: boolean;
  first_period: number;
  last_period: number;
  station: string;
  days_in_log: number;
  days_missing: number;
  log_first: string | null;
  log_last: string | null;
  good_years: number;
  of_years: number;
  periods: PeriodPart[];
}
export interface BlockPart {
  block: { code: string; site: string; ground_type: string; gates: Gates };
  area_ha: number;
  open: boolean;
  reasons: Message[];
  method: string;
  planted: number;
  rows: number;
}
export interface SpeciesPart {
  name: string;
  local_name: string;
  group: string;
  ready: number | null;
  can_raise: number | null;
  planted: number;
  draft: number;
}
export interface CollectPart {
  species: string;
  local_name: string;
  way: string;
  to_field: number;
  ready: number;
  count: number;
  seed_kg: number | null;
  fruit_kg: number | null;
  trees_to_visit: number;
  collect_from: string | null;
  collect_by: string | null;
  sow_by: string | null;
  timing: string;
  stand_in: string;
}
export interface WeekPart {
  first: string;
  days: number;
  person_days: number;
  people: number;
}
export interface SumPart {
  name: string;
  person_days: number;
  wages: number;
  materials: number;
}
export interface Plan {
  head: PlanHead;
  sites: { code: string; area_ha: number; blocks: number; open_blocks: number }[];
  blocks: BlockPart[];
  window: WindowPart;
  species: SpeciesPart[];
  collections: CollectPart[];
  weeks: WeekPart[];
  money: {
    seedlings: number;
    wages: number;
    materials: number;
    total: number;
    person_days: number;
    years: number;
    by_job: SumPart[];
  };
  letter: LetterPart[];
}

export interface GateAnswer {
  answer: 'yes' | 'no' | 'not_asked' | string;
  who: string;
  day: string | null;
  note: string;
}
export interface Gates {
  consent: GateAnswer;
  fire_and_cattle: GateAnswer;
  drained_peat: GateAnswer;
  natural_trees_counted: GateAnswer;
  natural_trees_per_ha: number | null;
}
