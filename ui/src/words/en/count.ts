/** "1 tick", "3 ticks" */
export const several = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;
