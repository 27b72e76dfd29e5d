/** Keeps letters large enough on the screen: fits them again when the scale has changed by a step and a zoom has paused. */
import { presenting } from '../theme/presentation.ts';
import { leastLetter } from './label-placement.ts';
import { DETAIL } from './pan-zoom.ts';

/** A step of scale (natural logarithm), and how long a zoom in motion is waited for [ms]. */
const STEP = 0.08;
const PAUSED = 60;
/** Of a meter's tag: its smallest letters [drawing units], and how often its own size it may get. */
const TAG_LETTER = 11;
const MOST_GROWTH = 2;
/** Letters smaller than this on the screen are not drawn, nor smaller than this in presentation mode [px]. */
const [LEAST_DRAWN, LEAST_PRESENTED] = [9, 12];

export interface LabelScale {
  /** scale: pixels to a drawing unit; at once for a bench drawn again, else after the pause */
  fit(scale: number): void;
  /** the bench has been drawn again */
  renew(): void;
}

/** place: places what has to be placed for a scale; small names only if `near`. */
export function makeLabelScale(worlds: readonly SVGGElement[], place: (scale: number, near: boolean) => void): LabelScale {
  let fitted: number | undefined;
  let due: ReturnType<typeof setTimeout> | undefined;
  const put = (step: number) => {
    fitted = step;
    // the small end of the step, so that letters are never smaller than meant
    const scale = DETAIL.near * Math.exp(step * STEP);
    for (const { style } of worlds) {
      style.setProperty('--pixel', `${(1 / scale).toFixed(2)}px`);
      style.setProperty('--least', `${(leastLetter() / scale).toFixed(1)}px`);
      style.setProperty('--grow', Math.min(MOST_GROWTH, Math.max(1, leastLetter() / (TAG_LETTER * scale))).toFixed(2));
    }
    place(scale, step >= 0);
    hideSmall(worlds, scale);
  };
  return {
    fit(scale) {
      const step = Math.floor(Math.log(scale / DETAIL.near) / STEP);
      clearTimeout(due);
      if (step === fitted) return;
      if (fitted === undefined) put(step);
      else due = setTimeout(put, PAUSED, step);
    },
    renew() {
      fitted = undefined;
    },
  };
}

function hideSmall(worlds: readonly SVGGElement[], scale: number): void {
  const least = (presenting() ? LEAST_PRESENTED : LEAST_DRAWN) / scale;
  const texts = worlds.flatMap((world) => [...world.querySelectorAll('text')]);
  // all are measured before any is changed, so that the page is laid out once
  const small = texts.map((text) => Number.parseFloat(getComputedStyle(text).fontSize) < least);
  for (const [i, text] of texts.entries()) text.classList.toggle('too-small', small[i]);
}
