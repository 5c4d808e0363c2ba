import { describe, expect, it } from 'vitest';
import { metric } from '../../test/units';
import type { Animal } from '../contract/answers';
import { askWeight } from './weights';

describe('a weight', () => {
  const units = metric;
  const animal = (name: string, mass_g: number | null) =>
    ({
      animal: name.toLowerCase(),
      name,
      weight: mass_g === null ? null : { mass_g, day: '2026-11-03', entry: 1 },
    }) as unknown as Animal;

  it('that is more than half away from the last is asked about', () => {
    expect(askWeight(1.62, [animal('Moss', 1620)], units)).toBe(
      'Moss weighed 1.62 kg on 3 Nov 2026. Really 1.62 g now?',
    );
    expect(askWeight(2500, [animal('Moss', 1620)], units)).not.toBeNull();
  });

  it('that is likely, or the first, is not', () => {
    expect(askWeight(1500, [animal('Moss', 1620), animal('Bo', null)], units)).toBeNull();
    expect(askWeight(null, [animal('Moss', 1620)], units)).toBeNull();
  });

  it('for many names three of them', () => {
    const many = ['A', 'B', 'C', 'D', 'E'].map((name) => animal(name, 1000));
    expect(askWeight(1, many, units)).toMatch(/A weighed.*B weighed.*C weighed.*And 2 more\.$/);
  });
});
