import type { Room } from '../contract/answers';
import { typedCelsius, typedPercent } from '../format';
import { settings } from '../stores/settings.svelte';

type Climate = Pick<Room, 'day_c' | 'night_c' | 'humidity_percent'>;

/** A climate being typed, in the keeper's units; what is left empty stays as it is on record. */
export class TypedClimate {
  day = $state('');
  night = $state('');
  humidity = $state('');
  readonly read = $derived({
    day: typedCelsius(this.day, settings.scale),
    night: typedCelsius(this.night, settings.scale),
    humidity: typedPercent(this.humidity),
  });
  private readonly typed = $derived(Object.values(this.read));
  /** Whether something is typed, and all of it understood. */
  readonly ready = $derived(
    this.typed.every((one) => one.why === null) && this.typed.some((one) => one.value !== null),
  );

  /** What was on record, with what is typed in its place. */
  over(before: Climate): Climate {
    return {
      day_c: this.read.day.value ?? before.day_c,
      night_c: this.read.night.value ?? before.night_c,
      humidity_percent: this.read.humidity.value ?? before.humidity_percent,
    };
  }

  clear(): void {
    this.day = this.night = this.humidity = '';
  }
}
