/** The small line drawing on a button: one path, as large as the button's letters ask, in their colour. */
import { html } from 'lit';

/** path: in a square of `size` units, 20 if it is not said. */
export const icon = (path: string, size = 20) =>
  html`<svg class="icon" viewBox=${`0 0 ${size} ${size}`} aria-hidden="true"><path d=${path} /></svg>`;
