/** A cell of a list that can be written in: Enter or leaving it takes the change, Escape puts back what stood there, and what is refused stays as typed. */
import { html, nothing, type TemplateResult } from 'lit';
import type { Change, Outcome } from '../../../sim-core/index.ts';
import type { Session } from '../../state/session.ts';

interface Cell {
  /** what it is, for a screen reader: 'Label of R1' */
  readonly name: string;
  readonly value: string;
  readonly size: number;
  readonly session: Session;
  /** the words to choose from, where there are few */
  readonly choices?: readonly string[];
  /** what the typed text changes; undefined: nothing */
  change(text: string): Outcome<Change> | undefined;
}

export function cell({ name, value, size, session, choices, change }: Cell): TemplateResult {
  const take = (e: Event) => {
    const field = e.target as HTMLInputElement;
    const asked = field.value.trim() === value ? undefined : change(field.value.trim());
    const refused = asked && !asked.ok ? asked.failure.says : '';
    const note = field.nextElementSibling;
    if (note) note.textContent = refused;
    field.setAttribute('aria-invalid', String(refused !== ''));
    if (asked?.ok) session.edit(asked.value);
    else if (!refused) field.value = value;
  };
  if (choices)
    return html`<select class="cell" aria-label=${name} @change=${take}>
        ${choices.map((c) => html`<option ?selected=${c === value}>${c}</option>`)}</select
      ><small class="refused" role="status"></small>`;
  return html`<input class="cell" aria-label=${name} size=${size || nothing} autocomplete="off" spellcheck="false" .value=${value} @change=${take} @keydown=${(
    e: KeyboardEvent,
  ) => {
    if (e.key !== 'Escape') return;
    (e.target as HTMLInputElement).value = value;
    take(e);
  }} /><small class="refused" role="status"></small>`;
}
