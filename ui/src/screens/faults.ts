import type { Fault } from '../api/answers';

const commands = [
  ...[
    'mitefall',
    'tonight',
    'origin',
    'exposure',
    'verdicts',
    'plan',
    'shopping',
    'today',
    'rescore',
    'matters',
  ],
  ...['done', 'skip', 'clear', 'next-check', 'release', 'mix', 'batch', 'record', 'withdraw', 'new', 'demo'],
  ...['show', 'journal', 'undo', 'forecast', 'parameters', 'evidence', 'serve'],
];
const quoted = new RegExp(`"(${commands.join('|')})( [^"]*)?"`);

/** A fault without what is meant for the command line: nobody types commands into a page. */
export function withoutCommands(fault: Fault | null): Fault | null {
  if (!fault) return null;
  const plain = (text: string): string => (quoted.test(text) ? '' : text);
  return { ...fault, remedy: plain(fault.remedy), limit: plain(fault.limit) };
}
