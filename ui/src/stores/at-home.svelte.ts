// What is at home, as it was told on this device.
import { wishOf, type AtHome, type HomeThing } from '../domain/at-home';
import { keep, recall } from './kept';

const key = 'mitefall.at-home';

class Home {
  told = $state<AtHome>(recall<AtHome>(key, { said: false, have: [], tubs: '1' }));
  readonly wish = $derived(wishOf(this.told));

  has(thing: HomeThing): boolean {
    return this.told.have.includes(thing);
  }

  flip(thing: HomeThing): void {
    const { have } = this.told;
    this.tell(have.includes(thing) ? have.filter((one) => one !== thing) : [...have, thing]);
  }

  tell(have: HomeThing[], tubs = this.told.tubs): void {
    this.told = { said: true, have, tubs };
    keep(key, this.told);
  }
}

export const atHome = new Home();
