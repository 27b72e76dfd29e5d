/** Lets the cursor pass over a recording so slowly that a class can follow, once. */
import type { Trace } from '../../sim-core/index.ts';
import { marksOf } from './wave-rows.ts';

/** Whole recording takes so long [ms]; at each mark the cursor rests as long as it takes to say what happened. */
const WHOLE = 8000;
const REST = 1600;

export interface Replay {
  play(trace: Trace): void;
  stop(): void;
}

/** show: the moment to be shown; playing: told when it starts and stops. */
export function makeReplay(show: (time: number) => void, playing: (is: boolean) => void): Replay {
  let frame = 0;
  const stop = () => {
    if (frame === 0) return;
    cancelAnimationFrame(frame);
    frame = 0;
    playing(false);
  };
  return {
    stop,
    play(trace) {
      stop();
      const first = trace.times[0] ?? 0;
      const long = (trace.times.at(-1) ?? 0) - first;
      // what a hand asked for is shown whole; who wants no motion gets its end points only
      const stops = marksOf(trace).map((m) => m.time);
      if (matchMedia('(prefers-reduced-motion: reduce)').matches) {
        show(stops[0] ?? first);
        return;
      }
      const begun = performance.now();
      playing(true);
      const step = (now: number) => {
        const played = now - begun;
        let rested = 0;
        let time = first + (long * played) / WHOLE;
        for (const at of stops) {
          const due = ((at - first) / long) * WHOLE + rested;
          if (played < due) break;
          const here = Math.min(REST, played - due);
          rested += here;
          time = first + (long * (played - rested)) / WHOLE;
          if (here < REST) {
            time = at;
            break;
          }
        }
        show(Math.min(first + long, time));
        if (time < first + long) frame = requestAnimationFrame(step);
        else stop();
      };
      frame = requestAnimationFrame(step);
    },
  };
}
