import { describe, expect, it } from 'vitest';
import { metric } from '../../test/units';
import type { Animal } from '../contract/answers';
import { askWeights } from './weights';

describe('a weight', () => {
  const units = metric;
  const animal = (name: string, mass_g: number | null) =>
    ({
      animal: name.toLowerCase(),
      name,
      weight: mass_g === null ? null : { mass_g, day: '2026-11-03', entry: 1 },
    }) as unknown as Animal;
  const ask = (now: number | null, animals: Animal[]) =>
    askWeights(
      animals.map((of) => ({ of, now })),
      units,
    );

  it('that is more than half away from the last is asked about', () => {
    expect(ask(1.62, [animal('Moss', 1620)])).toBe('Moss weighed 1.62 kg on 3 Nov 2026. Really 1.62 g now?');
    expect(ask(2500, [animal('Moss', 1620)])).not.toBeNull();
  });

  it('that is likely, or the first, is not', () => {
    expect(ask(1500, [animal('Moss', 1620), animal('Bo', null)])).toBeNull();
    expect(ask(null, [animal('Moss', 1620)])).toBeNull();
  });

  it('is asked about by its own animal where several are weighed', () => {
    const each = [
      { of: animal('Moss', 1620), now: 1600 },
      { of: animal('Bo', 400), now: 1600 },
    ];
    expect(askWeights(each, units)).toBe('Bo weighed 400 g on 3 Nov 2026. Really 1.6 kg now?');
  });

  it('for many names three of them', () => {
    const many = ['A', 'B', 'C', 'D', 'E'].map((name) => animal(name, 1000));
    expect(ask(1, many)).toMatch(/A weighed.*B weighed.*C weighed.*And 2 more\.$/);
  });
});
