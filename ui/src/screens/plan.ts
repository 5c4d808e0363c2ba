import type { Method, PlanAnswer, ScoredPlan } from '../api/answers';

type Round = ScoredPlan['rounds'][number];

/** A row of the timeline: one enclosure, or a room, and what is done to it in each round. */
export interface TimelineRow {
  key: string;
  room: string | null;
  enclosure: string | null;
  methods: Method[][];
}

/** The rounds turned about: a row for every enclosure and room that is treated, in working order. */
export function timelineOf(rounds: readonly Round[]): TimelineRow[] {
  const rows = new Map<string, TimelineRow>();
  rounds.forEach((round, index) => {
    for (const { room, enclosure, method } of round.treatments) {
      const key = enclosure ?? `room ${room}`;
      const row = rows.get(key) ?? { key, room, enclosure, methods: rounds.map(() => []) };
      const cell = row.methods[index];
      if (cell && !cell.includes(method)) cell.push(method);
      rows.set(key, row);
    }
  });
  return [...rows.values()];
}

export interface LeftOut {
  who: string;
  animal: string | null;
  enclosure: string | null;
  reason: string;
  methods: Method[];
  days: number;
}

/** Who is left out, each with one reason once, however many rounds and methods it is about. */
export function gatherLeftOut(rows: ScoredPlan['left_out']): LeftOut[] {
  const found = new Map<string, LeftOut & { seen: Set<string> }>();
  for (const { day, animal, enclosure, method, reason } of rows) {
    const who = animal ?? enclosure ?? '';
    const key = `${who}\n${reason}`;
    const one = found.get(key) ?? { who, animal, enclosure, reason, methods: [], days: 0, seen: new Set() };
    if (!one.methods.includes(method)) one.methods.push(method);
    one.seen.add(day);
    found.set(key, one);
  }
  return [...found.values()].map(({ seen, ...one }) => ({ ...one, days: seen.size }));
}

/** The plans of an answer with the name under which each can be adopted. */
export function plansOf(answer: PlanAnswer): { name: 'recommended' | number; plan: ScoredPlan }[] {
  return [
    { name: 'recommended', plan: answer.recommended },
    ...answer.alternatives.map((plan, index) => ({ name: index, plan })),
  ];
}
