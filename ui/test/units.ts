// Units that tests are written in, and figures as they are compared.
export const metric = { system: 'metric', scale: 'C' } as const;
export const us = { system: 'us', scale: 'F' } as const;
export const imperial = { system: 'imperial', scale: 'C' } as const;

/** With plain spaces in place of those that keep a number and its unit together. */
export const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
