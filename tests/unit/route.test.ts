/** Addresses of the panel's pages: read, written, and those of before forwarded. */
import { expect, test } from 'vitest';
import { hashOf, ledOfLink, readRoute } from '../../client/ui/route.ts';

test.each([
  ['', { page: 'why' }],
  ['#why/LED3', { page: 'why', about: 'LED3' }],
  ['#table/wide', { page: 'table', about: 'wide' }],
  ['#lists/wires', { page: 'lists', about: 'wires' }],
  ['#cellar', { page: 'why' }],
])('"%s" is read', (hash, route) => {
  expect(readRoute(hash)).toEqual(route);
});

test('what is written is read back, also where it needs escaping', () => {
  const route = { page: 'why', about: 'a/b c#' } as const;
  expect(readRoute(hashOf(route))).toEqual(route);
});

test('an address of before leads to where its page is now', () => {
  expect(readRoute('#lists/wiring')).toEqual({ page: 'lists', about: 'wires' });
});

test('a link to an LED by its id of before is a link to the LED, unless that id is on the bench', () => {
  expect(['D1', 'L2', 'LED2', 'D3', 'DS1.a', 'D1x'].map((about) => ledOfLink(about, ['LED1', 'LED2', 'D3', 'LED3', 'DS1.a']))).toEqual([
    'LED1',
    'LED2',
    'LED2',
    'D3',
    'DS1.a',
    'D1x',
  ]);
  expect(ledOfLink('D9', ['LED1'])).toBe('D9');
});
