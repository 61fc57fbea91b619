/** Calls to the program on this computer. Nothing here goes anywhere else. */
import type {
  Entries, Fault, Intake, Job, Language, Message, NoteKind, Origin, Parameter, Plan, Question, Reply, State, WorkingsAnswer, Finding,
} from './types';
import type { Hillshade, Land } from '../map/mount';

/** The program answered with a sentence why not. */
export class ApiFault extends Error {
  constructor(
    readonly status: number,
    readonly fault: Fault,
    /** What was found in a file that could not be taken in. */
    readonly findings: Finding[] = [],
  ) {
    super(fault.message.key);
  }
}

/** The program did not answer at all. */
export class Gone extends Error {}

function asFault(status: number, body: unknown): Fault {
  const record = (typeof body === 'object' && body !== null ? body : {}) as Record<string, unknown>;
  const message = record.message as Message | undefined;
  if (message && typeof message === 'object' && typeof message.key === 'string') {
    return { kind: String(record.kind ?? ''), where: String(record.where ?? ''), message };
  }
  if (typeof record.key === 'string') return { kind: '', where: '', message: record as unknown as Message };
  return { kind: '', where: '', message: { key: 'page.fault_status', arguments: { status: String(status) } } };
}

async function call(path: string, init: RequestInit = {}): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, { credentials: 'same-origin', ...init });
  } catch (cause) {
    throw new Gone(String(cause));
  }
  if (response.ok) return response;
  const text = await response.text().catch(() => '');
  let body: unknown;
  try {
    body = JSON.parse(text);
  } catch {
    body = undefined;
  }
  const findings = (body as { findings?: Finding[] } | undefined)?.findings ?? [];
  throw new ApiFault(response.status, asFault(response.status, body), findings);
}

async function get<T>(path: string): Promise<T> {
  return (await call(path)).json() as Promise<T>;
}

async function send<T>(method: string, path: string, body: unknown, headers: Record<string, string> = {}): Promise<T> {
  const response = await call(path, {
    method,
    headers: { 'Content-Type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  const text = await response.text();
  return (text === '' ? {} : JSON.parse(text)) as T;
}

function query(parts: Record<string, string | string[]>): string {
  const list = new URLSearchParams();
  for (const [name, value] of Object.entries(parts)) for (const one of [value].flat()) list.append(name, one);
  return list.toString();
}

export const getState = (): Promise<State> => get('api/state');
export const getWords = (language: Language): Promise<Record<string, string>> => get(`api/words/${language}`);
export const getPlan = (): Promise<Plan> => get('api/plan');
export const getFindings = (): Promise<Intake[]> => get('api/findings');
export const getParameters = (): Promise<Parameter[]> => get('api/parameters');
export const getQuestions = (): Promise<Question[]> => get('api/questions');
export const getNotes = (): Promise<NoteKind[]> => get('api/notes');
export const getReply = (name: string, entries: Entries): Promise<Reply> => get(`api/reply?${query({ name, ...entries })}`);
export const getWorkings = (key: string, reply?: { name: string; entries: Entries }): Promise<WorkingsAnswer> =>
  get(`api/workings?${query({ key, ...(reply ? { reply: reply.name, ...reply.entries } : {}) })}`);

/** Origins of numbers of the plan, a few dozen at a time so that the address stays short. */
export async function getOrigins(keys: readonly string[]): Promise<Record<string, Origin>> {
  const all: Record<string, Origin> = {};
  for (let i = 0; i < keys.length; i += 50) Object.assign(all, await get(`api/origins?${query({ key: keys.slice(i, i + 50) })}`));
  return all;
}

export const putParameter = (value: { key: string; value: number; origin: string; source: string }, rowVersion: number): Promise<unknown> =>
  send('PUT', 'api/parameter', value, { 'If-Match': String(rowVersion) });
export const postAnswer = (answer: Record<string, unknown>): Promise<{ message?: Message }> => send('POST', 'api/answer', answer);
export const postNote = (name: string, entries: Entries): Promise<{ message: Message }> => send('POST', 'api/note', { name, entries });

export const startPlan = (seed: string, today: string): Promise<Job> => send('POST', 'api/jobs', { kind: 'plan', seed, today });
export const startReply = (name: string, entries: Entries): Promise<Job> => send('POST', 'api/jobs', { kind: 'reply', name, entries });
export const getJob = (id: string | number): Promise<Job> => get(`api/jobs/${id}`);
export const getJobResult = (id: string | number): Promise<Reply> => get(`api/jobs/${id}/result`);
export const cancelJob = (id: string | number): Promise<unknown> => send('POST', `api/jobs/${id}/cancel`, {});

export const getLand = (): Promise<Land> => get('api/land');
export const getPlaces = async (): Promise<ArrayBuffer> => (await call('api/places')).arrayBuffer();

/**
 * The relief as a picture with the box it covers. The map fetches it again by its address, from the browser's cache:
 * the page's policy lets scripts fetch from the program only, and a blob is not the program.
 */
export async function getHillshade(): Promise<Hillshade> {
  const response = await call('api/hillshade');
  const [west = 0, south = 0, east = 0, north = 0] = (response.headers.get('X-Bounds') ?? '').split(',').map(Number);
  await response.arrayBuffer();
  const tag = encodeURIComponent(response.headers.get('ETag') ?? ''); // a new picture has a new address
  return { url: new URL(`api/hillshade?tag=${tag}`, document.baseURI).href, bounds: [west, south, east, north] };
}

export const sheetAddress = (kind: string, language: Language): string => `api/sheet?${query({ kind, lang: language })}`;
/** Makes the sheet once, to learn whether it can be made. */
export const getSheet = async (address: string): Promise<void> => void (await (await call(address)).arrayBuffer());

export async function takeFile(what: string, file: File, options: Record<string, string>): Promise<{ message: Message; findings: Finding[] }> {
  const response = await call(`api/take?${query({ what, name: file.name, ...options })}`, {
    method: 'POST',
    headers: { 'Content-Type': 'application/octet-stream' },
    body: file,
  });
  return response.json() as Promise<{ message: Message; findings: Finding[] }>;
}
