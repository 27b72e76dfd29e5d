/** The lesson in one picture: all packages of gates that a table would take, beside the memories that do the same, in one scale. */
import { html, svg, type TemplateResult } from 'lit';
import { grouped } from '../../../sim-core/index.ts';

/** Packages drawn; more are counted. */
const MOST = 120;
/** Drawing units for 0.1 inch. */
const PITCH = 2.4;
/** Between packages, and the width that they are laid out in. */
const [GAP, WIDE] = [3.4, 196];
const HEAD = 15;

interface Body {
  readonly pins: number;
  /** between the rows of legs [0.1 inch] */
  readonly across: number;
}
/** Usual widths of packages: 0.3 inch to 20 pins, 0.6 inch from 24 on. Common practice, no source. */
const bodyOf = (pins: number): Body => ({ pins, across: pins < 24 ? 3 : 6 });
const GATES = bodyOf(14);

const long = ({ pins }: Body) => (pins / 2) * PITCH;
const high = ({ across }: Body) => across * PITCH;

function chip(body: Body, x: number, y: number) {
  const [w, h] = [long(body), high(body)];
  const legs = Array.from({ length: body.pins / 2 }, (_, i) => `M${x + (i + 0.5) * PITCH} ${y}v${h}`).join('');
  const inset = 0.5 * PITCH;
  return svg`<path class="legs" d=${legs}/><rect class="body" x=${x} y=${y + inset} width=${w} height=${h - 2 * inset} rx="0.8"/>
    <circle class="notch" cx=${x} cy=${y + h / 2} r="1.2"/>`;
}

/** packages: of gates. memories, pins: how many memories, and the pins of one. */
export function drawPackages(packages: number, memories: number, pins: number): TemplateResult {
  const memory = bodyOf(pins);
  const drawn = Math.min(packages, MOST);
  const inRow = Math.max(1, Math.floor((WIDE + GAP) / (long(GATES) + GAP)));
  const columns = Math.min(inRow, drawn);
  const rows = Math.ceil(drawn / inRow);
  const right = Math.max(columns * (long(GATES) + GAP) - GAP, 78) + 26;
  const gatesHigh = rows * (high(GATES) + GAP) - GAP;
  const memoriesHigh = memories * (high(memory) + 2 * GAP) - 2 * GAP;
  const said = `${grouped(packages)} package${packages === 1 ? '' : 's'} of gates`;
  const other = memories === 1 ? 'one memory' : `${memories} memories`;
  const width = right + Math.max(long(memory), 62) + 2;
  const height = HEAD + Math.max(gatesHigh, memoriesHigh) + 2;
  return html`<svg class="packages-drawing" viewBox="-2 0 ${width + 2} ${height}" style="max-width:${Math.round((width + 2) * 1.35)}px" role="img"
      aria-label="${said} beside ${other}, drawn to one scale">
      <text x="0" y="9">${said}${packages > drawn ? `, ${drawn} of them drawn` : ''}</text>
      ${Array.from({ length: drawn }, (_, i) =>
        chip(GATES, (i % inRow) * (long(GATES) + GAP), HEAD + Math.floor(i / inRow) * (high(GATES) + GAP)),
      )}
      <text x=${right} y="9">${other}</text>
      <g class="memory">${Array.from({ length: memories }, (_, i) => chip(memory, right, HEAD + i * (high(memory) + 2 * GAP)))}</g>
    </svg>`;
}
