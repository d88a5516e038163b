import { expect, test } from 'vitest';
import { messageOf } from '../../dashboard/parts/message-of.ts';

// As Chromium, Firefox, WebKit and Vite word it: common practice, no source.
test.each([
  'Failed to fetch dynamically imported module: http://127.0.0.1:4173/assets/ledger-C8v9wn62.js',
  'error loading dynamically imported module: http://127.0.0.1:4173/assets/ledger-C8v9wn62.js',
  'Importing a module script failed.',
  'Unable to preload CSS for /assets/BuildingSheet-CgO8GyOm.css',
])('code that does not come is told in words: %s', (message) => {
  expect(messageOf(new TypeError(message))).toMatch(/^A part of the page could not be fetched\./);
});

test('any other error says what it says, whatever was thrown', () => {
  expect(messageOf(new Error('no rain'))).toBe('no rain');
  expect(messageOf('no rain')).toBe('no rain');
});
