// Which warnings of the day were read on this device: each once, and again where it says something else.
import { keep, recall } from './kept';

const key = 'mitefall.read';

class ReadFirst {
  private state = $state.raw(recall<{ day: string; said: string[] }>(key, { day: '', said: [] }));

  isRead(day: string, saying: string): boolean {
    return this.state.day === day && this.state.said.includes(saying);
  }

  read(day: string, sayings: readonly string[]): void {
    const before = this.state.day === day ? this.state.said : [];
    this.state = { day, said: [...before, ...sayings] };
    keep(key, this.state);
  }
}

export const readFirst = new ReadFirst();
