// What is asked once, after the first animals were added.
import { keep, recall } from './kept';

const key = 'mitefall.firsts';

class Firsts {
  private state = $state(recall(key, { askRooms: false }));

  get askRooms(): boolean {
    return this.state.askRooms;
  }

  set askRooms(ask: boolean) {
    this.state.askRooms = ask;
    keep(key, { askRooms: ask });
  }
}

export const firsts = new Firsts();
