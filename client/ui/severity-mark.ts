/** How bad a finding is, as a shape of its own beside its word: a flame is a damage risk, a broken bar a fault, a half-full cup marginal, an open ring with a dot a suggestion. */
import { html, svg, type TemplateResult } from 'lit';
import type { Severity } from '../../sim-core/index.ts';

/** In a square of 16 units round the origin: the body of the shape, and the sign in it. */
export const SEVERITY_SHAPES: Readonly<Record<Severity, { readonly body: string; readonly sign: string }>> = {
  'damage-risk': {
    body: 'M0.5 -8.5C2 -4.500 7 -2.500 7 2.500A7 6 0 0 1 -7 2.500C-7 0 -5.500 -2 -4 -3.500C-3.500 -1.500 -2.500 -1 -1.500 -1.500C-1.500 -4 -1 -6.500 0.5 -8.5Z',
    sign: 'M0 1.500V5.500',
  },
  fault: { body: 'M-8.5 -5H-1L-4 5H-8.5ZM4 -5H8.5V5H1Z', sign: 'M0 0' },
  marginal: { body: 'M-7 -6.500H7L4.500 7H-4.500Z', sign: 'M-5.800 0.500H5.800L4.500 7H-4.500Z' },
  suggestion: { body: 'M0 -5.5A5.5 5.5 0 0 1 0 5.5A5.5 5.5 0 0 1 0 -5.5Z', sign: 'M0 -0.6V0.6' },
};

export function severityMark(severity: Severity): TemplateResult {
  const { body, sign } = SEVERITY_SHAPES[severity];
  return html`<svg class="severity-mark" data-severity=${severity} viewBox="-9 -9 18 18" aria-hidden="true">${svg`<path class="mark-body" d=${body} /><path class="mark-sign" d=${sign} />`}</svg>`;
}
