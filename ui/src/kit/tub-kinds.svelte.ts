import { toScale, typedCelsius, typedPercent, type Scale, type Typed } from '../format';
import type { RoomKind, TubKind } from '../domain/adding';

const roomFloors = { small: 30_000, middle: 120_000, large: 400_000 };
const tubFloors = { small: 600, middle: 3825, large: 7200 };
const usual = { roomDay: 24, roomNight: 21, tubDay: 29, tubNight: 26, humidity: 55 };

/** What the form holds, in the keeper's units; an empty field means the usual. */
export class Kinds {
  roomSize = $state<keyof typeof roomFloors>('middle');
  tubSize = $state<keyof typeof tubFloors>('middle');
  material = $state<'sealed' | 'porous'>('sealed');
  substrate = $state<'paper' | 'loose' | 'none'>('loose');
  roomDay: string;
  roomNight: string;
  tubDay: string;
  tubNight: string;
  humidity = $state(String(usual.humidity));
  readonly read: Record<keyof typeof usual, Typed>;

  constructor(
    private readonly scale: Scale,
    typed: object = {},
  ) {
    const start = (celsius: number): string => String(Math.round(toScale(celsius, scale)));
    this.roomDay = $state(start(usual.roomDay));
    this.roomNight = $state(start(usual.roomNight));
    this.tubDay = $state(start(usual.tubDay));
    this.tubNight = $state(start(usual.tubNight));
    this.read = $derived({
      roomDay: typedCelsius(this.roomDay, this.scale),
      roomNight: typedCelsius(this.roomNight, this.scale),
      tubDay: typedCelsius(this.tubDay, this.scale),
      tubNight: typedCelsius(this.tubNight, this.scale),
      humidity: typedPercent(this.humidity),
    });
    Object.assign(this, typed);
  }

  /** Everything as it stands in the form, to be kept. */
  get typed(): object {
    const { roomSize, tubSize, material, substrate, roomDay, roomNight, tubDay, tubNight, humidity } = this;
    return { roomSize, tubSize, material, substrate, roomDay, roomNight, tubDay, tubNight, humidity };
  }

  /** Whether everything typed is understood. */
  get good(): boolean {
    return Object.values(this.read).every((one) => one.why === null);
  }

  get room(): RoomKind {
    return {
      day_c: this.value('roomDay'),
      night_c: this.value('roomNight'),
      humidity_percent: 50,
      adjoining: [],
      floor_cm2: roomFloors[this.roomSize],
    };
  }

  get tub(): TubKind {
    return {
      material: this.material,
      substrate: this.substrate,
      day_c: this.value('tubDay'),
      night_c: this.value('tubNight'),
      humidity_percent: this.value('humidity'),
      floor_cm2: tubFloors[this.tubSize],
    };
  }

  private value(field: keyof typeof usual): number {
    return this.read[field].value ?? usual[field];
  }
}
