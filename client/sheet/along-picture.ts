/** The close picture of a screen of building along: the holes that come next picked out, what is there already in grey. */
import { html } from 'lit';
import type { Plan } from '../../shared/plan.ts';
import { type BuildSheet, holeSpot, readHole } from '../../sim-core/index.ts';
import type { Spot } from '../scene/geometry.ts';
import type { AlongScreen } from './along-progress.ts';
import { drawStage } from './stage-drawing.ts';

/** Ends that are farther apart have a picture each [pitch]; and how much is shown round a hole. */
const [FAR, ROUND] = [13, 4.5];

export function alongPictures(plan: Plan, { stages }: BuildSheet, screen: AlongScreen, before: readonly string[]) {
  const spots = placesOf(screen).flatMap((point): Spot[] => {
    const hole = readHole(point, plan.boards);
    return hole.ok ? [holeSpot(hole.value)] : [];
  });
  if (spots.length === 0) return [];
  const chips = new Set(stages.find((s) => s.stage === 'chips')?.steps.map((s) => s.id));
  const numbers = new Map(screen.step?.put === 'wire' ? [[screen.step.id, screen.step.number] as const] : []);
  const fresh = new Set(screen.step ? [screen.step.id] : []);
  const one = (about: readonly Spot[]) => {
    const drawn = drawStage({ plan, fresh, there: new Set(before), numbers, chips, about, margin: ROUND, rings: spots });
    drawn?.svg.setAttribute('aria-hidden', 'true');
    return drawn?.svg;
  };
  const [a, b] = spots;
  const far = a && b && spots.length === 2 && Math.hypot(a[0] - b[0], a[1] - b[1]) > FAR;
  return (far ? [[a], [b]] : [spots]).map((about) => html`<div class="along-picture">${one(about)}</div>`);
}

/** Holes of a step, or of a line's probes; of a part with many legs that of pin 1. */
const placesOf = ({ step, line }: AlongScreen): readonly string[] =>
  step
    ? step.places.slice(0, step.places.length > 2 ? 1 : 2)
    : line.checks.flatMap((c) => (c.by === 'eye' ? (c.wire ? [c.wire.from, c.wire.to] : []) : [c.red, c.black]));
