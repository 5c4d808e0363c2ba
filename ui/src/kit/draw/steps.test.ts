import { describe, expect, it } from 'vitest';
import { stepOf } from './steps';

describe('the drawing of a task', () => {
  it('goes by what is done, and by whom it is done to', () => {
    expect(stepOf({ kind: 'treat', method: 'spray-animal' })).toBe('spray-animal');
    expect(stepOf({ kind: 'treat', method: 'spray-bedding' })).toBe('spray-tub');
    expect(stepOf({ kind: 'redampen', method: null })).toBe('spray-tub');
    expect(stepOf({ kind: 'water-out', method: null })).toBe('bowl-out');
    expect(stepOf({ kind: 'water-back', method: null })).toBe('bowl-in');
  });

  it('is none where no drawing would be right: what a veterinarian gives', () => {
    expect(stepOf({ kind: 'treat', method: 'oral-afoxolaner' })).toBeNull();
    expect(stepOf({ kind: 'treat', method: 'injected-ivermectin' })).toBeNull();
    expect(stepOf({ kind: 'hygiene', method: null })).toBeNull();
  });
});
