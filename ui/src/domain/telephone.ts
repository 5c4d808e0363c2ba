/** The address a telephone dials (RFC 3966): the number as it is on record, without its spaces. */
export const dialling = (telephone: string): string =>
  `tel:${Array.from(telephone)
    .filter((sign) => sign !== ' ')
    .join('')}`;
