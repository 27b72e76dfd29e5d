/** Which page of the panel is open, as the address says: #why/LED3, #findings, #table, #table/wide, #table/bytes, #build/card, #lists/wires, #limits. */

export const PAGES = ['why', 'findings', 'table', 'build', 'lists', 'limits'] as const;
export type Page = (typeof PAGES)[number];
export interface Route {
  readonly page: Page;
  /** what the page is about: an LED, for why; card or proof, for build; which list, for lists; 'wide' or 'bytes', for a table */
  readonly about?: string;
}

/** Addresses of before: people keep them. */
const FORMER: Readonly<Record<string, string>> = { 'lists/wiring': 'lists/wires' };

export function readRoute(hash: string): Route {
  const fragment = hash.replace(/^#/, '');
  const [page = '', about] = (FORMER[fragment] ?? fragment).split('/');
  const known = PAGES.find((p) => p === page) ?? 'why';
  return about ? { page: known, about: decodeURIComponent(about) } : { page: known };
}

/** The LED that a link names, among those of the bench: D3 is what LED3 was called in plans of version 1. */
export function ledOfLink(about: string, leds: readonly string[]): string {
  const today = about.replace(/^[DL](?=\d+$)/, 'LED');
  return leds.includes(about) || !leds.includes(today) ? about : today;
}

export const hashOf = ({ page, about }: Route): string => `#${page}${about ? `/${encodeURIComponent(about)}` : ''}`;

export function go(place: Route): void {
  const hash = hashOf(place);
  if (location.hash !== hash) location.hash = hash;
}
