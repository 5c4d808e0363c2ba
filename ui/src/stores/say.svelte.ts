/** What has just been done, for eyes and screen readers; with a way back where there is one, which may tell what else holds. */
class Say {
  text = $state('');
  undo = $state.raw<(() => Promise<string | void>) | null>(null);
  private timer: ReturnType<typeof setTimeout> | undefined;

  done(text: string, undo: (() => Promise<string | void>) | null = null): void {
    this.text = text;
    this.undo = undo;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.hush(), undo ? 12_000 : 6000);
  }

  hush(): void {
    this.text = '';
    this.undo = null;
  }
}

export const say = new Say();
