/** The pages beside the bench that an address can name, for the printer and for building along: each is loaded when it is asked for. */
import { html, nothing } from 'lit';
import type { Session } from '../state/session.ts';

const PAGES = {
  '#sheet': { load: () => import('./build-sheet.ts'), name: 'Build sheet' },
  '#along': { load: () => import('./build-along.ts'), name: 'Build along' },
  '#sheet/card': { load: () => import('./card-sheet.ts'), name: 'Programming card' },
} as const;
type Address = keyof typeof PAGES;

/** undefined: the address names none of them */
export const printableNamed = (hash: string): Address | undefined => (hash in PAGES ? (hash as Address) : undefined);

/** Pages whose elements are defined: one that is made earlier would begin without its session. */
const loaded = new Set<Address>();

/** picture: draws the bench as it stands; again: called when the page has been loaded and can be rendered */
export function printable(which: Address | undefined, session: Session, picture: () => Promise<string | undefined>, again: () => void) {
  if (!which) return nothing;
  const { load, name } = PAGES[which];
  if (!loaded.has(which)) {
    void load().then(() => {
      loaded.add(which);
      again();
    });
    return html`<p class="visually-hidden" role="status">${name}: loading …</p>`;
  }
  if (which === '#along') return html`<build-along role="region" aria-label=${name} .session=${session}></build-along>`;
  return which === '#sheet'
    ? html`<build-sheet role="region" aria-label=${name} .session=${session} .picture=${picture}></build-sheet>`
    : html`<card-sheet role="region" aria-label=${name} .session=${session}></card-sheet>`;
}
