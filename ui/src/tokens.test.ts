import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const here = fileURLToPath(new URL('.', import.meta.url));
const tokens = readFileSync(`${here}tokens.css`, 'utf8');

function* blocks(text: string): Generator<[string, Record<string, string>]> {
  for (const [, selector = '', body = ''] of text.matchAll(/([^{}]+)\{([^{}]*)\}/g))
    yield [
      selector.replace(/\/\*[^]*?\*\//g, '').trim(),
      Object.fromEntries([...body.matchAll(/(--[\w-]+):\s*([^;]+);/g)].map((found) => found.slice(1, 3))),
    ];
}
const all = new Map(blocks(tokens));
const light = all.get(':root')!;
const darkByDevice = all.get(":root:not([data-theme='light'])")!;
const darkBySetting = all.get(":root[data-theme='dark']")!;
const onPaper = all.get(':root:root:root')!;

/** Relative luminance and contrast: WCAG 2.2, "relative luminance" and "contrast ratio". */
function luminance(hex: string): number {
  const full = hex.length === 4 ? hex.replace(/[^#]/g, '$&$&') : hex;
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = parseInt(full.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}
function contrast(one: string, other: string): number {
  const [low, high] = [luminance(one), luminance(other)].sort((a, b) => a - b);
  return (high! + 0.05) / (low! + 0.05);
}

describe('the tokens', () => {
  it('know contrast as WCAG does', () => {
    // Black on white is 21:1 by definition; #767676 on white is the well-known 4.54:1.
    expect(contrast('#000', '#ffffff')).toBeCloseTo(21, 5);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
  });

  it('are the same by night, whether the device or the setting asks for it', () => {
    expect(darkBySetting).toEqual(darkByDevice);
  });

  it('name no colour by night or in print that is not there by day', () => {
    for (const name of [...Object.keys(darkByDevice), ...Object.keys(onPaper)])
      expect(light).toHaveProperty(name);
  });

  // WCAG 2.2: text 4.5:1 (1.4.3), what is drawn and must be seen 3:1 (1.4.11).
  const texts: [string, string][] = [
    ...['--ink', '--soft', '--accent', '--seen', '--exposed', '--good'].flatMap(
      (name): [string, string][] => [
        [name, '--ground'],
        [name, '--sheet'],
      ],
    ),
    ['--on-accent', '--accent'],
    ['--ink', '--tint'],
    ['--ink', '--seen-tint'],
    ['--ink', '--exposed-tint'],
    ['--pen', '--paper'],
    ['--pencil', '--paper'],
    ['--pen', '--mark-tint'],
  ];
  const drawn: [string, string][] = [
    ['--mite', '--paper'],
    ['--pen', '--skin'],
    ['--pen', '--water'],
    ['--mark', '--paper'],
    ['--edge', '--sheet'],
  ];
  const themes = { day: light, night: { ...light, ...darkByDevice }, print: { ...light, ...onPaper } };
  for (const [theme, colours] of Object.entries(themes))
    it(`can be read: ${theme}`, () => {
      const weak = [
        ...texts.map((pair) => ({ pair, least: 4.5 })),
        ...drawn.map((pair) => ({ pair, least: 3 })),
      ].filter(({ pair: [one, other], least }) => contrast(colours[one]!, colours[other]!) < least);
      expect(weak.map(({ pair }) => pair.join(' on '))).toEqual([]);
    });
});

describe('sizes and colours', () => {
  const styles = readdirSync(here, { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.svelte$|^app\.css$/.test(name))
    .map((name) => {
      const text = readFileSync(here + name, 'utf8');
      const style = name.endsWith('.css') ? text : (/<style>[^]*<\/style>/.exec(text)?.[0] ?? '');
      // Text within a drawing is in its units, which are written as px.
      return {
        name,
        style: /<(Drawing|svg)\b/.test(text) ? style.replace(/font-size: [\d.]+px;/g, '') : style,
      };
    });
  // The code is dark on white by its standard: a camera reads it. Paper is measured in points.
  const apart = ['features/settings/SettingsScreen.svelte', 'features/print/Print.svelte'];

  it('stand in tokens.css and nowhere else', () => {
    const raw = /#[0-9a-f]{3,8}\b|rgba?\(|font-size: [\d.]|font-weight: \d/i;
    const loose = styles.filter(({ name, style }) => !apart.includes(name) && raw.test(style));
    expect(loose.map(({ name, style }) => `${name}: ${raw.exec(style)?.[0]}`)).toEqual([]);
  });

  it('are asked for by names that are there', () => {
    const own = /--(px|mm|dx|dy|x|y)\b/;
    const missing = styles.flatMap(({ name, style }) =>
      [...style.matchAll(/var\((--[\w-]+)/g)]
        .map((found) => found[1]!)
        .filter((token) => !(token in light) && !own.test(token))
        .map((token) => `${name}: ${token}`),
    );
    expect(missing).toEqual([]);
  });
});
