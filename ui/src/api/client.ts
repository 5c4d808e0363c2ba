import { words } from '../words/en';
import type { Answers, Fault, Orders } from '../contract/answers';
import type { Sentence } from '../contract/sentence';
import { Keys } from './keys';

export type Query = Record<string, string | string[] | undefined>;

/** What the server, or the way to it, did not do. Carries the server's own words. */
export class Refusal extends Error {
  constructor(readonly fault: Fault) {
    super(fault.message);
  }
}

/** A fault the server cannot tell of, in words of the page. */
function ours(kind: Fault['kind'], told: { what: string; remedy: string }, value = ''): Refusal {
  const said = (text: string): Sentence => text as Sentence;
  const what = said(told.what);
  return new Refusal({
    kind,
    value,
    where: '',
    what,
    remedy: said(told.remedy),
    limit: said(''),
    message: what,
  });
}

const unreachable = (): Refusal => ours('unreachable', words.faults.unreachable);
const unpaired = (): Refusal => ours('unpaired', words.faults.unpaired);
const unreadable = (status: number): Refusal => ours('system', words.faults.unreadable, String(status));

export const faultOf = (error: unknown): Fault =>
  error instanceof Refusal ? error.fault : unreadable(0).fault;

interface Envelope {
  result?: unknown;
  error?: Fault;
}

async function reach(path: string, init: RequestInit): Promise<Response> {
  try {
    return await fetch(`/api/${path}`, { credentials: 'same-origin', ...init });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw unreachable();
  }
}

async function resultOf(response: Response): Promise<unknown> {
  if (response.status === 401) throw unpaired();
  let envelope: Envelope;
  try {
    envelope = (await response.json()) as Envelope;
  } catch {
    throw response.status >= 502 ? unreachable() : unreadable(response.status);
  }
  if (envelope.error) throw new Refusal(envelope.error);
  return envelope.result;
}

export function asQuery(query: Query): string {
  const pairs = new URLSearchParams();
  for (const [key, value] of Object.entries(query)) {
    for (const one of Array.isArray(value) ? value : [value]) if (one) pairs.append(key, one);
  }
  const text = pairs.toString();
  return text && `?${text}`;
}

/** The last answer to each question, by its path, and the entity tag the server gave it. */
const last = new Map<string, { tag: string | null; result: unknown }>();

/** What was answered to this question before; undefined: nothing, or it has been refused since. */
export const lastAnswer = <K extends keyof Answers>(what: K, query: Query): Answers[K] | undefined =>
  last.get(what + asQuery(query))?.result as Answers[K] | undefined;

/** An answer that is the same as before is not sent again (RFC 9110, 13.1.2), and is the same object. */
export async function get<K extends keyof Answers>(what: K, query: Query = {}): Promise<Answers[K]> {
  const path = what + asQuery(query);
  const before = last.get(path);
  const response = await reach(path, before?.tag ? { headers: { 'If-None-Match': before.tag } } : {});
  if (before && response.status === 304) return before.result as Answers[K];
  try {
    const result = await resultOf(response);
    last.set(path, { tag: response.headers.get('ETag'), result });
    return result as Answers[K];
  } catch (error) {
    if (faultOf(error).kind !== 'unreachable') last.delete(path);
    throw error;
  }
}

/** Heard on the window when something went on record; `detail` is the address it was sent from. */
export const sent = 'mitefall-sent';

const keys = new Keys();
/** What puts nothing in the journal needs no key. */
const keyless: ReadonlySet<keyof Orders> = new Set(['sharing', 'pair']);

/** Writes something; the server's events tell every open screen about it. `request`: the key of a request that is kept. */
export async function post<K extends keyof Orders>(
  what: K,
  body: object = {},
  request?: string,
): Promise<Orders[K]> {
  if (keyless.has(what) || 'dry_run' in body) return (await send('POST', what, body)) as Orders[K];
  const from = location.hash;
  const answer = await send('POST', what, { ...body, request: request ?? keys.of(what, body) });
  keys.answered(what, body);
  dispatchEvent(new CustomEvent(sent, { detail: from }));
  return answer as Orders[K];
}

export async function send(method: 'POST' | 'GET' | 'DELETE', path: string, body?: object): Promise<unknown> {
  const headers = { 'Content-Type': 'application/json' };
  const init = body ? { method, headers, body: JSON.stringify(body) } : { method, headers };
  return resultOf(await reach(path, init));
}
