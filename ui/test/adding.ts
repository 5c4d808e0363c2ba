// The headings of a table, what rooms and enclosures are like that are added, and a collection in which there is nothing yet.
export const roomKind = { day_c: 24, night_c: 21, humidity_percent: 50, adjoining: [], floor_cm2: 120_000 };
export const tubKind = {
  material: 'sealed',
  substrate: 'loose',
  day_c: 29,
  night_c: 26,
  humidity_percent: 55,
  floor_cm2: 3825,
} as const;
export const nothing = { rooms: new Map(), enclosures: new Map(), animals: new Map() };
export const headings = ['Name', 'Species', 'Rack', 'Tub', 'Weight (g)', 'Acquired'];
