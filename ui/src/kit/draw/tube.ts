// The body of a snake as it lies: an axis that winds, and how thick it is along it.
export interface Tube {
  from: number;
  to: number;
  middle: number;
  /** How far it winds to either side, and how often. */
  swing: number;
  turns: number;
  thick: number;
  /** From which part of its length on it tapers. */
  tail: number;
}

type Point = [number, number];

/** A point of the tube: `t` from head to tail, `side` from -1 (back) over 0 (axis) to 1 (belly). */
export function pointOf(tube: Tube, t: number, side: number): Point {
  const length = tube.to - tube.from;
  const phase = 2 * Math.PI * tube.turns * t;
  const slope = (tube.swing * 2 * Math.PI * tube.turns * Math.cos(phase)) / length;
  const norm = Math.hypot(1, slope);
  const taper = t <= tube.tail ? 1 : Math.max(0.06, 1 - ((t - tube.tail) / (1 - tube.tail)) ** 1.3);
  const away = side * taper * (tube.thick / 2);
  const x = tube.from + length * t - (slope / norm) * away;
  return [x, tube.middle + tube.swing * Math.sin(phase) + away / norm];
}

const drawn = (points: Point[]): string =>
  `M${points.map((point) => point.map((one) => one.toFixed(1)).join(' ')).join('L')}`;

/** The skin between two sides, from one part of its length to another. */
export function strip(tube: Tube, sides: [number, number], [start, end]: [number, number] = [0, 1]): string {
  const steps = Math.max(4, Math.round((end - start) * 60));
  const along = Array.from({ length: steps + 1 }, (_, at) => start + ((end - start) * at) / steps);
  const edge = (side: number): Point[] => along.map((t) => pointOf(tube, t, side));
  return `${drawn([...edge(sides[0]), ...edge(sides[1]).reverse()])}Z`;
}

/** A line along the body. */
export function along(tube: Tube, side: number, [start, end]: [number, number]): string {
  const steps = Math.max(4, Math.round((end - start) * 60));
  return drawn(
    Array.from({ length: steps + 1 }, (_, at) => pointOf(tube, start + ((end - start) * at) / steps, side)),
  );
}

/** Lines across, from one side to another, at so many places; `from` moves them by a part of their distance. */
export function ribs(tube: Tube, sides: [number, number], count: number, end = 1, from = 0.5): string {
  return Array.from({ length: count }, (_, at) => ((at + from) / count) * end)
    .map((t) => drawn([pointOf(tube, t, sides[0]), pointOf(tube, t, sides[1])]))
    .join('');
}
