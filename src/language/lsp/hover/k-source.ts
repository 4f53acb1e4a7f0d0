import type { KSource } from '../../../analysis/material/bend-allowance.js';

export const kSourceWords: Readonly<Record<KSource, string>> = {
  cut: 'what it was cut with',
  coupon: 'the test bend',
  bend: 'the bend',
  sheet: 'the sheet',
  'DIN 6935': 'DIN 6935',
  handbook: "Machinery's Handbook",
};
