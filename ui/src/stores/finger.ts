/** A tap is over within this (assumption): nothing is held back for longer. */
const longestTap = 700;

let lifted = Promise.resolve();
let lift = (): void => {};

/** Called once, from the shell. */
export function watchFinger(on: EventTarget): void {
  const down = (): void => {
    lift();
    lifted = new Promise((resolve) => (lift = resolve));
    setTimeout(lift, longestTap);
  };
  // The click comes after the finger is up, and before what waits.
  const up = (): void => void setTimeout(lift);
  on.addEventListener('pointerdown', down, true);
  for (const end of ['pointerup', 'pointercancel']) on.addEventListener(end, up, true);
}

/** Waits while a tap is under way: what moves under a finger takes the tap from what it was meant for. */
export const noFinger = (): Promise<void> => lifted;
