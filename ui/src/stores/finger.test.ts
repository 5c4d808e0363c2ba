import { describe, expect, it } from 'vitest';
import { noFinger, watchFinger } from './finger';

describe('what comes by itself', () => {
  const screen = new EventTarget();
  watchFinger(screen);
  const told = (log: string[], what: string) => noFinger().then(() => void log.push(what));

  it('comes at once where no finger is down', async () => {
    const log: string[] = [];
    await told(log, 'answer');
    expect(log).toEqual(['answer']);
  });

  it.each(['pointerup', 'pointercancel'])('waits for the tap that is under way (%s)', async (end) => {
    const log: string[] = [];
    screen.dispatchEvent(new Event('pointerdown'));
    const answer = told(log, 'answer');
    await Promise.resolve();
    log.push('up');
    screen.dispatchEvent(new Event(end));
    log.push('click');
    await answer;
    expect(log).toEqual(['up', 'click', 'answer']);
  });
});
