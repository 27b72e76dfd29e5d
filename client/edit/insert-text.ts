/** What is said of a part or a wire that has just come onto the bench. */
import type { Insert } from '../../sim-core/index.ts';

/** "R1 placed at a3 and a8.", "W1 connects a3 to b7." */
export function insertText({ item }: Insert<'parts' | 'wires'>): string {
  if ('from' in item) return `${item.id} connects ${item.from} to ${item.to}.`;
  return `${item.id} placed${item.at ? ` at ${item.at}${item.to ? ` and ${item.to}` : ''}` : ' beside the boards'}.`;
}
