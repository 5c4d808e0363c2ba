import { describe, expect, it } from 'vitest';
import { dialling } from './telephone';

describe('a telephone number', () => {
  // RFC 3966, section 5.1.1: visual separators carry no meaning; a global number keeps its plus.
  it('is dialled without its spaces and with its plus', () => {
    expect(dialling('+49 30 1234567')).toBe('tel:+49301234567');
    expect(dialling('030 1234567')).toBe('tel:0301234567');
  });
});
