import { noFinger } from './finger';

/** What has just been done, for eyes and screen readers; with a way back where there is one, which may tell what else holds. */
class Say {
  text = $state('');
  undo = $state.raw<(() => Promise<string | void>) | null>(null);
  /** How many entries the way back takes back. */
  count = $state(1);
  private timer: ReturnType<typeof setTimeout> | undefined;

  done(text: string, undo: (() => Promise<string | void>) | null = null, count = 1): void {
    this.text = text;
    this.undo = undo;
    this.count = count;
    clearTimeout(this.timer);
    const timer = setTimeout(() => void noFinger().then(() => this.fade(timer)), undo ? 12_000 : 6000);
    this.timer = timer;
  }

  /** Unless something else is told meanwhile. */
  private fade(timer: Say['timer']): void {
    if (timer === this.timer) this.hush();
  }

  hush(): void {
    this.text = '';
    this.undo = null;
  }
}

export const say = new Say();
