/** Which page of the notebook is open, as the address says: #why/D3, #findings, #table, #table/wide, #build/card, #lists/wiring, #limits. */

export const PAGES = ['why', 'findings', 'table', 'build', 'lists', 'limits'] as const;
export type Page = (typeof PAGES)[number];
export interface Place {
  readonly page: Page;
  /** what the page is about: a lamp, for why; card or proof, for build; which list, for lists; 'wide', for a table that takes the bench's room */
  readonly about?: string;
}

export function readPlace(hash: string): Place {
  const [page = '', about] = hash.replace(/^#/, '').split('/');
  const known = PAGES.find((p) => p === page) ?? 'why';
  return about ? { page: known, about: decodeURIComponent(about) } : { page: known };
}

export const hashOf = ({ page, about }: Place): string => `#${page}${about ? `/${encodeURIComponent(about)}` : ''}`;

export function go(place: Place): void {
  const hash = hashOf(place);
  if (location.hash !== hash) location.hash = hash;
}
