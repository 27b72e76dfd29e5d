/** What is said of something that changes by itself, or that does not in the simulation and might on a real bench. */
import { inSeconds, listed, say } from '../sentence/wording.ts';
import type { ReasonSays } from './reason-words.ts';

export const FLICKER_CLAUSES: Readonly<Record<string, ReasonSays>> = {
  flickers: ({ at: [it = ''], data }) => ({
    says: say`${it} changes by itself: ${Number(data.changes)} ${Number(data.changes) === 1 ? 'change was' : 'changes were'} seen while a copy of this bench ran for ${inSeconds(Number(data.seconds))}.`,
  }),
  'flickers-unseen': ({ at: [it = ''], data }) => ({
    says: say`This bench never rests, but no look at ${it} differed while a copy ran for ${inSeconds(Number(data.seconds))}.`,
  }),
  'flickers-not-seen': ({ at: [it = ''], data }) => ({
    says: say`${it} does not flicker in the simulation: no look at it differed while a copy of this bench ran for ${inSeconds(Number(data.seconds))}.`,
  }),
  'flickers-not': ({ at: [it = ''] }) => ({
    says: say`${it} does not flicker in the simulation: nothing on this bench changes by itself now.`,
  }),
  'flicker-clock': ({ at: clocks }) => ({ says: say`${listed(clocks)} ${clocks.length > 1 ? 'run' : 'runs'} all the time.` }),
  'flicker-bounce': ({ at: switches, data }) => ({
    says: say`When ${listed(switches)} ${switches.length > 1 ? 'move, their contacts bounce' : 'moves, its contact bounces'} for ${inSeconds(Number(data.mean))} on average: what they set may change several times.`,
    figures: `at most ${inSeconds(Number(data.most))}`,
  }),
  'flicker-loose': () => ({
    says: say`On a real bench a leg or a wire that sits loose in its hole flickers when it is touched (common practice, no source).`,
  }),
};
