import type { Units } from '../format';
import { keep, recall } from './kept';

export type Theme = 'auto' | 'light' | 'dark';

interface Settings extends Units {
  theme: Theme;
  paper: 'a4' | 'letter';
  /** Of who works with this device; on record with every tick. */
  initials: string;
}

const key = 'mitefall.settings';
export const settings = $state<Settings>(
  recall<Settings>(key, { system: 'metric', scale: 'C', theme: 'auto', paper: 'a4', initials: '' }),
);

/** Keeps the settings and puts the theme on the page. Called once, from the shell. */
export function applySettings(): void {
  $effect(() => {
    keep(key, settings);
    if (settings.theme === 'auto') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = settings.theme;
  });
}
