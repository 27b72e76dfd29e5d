/** What is said when the simulation was restarted: by what it ended, what was not done, and what begins again. */
import type { Failure } from '../../sim-core/index.ts';
import type { Ask } from '../worker/protocol.ts';
import type { WorkerFault } from '../worker/watchdog.ts';

const FAULTS: Readonly<Record<WorkerFault, { readonly code: Failure['code']; readonly says: string }>> = {
  error: { code: 'page/simulation-error', says: 'the simulation failed with an error' },
  silence: { code: 'page/simulation-silent', says: 'the simulation gave no answer for 15 s' },
  stop: { code: 'page/simulation-stopped', says: 'the simulation did not stop when asked' },
};

const BEGIN_AGAIN = 'registers and capacitors begin as at power-on';

/** What becomes of the bench that stood: it is restored, it is simulated no more since it failed again, or there was none. */
export type AfterFault = 'restored' | 'failed' | 'none';

function notDone(asks: readonly Ask[]): string {
  const actions = asks.filter(({ ask }) => ask === 'act' || ask === 'edit').length;
  if (actions === 0) return '';
  return actions === 1 ? 'your last action was not done, and ' : `your last ${actions} actions were not done, and `;
}

/** asks: what was not answered. */
export function restartFailure(fault: WorkerFault, asks: readonly Ask[], after: AfterFault): Failure {
  const { code, says } = FAULTS[fault];
  return { code, at: 'simulation', says: sentence(says, asks, after) };
}

function sentence(fault: string, asks: readonly Ask[], after: AfterFault): string {
  const What = fault.charAt(0).toUpperCase() + fault.slice(1);
  if (after === 'failed') return `${What} again on this bench and is off: undo the last change, or open another bench.`;
  if (asks.some(({ ask }) => ask === 'open')) {
    const before = after === 'restored' ? ' The bench before it was restarted.' : '';
    return `The plan was not opened: ${fault}.${before}`;
  }
  return after === 'restored' ? `${What} and was restarted: ${notDone(asks)}${BEGIN_AGAIN}.` : `${What} and was restarted.`;
}

/** A bench that is simulated no more cannot be acted on. */
export const NOT_SIMULATED: Failure = {
  code: 'page/not-simulated',
  at: 'simulation',
  says: 'This bench is not simulated, so nothing can be switched on it: undo the last change, try again, or open another bench.',
};
