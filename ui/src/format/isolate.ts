// Names are put into sentences. One that is written from right to left, or brings marks of direction, must not turn
// round what stands beside it (Unicode Standard Annex 9, isolates).

const turns = /[\u0590-\u08FF\uFB1D-\uFDFF\uFE70-\uFEFF\u{10800}-\u{10FFF}\u{1E800}-\u{1EFFF}\u200E\u200F]/u;
const embeds = /[\u202A-\u202E\u2066-\u2069]/gu;

/** The name as it stands in a line of its own direction; most names come back as they are. */
export function isolated(name: string): string {
  const plain = name.replace(embeds, '');
  return plain !== name || turns.test(plain) ? `\u2068${plain}\u2069` : name;
}
