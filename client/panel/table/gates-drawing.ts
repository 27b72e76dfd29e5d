/** A sum of products as lines and gates: inputs run down, products across; a dot takes an input as it is, a ring takes it inverted; each product has its own way into the OR. */
import { html, nothing, svg, type TemplateResult } from 'lit';
import { grouped, letterNames, type OutputForm, printForm } from '../../../sim-core/index.ts';

/** Products drawn; more are counted. */
const MOST = 14;
/** All in drawing units. */
const [RAIL, LINE, LEFT, GATE] = [22, 26, 14, 26];
/** Half the height of a gate. */
const HALF = 9;

export function drawSum(form: OutputForm, inputs: readonly string[], output: string): TemplateResult | typeof nothing {
  const { products } = form;
  // the gate in front of the output is in the text only
  if (form.beside !== 0) return nothing;
  const drawn = products.filter((p) => p.care !== 0).slice(0, MOST);
  if (drawn.length === 0) return nothing;
  const used = drawn.reduce((mask, p) => mask | p.care, 0);
  // only inputs that take part, the most significant leftmost
  const rails = letterNames(form, inputs)
    .map((name, i) => ({ name, i }))
    .filter(({ i }) => (used >> i) & 1)
    .toReversed();
  const head = 12 + 6.2 * Math.max(...rails.map((r) => r.name.length));
  const top = head + 14;
  const xOf = (k: number) => LEFT + k * RAIL;
  const right = xOf(rails.length - 1) + 26;
  const bottom = top + (drawn.length - 1) * LINE + 13;
  const middle = top + ((drawn.length - 1) * LINE) / 2;
  const or = right + GATE + 20;
  const sums = drawn.length > 1;
  const end = sums ? or + 56 : right + GATE + 22;
  /** from the middle of the OR to its ends */
  const arm = middle - top + 12;
  const width = end + 10 + 7.4 * output.length;
  const more = products.length - drawn.length;
  return html`<svg class="sum-drawing" viewBox="0 0 ${width} ${bottom + 6}" style="max-width:${Math.round(width * 1.15)}px" role="img"
      aria-label=${`${output} drawn with gates: ${printForm({ ...form, products: drawn }, inputs).join(' ')}${more > 0 ? ', and more' : ''}`}>
      ${rails.map(
        ({ name }, k) => svg`<g>
        <text class="rail-name" transform="translate(${xOf(k) + 4} ${head}) rotate(-90)">${name}</text>
        <path class="rail" d="M${xOf(k)} ${head + 3}V${bottom}"/></g>`,
      )}
      ${drawn.map((p, row) => {
        const y = top + row * LINE;
        const taken = rails.flatMap(({ i }, k) => ((p.care >> i) & 1 ? [{ x: xOf(k), as: (p.value >> i) & 1 }] : []));
        const from = Math.min(...taken.map((t) => t.x));
        const single = taken.length === 1;
        return svg`<g>
          <path class="gate-line" d="M${from} ${y}H${single ? right + GATE : right}"/>
          ${single ? nothing : svg`<path class="gate" d="M${right} ${y - HALF}h12a${HALF} ${HALF} 0 0 1 0 ${2 * HALF}h-12z"/>`}
          ${taken.map(({ x, as }) => svg`<circle class=${as ? 'dot' : 'ring'} cx=${x} cy=${y} r=${as ? 3.6 : 4.4}/>`)}
          ${sums ? svg`<path class="gate-line" d="M${right + (single ? GATE : 12 + HALF)} ${y}H${or + 5}"/>` : nothing}
        </g>`;
      })}
      ${
        sums
          ? svg`<path class="gate-line" d="M${or + 42} ${middle}H${end}"/>
              <path class="gate" d="M${or} ${middle - arm}q7 ${arm} 0 ${2 * arm}h6q24 0 36 ${-arm}q-12 ${-arm} -36 ${-arm}z"/>
              <text class="gate-name" x=${or + 13} y=${middle + 3.5}>OR</text>`
          : svg`<path class="gate-line" d="M${right + 12 + HALF} ${middle}H${end}"/>`
      }
      <text class="output-name" x=${end + 5} y=${middle + 4}>${output}</text>
    </svg>
    <p class="quiet drawing-key"><svg viewBox="0 0 12 12" aria-hidden="true"><circle class="dot" cx="6" cy="6" r="3.6"/></svg> as it is
      <svg viewBox="0 0 12 12" aria-hidden="true"><circle class="ring" cx="6" cy="6" r="4.4"/></svg> inverted
      <svg viewBox="0 0 24 20" aria-hidden="true"><path class="gate" d="M3 1h9a9 9 0 0 1 0 18h-9z"/></svg> all on its line are 1 (AND)${more > 0 ? `; ${grouped(more)} more products are not drawn` : ''}</p>`;
}
