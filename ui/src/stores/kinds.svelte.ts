import { fromScale, readNumber, toScale, type Scale } from '../format';
import type { RoomKind, TubKind } from '../api/adding';

const roomFloors = { small: 30_000, middle: 120_000, large: 400_000 };
const tubFloors = { small: 600, middle: 3825, large: 7200 };

/** What the form holds, in the keeper's units. */
export class Kinds {
  roomSize = $state<keyof typeof roomFloors>('middle');
  tubSize = $state<keyof typeof tubFloors>('middle');
  material = $state<'sealed' | 'porous'>('sealed');
  substrate = $state<'paper' | 'loose' | 'none'>('loose');
  roomDay: string;
  roomNight: string;
  tubDay: string;
  tubNight: string;
  humidity = $state('55');

  constructor(private readonly scale: Scale) {
    const start = (celsius: number): string => String(Math.round(toScale(celsius, scale)));
    this.roomDay = $state(start(24));
    this.roomNight = $state(start(21));
    this.tubDay = $state(start(29));
    this.tubNight = $state(start(26));
  }

  get room(): RoomKind {
    return {
      day_c: this.celsius(this.roomDay, 24),
      night_c: this.celsius(this.roomNight, 21),
      humidity_percent: 50,
      adjoining: [],
      floor_cm2: roomFloors[this.roomSize],
    };
  }

  get tub(): TubKind {
    return {
      material: this.material,
      substrate: this.substrate,
      day_c: this.celsius(this.tubDay, 29),
      night_c: this.celsius(this.tubNight, 26),
      humidity_percent: readNumber(this.humidity) ?? 55,
      floor_cm2: tubFloors[this.tubSize],
    };
  }

  private celsius(text: string, otherwise: number): number {
    const value = readNumber(text);
    return value === null ? otherwise : fromScale(value, this.scale);
  }
}
