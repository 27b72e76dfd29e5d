/** A bench that was shared to be operated, not edited: what is refused, and in which words. */
import type { Change, Failure } from '../../sim-core/index.ts';

export const READ_ONLY: Failure = {
  code: 'page/read-only',
  at: 'bench',
  says: 'This bench is read-only: its switches and buttons work, its parts and wires stay as they are. Make a copy to change it.',
};

/** Meters belong to whoever measures. */
export function isEditing(change: Change): boolean {
  switch (change.op) {
    case 'all':
      return change.changes.some(isEditing);
    case 'insert':
    case 'remove':
    case 'replace':
      return change.list !== 'meters';
    default:
      return true;
  }
}
