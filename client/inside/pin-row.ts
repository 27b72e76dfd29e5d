/** Pins in a row: name, level letter on the voltage's colour, volts. */
import { html, nothing } from 'lit';
import { siFormat } from '../../sim-core/index.ts';
import { letterOn, voltageColour, voltageStep } from '../scene/voltage-colour.ts';
import type { SeenPin } from './chip-view.ts';

const WORDS: Readonly<Record<string, string>> = { L: 'low', H: 'high', X: 'undefined', Z: 'high-impedance' };

export function pinRow(title: string, pins: readonly SeenPin[], top = 5) {
  if (pins.length === 0) return nothing;
  const dark = document.documentElement.dataset.theme === 'dark';
  return html`<div class="pin-row">
    <h3 class="quiet">${title}</h3>
    <ul>
      ${pins.map((p) => {
        const index = voltageStep(p.volts, top);
        const style = p.level === 'Z' ? '' : `background:${voltageColour(index, dark)};color:${letterOn(index, dark)}`;
        const low = p.name.startsWith('/');
        const says = `pin ${p.pin} ${p.name}, ${WORDS[p.level] ?? 'no level'}, ${siFormat(Math.abs(p.volts) < 5e-4 ? 0 : p.volts, 'V')}`;
        return html`<li title=${says}>
          <span class="visually-hidden">${says}</span>
          <span class="seen-name ${low ? 'low' : ''}" aria-hidden="true">${low ? p.name.slice(1) : p.name}</span>
          <span class="seen-level" data-level=${p.level} style=${style} aria-hidden="true">${p.level}</span>
        </li>`;
      })}
    </ul>
  </div>`;
}
