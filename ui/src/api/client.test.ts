import { afterEach, expect, it, vi } from 'vitest';
import { get, lastAnswer } from './client';

const asked: (string | null)[] = [];

/** A server that answers in turn what is given. */
function serves(...answers: (Response | 'unreachable')[]): void {
  asked.length = 0;
  vi.stubGlobal('fetch', (_: string, init: RequestInit) => {
    asked.push(new Headers(init.headers).get('If-None-Match'));
    const next = answers.shift();
    return next === 'unreachable' ? Promise.reject(new TypeError('no way')) : Promise.resolve(next);
  });
}
const tagged = (tag: string, result: object): Response =>
  new Response(JSON.stringify({ result }), { headers: { ETag: tag } });
const refused = (): Response =>
  new Response(JSON.stringify({ error: { kind: 'not-found' } }), { status: 404 });
const same = (): Response => new Response(null, { status: 304 });

afterEach(() => vi.unstubAllGlobals());

it('tells which answer it has, and gives the same one when that is the same', async () => {
  serves(tagged('W/"1"', { day: 'one' }), same(), tagged('W/"2"', { day: 'two' }), same());
  const first = await get('worklist');
  expect(await get('worklist')).toBe(first);
  const second = await get('worklist');
  expect(second).toEqual({ day: 'two' });
  expect(await get('worklist')).toBe(second);
  expect(asked).toEqual([null, 'W/"1"', 'W/"1"', 'W/"2"']);
});

it('keeps the answer to one question from another', async () => {
  serves(tagged('W/"1"', { day: 'one' }), tagged('W/"7"', { day: 'of Ada' }));
  await get('journal');
  expect(await get('history', { animal: 'ada' })).toEqual({ day: 'of Ada' });
  expect(asked).toEqual([null, null]);
});

it('remembers through a lost connection, and forgets what is refused', async () => {
  serves(tagged('W/"1"', { day: 'one' }), 'unreachable', refused(), tagged('W/"1"', { day: 'one' }));
  await get('course');
  await expect(get('course')).rejects.toThrow();
  expect(lastAnswer('course', {})).toEqual({ day: 'one' });
  await expect(get('course')).rejects.toThrow();
  expect(lastAnswer('course', {})).toBeUndefined();
  await get('course');
  expect(asked).toEqual([null, 'W/"1"', 'W/"1"', null]);
});
