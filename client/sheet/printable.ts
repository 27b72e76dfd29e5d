/** The pages for the printer that an address can name, and the element of each. */
import { html, nothing } from 'lit';
import type { Session } from '../state/session.ts';
import './build-sheet.ts';
import './card-sheet.ts';

/** undefined: the address names none of them */
export const printableNamed = (hash: string): 'sheet' | 'card' | undefined =>
  hash === '#sheet' ? 'sheet' : hash === '#sheet/card' ? 'card' : undefined;

/** picture: draws the bench as it stands */
export function printable(which: ReturnType<typeof printableNamed>, session: Session, picture: () => Promise<string | undefined>) {
  if (which === 'sheet')
    return html`<build-sheet role="region" aria-label="Build sheet" .session=${session} .picture=${picture}></build-sheet>`;
  return which === 'card' ? html`<card-sheet role="region" aria-label="Programming card" .session=${session}></card-sheet>` : nothing;
}
