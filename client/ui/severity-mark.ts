/** How bad a finding is, as a shape of its own beside its word: a peak is a damage risk, a cross a fault, a half disc marginal, a ring a suggestion. */
import { html, svg, type TemplateResult } from 'lit';
import type { Severity } from '../core.ts';

/** In a square of 16 units round the origin: the body of the shape, and the sign in it. */
export const SEVERITY_SHAPES: Readonly<Record<Severity, { readonly body: string; readonly sign: string }>> = {
  'damage-risk': { body: 'M0 -8L8.5 7H-8.5Z', sign: 'M0 -3.4V2M0 4.2V5' },
  fault: { body: 'M-7 -7H7V7H-7Z', sign: 'M-3 -3L3 3M3 -3L-3 3' },
  marginal: { body: 'M0 -7.5A7.5 7.5 0 0 1 0 7.5A7.5 7.5 0 0 1 0 -7.5Z', sign: 'M0 -7.5A7.5 7.5 0 0 1 0 7.5Z' },
  suggestion: { body: 'M0 -5.5A5.5 5.5 0 0 1 0 5.5A5.5 5.5 0 0 1 0 -5.5Z', sign: 'M0 -0.6V0.6' },
};

export function severityMark(severity: Severity): TemplateResult {
  const { body, sign } = SEVERITY_SHAPES[severity];
  return html`<svg class="severity-mark" data-severity=${severity} viewBox="-9 -9 18 18" aria-hidden="true">${svg`<path class="mark-body" d=${body} /><path class="mark-sign" d=${sign} />`}</svg>`;
}
