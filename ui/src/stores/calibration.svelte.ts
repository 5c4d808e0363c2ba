// How large a millimetre is on the screen of this device: held against a card or a coin once, and kept.
import { keep, recall } from './kept';

const key = 'mitefall.millimetre';
/** Pixels of the page for a millimetre as a browser means it: 96 to the inch (CSS Values 4, 5.2). */
const usual = 96 / 25.4;

class Calibration {
  /** Dots of the screen for a millimetre; null: not set. They stay when the page is made larger, its pixels do not. */
  private dots = $state(recall<{ dots: number | null }>(key, { dots: null }).dots);
  private ratio = $state(devicePixelRatio);

  constructor() {
    addEventListener('resize', () => (this.ratio = devicePixelRatio));
  }

  get isSet(): boolean {
    return this.dots !== null;
  }

  get pxPerMm(): number {
    return this.dots === null ? usual : this.dots / this.ratio;
  }

  set(pxPerMm: number): void {
    this.dots = pxPerMm * this.ratio;
    keep(key, { dots: this.dots });
  }
}

export const calibration = new Calibration();
