// What a keeper has at home, and which plans begin with that.
export const homeThings = ['spray', 'tubs', 'paper', 'syringe'] as const;
export type HomeThing = (typeof homeThings)[number];

export interface AtHome {
  /** Asked and answered: nothing at all is an answer too. */
  said: boolean;
  have: HomeThing[];
  /** Spare tubs, as typed. */
  tubs: string;
}

export interface HomeWish {
  without_spray?: boolean;
  spare_tubs?: number;
}

/** What a plan is asked with: nothing where nobody answered; no spray where there is none, and the tubs there are. */
export function wishOf({ said, have, tubs }: AtHome): HomeWish {
  if (!said) return {};
  const spare = have.includes('tubs') ? Math.floor(Number(tubs)) : 0;
  return {
    ...(have.includes('spray') ? {} : { without_spray: true }),
    ...(spare > 0 ? { spare_tubs: Math.min(spare, 1000) } : {}),
  };
}
