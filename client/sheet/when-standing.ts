/** Waits for a bench: an address may lead to a printable page before any stands. */
import type { Plan } from '../../shared/plan.ts';
import type { Session } from '../session.ts';

/** Calls `then` once, now or as soon as a bench stands; what it returns ends the waiting. */
export function whenStanding(session: Session | undefined, then: (plan: Plan) => void): () => void {
  if (!session) return () => {};
  if (session.readings && session.plan) {
    then(session.plan);
    return () => {};
  }
  const off = session.on('settled', () => {
    off();
    if (session.plan) then(session.plan);
  });
  return off;
}
