/** The pictures of a stage for the sheet: which things are new in each, and how large it is printed so that its numbers can be read. */
import { html, nothing } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import type { BuildSheet, SheetStage } from '../../sim-core/index.ts';
import { drawStage } from './stage-drawing.ts';

/** On paper [mm a pitch]: a disc's number is then 6 pt high. What fits an upright page, and a page on its side, of both papers [mm]. */
const PITCH = 3.5;
const UPRIGHT = { width: 184, height: 225 } as const;
const ON_ITS_SIDE = { width: 250, height: 165 } as const;

/** Figures of a stage, the first below the stage's heading, each to be laid out in the page's flow or on a page on its side. */
export function stageFigures(plan: Plan, { stages }: BuildSheet, stage: SheetStage, title: string) {
  const chips = new Set(stages.find((s) => s.stage === 'chips')?.steps.map((s) => s.id));
  const earlier = stages.slice(0, stages.indexOf(stage)).flatMap((s) => s.steps.map((t) => t.id));
  const numbers = new Map(stage.steps.flatMap((s) => (s.put === 'wire' ? [[s.id, s.number] as const] : [])));
  const parts = stage.steps.flatMap((s) => (s.put === 'part' ? [s.id] : []));
  return stage.pictures.flatMap((wires, i) => {
    const before = [...earlier, ...(i > 0 ? parts : []), ...stage.pictures.slice(0, i).flat()];
    const fresh = new Set([...(i === 0 ? parts : []), ...wires]);
    const drawn = drawStage({ plan, fresh, there: new Set(before), numbers, chips });
    if (!drawn) return [];
    const { svg, box } = drawn;
    const size = sizeOf(box);
    const name = `${title}, picture ${i + 1} of ${stage.pictures.length}`;
    svg.setAttribute('role', 'img');
    svg.setAttribute('aria-label', `${name}: what is put down here is drawn strong, wires with their numbers`);
    svg.style.setProperty('--paper-width', `${size.millimetres}mm`);
    return [
      html`<div class="stage-figure ${size.side ? 'on-its-side' : ''}">
        ${i === 0 ? html`<h2>${title}</h2>` : nothing}
        <figure tabindex="0" aria-label=${`${name}, scrolls`}>${stage.pictures.length > 1 ? html`<figcaption>${name}</figcaption>` : nothing}${svg}</figure>
      </div>`,
    ];
  });
}

/** As large as a pitch is to be, on its side where only that has room; smaller only where neither has. */
function sizeOf({ width, height }: { readonly width: number; readonly height: number }): {
  readonly millimetres: number;
  readonly side: boolean;
} {
  const scale = (page: { readonly width: number; readonly height: number }) => Math.min(PITCH, page.width / width, page.height / height);
  const [upright, side] = [scale(UPRIGHT), scale(ON_ITS_SIDE)];
  const isSide = side > upright;
  return { millimetres: Math.floor(Math.max(upright, side) * width * 10) / 10, side: isSide };
}
