/** A second tap of one hand comes within this (assumption). */
const restMs = 700;

/** A key that rests for a moment: the tap that follows at once was meant for what stood there before. */
export class Rest {
  now = $state(false);
  private timer: ReturnType<typeof setTimeout> | undefined;

  begin(): void {
    this.now = true;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => (this.now = false), restMs);
  }
}
