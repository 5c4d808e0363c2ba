import { describe, expect, it } from 'vitest';
import { cellMass, marksOf, readMarked, unitOf } from './figures';

describe('weights in a table', () => {
  it('are decided by the cells that can mean one thing', () => {
    expect(marksOf(['1,200', '1,62 kg'])).toEqual({ comma: 'decimal', point: null });
    expect(marksOf(['1,200', '1,620.5'])).toEqual({ comma: 'thousands', point: 'decimal' });
    expect(marksOf(['1.620', '1.620,5'])).toEqual({ comma: 'decimal', point: 'thousands' });
    expect(marksOf(['1,200'])).toEqual({ comma: null, point: null });
    expect(marksOf(['0,500'])).toMatchObject({ comma: 'decimal' });
    expect(marksOf(['1,62', '1,620.5'])).toMatchObject({ comma: null });
  });

  it('are read by what the marks mean', () => {
    expect(readMarked('1,200', { comma: 'decimal', point: null })).toBe(1.2);
    expect(readMarked('1,200', { comma: 'thousands', point: null })).toBe(1200);
    expect(readMarked('1,200', { comma: null, point: null })).toBeNull();
    expect(readMarked('1.620', { comma: null, point: null })).toBe(1.62);
    expect(readMarked('1.620', { comma: 'decimal', point: 'thousands' })).toBe(1620);
    expect(readMarked('1.620', { comma: 'decimal', point: null })).toBeNull();
  });

  it('carry their unit or take that of the heading', () => {
    const none = { comma: null, point: null };
    expect(cellMass('1,62 kg', none, 'g').value).toBe(1620);
    expect(cellMass('2', none, 'kg').value).toBe(2000);
    expect(cellMass('1.620', { comma: 'decimal', point: null }, 'g').why).toContain(
      'Is 1.620 one thousand six hundred and twenty, or 1.62?',
    );
    expect(cellMass('1.620,5', none, 'g').value).toBe(1620.5);
    expect(unitOf('Weight (kg)')).toBe('kg');
    expect(unitOf('weight in lbs')).toBe('lb');
    expect(unitOf('Grams')).toBe('g');
  });
});
